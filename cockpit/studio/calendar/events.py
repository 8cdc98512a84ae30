"""What a calendar file that is brought in comes to: weekly rules (RFC 5545 3.3.10), single lessons, and what was left out."""

from collections.abc import Container, Mapping
from datetime import date, datetime, timedelta
from hashlib import sha256

from cockpit.studio.calendar.titles import instrument_in
from cockpit.studio.clocks.words import counted
from cockpit.studio.people.people import name_key
from cockpit.studio.roster.columns import NEEDED_COLUMNS, RosterReading, RosterRow, quoted
from cockpit.studio.values import Value, field, replace

_IN_PLACE = " (in place of "
_LAST_YEAR = 2199  # what lasts longer has no end


class MovedMeeting(Value):
    """A meeting of a weekly event at another time: the date by the rule, and the new start (UTC).

    `title` is what it is called where that is not what the event is; such a one may be at the time of the rule.
    """

    taught_on: date
    starts_at: datetime
    minutes: int
    title: str | None = None
    is_at_its_time: bool = False


class WeeklyEvent(Value):
    """A weekly time as a calendar has it; `row.line` is the number of the event in the file.

    `cancelled` and the dates of `moved` are meetings of the rule, on the clock that the row is kept in.
    """

    row: RosterRow
    cancelled: tuple[date, ...] = ()
    moved: tuple[MovedMeeting, ...] = ()

    @property
    def uid(self) -> str:
        """The lasting name of the event."""
        return self.row.event_uid

    @property
    def every_weeks(self) -> int:
        """In how many weeks it meets once."""
        return self.row.every_weeks or 1


class SingleLesson(Value):
    """A lesson by itself. `title` is what the calendar calls it; `starts_at` is UTC; `uid` is its lasting name.

    `series` is the title of the event that it is an exception to, where it is one.
    """

    uid: str
    title: str
    starts_at: datetime
    minutes: int
    call_link: str | None = None
    series: str | None = None


class EventTitle(Value):
    """What an event is called, and the title of its series where that is another: then it may be none of a student."""

    text: str
    series: str | None = None

    def __str__(self) -> str:
        """The words by which it is asked about and remembered: the same title in another series is another question."""
        return self.text if self.series is None else f"{self.text}{_IN_PLACE}{self.series})"

    @classmethod
    def remembered(cls, words: str) -> "EventTitle":
        """The title that was remembered by these words."""
        text, found, series = words.removesuffix(")").partition(_IN_PLACE)
        return cls(text=text, series=series) if found and words.endswith(")") else cls(text=words)

    def whose(self, names: Mapping[str, str | None]) -> str | None:
        """The student that it stands for, where `names` have what was said of titles; None where nobody said."""
        return names.get(str(self), names.get(self.text, self.text))


class EventsReading(Value):
    """A calendar file as it was read; `left_out` has a sentence for each event that cannot be imported.

    `called_off` are events that the file marks as cancelled. `ended` are series that have no meeting from the date on
    from which it was read, by their UID, each with a date that none is after. The studio may have either. `notices`
    are what was assumed, and what the file says of events that were taken all the same. It is whole where nothing was
    left out but what is past, and what the studio handed out itself.
    """

    weekly: tuple[WeeklyEvent, ...] = ()
    lessons: tuple[SingleLesson, ...] = ()
    called_off: tuple[WeeklyEvent | SingleLesson, ...] = ()
    ended: Mapping[str, date] = field(default_factory=dict)
    left_out: tuple[str, ...] = ()
    is_whole: bool = True
    notices: tuple[str, ...] = ()

    def of_others(self, studio_uid: str) -> "EventsReading":
        """The events that this studio did not hand out itself: those it has already."""
        own = f"@{studio_uid}"
        weekly = tuple(event for event in self.weekly if not event.uid.endswith(own))
        lessons = tuple(lesson for lesson in self.lessons if not lesson.uid.endswith(own))
        called_off = tuple(event for event in self.called_off if not event.uid.endswith(own))
        passed_over = sum(map(len, (self.weekly, self.lessons, self.called_off)))
        passed_over -= sum(map(len, (weekly, lessons, called_off)))
        own_events = (f"{counted(passed_over, 'event')} of this studio's own calendar",) if passed_over else ()
        return replace(
            self, weekly=weekly, lessons=lessons, called_off=called_off, left_out=(*own_events, *self.left_out)
        )

    def named(self, names: Mapping[str, str | None]) -> "EventsReading":
        """The events under the names of the students that their titles stand for; None leaves a title's events out."""
        named = [
            _under_its_name(event, name, names)
            for event in self.weekly
            if (name := EventTitle(text=event.row.student).whose(names)) is not None
        ]
        weekly = tuple(event for event, _ in named)
        lessons = tuple(
            replace(lesson, title=name) for lesson in self.lessons if (name := _title(lesson).whose(names)) is not None
        )
        lessons += tuple(lesson for _, others in named for lesson in others)
        unsaid = [title for title in self.titles if title.whose(names) is None]
        unnamed = (f"{quoted(str(title))}: you did not say which student this is." for title in unsaid)
        left_out = (*unnamed, *self.left_out)
        return replace(self, weekly=weekly, lessons=lessons, left_out=left_out, is_whole=self.is_whole and not unsaid)

    def as_kept(self, kept: Container[str]) -> "EventsReading":
        """The weekly events under the names by which a studio has `kept` them: an early one has numbers of their UIDs."""

        def name_of(uid: str) -> str:
            return early if (early := early_name(uid)) in kept else uid

        def renamed(event: WeeklyEvent) -> WeeklyEvent:
            return replace(event, row=replace(event.row, event_uid=name_of(event.uid)))

        return replace(
            self,
            weekly=tuple(renamed(event) for event in self.weekly),
            called_off=tuple(renamed(e) if isinstance(e, WeeklyEvent) else e for e in self.called_off),
            ended={name_of(uid): ends for uid, ends in self.ended.items()},
        )

    @property
    def titles(self) -> tuple[EventTitle, ...]:
        """What the events are called, each once: the series, lessons by themselves, and then the exceptions."""
        titles = [EventTitle(text=event.row.student) for event in self.weekly]
        titles += sorted((_title(lesson) for lesson in self.lessons), key=lambda title: title.series is not None)
        titles += [_title_within(event, each.title) for event in self.weekly for each in event.moved if each.title]
        return tuple(dict.fromkeys(titles))

    @property
    def roster(self) -> RosterReading:
        """The weekly events as rows of a roster. Only what a calendar knows is said: it clears no other column."""
        rows = tuple(event.row for event in self.weekly)
        called_off = tuple(event.row for event in self.called_off if isinstance(event, WeeklyEvent))
        return RosterReading(
            rows=rows,
            columns=frozenset({*NEEDED_COLUMNS, "from", "until", "every_weeks"}),
            event_uids=frozenset(row.event_uid for row in (*rows, *called_off)).union(self.ended),
            called_off=called_off,
            ended=self.ended,
        )


def _title(lesson: SingleLesson) -> EventTitle:
    is_other = lesson.series is not None and name_key(lesson.series) != name_key(lesson.title)
    return EventTitle(text=lesson.title, series=lesson.series if is_other else None)


def _title_within(event: WeeklyEvent, title: str) -> EventTitle:
    return EventTitle(text=title, series=event.row.student)


def _under_its_name(
    event: WeeklyEvent, name: str, names: Mapping[str, str | None]
) -> tuple[WeeklyEvent, tuple[SingleLesson, ...]]:
    """A weekly event under the name of its student, and those of its meetings that are somebody else's, by themselves.

    A meeting under a title of which nobody said whose it is stays as the rule has it.
    """
    moved: list[MovedMeeting] = []
    others: list[SingleLesson] = []
    gone = {*event.cancelled}
    for each in event.moved:
        whose = name if each.title is None else _title_within(event, each.title).whose(names)
        if whose is not None and name_key(whose) != name_key(name):
            uid = f"{event.uid}/{each.taught_on.isoformat()}"
            single = SingleLesson(uid=uid, title=whose, starts_at=each.starts_at, minutes=each.minutes)
            others.append(replace(single, call_link=event.row.call_link))
            gone.add(each.taught_on)
        elif whose is not None and not each.is_at_its_time:
            moved.append(replace(each, title=None))
    row = replace(event.row, student=name, instrument=instrument_in(event.row.student, name))
    return replace(event, row=row, moved=tuple(moved), cancelled=tuple(sorted(gone))), tuple(others)


def early_name(uid: str) -> str:
    """The name of an event in a studio that was made before UIDs were kept: it had numbered them, and cannot number back."""
    return f"#{(1 << 60) + int.from_bytes(sha256(uid.encode()).digest()[:6]) * 256}"


class WeeklyRule(Value):
    """Every `every_weeks` on `weekdays` (Monday is 0), from the meeting `first` on.

    It ends after `count` meetings or on the date `until`; `week_begins` tells which days make a week.
    """

    first: date
    weekdays: frozenset[int]
    every_weeks: int = 1
    week_begins: int = 0
    count: int | None = None
    until: date | None = None


def beginnings(rule: WeeklyRule) -> tuple[date, ...]:
    """The first meeting on each of the weekdays, in order."""
    week = _first_week(rule)
    found = (week + timedelta(days=place) for place in _places(rule))
    return tuple(sorted(on if on >= rule.first else on + timedelta(weeks=rule.every_weeks) for on in found))


def last_date(rule: WeeklyRule) -> date | None:
    """A date that the last meeting is on, or that no meeting is after; None where the rule has no end."""
    if rule.count is None:
        return rule.until if rule.until is not None and rule.until.year <= _LAST_YEAR else None
    week, places = _first_week(rule), _places(rule)
    in_first = [place for place in places if week + timedelta(days=place) >= rule.first]
    if rule.count <= len(in_first):
        return week + timedelta(days=in_first[rule.count - 1])
    weeks, place = divmod(rule.count - len(in_first) - 1, len(places))
    try:
        last = week + timedelta(weeks=(weeks + 1) * rule.every_weeks, days=places[place])
    except OverflowError:
        return None
    return last if last.year <= _LAST_YEAR else None


def _first_week(rule: WeeklyRule) -> date:
    return rule.first - timedelta(days=(rule.first.weekday() - rule.week_begins) % 7)


def _places(rule: WeeklyRule) -> list[int]:
    """The weekdays as days after the beginning of a week."""
    return sorted((weekday - rule.week_begins) % 7 for weekday in rule.weekdays)
