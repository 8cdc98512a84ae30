"""Parts of a line that say what may be shown of a student: "may be named", "recorded until jun 30", "may not be in pictures".

The words for it are common practice, no source.
"""

import re
from collections.abc import Callable, Sequence
from datetime import date

from cockpit.studio.errors import BadInput
from cockpit.studio.people.permissions import PermissionSaid, Shown

EXAMPLES = '"may be named", "may be recorded until jun 30", or "may not be in pictures"'
_MOST_SIGNS = 200
_WHO = r"(?:(?:she|he|they|the (?:student|child)|student|child) )?"
_NO = r"(?:may ?n[o']t|must ?n[o']t|must never|may never|can ?not|can['’]t|can not|(?:is |are )?not allowed(?: to)?|not ok(?:ay)? to|do(?: not|n['’]t)|no|not|never)"
_YES = r"(?:may|can|(?:is |are )?allowed(?: to)?|(?:it is )?ok(?:ay)? to|yes to)"
_STANCE = re.compile(rf"{_WHO}(?:(?P<no>{_NO})|(?P<yes>{_YES}))(?: (?:be|appear|go))?\s+(?P<what>.+)", re.IGNORECASE)
_WAYS = {
    Shown.RECITAL: r"(?:(?:be )?(?:seen|heard|shown|play|perform|appear) )?(?:in|at) (?:a |an |the |our |any )?(?:recitals?|concerts?)",
    Shown.RECORDED: r"(?:be )?(?:recorded|filmed|taped)|record(?:ings?)?|(?:on |in )?(?:videos?|film)|film",
    Shown.NAMED: r"(?:be )?(?:named|called by name)|(?:by|with) (?:her |his |their |the )?(?:first )?names?",
    Shown.PICTURED: r"(?:(?:be )?(?:shown|seen) )?(?:in|on) (?:any )?(?:pictures?|photos?|photographs?)|(?:be )?(?:pictured|photographed)|pictures?|photos?",
}
_WAY = {what: re.compile(words, re.IGNORECASE) for what, words in _WAYS.items()}
_AND = re.compile(r"\s+(?:and|or|nor|&)\s+", re.IGNORECASE)
_UNTIL = re.compile(r"\s+(?:until|till?|through|thru|up to)\s+(?P<day>.+)", re.IGNORECASE)
_WORDS = re.compile(r"(?P<said>[^:(\"]*?)\s*(?::\s*(?P<behind>.*)|\((?P<within>[^()]*)\))", re.DOTALL)


def read_permissions(
    parts: Sequence[str], read_day: Callable[[str], date], *, is_sure: bool = False
) -> tuple[tuple[PermissionSaid, ...], tuple[str, ...]]:
    """What the parts of a line say may be shown, and the parts that speak of something else.

    A part says whether something may be; one behind it need not say so again: "may be named, recorded". Where it `is_sure`, as in a
    cell, the first need not either. A last day counts for all that its part names.

    Raises:
        BadInput: a part speaks of a permission, and something in it is not understood, or is said twice.
    """
    said: list[PermissionSaid] = []
    others: list[str] = []
    is_given: bool | None = True if is_sure else None
    for part in parts:
        found = _read(part, read_day, is_given=is_given)
        if found is None:
            others.append(part)
            is_given = True if is_sure else None
        else:
            is_given = True if is_sure else found[0].is_given
            said += found
    kinds = [each.what for each in said]
    if twice := next((what for what in kinds if kinds.count(what) > 1), None):
        raise BadInput(f'The line says "{twice}" twice. Keep one.')
    return tuple(said), tuple(others)


def _read(part: str, read_day: Callable[[str], date], *, is_given: bool | None) -> list[PermissionSaid] | None:
    words = _WORDS.fullmatch(part)
    said = words["said"] if words is not None else part
    until = _UNTIL.search(said)
    named = " ".join((said[: until.start()] if until is not None else said).split())
    stance = _STANCE.fullmatch(named)
    if stance is not None:
        is_given = stance["no"] is None
    ways = [_way_of(each) for each in _AND.split(stance["what"] if stance is not None else named)]
    if is_given is None or (stance is None and None in ways):
        return None
    found = [way for way in ways if way is not None]
    if len(found) < len(ways):
        if stance is not None and stance["yes"] is None and not found:
            return None  # "no remark" speaks of something else
        raise BadInput(f'"{named}" is not understood. A student may be {", ".join(Shown)}: type {EXAMPLES}.')
    if until is not None and not is_given:
        raise BadInput(f'"{part}": what may not be needs no last day. Leave out "{until[0].strip()}".')
    until_on = read_day(until["day"]) if until is not None else None
    beside = _beside(words["behind"] or words["within"] or "") if words is not None else ""
    return [PermissionSaid(what=way, is_given=is_given, until_on=until_on, words=beside) for way in found]


def _way_of(words: str) -> Shown | None:
    return next((what for what, form in _WAY.items() if form.fullmatch(words.strip())), None)


def _beside(words: str) -> str:
    plain = " ".join(words.replace('"', " ").split())
    if len(plain) > _MOST_SIGNS:
        raise BadInput(f"The words beside a permission are too long. Use at most {_MOST_SIGNS} characters.")
    return plain
