"""A day's minutes said in hours: `1/2 hour`, `1.5 hours`, `half an hour`, `an hour a day`, `1h`.

Hours beside minutes ("1 hour 15 min") are told as such and not claimed.
"""

from fractions import Fraction
from typing import NamedTuple

from cockpit.studio.assignments.assignment import Part
from cockpit.studio.assignments.reading_amounts import MOST_MINUTES, is_minutes_of_a_day, past_a_day
from cockpit.studio.assignments.reading_tokens import SPELLED, Found, Tokens, words_in

_HOURS = frozenset({"hour", "hours", "hr", "hrs"})
_SIGNS = {"½": Fraction(1, 2), "¼": Fraction(1, 4), "¾": Fraction(3, 4)}
_SPELLED = {"half": Fraction(1, 2), "quarter": Fraction(1, 4)}
_HALVES = {("a", "half"): Fraction(1, 2), ("a", "quarter"): Fraction(1, 4)}
# "An Hour at Sea" is a title.
_NAMED = frozenset({"Hour", "Hours"})
HOUR_WORDS = frozenset({"a", "an", *_SIGNS, *_SPELLED})
_NO_PRACTICE = words_in("lesson lessons class drive concert recital rehearsal movie long ago")


class _Count(NamedTuple):
    hours: Fraction
    ends: int


def read_hours(tokens: Tokens, at: int) -> Found | None:
    """The minutes of some hours a day."""
    count = _hours_at(tokens, at)
    if count is None or not is_minutes_of_a_day(tokens, at, count.ends) or tokens.word(count.ends) in _NO_PRACTICE:
        return None
    behind = count.ends + (tokens.word(count.ends) in {"and", ","})
    is_more = tokens.number(behind, 1, 59) is not None and tokens.word(behind + 1) in {"", "min", "mins", "minutes"}
    minutes = count.hours * 60
    is_whole = minutes.denominator == 1 and 1 <= minutes <= MOST_MINUTES and not is_more
    return Found(Part.MINUTES, at, past_a_day(tokens, count.ends), (int(minutes),) if is_whole else ())


def is_hours(tokens: Tokens, at: int) -> bool:
    """Whether an amount of hours begins at a place, a day's or not."""
    return _hours_at(tokens, at) is not None


def past_fraction(tokens: Tokens, at: int) -> int:
    """The place behind a number and the fraction that goes on with it: `1.5`, `1/2`, `1 1/2`, `1½`."""
    count = _number_at(tokens, at)
    return count.ends if count is not None else at + 1


def _hours_at(tokens: Tokens, at: int) -> _Count | None:
    if not tokens.begins_clean(at) or tokens.is_second_of_two(at):
        return None
    count = _number_at(tokens, at) or _spelled_at(tokens, at)
    if count is None or not tokens.word(count.ends):
        return None
    ends = count.ends
    if tokens.words[at].isalpha() and tokens.typed[ends] in _NAMED:
        return None
    is_letter = tokens.word(ends) == "h" and tokens.is_glued(ends) and tokens.word(ends + 1) not in {"=", "."}
    if not is_letter and tokens.word(ends) not in _HOURS:
        return None
    ends = tokens.past_dot(ends + 1) if tokens.word(ends) in {"hr", "hrs"} else ends + 1
    half = _HALVES.get((tokens.word(ends + 1), tokens.word(ends + 2))) if tokens.word(ends) == "and" else None
    return _Count(count.hours + half, ends + 3) if half else _Count(count.hours, ends)


def _number_at(tokens: Tokens, at: int) -> _Count | None:
    """A number in digits, with its decimals or a fraction."""
    if sign := _SIGNS.get(tokens.word(at)):
        return _Count(sign, at + 1)
    first, behind = tokens.number(at, 0, MOST_MINUTES), tokens.word(at + 1)
    if first is None:
        return None
    second = tokens.number(at + 2, 0, 99) if tokens.is_glued(at + 1) and tokens.is_glued(at + 2) else None
    if second is not None and behind == ".":
        return _Count(first + Fraction(second, 10 ** len(tokens.words[at + 2])), at + 3)
    if second and behind == "/":
        return _Count(Fraction(first, second), at + 3)
    if sign := _SIGNS.get(behind):
        return _Count(first + sign, at + 2)
    part = _number_at(tokens, at + 1) if tokens.word(at + 2) == "/" else None
    return _Count(first + part.hours, part.ends) if part else _Count(Fraction(first), at + 1)


def _spelled_at(tokens: Tokens, at: int) -> _Count | None:
    """`half an`, `a quarter of an`, `an`, `two`: what stands before the word for hours."""
    begins = at + (tokens.word(at) == "a")
    word, after = tokens.word(begins), begins + 1
    if part := _SPELLED.get(word):
        after += tokens.word(after) in {"of", "-"}
        return _Count(part, after + (tokens.word(after) == "an"))
    if word == "three" and tokens.word(after) == "quarters" and tokens.word(after + 1) == "of":
        return _Count(Fraction(3, 4), after + 2 + (tokens.word(after + 2) == "an"))
    hours = 1 if word == "an" else SPELLED.get(word)
    return _Count(Fraction(hours), after) if hours and begins == at else None
