"""How often and how long in a line: `3x`, `5 times`, `3x/day`, `twice daily`, `10 min`, `10'`, `10m`.

Minutes are a day's. Those of a week, of a break or of a recording are not claimed, nor is a range of them.
"""

from cockpit.studio.assignments.assignment import Part, Times
from cockpit.studio.assignments.reading_tokens import DASHES, Found, Tokens, words_in

_MOST_TIMES, MOST_MINUTES = 99, 240
_TIMES = frozenset({"x", "×", "times", "rep", "reps", "repetition", "repetitions"})
_WORDS = {"once": 1, "twice": 2}
TIMES_WORDS = frozenset({"x", "×", *_WORDS})
# In "mm. 1-8 x 3" and "q = 72 x 3" the number before the x is none of its factors.
_LEADING_TO_NUMBER = DASHES | {".", "=", "#", "m", "mm", "bar", "bars", "measure", "measures", "page"}
_A_DAY = frozenset({"a", "per", "each", "every", "/"})
# Three times a week are not three times a day, and "2x speed" is none at all.
_NOT_TIMES = words_in("week wk weekly month speed tempo as faster slower")
_MINUTES = frozenset({"min", "mins", "minute", "minutes"})
_PRIMES = frozenset({"'", "’", "′"})
_QUOTES = frozenset({"'", "‘", "’"})
# Below, five primes are a fifth or a finger as well.
_LEAST_PRIME = 10
_NOT_MINUTES_BEFORE = words_in("first last every after opening next rest within in hour hours hr hrs h x ×")
_NOT_MINUTES_AFTER = words_in(
    "week wk weekly total each break breaks rest late early before after ago between apart long left later video "
    "recording"
)
# Five minutes a key or a hand are not five a day.
_PARTS = words_in("key hand scale piece section passage session time hour phrase line page measure exercise")
_SECONDS = frozenset({"sec", "secs", "second", "seconds", "s"})


def read_times(tokens: Tokens, at: int) -> Found | None:
    """`3x`, `3 times`, `three times a day`, `5 reps`."""
    if tokens.word(at + 1) not in _TIMES:
        return None
    count = tokens.amount(at, 1, _MOST_TIMES)
    is_product = tokens.word(at + 1) in {"x", "×"} and _is_loose_product(tokens, at)
    return None if count is None or is_product else _times(tokens, at, at + 2, count)


def read_times_word(tokens: Tokens, at: int) -> Found | None:
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


def read_minutes(tokens: Tokens, at: int) -> Found | None:
    """`10 min`, `ten minutes a day`, `10m`, `10'`."""
    ends = _past_minutes(tokens, at)
    minutes = tokens.amount(at, 1, MOST_MINUTES) if ends is not None else None
    if ends is None or minutes is None or not is_minutes_of_a_day(tokens, at, ends):
        return None
    return Found(Part.MINUTES, at, past_a_day(tokens, ends), (minutes,))


def is_minutes_of_a_day(tokens: Tokens, at: int, ends: int) -> bool:
    """Whether an amount of time is practiced each day, and no break, no week's and none of a recording."""
    past_day = past_a_day(tokens, ends)
    if tokens.word(at - 1) in _NOT_MINUTES_BEFORE and not _is_glued_times(tokens, at - 1):
        return False
    return tokens.ends_clean(past_day) and (past_day > ends or not _is_no_daily(tokens, ends))


def _times(tokens: Tokens, at: int, ends: int, count: int) -> Found | None:
    past_day = past_a_day(tokens, ends)
    is_daily = past_day > ends or tokens.word(ends) == "daily"
    past_day += tokens.word(ends) == "daily"
    per = ends + 1 if tokens.word(ends) in _A_DAY else ends
    if tokens.word(per) in _NOT_TIMES or not tokens.ends_clean(past_day):
        return None
    return Found(Part.TIMES, at, past_day, (Times(count=count, is_daily=is_daily),))


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
    return behind in _NOT_MINUTES_AFTER or (tokens.word(after).isdigit() and tokens.word(after + 1) in _SECONDS)
