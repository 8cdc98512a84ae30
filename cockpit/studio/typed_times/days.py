"""The day that the parts of a typed line name.

A date without a year is the next such day, today included, unless one was in the last 60 days: then it is that one. A last
day is counted so from the first day, and a first day from a last one that says its year. All of it is common practice, no source.
"""

import calendar
from collections.abc import Iterator, Sequence
from datetime import date, timedelta

from cockpit.studio.clocks.moments import WEEKDAYS
from cockpit.studio.clocks.words import MONTHS, long_date, month_and_day, short_date
from cockpit.studio.errors import BadInput
from cockpit.studio.typed_times.parts import After, Dated, Edge, FromToday, Part, SameDay, Slashed, Weekday
from cockpit.studio.values import Value, replace

_FAR = timedelta(days=731)
_LATELY = timedelta(days=60)
_DATE_WANTED = ' Type a date such as "dec 3" or "2026-12-03".'


class Days(Value):
    """What days are counted from: today on the clock that the line is read on, and the day of the lesson meant.

    For a last day, `first` is the first one. `can_be_past` is true where a day may have passed, as of a break that is running.
    """

    today: date
    around: date
    month_first: bool
    first: date | None = None
    can_be_past: bool = False

    @property
    def since(self) -> date:
        """The day from which on a date or a weekday is looked for."""
        return self.first or self.today


def day_of(parts: Sequence[Part], days: Days) -> date | None:
    """The day that a line names; None if it names none.

    Raises:
        BadInput: there is no such day, it is past, before the first day, or more than two years away, or the line names two.
    """
    parts = _on_its_weekday(in_one_order(parts, month_first=days.month_first), days.around)
    counts = [part for part in parts if isinstance(part, After)]
    later = sum(part.days for part in counts) * timedelta(days=1)
    weekday = _only_weekday([part for part in parts if isinstance(part, Weekday)])
    named = dict(_named_days(parts, weekday, days))
    if len(set(named.values())) > 1:
        both = " and ".join(f'"{text}" ({long_date(on)})' for text, on in named.items())
        raise BadInput(f"The line has two days: {both}. Keep one.")
    if counts and not named and weekday is None:
        span = counts[0].text.rpartition(" ")[0]
        raise BadInput(f'"{counts[0].text}" needs a day. Type one behind it, or "in {span}".')
    if not named:
        return None if weekday is None else _following(weekday.weekday, days.since) + later
    (text, on), *_ = named.items()
    if weekday is not None and on.weekday() != weekday.weekday:
        raise BadInput(
            f'"{weekday.text}" and "{text}" do not match: {_dated(on)} is a {WEEKDAYS[on.weekday()]}. Keep one.'
        )
    _check_distance(text, on + later, days, or_year(parts))
    return on + later


def counted_from(parts: Sequence[Part], days: Days) -> str:
    """A sentence on the day that a number of days or weeks was counted from; empty where a line says none."""
    part = next((part for part in parts if isinstance(part, FromToday) and part.is_counted), None)
    if part is None:
        return ""
    since = f"the lesson ({short_date(days.around)})" if part.from_lesson else f"today ({short_date(days.today)})"
    return f'"{part.text}" counts from {since}.'


def or_year(parts: Sequence[Part]) -> str:
    """What is added to a sentence on a day that cannot be, where the line may mean that of another year."""
    has_none = any(isinstance(part, Dated) and part.month is not None and part.year is None for part in parts)
    return ", or add the year" if has_none else ""


def in_year_of(ends: Sequence[Part], begins: Sequence[Part], today: date) -> tuple[Part, ...]:
    """The parts of a first day, as the last such day before a last day that says its year."""
    last = next((part for part in ends if isinstance(part, Dated) and part.month is not None), None)
    if last is None or last.year is None:
        return tuple(begins)
    year, end = last.year, (last.month, last.day)
    return tuple(
        replace(part, year=max(_dated_day(part, today).year, year - (end <= (part.month, part.day))))
        if isinstance(part, Dated) and part.month is not None and part.year is None
        else part
        for part in begins
    )


def _on_its_weekday(parts: Sequence[Part], around: date) -> tuple[Part, ...]:
    """The parts of a line with "same day" beside a week as the lesson's weekday."""
    has_week = any(isinstance(part, FromToday) and (part.is_week or part.weeks) for part in parts)
    return tuple(
        Weekday(text=part.text, weekday=around.weekday()) if has_week and isinstance(part, SameDay) else part
        for part in parts
    )


def _only_weekday(weekdays: Sequence[Weekday]) -> Weekday | None:
    if len({each.weekday for each in weekdays}) > 1:
        names = " and ".join(f'"{each.text}"' for each in weekdays)
        raise BadInput(f"The line has two days: {names}. Keep one.")
    return weekdays[0] if weekdays else None


def _named_days(parts: Sequence[Part], weekday: Weekday | None, days: Days) -> Iterator[tuple[str, date]]:
    for part in parts:
        match part:
            case Dated():
                yield part.text, _dated_day(part, days.since) if part.months is None else _of_month(part, days)
            case SameDay():
                yield part.text, days.around
            case FromToday():
                yield part.text, _day_ahead(part, weekday, days)
            case _:
                pass


def _day_ahead(part: FromToday, weekday: Weekday | None, days: Days) -> date:
    begins = days.around if part.from_lesson else days.today
    if part.days or not (part.weeks or part.is_week):
        return begins + timedelta(days=part.days)
    week = timedelta(weeks=part.weeks)
    if weekday is None and not part.is_week:
        return begins + week
    number = days.around.weekday() if weekday is None else weekday.weekday
    return begins - timedelta(days=begins.weekday()) + week + timedelta(days=number)


def _following(weekday: int, today: date) -> date:
    return today + timedelta(days=(weekday - today.weekday()) % 7)


def in_one_order(parts: Sequence[Part], *, month_first: bool) -> tuple[Part, ...]:
    """The parts of a line with every `12/3` as a date: in the order of one that can be read in one only, else by habit.

    Raises:
        BadInput: one is no date in either order, or two of the line want different orders.
    """
    slashed = [part for part in parts if isinstance(part, Slashed)]
    sure = {_is_month(part.first): part for part in slashed if _is_month(part.first) != _is_month(part.second)}
    if len(sure) > 1:
        both = " and ".join(f'"{part.text}"' for part in sure.values())
        raise BadInput(f"{both} have the month in different places. Write the months as words.")
    order = next(iter(sure), month_first)
    return tuple(_ordered(part, month_first=order) if isinstance(part, Slashed) else part for part in parts)


def _is_month(number: int) -> bool:
    return 1 <= number <= 12


def _ordered(part: Slashed, *, month_first: bool) -> Dated:
    month, day = (part.first, part.second) if month_first else (part.second, part.first)
    if not _is_month(month):
        raise BadInput(f'"{part.text}" is not a date. There is no month {month}.{_DATE_WANTED}')
    return Dated(text=part.text, day=day, month=month, year=part.year)


def _of_month(part: Dated, days: Days) -> date:
    """The first or the last day of a month that is counted: that of the first day, or from today on."""
    first = (days.today if part.months else days.since).replace(day=1)
    for _ in range(part.months or 0):
        first = (first + timedelta(days=31)).replace(day=1)
    return _last_of(first) if part.edge is Edge.LAST else first


def _last_of(on: date) -> date:
    return on.replace(day=calendar.monthrange(on.year, on.month)[1])


def _dated_day(part: Dated, since: date) -> date:
    if part.edge is Edge.LAST and part.month is not None:
        years = (since.year, since.year + 1) if part.year is None else (part.year,)
        lasts = [_last_of(date(year, part.month, 1)) for year in years]
        return next((on for on in lasts if on >= since), lasts[-1])
    if part.month is None:
        return _next_numbered(part, since)
    if part.year is not None:
        return _existing(part, part.year)
    longest = calendar.monthrange(2024, part.month)[1] if 1 <= part.month <= 12 else 0
    if not 1 <= part.day <= longest:
        return _existing(part, since.year)
    earliest = since - _LATELY
    for year in (earliest.year, earliest.year + 1):
        if part.day <= calendar.monthrange(year, part.month)[1]:
            on = date(year, part.month, part.day)
            if on >= earliest:
                return on
    leap = next(year for year in range(since.year + 1, since.year + 10) if calendar.isleap(year))
    raise BadInput(f'The next "{part.text}" is in {leap}. Add the year.')


def _existing(part: Dated, year: int) -> date:
    month = part.month or 0
    if not 1 <= month <= 12:
        raise BadInput(f'"{part.text}" is not a date. There is no month {month}.{_DATE_WANTED}')
    if not 1 <= year <= 9999:
        raise BadInput(f'"{part.text}" is not a date. There is no year {year}.{_DATE_WANTED}')
    longest = calendar.monthrange(year, month)[1]
    if not 1 <= part.day <= longest:
        name = MONTHS[month - 1] if month != 2 or part.year is None else f"{MONTHS[1]} {year}"
        raise BadInput(f'"{part.text}" is not a date. {name} has no day {part.day}.{_DATE_WANTED}')
    return date(year, month, part.day)


def _next_numbered(part: Dated, since: date) -> date:
    if not 1 <= part.day <= 31:
        raise BadInput(f'"{part.text}" is not a date. No month has a day {part.day}.{_DATE_WANTED}')
    month = since.replace(day=1)
    while part.day > calendar.monthrange(month.year, month.month)[1] or month.replace(day=part.day) < since:
        month = (month + timedelta(days=31)).replace(day=1)
    return month.replace(day=part.day)


def _check_distance(text: str, on: date, days: Days, or_else: str) -> None:
    if days.first is not None and on < days.first:
        raise BadInput(f'"{text}" is {long_date(on)}, before {long_date(days.first)}. Type a later day{or_else}.')
    if on < days.today and not days.can_be_past:
        raise BadInput(
            f'"{text}" is {long_date(on)}, which has passed. Type {_dated(days.today)} or a later day{or_else}.{_or_time(text)}'
        )
    if abs(on - days.since) > _FAR:
        raise BadInput(f'"{text}" is {long_date(on)}, more than two years from now.{_or_time(text) or _DATE_WANTED}')


def _or_time(text: str) -> str:
    """The other meaning of a year behind a month's name: `dec 3 2030` may mean 20:30."""
    year = text[-4:]
    if not year.isdigit() or int(year[2:]) > 59 or not any(each.isalpha() for each in text):
        return ""
    return f' If {year} is the time, type "{year[:2]}:{year[2:]}".'


def _dated(on: date) -> str:
    return f"{month_and_day(on)}, {on.year}"
