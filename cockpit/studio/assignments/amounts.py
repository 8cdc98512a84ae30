"""How often and how long in a line: `3x`, `5 times`, `3x/day`, `twice daily`, `10 min`, `10'`, `10m`.

Minutes are a day's. Those of a week, of a break or of a recording are not claimed, nor is a range of them, nor hours
beside minutes ("1 hour 15 min"). Minutes that come several times a day ("5 min twice a day") are multiplied; where they
may be those of each time ("3x 5 min") or of all ("10 min, 3x a day") they are not claimed; `3x 5min` is of all.
"""

from collections.abc import Sequence
from fractions import Fraction
from typing import NamedTuple

from cockpit.studio.assignments.assignment import Part, Times
from cockpit.studio.assignments.tokens import DASHES, SPELLED, Claim, Tokens, words_in

_MOST_TIMES, MOST_MINUTES = 99, 240
_TIMES = frozenset({"x", "×", "times", "rep", "reps", "repetition", "repetitions"})
_WORDS = {"once": 1, "twice": 2}
TIMES_WORDS = frozenset({"x", "×", *_WORDS})
# In "mm. 1-8 x 3" and "q = 72 x 3" the number before the x is none of its factors.
_LEADING_TO_NUMBER = DASHES | {".", "=", "#", "m", "mm", "bar", "bars", "measure", "measures", "page"}
_A_DAY = frozenset({"a", "per", "each", "every", "/"})
# Three times a week are not three times a day, and "2x speed" is none at all.
_NOT_TIMES = words_in("week wk weekly month speed tempo as faster slower")
_MINUTES = words_in("min mins minute minutes minuten minuto minutos")
_PRIMES = frozenset({"'", "’", "′"})
_QUOTES = frozenset({"'", "‘", "’"})
# Below, five primes are a fifth or a finger as well.
_LEAST_PRIME = 10
_NOT_MINUTES_BEFORE = words_in("first last every after opening next rest within in hour hours hr hrs h x ×")
_NOT_MINUTES_AFTER = words_in(
    "week wk weekly total each break breaks pause pauses wait snack nap talk chat drive over rest late early before after ago between apart long left later video "
    "recording"
)
# Five minutes a key or a hand are not five a day.
_PARTS = words_in("key hand scale piece section passage session time hour phrase line page measure exercise")
_OF_A_DAY = words_in("day night morning afternoon evening")
_SECONDS = frozenset({"sec", "secs", "second", "seconds", "s"})
_HOURS = frozenset({"hour", "hours", "hr", "hrs"})
_SIGNS = {"½": Fraction(1, 2), "¼": Fraction(1, 4), "¾": Fraction(3, 4)}
_SPELLED = {"half": Fraction(1, 2), "quarter": Fraction(1, 4)}
_HALVES = {("a", "half"): Fraction(1, 2), ("a", "quarter"): Fraction(1, 4)}
# "An Hour at Sea" is a title.
_NAMED = frozenset({"Hour", "Hours"})
HOUR_WORDS = frozenset({"a", "an", *_SIGNS, *_SPELLED})
_NO_PRACTICE = words_in("lesson lessons class drive concert recital rehearsal movie long ago")
_MOST_SESSIONS = 12
_SESSIONS = words_in(
    "session sessions block blocks set sets round rounds slot slots chunk chunks bout bouts burst bursts sitting sittings"
)
_MORNING, _EVENING = (
    words_in("morning mornings am"), words_in("evening evenings night nights afternoon afternoons pm"),
)  # fmt: skip
_WEEK = frozenset({"week", "wk"})


def read_times(tokens: Tokens, at: int) -> Claim | None:
    """`3x`, `3 times`, `three times a day`, `5 reps`."""
    if tokens.word(at + 1) not in _TIMES:
        return None
    count = tokens.amount(at, 1, _MOST_TIMES)
    is_product = tokens.word(at + 1) in {"x", "×"} and _is_loose_product(tokens, at)
    return None if count is None or is_product else _times(tokens, at, at + 2, count)


def read_times_word(tokens: Tokens, at: int) -> Claim | None:
    """`x3`, `twice`, `once a day`."""
    word = tokens.words[at]
    if not tokens.begins_clean(at):
        return None
    if count := _WORDS.get(word):
        found = _times(tokens, at, at + 1, count)
        is_often = found is not None and (count > 1 or Times(count=1, is_daily=True) in found.values)
        return found if is_often else None
    is_product = tokens.word(at - 1).isdigit() and tokens.word(at - 2) not in _LEADING_TO_NUMBER
    number = None if is_product else tokens.number(at + 1, 1, _MOST_TIMES)
    is_unit = tokens.counts_something(at + 2) or tokens.past_range_sign(at + 2) is not None
    return None if number is None or is_unit else _times(tokens, at, at + 2, number)


def read_minutes(tokens: Tokens, at: int) -> Claim | None:
    """`10 min`, `ten minutes a day`, `10m`, `10'`."""
    ends = _past_minutes(tokens, at)
    minutes = tokens.amount(at, 1, MOST_MINUTES) if ends is not None else None
    if ends is None or minutes is None:
        return None
    if tokens.word(at - 1) == "first":  # "first 5 min slowly, then 3 min" are minutes said in parts
        return Claim(Part.MINUTES, at, ends)
    if not is_minutes_of_a_day(tokens, at, ends):
        return None
    return Claim(Part.MINUTES, at, past_a_day(tokens, ends), (minutes,))


def is_minutes_of_a_day(tokens: Tokens, at: int, ends: int) -> bool:
    """Whether an amount of time is practiced each day, and no break, no week's and none of a recording."""
    past_day = past_a_day(tokens, ends)
    if tokens.word(at - 1) in _NOT_MINUTES_BEFORE and not _is_glued_times(tokens, at - 1):
        return False
    return tokens.ends_clean(past_day) and (past_day > ends or not _is_no_daily(tokens, ends))


def _times(tokens: Tokens, at: int, ends: int, count: int) -> Claim | None:
    past_day = past_a_day(tokens, ends)
    is_daily = past_day > ends or tokens.word(ends) == "daily"
    past_day += tokens.word(ends) == "daily"
    per = ends + 1 if tokens.word(ends) in _A_DAY else ends
    if tokens.word(per) in _NOT_TIMES or not tokens.ends_clean(past_day):
        return None
    return Claim(Part.TIMES, at, past_day, (Times(count=count, is_daily=is_daily),))


def past_a_day(tokens: Tokens, at: int) -> int:
    """The place behind "a day", "per day", "/day", or the place itself."""
    return at + 2 if tokens.word(at) in _A_DAY and tokens.word(at + 1) == "day" else at


def _is_loose_product(tokens: Tokens, at: int) -> bool:
    """Whether an x stands alone between two numbers: "3 x 5 min" is not three times, "3x 5 min" is."""
    return not tokens.is_glued(at + 1) and tokens.word(at + 2).isdigit()


def _is_glued_times(tokens: Tokens, at: int) -> bool:
    is_times = tokens.word(at) in {"x", "×"} and tokens.is_glued(at)
    return is_times and not tokens.is_glued(at + 1)


def _past_minutes(tokens: Tokens, at: int) -> int | None:
    """The place behind a word or a sign for minutes; None where there is none or it may mean something else."""
    unit = tokens.word(at + 1)
    if unit in _MINUTES:
        return at + 2
    if not tokens.is_glued(at + 1):
        return None
    if unit == "m":
        is_measure = tokens.word(at + 2).isdigit() or (tokens.word(at + 2) == "." and tokens.word(at + 3).isdigit())
        return None if is_measure else at + 2
    return at + 2 if unit in _PRIMES and _is_clear_prime(tokens, at) else None


def _is_clear_prime(tokens: Tokens, at: int) -> bool:
    is_quoted = not _QUOTES.isdisjoint(tokens.words[:at])
    is_long = tokens.number(at, _LEAST_PRIME, MOST_MINUTES) is not None or past_a_day(tokens, at + 2) > at + 2
    return is_long and not is_quoted


def _is_no_daily(tokens: Tokens, ends: int) -> bool:
    after = tokens.past_dot(ends)
    behind = tokens.word(after + 1) if tokens.word(after) in _A_DAY - {"each"} else tokens.word(after)
    if tokens.word(after) == "each" and tokens.word(after + 1) == "day":
        return False
    if behind in _PARTS and tokens.word(after) != behind:
        return True
    is_stroke = tokens.word(after) == "/" and tokens.is_glued(after) and tokens.is_glued(after + 1)
    if (is_stroke or tokens.word(after) == "per") and behind.isalpha() and behind not in _OF_A_DAY:
        return True
    return behind in _NOT_MINUTES_AFTER or (tokens.word(after).isdigit() and tokens.word(after + 1) in _SECONDS)


class _Count(NamedTuple):
    hours: Fraction
    ends: int


def read_hours(tokens: Tokens, at: int) -> Claim | None:
    """The minutes of some hours a day."""
    count = _hours_at(tokens, at)
    if count is None or not is_minutes_of_a_day(tokens, at, count.ends) or tokens.word(count.ends) in _NO_PRACTICE:
        return None
    behind = count.ends + (tokens.word(count.ends) in {"and", ","})
    is_more = tokens.number(behind, 1, 59) is not None and tokens.word(behind + 1) in {"", "min", "mins", "minutes"}
    minutes = count.hours * 60
    is_whole = minutes.denominator == 1 and 1 <= minutes <= MOST_MINUTES and not is_more
    return Claim(Part.MINUTES, at, past_a_day(tokens, count.ends), (int(minutes),) if is_whole else ())


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


def with_products(tokens: Tokens, found: Sequence[Claim]) -> list[Claim]:
    """The same with a day's minutes, or without the values of minutes that may be those of a part of it."""
    every = [each for each in found if each.part is Part.MINUTES and not each.is_denied]
    if len(every) != 1 or not every[0].values or tokens.words[every[0].ends - 1] == "day":
        return list(found)
    minutes = _of_sessions(tokens, every[0])
    # "Half an hour twice a day had, not yet" asks for neither.
    if any(each.part is Part.TIMES and each.is_denied and not each.is_aside for each in found):
        minutes = minutes._replace(values=())
    for each in found:
        if each.part is Part.TIMES and not each.is_denied:
            minutes = _times_said(tokens, minutes, each)
    if _is_of_parts(tokens):
        minutes = minutes._replace(values=())
    return [minutes if each is every[0] else each for each in found]


def _of_sessions(tokens: Tokens, minutes: Claim) -> Claim:
    before = minutes.begins - 1
    is_before = tokens.word(before) == "of" and tokens.word(before - 1) in _SESSIONS
    if not is_before and tokens.word(minutes.ends) not in _SESSIONS:
        return minutes
    at = before - 2 if is_before else before
    count = tokens.amount(at, 1, _MOST_SESSIONS)
    ends = minutes.ends if is_before else minutes.ends + 1
    return _multiplied(minutes, count)._replace(begins=at if count else minutes.begins, ends=ends)


def _times_said(tokens: Tokens, minutes: Claim, times: Claim) -> Claim:
    """The minutes in the light of repetitions: times them, as they are, or without a value where it is not clear."""
    value = next((each for each in times.values if isinstance(each, Times)), None)
    is_behind = times.begins >= minutes.ends
    gap = tokens.words[minutes.ends : times.begins] if is_behind else tokens.words[times.ends : minutes.begins]
    is_beside = gap in ([], ["for"], ["."]) or (is_behind and gap == [","])
    is_signed = tokens.words[times.begins] in {"x", "×"} and is_behind and not gap
    if value is not None and is_beside and (value.is_daily or is_signed):
        return _multiplied(minutes, value.count)
    is_shorthand = tokens.is_glued(minutes.begins + 1)
    if value is None or value.is_daily:
        return minutes._replace(values=())
    return minutes._replace(values=()) if is_beside and "," not in gap and not is_shorthand else minutes


def _multiplied(minutes: Claim, count: int | None) -> Claim:
    product = [value * count for value in minutes.values if isinstance(value, int) and count]
    return minutes._replace(values=tuple(value for value in product if value <= MOST_MINUTES))


def _is_of_parts(tokens: Tokens) -> bool:
    """Whether the line speaks of mornings and evenings, or of times a week."""
    words = tokens.words
    is_both = not _MORNING.isdisjoint(words) and not _EVENING.isdisjoint(words)
    return (
        is_both
        or "weekly" in words
        or any(word in _WEEK and tokens.word(at - 1) in _A_DAY for at, word in enumerate(words))
    )
