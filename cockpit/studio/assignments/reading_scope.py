"""What a line says of some days only: "5 min a day, 10 on weekends", "HS, but HT on Sat and Sun".

Such days are not the only ones of the line, nor are its minutes those of every day: neither is claimed.
"""

from collections.abc import Sequence

from cockpit.studio.assignments.assignment import Part
from cockpit.studio.assignments.reading_tokens import DASHES, ENDS_CLAUSE, SPELLED, Found, Tokens, words_in

_MOST = 240
_AMOUNTS = frozenset({Part.MINUTES, Part.TIMES})
# A number from here on may be a second tempo: "q = 60 M W F, 72 on weekends".
_LEAST_TEMPO = 40
_TO_DAYS = words_in("on at for over each every the only")
_BESIDE_DAYS = frozenset({":", "="}) | DASHES
_BEGINS_ANEW = ENDS_CLAUSE | DASHES | words_in("and or & + / : try maybe do make even about ca up to")


def with_scopes(tokens: Tokens, found: Sequence[Found]) -> list[Found]:
    """The same without the values of what is said of some days only, and of those days."""
    days = [each for each in found if each.part is Part.DAYS]
    unclear: set[Part] = set()
    for each in days:
        unclear |= _for_these_days(tokens, each, found)
    if days and _speaks_of_the_others(tokens):
        unclear |= {Part.DAYS, *_AMOUNTS}
    return [each._replace(values=()) if each.part in unclear else each for each in found]


def _for_these_days(tokens: Tokens, days: Found, found: Sequence[Found]) -> set[Part]:
    numbers = [_number_before(tokens, days, found), _number_behind(tokens, days, found)]
    unclear = {Part.TEMPO for number in numbers if number >= _LEAST_TEMPO}
    if any(numbers):
        return {Part.DAYS, *_AMOUNTS, *unclear}
    begins, ends = _clause_of(tokens, days)
    others = [(each, each.ends > begins and each.begins < ends) for each in found if each.part is not Part.DAYS]
    beside = {each.part for each, is_beside in others if is_beside}
    if Part.TIMES in beside and any(_is_of_a_day(tokens, each) for each, is_beside in others if not is_beside):
        return {Part.DAYS, Part.TIMES}
    return {Part.DAYS} if beside & {each.part for each, is_beside in others if not is_beside} else set()


def _is_of_a_day(tokens: Tokens, found: Found) -> bool:
    return found.part is Part.MINUTES and tokens.words[found.ends - 1] == "day"


def _number_before(tokens: Tokens, days: Found, found: Sequence[Found]) -> int:
    """A number that begins anew and leads to some days, "10 on weekends"; 0 without one."""
    at = days.begins - 1
    while tokens.word(at) in _TO_DAYS:
        at -= 1
    before = at - 1
    is_anew = tokens.word(before) in _BEGINS_ANEW or any(each.ends == at for each in found)
    is_within = any(each.begins <= at < each.ends for each in found)
    return _bare_number(tokens, at) if at > 0 and is_anew and not is_within else 0


def _number_behind(tokens: Tokens, days: Found, found: Sequence[Found]) -> int:
    """A number that ends the clause of some days, beside an amount elsewhere: "10 min, weekends 15"; 0 without one."""
    at = days.ends
    while tokens.word(at) in _BESIDE_DAYS:
        at += 1
    is_over = not tokens.word(at + 1) or tokens.word(at + 1) in ENDS_CLAUSE or tokens.word(at + 1) == "each"
    is_amount = any(each.part in _AMOUNTS and not each.begins <= at < each.ends for each in found)
    return _bare_number(tokens, at) if is_over and is_amount else 0


def _bare_number(tokens: Tokens, at: int) -> int:
    is_alone = tokens.ends_clean(at + 1) and (tokens.begins_clean(at) or tokens.word(at - 1) in DASHES)
    return (tokens.number(at, 1, _MOST) or SPELLED.get(tokens.word(at), 0)) if is_alone else 0


def _clause_of(tokens: Tokens, found: Found) -> tuple[int, int]:
    begins, ends = found.begins, found.ends
    while begins > 0 and tokens.words[begins - 1] not in ENDS_CLAUSE:
        begins -= 1
    while ends < len(tokens.words) and tokens.words[ends] not in ENDS_CLAUSE:
        ends += 1
    return begins, ends


def _speaks_of_the_others(tokens: Tokens) -> bool:
    words = tokens.words
    return "otherwise" in words or any(
        words[at : at + 2] in (["other", "days"], ["rest", "of"])
        for at, word in enumerate(words)
        if word in {"other", "rest"}
    )
