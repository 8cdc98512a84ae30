"""The day of a goal: `play The Old Mill at the recital, by 19 dec`. How it is typed is common practice, no source."""

import re
from collections.abc import Iterator
from datetime import date
from functools import lru_cache
from itertools import islice

from cockpit.studio.errors import BadInput
from cockpit.studio.values import Value

# Compiled by `re` when a goal is read: few lines are one, and every start would wait for it.
_BY = r"""(?ix)(?:^|(?<=[\s,;(]))(?:by|until|till|before|bis(?:\ zum)?|vor\ dem|d['’]ici(?:\ le)?|avant(?:\ le)?|jusqu['’]au|pour\ le
    |antes\ del?|hasta(?:\ el)?|para\ el)\s+(?=\S)
    (?!(?:heart|memory|ear|eye|sight|myself|yourself|himself|herself|themselves|now|then|far)\b)"""
_ENDS = re.compile(r"[,;)]|:(?=\s)")
_MOST, _LONGEST = 5, 60  # days that are looked at, and signs of one: a line can be a hundred pages
_TRIMMED = " \t,;.:()–—-"


class TypedOn(Value):
    """When a line was typed, on the teacher's clock, and how she writes `12/3`."""

    on: date
    month_first: bool = True


class GoalDay(Value):
    """The day that a goal is to be met by; None where its line names none. `fault` says why one is not understood."""

    by_on: date | None = None
    fault: str = ""


def goal_day(text: str, typed: TypedOn) -> GoalDay:
    """The day in the words of a goal, counted from the day on which they were typed."""
    from cockpit.studio.typed_times.days import Days, day_of  # with what it reads by, which few lines wait for
    from cockpit.studio.typed_times.words import read_parts

    span = _span_of_day(text)
    if span is None:
        return GoalDay(fault=_fault_in(text))
    days = Days(today=typed.on, around=typed.on, month_first=typed.month_first)
    try:
        return GoalDay(by_on=day_of(read_parts(text[slice(*span.named)], {}), days))
    except BadInput as fault:
        return GoalDay(fault=str(fault))


def without_day(text: str) -> str:
    """The words of a goal without its day: with another one it is the same goal still."""
    span = _span_of_day(text)
    if span is None:
        return text
    parts = (text[: span.begins].strip(_TRIMMED), text[span.named[1] :].strip(_TRIMMED))
    return ", ".join(filter(None, parts))


class _Span(Value):
    """Where the words of a day begin in a text, and the columns of the day itself."""

    begins: int
    named: tuple[int, int]


@lru_cache(maxsize=200)
def _span_of_day(text: str) -> _Span | None:
    """The last words of a text that name a day, whatever day that is."""
    return next((span for span in _spans(text) if _names_day(text[slice(*span.named)])), None)


def _spans(text: str) -> Iterator[_Span]:
    """What may be a day: behind each `by`, up to the end or to a comma; the last one first, and the longest."""
    for by in reversed(tuple(re.finditer(_BY, text))[-_MOST:]):
        nearest = islice(_ENDS.finditer(text, by.end(), by.end() + _LONGEST), 2)
        for end in (len(text), *(mark.start() for mark in reversed(tuple(nearest)))):
            if end - by.end() <= _LONGEST:
                yield _Span(begins=by.start(), named=(by.end(), end))


def _names_day(words: str) -> bool:
    from cockpit.studio.typed_times.parts import Dated, FromToday, Slashed, Weekday
    from cockpit.studio.typed_times.words import read_parts

    try:
        parts = read_parts(words, {})
    except BadInput:
        return False
    return bool(parts) and all(isinstance(part, Dated | FromToday | Slashed | Weekday) for part in parts)


def _fault_in(text: str) -> str:
    """Why what may be a day is none; nothing of words that try to name none."""
    from cockpit.studio.typed_times.words import NotUnderstood, read_parts

    *_, tried = ("", *(text[by.end() : by.end() + _LONGEST] for by in re.finditer(_BY, text)))
    if not tried:
        return ""
    try:
        read_parts(tried, {})
    except NotUnderstood as fault:
        return f'{fault.found} Type the day, such as "by dec 19".' if any(map(str.isdigit, tried)) else ""
    except BadInput as fault:
        return str(fault)
    # What can be read and is no day: a year of three thousand, a year alone, a time.
    words = tried.strip(_TRIMMED)
    return f'"{words}" is no day. Type the day, such as "by dec 19".' if any(map(str.isdigit, words)) else ""
