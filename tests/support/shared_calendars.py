"""Timetables for tests of the calendar that is handed out, and a reading of such a file by an independent program."""

from collections.abc import Iterator
from datetime import UTC, date, datetime, time, timedelta

import recurring_ical_events
from hypothesis import strategies as st
from icalendar import Calendar
from support.studio import HOME, HOUSEHOLDS, utc

from cockpit.studio.calendar.shared import Edition, Timetable
from cockpit.studio.clocks.home import Home, Stay
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.lessons.breaks import Break, BreakId, Pause, PauseId, TimeOff, without_breaks
from cockpit.studio.lessons.lesson import NOT_HELD, Kind, Lesson, LessonId, Outcome
from cockpit.studio.lessons.scheduled import Enrollment, People, merged, planned
from cockpit.studio.lessons.weekly_times import KeptIn, StandingTime, StandingTimeId
from cockpit.studio.people.people import Student
from cockpit.studio.values import replace

ZONES = (
    "America/Phoenix", "America/St_Johns", "America/Vancouver", "America/Santiago", "Europe/London",
    "Africa/Casablanca", "Asia/Kolkata", "Australia/Lord_Howe", "Pacific/Chatham", "America/New_York",
)  # fmt: skip
BEGINS, ENDS = utc("2026-09-01 00:00"), utc("2027-09-01 00:00")
Held = tuple[datetime, int, str]


def edition(**values) -> Edition:
    """The whole studio's lessons of a year, or what `values` make of it."""
    usual = {"uid": "studio.example.org", "revision": 4, "made_at": BEGINS, "begins": BEGINS, "ends": ENDS}
    return Edition(**usual | values)


def timetable(*enrollments: Enrollment, **values) -> Timetable:
    """The timetable of a studio with these enrollments; all of its people are known."""
    people = People(
        students={who.id: who for who in HOUSEHOLDS},
        families={family.id: family for family, _ in HOUSEHOLDS.values()}
        | {each.family.id: each.family for each in enrollments},
    )
    home = TeacherClock(zone=values.pop("home_zone", HOME))
    return Timetable(**{"enrollments": enrollments, "people": people, "home": home} | values)


def on_the_queue(table: Timetable, begins: datetime, ends: datetime) -> list[Held]:
    """What the queues of all days in [begins, ends) show, without what is cancelled: start (UTC), minutes, title."""
    by_rule = planned(table.enrollments, table.home, begins, ends)
    kept, _ = without_breaks(merged(by_rule, table.recorded, table.people, table.enrollments), table.breaks, table.home)
    return sorted(
        (each.lesson.starts_at, each.lesson.minutes, f"{each.student.name}, {each.lesson.instrument}")
        for each in kept
        if begins <= each.lesson.starts_at < ends and each.lesson.outcome not in NOT_HELD
    )


def read_back(text: str, begins: datetime, ends: datetime) -> list[Held]:
    """What another program shows of a calendar file in [begins, ends): start (UTC), minutes, title."""
    events = recurring_ical_events.of(Calendar.from_ical(text)).between(begins, ends)
    events = [event for event in events if event.get("STATUS") != "CANCELLED"]
    # The reader adds the length to the time on the clock, and is an hour off where the clock changes during a lesson;
    # RFC 5545 3.3.6 has minutes exact. The difference on one and the same clock is the length that the file gives.
    found = (
        (each.start.astimezone(UTC), int((each.end - each.start).total_seconds()) // 60, str(each["SUMMARY"]))
        for each in events
    )
    return sorted(held for held in found if begins <= held[0] < ends)


def homes() -> st.SearchStrategy[str | Home]:
    """The clock of the teacher or of a family: one zone, or one that moves and travels."""
    days = st.dates(date(2026, 8, 1), date(2027, 9, 30))
    move = st.builds(Stay, zone=st.sampled_from(ZONES), from_on=days)
    journey = st.builds(
        lambda zone, on, length: Stay(zone=zone, from_on=on, until_on=on + timedelta(days=length)),
        st.sampled_from(ZONES),
        days,
        st.integers(0, 20),
    )
    stays = st.lists(move | journey, max_size=3, unique_by=lambda stay: stay.from_on).map(tuple)
    return st.sampled_from(ZONES) | st.builds(Home, zone=st.sampled_from(ZONES), stays=stays)


@st.composite
def enrollments(draw: st.DrawFn) -> list[Enrollment]:
    """One to four weekly times of the studio's students, each family on any clock."""
    found = []
    for number, who in enumerate(draw(st.lists(st.sampled_from(list(HOUSEHOLDS)), min_size=1, max_size=4)), start=1):
        household, instrument = HOUSEHOLDS[who]
        from_on = draw(st.none() | st.dates(date(2026, 6, 1), date(2027, 6, 1)))
        until_on = draw(st.none() | st.dates(from_on or date(2026, 10, 1), date(2027, 12, 1)))
        standing = StandingTime(
            id=StandingTimeId(number),
            student_id=who.id,
            weekday=draw(st.integers(0, 6)),
            at=draw(st.times().map(lambda at: time(at.hour, at.minute))),
            minutes=draw(st.integers(5, 240)),
            kept_in=draw(st.sampled_from(KeptIn)),
            instrument=instrument,
            from_on=from_on,
            until_on=until_on,
            every_weeks=draw(st.sampled_from((1, 1, 2, 3))),
        )
        found.append(Enrollment(standing=standing, student=who, family=replace(household, zone=draw(homes()))))
    # A family has one clock, whichever weekly time is asked.
    zones = {each.family.id: each.family for each in found}
    return [replace(each, family=zones[each.family.id]) for each in found]


@st.composite
def timetables(draw: st.DrawFn) -> Timetable:
    """A studio's year: rules, breaks, and lessons that were cancelled, moved, taught or booked by themselves."""
    table = timetable(*draw(enrollments()), home_zone=draw(homes()))
    breaks: list[TimeOff] = [
        Break(id=BreakId(number), family_id=family, from_on=on, until_on=on + timedelta(days=length))
        for number, (family, on, length) in enumerate(
            draw(
                st.lists(
                    st.tuples(
                        st.none() | st.sampled_from(sorted(table.people.families)),
                        st.dates(date(2026, 9, 1), date(2027, 8, 1)),
                        st.integers(0, 30),
                    ),
                    max_size=3,
                )
            )
        )
    ]
    breaks += [
        Pause(
            id=PauseId(number),
            student_id=student_id,
            from_on=on,
            until_on=on + timedelta(days=length) if length is not None else None,
        )
        for number, (student_id, on, length) in enumerate(
            draw(
                st.lists(
                    st.tuples(
                        st.sampled_from(sorted(table.people.students)),
                        st.dates(date(2026, 9, 1), date(2027, 8, 1)),
                        st.none() | st.integers(0, 90),
                    ),
                    max_size=2,
                )
            )
        )
    ]
    meetings = planned(table.enrollments, table.home, BEGINS - timedelta(days=30), ENDS + timedelta(days=30))
    recorded = []
    if meetings:
        chosen = draw(st.lists(st.sampled_from(meetings), max_size=6, unique_by=lambda each: each.lesson.id))
        recorded += [draw(_happened(each.lesson)) for each in chosen]
    recorded += draw(_singles(table.enrollments[0].student))
    return replace(table, breaks=tuple(breaks), recorded=tuple(recorded))


def _happened(lesson: Lesson) -> st.SearchStrategy[Lesson]:
    shift = st.integers(-40 * 24 * 60, 40 * 24 * 60).map(lambda minutes: timedelta(minutes=minutes))
    outcome = st.none() | st.sampled_from(Outcome)
    moved = st.builds(
        lambda by, minutes, outcome: replace(
            lesson, starts_at=lesson.starts_at + by, minutes=minutes, is_moved=True, outcome=outcome
        ),
        shift,
        st.integers(5, 240),
        outcome,
    )
    taught = st.just(replace(lesson, began_at=lesson.starts_at, finished_at=lesson.planned_end))
    other_time = st.builds(  # taught before its weekly time was changed
        lambda by: replace(lesson, starts_at=lesson.starts_at + by, began_at=lesson.starts_at + by), shift
    )
    closed = st.sampled_from(Outcome).map(lambda why: replace(lesson, outcome=why))
    return moved | taught | closed | other_time


def _singles(who: Student) -> st.SearchStrategy[list[Lesson]]:
    kinds = st.sampled_from((Kind.TRIAL, Kind.MAKE_UP, Kind.EXTRA))
    starts = st.integers(0, 365 * 24 * 60).map(lambda minutes: BEGINS + timedelta(minutes=minutes))
    each = st.tuples(kinds, starts, st.integers(5, 240), st.none() | st.sampled_from(Outcome))
    return st.lists(each, max_size=3).map(
        lambda drawn: list(_booked(who, drawn)),
    )


def _booked(who: Student, drawn: list[tuple[Kind, datetime, int, Outcome | None]]) -> Iterator[Lesson]:
    for number, (kind, starts_at, minutes, outcome) in enumerate(drawn, start=1):
        yield Lesson(
            id=LessonId(f"x{number}"),
            student_id=who.id,
            kind=kind,
            instrument=HOUSEHOLDS[who][1],
            starts_at=starts_at,
            minutes=minutes,
            outcome=outcome,
        )
