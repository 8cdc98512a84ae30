"""The times that would suit somebody, typed as "tue or thu after 4pm, 30m, from june": on their own clock.

What a morning, an afternoon, and an evening are is common practice, no source.
"""

import re
from collections.abc import Callable
from datetime import date, datetime, time, timedelta

from cockpit.studio.clocks.calendar_words import MONTH_WORDS, WEEKDAY_WORDS
from cockpit.studio.clocks.moments import WEEK, WEEKDAYS, Zone, local_time, moment
from cockpit.studio.clocks.words import clock_time, listed, near_date
from cockpit.studio.errors import BadInput
from cockpit.studio.typed_times.days import Days, day_of
from cockpit.studio.typed_times.line_parts import BETWEEN_PARTS
from cockpit.studio.typed_times.parts import (
    Dated,
    DayPart,
    FromToday,
    Joint,
    Length,
    Link,
    Number,
    Part,
    Slashed,
    TimeOfDay,
    Weekday,
)
from cockpit.studio.typed_times.rules import RULES
from cockpit.studio.typed_times.times import length_of, time_of, with_numbers_read
from cockpit.studio.typed_times.words import Found, by_rules, claims_of, filler
from cockpit.studio.values import Value, replace

EXAMPLE = 'such as "tue or thu after 4pm, 30m, from june"'
_BETWEEN_DAYS = re.compile(r"(?<=[a-z])/(?=[a-z])", re.IGNORECASE)
_LINKS = (
    (re.compile(r"(?:from|after|not before|no earlier than|starting|beginning|between|since)(?=[ ,])"), Joint.FROM),
    (re.compile(r"(?:before|until|till?|to|by|through|no later than|[-–—])(?=[ ,])"), Joint.TO),
    (re.compile(r"(?:and|or|&|\+)(?=[ ,])"), Joint.AND),
    (re.compile(r"(?:or )?(?:later|onwards?)(?=[ ,.]|$)"), Joint.ON),
)
_SMALL = re.compile(r"(?:on|at|in the|the|any ?time|about|around|starting)(?=[ ,]|$)")
_LONGEST_NAME = 5
_PLURALS = {f"{name}s": name for name in WEEKDAY_WORDS if len(name) > _LONGEST_NAME}
_DAY_WORDS = {
    **dict.fromkeys(("weekdays", "any weekday", "every weekday"), (0, 1, 2, 3, 4)),
    **dict.fromkeys(("weekend", "weekends", "the weekend"), (5, 6)),
    **dict.fromkeys(("any day", "every day", "all days", "daily"), tuple(range(7))),
}
_SEVERAL = re.compile(rf"(?:{'|'.join(sorted((*_DAY_WORDS, *_PLURALS), key=len, reverse=True))})(?=[ ,.]|$)")
_RANGE = re.compile(
    rf"(?P<first>{'|'.join(sorted(WEEKDAY_WORDS, key=len, reverse=True))}) ?(?:-|–|to|through) ?"
    rf"(?P<last>{'|'.join(sorted(WEEKDAY_WORDS, key=len, reverse=True))})(?=[ ,.]|$)"
)
_MONTH_ALONE = re.compile(rf"(?P<month>{'|'.join(sorted(MONTH_WORDS, key=len, reverse=True))})(?= ?,|[.]|$)")
_DAY_PART = re.compile(r"(?P<part>morning|afternoon|evening)s?(?=[ ,.]|$)")
_PARTS = {"morning": ("a", range(1, 12)), "afternoon": ("p", range(1, 7)), "evening": ("p", range(5, 12))}
A_YEAR_OF_WEEKS = 53
"""So many weeks have every clock change of a year in them."""
_STEP = 15


class Wish(Value):
    """Some weekdays, all of them where none is named, and the hours between which a lesson would lie; Monday is 0.

    `is_exact` says that it would begin at the first of these hours.
    """

    weekdays: frozenset[int] = frozenset()
    begins: time | None = None
    ends: time | None = None
    is_exact: bool = False

    @property
    def has_hours(self) -> bool:
        """Whether it says more than days."""
        return self.begins is not None or self.ends is not None

    def holds(self, starts: datetime, minutes: int) -> bool:
        """Whether a lesson that starts at a local time lies in it."""
        ends = starts.replace(tzinfo=None) + timedelta(minutes=minutes)
        on, at = starts.date(), starts.time().replace(second=0, microsecond=0)
        if self.weekdays and on.weekday() not in self.weekdays:
            return False
        if self.is_exact:
            return at == self.begins
        is_early = self.begins is not None and at < self.begins
        return not is_early and (self.ends is None or ends <= datetime.combine(on, self.ends))


class Wishes(Value):
    """Times of which any would suit, the length of the lesson, and the first day; None where nothing was said of it."""

    times: tuple[Wish, ...] = ()
    minutes: int | None = None
    from_on: date | None = None

    def hold(self, starts_at: datetime, zone: str, minutes: int) -> bool:
        """Whether a lesson at a moment (UTC) would suit on the clock of their IANA zone."""
        local = local_time(starts_at, zone)
        if self.from_on is not None and local.date() < self.from_on:
            return False
        return not self.times or any(each.holds(local, minutes) for each in self.times)


def read_wishes(text: str, today: date, *, month_first: bool = True) -> Wishes:
    """The times that a text names; `today` is the date on their clock.

    Raises:
        BadInput: a word is not understood, and is named.
    """
    found = _Reader(today, month_first=month_first)
    for part in filter(str.strip, re.split(BETWEEN_PARTS, text)):
        found.read(part)
    return found.wishes


def is_wish(text: str, today: date, *, month_first: bool = True) -> bool:
    """Whether every word of a part of a line says something of times that would suit."""
    try:
        wishes = read_wishes(text, today, month_first=month_first)
    except BadInput:
        return False
    return wishes != Wishes()


def wishes_words(wishes: Wishes, hours: int, today: date) -> str:
    """The wishes in words, with 12 or 24 hours: `Tue or Thu after 4:00 pm, 30 min, from Tue, June 1`."""
    said = [_wish_words(each, hours) for each in wishes.times]
    said += [f"{wishes.minutes} min"] if wishes.minutes is not None else []
    said += [f"from {near_date(wishes.from_on, today)}"] if wishes.from_on is not None else []
    return ", ".join(said)


def _wish_words(wish: Wish, hours: int) -> str:
    names = [WEEKDAYS[number][:3] for number in sorted(wish.weekdays)]
    said = ["any day" if len(names) in {0, len(WEEKDAYS)} else listed(names).replace(" and ", " or ")]
    begins, ends = (clock_time(at, hours) if at is not None else "" for at in (wish.begins, wish.ends))
    if wish.is_exact:
        said.append(f"at {begins}")
    elif begins and ends:
        said.append(f"from {begins} to {ends}")
    elif begins or ends:
        said.append(f"after {begins}" if begins else f"before {ends}")
    return " ".join(said)


class Fit(Value):
    """The dates of the teacher's clock from which and through which a weekly time would suit; no last one is for good.

    `starts_at` is the first lesson (UTC).
    """

    starts_at: datetime
    from_on: date
    until_on: date | None


class WeeklyGap(Value):
    """A place in the week that is free: its first date, the time and the zone of the clock it is kept on, and its length.

    It `was` somebody's, who ended or is paused, or nobody's. One of every other week is free in the weeks of its first date.
    """

    first: date
    at: time
    minutes: int
    zone: Zone
    was: str = ""
    is_paused: bool = False
    every_weeks: int = 1

    def starts(self, later: int = 0) -> tuple[datetime, ...]:
        """Its moments (UTC) for a year, or those so many minutes `later` on its clock."""
        begins = datetime.combine(self.first, self.at) + timedelta(minutes=later)
        return tuple(
            moment(begins + number * WEEK, self.zone) for number in range(0, A_YEAR_OF_WEEKS, self.every_weeks)
        )


class WantedLesson(Value):
    """The weekly lesson that somebody wishes: so long, on the clock of an IANA zone."""

    wishes: Wishes
    minutes: int
    zone: str


def fit_of(
    gap: WeeklyGap,
    wanted: WantedLesson,
    date_of: Callable[[datetime], date],
    is_free: Callable[[datetime, int, str], bool],
) -> Fit | None:
    """From when until when a wished lesson in a weekly place suits its wishes on their clock.

    It is held against every week of a year, on both sides of each clock change: `is_free` tells of a moment (UTC), minutes and
    the zone whether the lesson could be there. Of the starts in the place, on steps of a quarter of an hour, it is the one that suits first, and then
    the longest. `date_of` tells the teacher's date of a moment (UTC). None where it does not suit in any week of the year.
    """
    best: tuple[tuple[int, int, int], Fit] | None = None
    wishes, minutes, zone = wanted.wishes, wanted.minutes, wanted.zone
    for later in range(0, gap.minutes - minutes + 1, _STEP):
        starts = gap.starts(later)
        suits = [wishes.hold(at, zone, minutes) and is_free(at, minutes, zone) for at in starts]
        if True not in suits:
            continue
        begins = suits.index(True)
        ends = suits.index(False, begins) if False in suits[begins:] else len(suits)
        rank = begins, begins - ends, later
        if best is None or rank < best[0]:
            until_on = date_of(starts[ends - 1]) if ends < len(suits) else None
            best = rank, Fit(starts_at=starts[begins], from_on=date_of(starts[begins]), until_on=until_on)
        if all(suits):  # none suits sooner, nor longer
            break
    return best[1] if best is not None else None


class _Reader:
    """Reads the parts of a text one after another into wishes."""

    def __init__(self, today: date, *, month_first: bool) -> None:
        self._days = Days(today=today, around=today, month_first=month_first)
        self._wish = Wish()
        self._joint: Joint | None = None
        self._clock = ""  # the words of the last time: a length with the same words goes on from it
        self.wishes = Wishes()

    def read(self, text: str) -> None:
        """Reads a part.

        Raises:
            BadInput: a word of it is not understood.
        """
        runs = claims_of(_BETWEEN_DAYS.sub(" or ", text), _FINDERS)
        unknown = next((run for run in runs if run.is_unknown), None)
        if unknown is not None:
            raise BadInput(f'"{unknown.text}" is not understood. Type times, {EXAMPLE}.')
        parts = [part for run in runs for part in run.parts]
        if any(isinstance(part, Number) for part in parts) and not any(map(_is_clock, parts)):
            raise BadInput(f'"{text.strip()}" is not clear by itself. Type times, {EXAMPLE}.')
        self._wish, self._joint, self._clock = Wish(), None, ""
        for part in parts:
            self._take(part)
        self._keep()

    def _take(self, part: Part) -> None:
        match part:
            case Link():
                self._link(part.joint)
            case Weekday():
                self._day(part.weekday)
            case DayPart():
                begins, ends = _hours_of(part)
                self._wish = replace(self._wish, begins=begins, ends=ends)
            case TimeOfDay() | Number():
                self._wish, self._clock = _with_time(self._wish, _time(part), self._joint), part.text
                self._joint = None
            case Length():
                self._length(part)
            case _:
                self.wishes = replace(self.wishes, from_on=self._date(part))
                self._joint = None

    def _link(self, joint: Joint) -> None:
        if joint is Joint.ON:
            self._wish = replace(self._wish, is_exact=False)
        else:
            self._joint = joint

    def _day(self, weekday: int) -> None:
        if self._wish.has_hours:
            self._keep()
        self._wish = replace(self._wish, weekdays=self._wish.weekdays | {weekday})

    def _length(self, part: Length) -> None:
        """Minutes behind a time in the same words are a stretch, as in "4-6pm"; any other are the length of a lesson."""
        begins = self._wish.begins
        if begins is not None and part.text == self._clock:
            ends = (datetime.combine(date.min, begins) + timedelta(minutes=part.minutes)).time()
            self._wish = replace(self._wish, ends=ends, is_exact=False)
        else:
            self.wishes = replace(self.wishes, minutes=length_of([part]))

    def _keep(self) -> None:
        """Keeps a wish. Days alone before it have its hours: "mon, wed, fri after 5pm"."""
        wish, kept = self._wish, list(self.wishes.times)
        self._wish = Wish()
        while wish.weekdays and wish.has_hours and kept and not kept[-1].has_hours:
            wish = replace(wish, weekdays=wish.weekdays | kept.pop().weekdays)
        if wish != Wish():
            self.wishes = replace(self.wishes, times=(*kept, wish))

    def _date(self, part: Part) -> date:
        on = day_of([part], self._days) if isinstance(part, Dated | Slashed | FromToday) else None
        if on is None or self._joint is not Joint.FROM:
            raise BadInput(
                f'"{part.text}" is not understood here. Type weekdays, and a first day behind "from", {EXAMPLE}.'
            )
        return on


def _with_time(wish: Wish, at: time, joint: Joint | None) -> Wish:
    match joint:
        case Joint.FROM:
            return replace(wish, begins=at, is_exact=False)
        case Joint.TO:
            return replace(wish, ends=at, is_exact=False)
        case Joint.AND if wish.begins is not None and wish.ends is None and not wish.is_exact:  # between 4 and 6
            return replace(wish, ends=at)
        case _:
            return replace(wish, begins=at, is_exact=True)


def _hours_of(part: DayPart) -> tuple[time, time]:
    if part.half == "a":
        return time(7), time(12)
    return (time(12), time(18)) if 1 in part.hours else (time(17), time(21))


def _time(part: Part) -> time:
    return time_of(with_numbers_read([part]), None, is_away=False)


def _is_clock(part: Part) -> bool:
    return isinstance(part, Weekday | TimeOfDay | DayPart) or (isinstance(part, Link) and part.joint is not Joint.AND)


def _linked(said: str, place: int) -> Found:
    for form, joint in _LINKS:
        match = form.match(said, place)
        if match is not None:
            return (Link(text=match[0], joint=joint),), match.end()
    return None


def _several_days(said: str, place: int) -> Found:
    between = _RANGE.match(said, place)
    if between is not None:
        first, last = (WEEKDAY_WORDS[between[which]] for which in ("first", "last"))
        numbers = [(first + step) % 7 for step in range((last - first) % 7 + 1)]
        return tuple(Weekday(text=between[0], weekday=number) for number in numbers), between.end()
    match = _SEVERAL.match(said, place)
    if match is None:
        return None
    numbers = list(_DAY_WORDS.get(match[0], ())) or [WEEKDAY_WORDS[_PLURALS[match[0]]]]
    return tuple(Weekday(text=match[0], weekday=number) for number in numbers), match.end()


def _month(said: str, place: int) -> Found:
    match = _MONTH_ALONE.match(said, place)
    return (
        ((Dated(text=match[0], day=1, month=MONTH_WORDS[match["month"]]),), match.end()) if match is not None else None
    )


def _part_of_day(said: str, place: int) -> Found:
    match = _DAY_PART.match(said, place)
    if match is None:
        return None
    half, hours = _PARTS[match["part"]]
    return (DayPart(text=match[0], half=half, hours=hours),), match.end()


_FINDERS = (_several_days, _part_of_day, _linked, _month, by_rules(RULES), filler(_SMALL))
