"""The time of day and the length that the parts of a typed line name."""

import re
from collections.abc import Sequence
from datetime import time

from cockpit.studio.clocks.horizons import LESSON_MINUTES
from cockpit.studio.clocks.words import clock_time
from cockpit.studio.errors import BadInput
from cockpit.studio.typed_times.parts import DayPart, Length, Number, Part, SameTime, TimeOfDay, TimeShift, ZoneName

_SHORTEST_ALONE = 15
_LATEST_ALONE = 21
_DOTTED = re.compile(r"[0-9]{1,2}\.(?:0?[1-9]|1[0-2])")
_HALF_DAY, _WHOLE_DAY = 720, 1440
_TIME_WANTED = 'Type a time such as "4:30 pm" or "16:30".'


def with_numbers_read(parts: Sequence[Part]) -> tuple[Part, ...]:
    """The parts of a line, with every number that stands alone read as a time or a length.

    Raises:
        BadInput: a number can mean two things, or nothing.
    """
    has_clock = any(isinstance(part, TimeOfDay | SameTime | TimeShift) for part in parts)
    has_begun = False
    read: list[Part] = []
    for place, part in enumerate(parts):
        new = part
        if isinstance(part, Number):
            behind = parts[place + 1] if place + 1 < len(parts) else None
            new = _length_alone(part, is_behind=has_begun) if has_clock else _hour_or_length(part, behind)
        if isinstance(new, TimeOfDay | SameTime | TimeShift):
            has_clock = has_begun = True
        read.append(new)
    return tuple(read)


def time_of(parts: Sequence[Part], same: time | None, *, is_away: bool) -> time:
    """The time of day that a line names; `same` is the lesson's own, on the teacher's clock.

    Raises:
        BadInput: there is no such time, the line names two or none, or `same` is meant on another clock than hers.
    """
    half = _half_of([part for part in parts if isinstance(part, DayPart)])
    place = next((part.text for part in parts if isinstance(part, ZoneName)), "") if is_away else None
    times: dict[time, str] = {}
    for part in parts:
        if isinstance(part, TimeOfDay):
            times.setdefault(_time_at(part, half, None if is_away else same), part.text)
        elif isinstance(part, SameTime):
            at = _lesson_time(same, place)
            times.setdefault(_time_at(_written(at, part.text), half, None), part.text)
        elif isinstance(part, TimeShift):
            times.setdefault(_shifted(part, same, place), part.text)
    if len(times) > 1:
        both = " and ".join(f'"{text}"' for text in times.values())
        dotted = next((text for text in times.values() if _DOTTED.fullmatch(text)), None)
        hint = f' A date ends in a dot: "{dotted}.".' if dotted else ""
        raise BadInput(f"The line has two times: {both}. Keep one.{hint}")
    if times:
        return next(iter(times))
    if half is not None:
        raise BadInput(f'"{half.text}" is not a complete time. {_TIME_WANTED}')
    return _lesson_time(same, place)


def length_of(parts: Sequence[Part]) -> int | None:
    """The minutes that a line names; None if it says nothing of them.

    Raises:
        BadInput: no lesson is that long, or the line names two lengths.
    """
    lengths = [part for part in parts if isinstance(part, Length)]
    if len({part.minutes for part in lengths}) > 1:
        both = " and ".join(f'"{part.text}"' for part in lengths)
        raise BadInput(f"The line has two lengths: {both}. Keep one.")
    for part in lengths:
        if part.minutes not in LESSON_MINUTES:
            raise BadInput(f'"{part.text}" is not the length of a lesson. Type 5 to 240 minutes, such as "45 min".')
    return int(lengths[0].minutes) if lengths else None


def refuse_from_own_time(parts: Sequence[Part]) -> None:
    """Refuses "4 pm to 5 pm" of a lesson that is at 4 pm: it could be moved, or last an hour.

    Raises:
        BadInput.
    """
    start = next((part for part in parts if isinstance(part, TimeOfDay) and " to " in part.text), None)
    length = next((part for part in parts if isinstance(part, Length) and start and part.text == start.text), None)
    if start is None or length is None:
        return
    begins = _time_at(start, None, None)
    minutes = (begins.hour * 60 + begins.minute + int(length.minutes)) % _WHOLE_DAY
    at, ends = (clock_time(each, 12).replace(":00", "") for each in (begins, _of_minutes(minutes)))
    raise BadInput(
        f'"{start.text}" could be a new time or a length. Type "{ends}" or "{at} {int(length.minutes)} min" instead.'
    )


def _lesson_time(same: time | None, place: str | None) -> time:
    if same is None:
        raise BadInput(f"The line has no time. {_TIME_WANTED}")
    if place is not None:
        raise BadInput(f'The line names a place, "{place}", but no time there. {_TIME_WANTED}')
    return same


def _shifted(part: TimeShift, same: time | None, place: str | None) -> time:
    at = _lesson_time(same, place)
    minutes = at.hour * 60 + at.minute + part.minutes
    if not 0 <= minutes < _WHOLE_DAY:
        raise BadInput(f'"{part.text}" is on another day. Type the day and the time.')
    return _of_minutes(minutes)


def _written(at: time, text: str) -> TimeOfDay:
    return TimeOfDay(text=text, hour=at.hour % 12 or 12, minute=at.minute, half="a" if at.hour < 12 else "p")


def _half_of(day_parts: Sequence[DayPart]) -> DayPart | None:
    if len({part.half for part in day_parts}) > 1:
        both = " and ".join(f'"{part.text}"' for part in day_parts)
        raise BadInput(f"The line has two times of day: {both}. Keep one.")
    return day_parts[0] if day_parts else None


def _time_at(clock: TimeOfDay, part: DayPart | None, same: time | None) -> time:
    hour, minute, half = clock.hour, clock.minute, clock.half
    if hour > 23 or minute > 59:
        raise BadInput(f'"{clock.text}" is not a time of day. {_TIME_WANTED}')
    if half is not None and not 1 <= hour <= 12:
        raise BadInput(f'"{clock.text}" is not a time of day. Use am and pm with hours 1 to 12. {_TIME_WANTED}')
    if part is not None and not _agrees(clock, part):
        raise BadInput(f'"{clock.text}" and "{part.text}" do not match. {_TIME_WANTED}')
    if half is None and part is not None and hour <= 12:
        half = part.half
    if half is not None:
        hour = hour % 12 + (12 if half == "p" else 0)
    minutes = (hour * 60 + minute + clock.shift) % _WHOLE_DAY
    is_open = half is None and 1 <= clock.hour <= 12 and not clock.has_zero
    return _of_minutes(_likely(minutes, same) if is_open else minutes)


def _agrees(clock: TimeOfDay, part: DayPart) -> bool:
    """Whether a written time can lie in a part of the day; 12 in the morning or the evening is anybody's guess."""
    if clock.half is not None:
        return clock.half == part.half
    if clock.hour == 12:
        return "afternoon" in part.text
    return clock.hour in part.hours if 1 <= clock.hour <= 11 else (clock.hour > 12) == (part.half == "p")


def _likely(minutes: int, same: time | None) -> int:
    """Of the two times of day that a clock of 12 hours shows alike, the one at which lessons are taught."""
    hour = minutes % _HALF_DAY // 60
    is_morning = hour >= 9 or (hour in {7, 8} and same is not None and same.hour < 12)
    return minutes % _HALF_DAY + (0 if is_morning else _HALF_DAY)


def _of_minutes(minutes: int) -> time:
    return time(minutes // 60, minutes % 60)


def _hour_or_length(number: Number, behind: Part | None) -> Part:
    text, value = number.text, number.value
    if len(text) > 2 and text.isdigit():
        return _digits(number)
    if not 1 <= value <= 23:
        return _length_alone(number, is_behind=True)
    if isinstance(behind, Number) and behind.value < 60:
        raise BadInput(
            f'"{text} {behind.text}" could be a time, or a time and a length. '
            f'Type "{value}:{behind.value:02d}" or "{value}:00 {behind.value} min".'
        )
    if value > _LATEST_ALONE:
        raise BadInput(f'"{text}" is not clear by itself. Try "{value}:00" for a time or "dec {value}" for a day.')
    return TimeOfDay(text=text, hour=value, has_zero=text.startswith("0"))


def _digits(number: Number) -> Part:
    hour, minute = divmod(number.value, 100)
    is_time = hour <= 23 and minute <= 59
    is_length = len(number.text) == 3 and number.value in LESSON_MINUTES
    if is_time and is_length:
        shown = clock_time(time(hour + 12), 12).replace(":00", f":{minute:02d}")
        raise BadInput(f'"{number.text}" could be a time or a length. Type "{shown}" or "{number.text} min".')
    if is_length:
        return Length(text=number.text, minutes=number.value)
    return TimeOfDay(text=number.text, hour=hour, minute=minute, has_zero=number.text.startswith("0"))


def _length_alone(number: Number, *, is_behind: bool) -> Part:
    """A number beside a time. Before one, up to 31, it may be a day; behind one, a slip if it is short or odd."""
    text, value = number.text, number.value
    if (is_behind or value > 31) and value >= _SHORTEST_ALONE and value % 5 == 0:
        return Length(text=text, minutes=value)
    wanted = [f'"{value} min" for a length'] if value in LESSON_MINUTES else []
    wanted += [f'"dec {value}" for a day'] if 1 <= value <= 31 else []
    if not wanted:
        raise BadInput(f'"{text}" is neither a time nor the length of a lesson. {_TIME_WANTED}')
    raise BadInput(f'"{text}" is not clear by itself. Try {" or ".join(wanted)}.')
