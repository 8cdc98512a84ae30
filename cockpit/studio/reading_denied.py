"""What a line speaks of without asking for it: "no practice on Tue and Thu", "weekends off", "without RH".

A few words turn a claim around. They are looked for on both sides of it and within its clause: right beside it, but
for words that only lead from one to the other, and for days farther before it too.
"""

from collections.abc import Sequence
from typing import NamedTuple

from cockpit.studio.assignment import Part
from cockpit.studio.reading_tokens import DASHES, ENDS_CLAUSE, Found, Tokens, words_in

_APOSTROPHES = frozenset({"'", "’", "`"})
_OPENS_ASIDE = frozenset({",", "(", "["}) | DASHES
_PRACTICE = words_in("practice practise practicing practising play playing music work lesson lessons need")
# Words between a claim and what turns it around: "no practice at all on Tue", "Sat and Sun are rest days".
_LEADING_TO = _PRACTICE | words_in(
    "a an the any all at on in of for to with from by as and or only just ever do does use using try add out "
    "yet day days this week my your his her both either : = - – — / &"
)
_LEADING_FROM = words_in(
    "is are be been being was were will would it he she they we i has have had a an the all both at on in for can s "
    "day days always usually now my your his her : = - – — ' ’"
)
_NOT = words_in("no not never without except excluding skip omit minus avoid neither nor instead than leave drop n't")
_NOT |= words_in("dont cant cannot wont")
_OFF = words_in("off rest rests resting free none nothing away busy break")
# Recitals are no practice, and "more on weekends" speaks of the other days as well.
_OTHER_EVENTS = words_in(
    "recital recitals concert concerts exam exams lesson lessons rehearsal rehearsals orchestra band choir camp trip "
    "vacation holiday holidays travel traveling travelling performance performing competition audition party school "
    "closed sick ill"
)
_MORE = words_in("more less longer shorter double extra half harder")


class _Denying(NamedTuple):
    """The words that turn a part around: right before it, anywhere before it in its clause, right behind it."""

    before: frozenset[str]
    far_before: frozenset[str]
    behind: frozenset[str]


_DENYING = {
    Part.DAYS: _Denying(
        before=_NOT | _OFF | _OTHER_EVENTS | _MORE | {"but"},
        far_before=(_NOT | _OFF) - words_in("free break leave drop"),
        behind=_OFF | _OTHER_EVENTS | _MORE | words_in("never n't cannot cant dont wont except excepted unavailable optional"),
    ),
    Part.HANDS: _Denying(
        before=_NOT | words_in("before until till less but rest resting"),
        far_before=frozenset(),
        behind=words_in("rest rests resting silent tacet off out later optional never n't cannot cant dont wont if"),
    ),
    Part.KEY: _Denying(before=_NOT, far_before=frozenset(), behind=frozenset()),
    Part.OCTAVES: _Denying(before=_NOT, far_before=frozenset(), behind=frozenset()),
    Part.TIMES: _Denying(before=_NOT, far_before=frozenset(), behind=frozenset()),
    Part.MINUTES: _Denying(before=_NOT, far_before=frozenset(), behind=words_in("off")),
}  # fmt: skip


def with_denied(tokens: Tokens, found: Sequence[Found]) -> list[Found]:
    """The same with a mark on what the line says is not to be; a day named in passing counts only so."""
    marked: list[Found] = []
    for at, each in enumerate(found):
        stops = next((one.ends for one in reversed(marked) if not one.is_denied), 0)
        until = found[at + 1].begins if at + 1 < len(found) else len(tokens.words)
        denied = _denied(tokens, each, stops, until) if each.part in _DENYING else None
        if denied or not each.is_passing:
            marked.append(denied or each)
    is_asked = any(each.part is Part.DAYS and not each.is_denied for each in marked)
    return [each for each in marked if is_asked or not each.is_passing]


def _denied(tokens: Tokens, found: Found, stops: int, until: int) -> Found | None:
    """What a line denies, from the word on that does so; None where it does not."""
    words = _DENYING[found.part]
    begins = _denying_before(tokens, found.begins - 1, stops, words)
    if begins is None and not _is_denied_behind(tokens, found.ends, until, words.behind):
        return None
    return found._replace(begins=found.begins if begins is None else begins, is_denied=True)


def _denying_before(tokens: Tokens, at: int, stops: int, words: _Denying) -> int | None:
    wanted = words.before
    while at >= stops:
        if _is_one_of(tokens, at, wanted or words.far_before):
            return max(at - 2, stops) if tokens.words[at] == "t" else at  # don't
        if tokens.words[at] in ENDS_CLAUSE:
            return None
        if tokens.words[at] not in _LEADING_TO:
            wanted = frozenset()
        at -= 1
    return None


def _is_denied_behind(tokens: Tokens, at: int, until: int, words: frozenset[str]) -> bool:
    if tokens.word(at) in _OPENS_ASIDE and at + 1 < until and _is_all_of_aside(tokens, at + 1):
        return True
    while at < until:
        if _is_one_of(tokens, at, words) or _is_no_behind(tokens, at):
            return True
        if tokens.words[at] not in _LEADING_FROM:
            return False
        at += 1
    return False


def _is_all_of_aside(tokens: Tokens, at: int) -> bool:
    """Whether a clause says that there is nothing, and nothing more: "Sat Sun (off)", "Sat Sun, no practice"."""
    word, ends = tokens.word(at), at + 1
    is_off = word in _OFF and not (word == "off" and tokens.word(ends) in {"the", "of"})
    ends += tokens.word(ends) in {"day", "days"}
    return _is_no_behind(tokens, at) or (is_off and _is_clause_over(tokens, ends))


def _is_no_behind(tokens: Tokens, at: int) -> bool:
    """Whether a "no" denies what stands before it: "Sat Sun no", "no practice". In "no pedal" it does not."""
    behind = at + 1
    while tokens.word(behind) in {"yet", "on"} or tokens.word(behind) in _PRACTICE:
        behind += 1
    is_no = tokens.word(at) in {"no", "not"}
    return is_no and _is_clause_over(tokens, behind) and not (tokens.is_glued(at + 1) and tokens.word(at + 2).isdigit())


def _is_clause_over(tokens: Tokens, at: int) -> bool:
    return not tokens.word(at) or tokens.words[at] in ENDS_CLAUSE


def _is_one_of(tokens: Tokens, at: int, words: frozenset[str]) -> bool:
    word = tokens.words[at]
    if word == "t" and tokens.word(at - 1) in _APOSTROPHES:
        return "n't" in words
    is_number = word == "no" and tokens.is_glued(at + 1) and tokens.word(at + 1) == "."
    return word in words and not is_number
