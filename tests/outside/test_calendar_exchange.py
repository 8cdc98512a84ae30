"""Our calendar file, read by programs that are not ours.

Sources: RFC 5545 3.3.10 and 3.8.5.3 (rules), 3.6.5 (zones), 3.8.4.4 and 3.8.5.1 (exceptions); the recurrences are
expanded by `recurring-ical-events`, the zones' own rules by `python-dateutil`. The instants at which zones change are
held against what the zone data says of UTC moments, and against the tables of `support.zone_tables`.
"""

from datetime import UTC, date, datetime, time, timedelta
from io import StringIO
from itertools import count
from zoneinfo import ZoneInfo

import pytest
from dateutil.rrule import rruleset, rrulestr
from dateutil.tz import tzical
from hypothesis import assume, given
from hypothesis import strategies as st
from icalendar import Calendar, Timezone
from support.examples import examples
from support.instants import changes, offset
from support.shared_calendars import (
    BEGINS,
    ENDS,
    ZONES,
    Held,
    edition,
    on_the_queue,
    read_back,
    timetable,
    timetables,
)
from support.studio import HOUSEHOLDS, ILSE, MIREILLE, TEODOR, enrollment, standing, utc
from support.zone_tables import UNCHANGING, ZONE_YEARS

from cockpit.papers.calendar.file import calendar_file
from cockpit.papers.calendar.reading import read_calendar
from cockpit.papers.calendar.zones import zone_component
from cockpit.studio.calendar.events import EventsReading
from cockpit.studio.calendar.shared import Timetable, shared_calendar
from cockpit.studio.clocks.home import Home, Stay
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.enrolling.enrolling import plan_roster
from cockpit.studio.enrolling.people import Known
from cockpit.studio.lessons.breaks import Break, BreakId
from cockpit.studio.lessons.lesson import Kind, LessonId, Outcome
from cockpit.studio.lessons.scheduled import Enrollment
from cockpit.studio.lessons.weekly_times import KeptIn, StandingTime, StandingTimeId, occurrences
from cockpit.studio.people.people import Family, Student
from cockpit.studio.values import replace

SECOND = timedelta(seconds=1)


@examples(10, long=50)
@given(table=timetables(), days=st.integers(1, 365))
def test_another_program_shows_the_very_lessons_of_the_queue(table, days):
    ends = BEGINS + timedelta(days=days)
    text = calendar_file(shared_calendar(table, edition(ends=ends)))
    assert read_back(text, BEGINS - timedelta(days=60), ends + timedelta(days=60)) == on_the_queue(table, BEGINS, ends)


@examples(5, long=25)
@given(table=timetables())
def test_a_calendar_without_an_end_goes_on_as_the_queue_does(table):
    text = calendar_file(shared_calendar(table, edition(ends=None)))
    ends = BEGINS + timedelta(days=900)
    assert read_back(text, BEGINS, ends) == on_the_queue(table, BEGINS, ends)


def _whole_studio(home_zone: str | Home) -> Timetable:
    """Ten zones, each with a weekly time on either clock, every week or every second one."""
    kept = []
    for number, zone in enumerate(ZONES):
        who = list(HOUSEHOLDS)[number % 6]
        household = replace(HOUSEHOLDS[who][0], zone=zone)
        for clock in KeptIn:
            one = enrollment(
                who,
                id=StandingTimeId(len(kept) + 1),
                weekday=number % 7,
                at=time(15 + number % 6, 5 * number),
                minutes=30 + 5 * number,
                kept_in=clock,
                every_weeks=1 + number % 2,
            )
            kept.append(Enrollment(standing=one.standing, student=who, family=household))
    return timetable(*kept, home_zone=home_zone)


@pytest.mark.parametrize("home_zone", [*ZONES[:3], *(pytest.param(zone, marks=pytest.mark.long) for zone in ZONES[3:])])
def test_a_year_in_ten_zones_on_both_clocks_comes_back_as_it_was(home_zone):
    table = _whole_studio(home_zone)
    expected = on_the_queue(table, BEGINS, ENDS)
    assert read_back(calendar_file(shared_calendar(table, edition())), BEGINS, ENDS) == expected
    assert len(expected) in range(765, 800)  # ten times 52 and ten times 26


def test_a_year_with_a_move_a_journey_breaks_and_exceptions_comes_back_as_it_was():
    home = Home(
        zone="America/Chicago",
        stays=(
            Stay(zone="America/Phoenix", from_on=date(2027, 1, 11)),
            Stay(zone="Europe/London", from_on=date(2026, 10, 19), until_on=date(2026, 11, 8)),
        ),
    )
    table = timetable(
        enrollment(ILSE, at=time(16)),
        enrollment(TEODOR, at=time(18), kept_in=KeptIn.FAMILY, every_weeks=2),
        enrollment(MIREILLE, weekday=3, at=time(17), until_on=date(2027, 2, 25)),
        enrollment(MIREILLE, id=StandingTimeId(7), weekday=4, at=time(17, 30), minutes=45, from_on=date(2027, 2, 26)),
        home_zone=home,
        breaks=(
            Break(id=BreakId(1), from_on=date(2026, 12, 21), until_on=date(2027, 1, 3), reason="winter"),
            Break(id=BreakId(2), family_id=HOUSEHOLDS[ILSE][0].id, from_on=date(2027, 3, 2), until_on=date(2027, 3, 2)),
        ),
    )
    moved = _recorded(table, "w1-2026-12-01", starts_at=utc("2026-12-03 21:30"), minutes=45, is_moved=True)
    into_the_break = _recorded(table, "w1-2026-12-22", starts_at=utc("2026-12-23 15:00"), is_moved=True)
    cancelled = _recorded(table, "w1-2026-12-08", outcome=Outcome.CANCELLED)
    late = _recorded(table, "w1-2026-12-15", outcome=Outcome.CANCELLED_LATE)
    absent = _recorded(table, "w1-2027-01-05", outcome=Outcome.ABSENT)
    make_up = replace(cancelled, id=LessonId("m1"), kind=Kind.MAKE_UP, outcome=None, starts_at=utc("2026-12-12 16:00"))
    table = replace(table, recorded=(moved, into_the_break, cancelled, late, absent, make_up))
    text = calendar_file(shared_calendar(table, edition()))
    found = read_back(text, BEGINS, ENDS)
    assert found == on_the_queue(table, BEGINS, ENDS)
    ilse = [start for start, _, title in found if title == "Ilse, cello"]
    # Chicago is at -6 in winter, Phoenix at -7 all year; the journey moves no lesson.
    assert [start for start in ilse if utc("2026-10-20") <= start < utc("2027-01-20")] == [
        utc(text)
        for text in (
            "2026-10-20 21:00", "2026-10-27 21:00", "2026-11-03 22:00", "2026-11-10 22:00", "2026-11-17 22:00",
            "2026-11-24 22:00", "2026-12-03 21:30", "2026-12-12 16:00", "2026-12-23 15:00", "2027-01-05 22:00",
            "2027-01-12 23:00", "2027-01-19 23:00",
        )
    ]  # fmt: skip
    assert utc("2027-03-02 23:00") not in ilse
    assert utc("2027-03-09 23:00") in ilse


def _recorded(table, lesson_id, **values):
    from cockpit.studio.lessons.scheduled import planned

    by_rule = planned(table.enrollments, table.home, BEGINS, ENDS)
    return replace(next(each.lesson for each in by_rule if each.lesson.id == lesson_id), **values)


def test_a_time_that_a_zone_skips_or_has_twice_is_read_as_rfc_5545_has_it():
    """RFC 5545 3.3.5: the offset before the gap; the first of two. New York 2027-03-14 and 2026-11-01."""
    in_new_york = {"kept_in": KeptIn.TEACHER, "weekday": 6}
    gap = enrollment(ILSE, at=time(2, 30), from_on=date(2027, 3, 7), until_on=date(2027, 3, 21), **in_new_york)
    fold = enrollment(TEODOR, at=time(1, 30), from_on=date(2026, 10, 25), until_on=date(2026, 11, 8), **in_new_york)
    table = timetable(gap, fold, home_zone="America/New_York")
    found = read_back(calendar_file(shared_calendar(table, edition())), BEGINS, ENDS)
    assert [start for start, _, _ in found] == [
        utc("2026-10-25 05:30"), utc("2026-11-01 05:30"), utc("2026-11-08 06:30"),
        utc("2027-03-07 07:30"), utc("2027-03-14 07:30"), utc("2027-03-21 06:30"),
    ]  # fmt: skip


def test_the_exception_and_the_end_of_a_series_may_lie_in_a_gap():
    """RFC 5545 3.3.5; New York skips 02:30 on 2027-03-14."""
    gap = {"at": time(2, 30), "weekday": 6, "until_on": date(2027, 3, 14)}
    ends_there = timetable(enrollment(ILSE, from_on=date(2027, 3, 7), **gap), home_zone="America/New_York")
    begins_there = timetable(enrollment(ILSE, from_on=date(2027, 3, 14), **gap), home_zone="America/New_York")
    for table, starts in ((ends_there, ["2027-03-07 07:30", "2027-03-14 07:30"]), (begins_there, ["2027-03-14 07:30"])):
        found = read_back(calendar_file(shared_calendar(table, edition())), BEGINS, ENDS)
        assert [start for start, _, _ in found] == [utc(text) for text in starts]
    without = replace(ends_there, recorded=(_recorded(ends_there, "w1-2027-03-14", outcome=Outcome.CANCELLED),))
    found = read_back(calendar_file(shared_calendar(without, edition())), BEGINS, ENDS)
    assert [start for start, _, _ in found] == [utc("2027-03-07 07:30")]


def _onsets(component: Timezone, begins: datetime, ends: datetime) -> list[tuple[datetime, timedelta, timedelta]]:
    """The observances that begin in [begins, ends) by a component: the UTC moment, the offset before and after it.

    RFC 5545 3.6.5: an observance begins at a local time that is read with the offset before it.
    """
    found = []
    for observance in component.subcomponents:
        lines = observance.to_ical().decode().replace("\r\n ", "").split("\r\n")
        rules = rrulestr(
            "\n".join(line for line in lines if line.startswith(("DTSTART", "RRULE", "RDATE"))), forceset=True
        )
        assert isinstance(rules, rruleset)
        start = observance["DTSTART"].dt
        if not any(line.startswith("RRULE") for line in lines):
            rules.rdate(start)
        before, after = observance["TZOFFSETFROM"].td, observance["TZOFFSETTO"].td
        day = timedelta(days=1)
        locals_ = rules.between((begins - day).replace(tzinfo=None), (ends + day).replace(tzinfo=None), inc=True)
        found += [((local - before).replace(tzinfo=UTC), before, after) for local in locals_]
    return sorted(each for each in found if begins <= each[0] < ends)


def _instants(component: Timezone, begins: datetime, ends: datetime) -> list[datetime]:
    """The UTC moments in [begins, ends) at which a component says that its zone's offset changes."""
    return [at for at, before, after in _onsets(component, begins, ends) if before != after]


@pytest.mark.parametrize(("zone", "year", "instants"), ZONE_YEARS)
def test_a_zone_is_explained_with_the_changes_of_the_table(zone, year, instants):
    component = zone_component(zone, 2026, 2027)
    expected = [datetime.fromisoformat(f"{year}-{instant}+00:00") for instant in instants]
    assert _instants(component, utc(f"{year}-01-01"), utc(f"{year + 1}-01-01")) == expected


@pytest.mark.parametrize("zone", sorted({*ZONES, *UNCHANGING, "Africa/Cairo", "America/Nuuk", "Europe/Dublin"}))
@pytest.mark.parametrize("year", [2019, 2026])
@pytest.mark.long
def test_a_zone_is_explained_for_a_dozen_years_to_come(zone, year):
    begins, ends = utc(f"{year}-01-01"), utc(f"{year + 12}-01-01")
    component = zone_component(zone, year, year)
    assert _instants(component, begins, ends) == list(changes(zone, begins, ends))
    for observance in component.subcomponents:
        local = observance["DTSTART"].dt
        at = (local - observance["TZOFFSETFROM"].td).replace(tzinfo=UTC)
        assert offset(at, zone) == observance["TZOFFSETTO"].td
        assert at < begins or offset(at - SECOND, zone) == observance["TZOFFSETFROM"].td


def test_new_york_is_explained_by_the_rules_of_its_law():
    """15 U.S.C. 260a(a), in the form of the example of RFC 5545 3.6.5."""
    text = zone_component("America/New_York", 2026, 2026).to_ical().decode()
    assert "DTSTART:20250309T020000\r\nRRULE:FREQ=YEARLY;BYDAY=2SU;BYMONTH=3\r\n" in text
    assert "TZOFFSETFROM:-0500\r\nTZOFFSETTO:-0400\r\n" in text
    assert "DTSTART:20251102T020000\r\nRRULE:FREQ=YEARLY;BYDAY=1SU;BYMONTH=11\r\n" in text
    assert "TZOFFSETFROM:-0400\r\nTZOFFSETTO:-0500\r\n" in text


EXPLAINED = (*ZONES, "Africa/Cairo", "America/Nuuk", "Europe/Dublin")


@pytest.mark.parametrize("zone", EXPLAINED)
def test_who_has_no_zone_data_reads_every_moment_of_a_file_by_the_file_alone(zone):
    """Each quarter of an hour for three hours before and after every change of two years, and each hour of a usual week.

    Two readers have nothing but the VTIMEZONE in the file: the rule of the RFC for moments, and `dateutil.tz.tzical` for
    times on the clock. The first finds a change that is dated an hour late, the second one that is dated on another day.
    """
    household = replace(HOUSEHOLDS[ILSE][0], zone=zone)
    one = enrollment(ILSE, kept_in=KeptIn.FAMILY)
    table = timetable(Enrollment(standing=one.standing, student=ILSE, family=household), home_zone="UTC")
    text = calendar_file(shared_calendar(table, edition()))
    assert f"DTSTART;TZID={zone}:" in text
    (component,) = Calendar.from_ical(text).timezones
    onsets = _onsets(component, utc("1970-01-01"), utc("2029-01-01"))
    on_the_clock = tzical(StringIO(text[text.index("BEGIN:VTIMEZONE") : text.index("BEGIN:VEVENT")])).get(zone)
    quarter = timedelta(minutes=15)
    moments = [at + quarter * step for at in changes(zone, BEGINS, utc("2028-09-01")) for step in range(-12, 13)]
    moments += [BEGINS + timedelta(hours=hour) for hour in range(7 * 24)]
    for at in moments:
        assert next(after for begins, _, after in reversed(onsets) if begins <= at) == offset(at, zone), at
        shown = at.astimezone(ZoneInfo(zone))
        assert shown.replace(tzinfo=on_the_clock).utcoffset() == shown.utcoffset(), at


@pytest.mark.parametrize("zone", ["Asia/Gaza", "Asia/Hebron", "Africa/Cairo", "Africa/Casablanca", "Africa/El_Aaiun"])
def test_each_change_that_follows_no_rule_is_told_to_readers_that_take_one_date_of_an_rdate(zone):
    """Two libraries read ten years of a component from which every RDATE is taken out; some readers take its first alone."""
    lines = zone_component(zone, 2026, 2026).to_ical().decode().replace("\r\n ", "").splitlines(keepends=True)
    text = "".join(line for line in lines if not line.startswith("RDATE"))
    named = text.replace(f"TZID:{zone}", "TZID:one of its own")  # or a library would go by its own data
    clocks = (tzical(StringIO(text)).get(zone), Timezone.from_ical(named).to_tz(lookup_tzid=False))
    noons = (utc("2026-01-01 12:00") + timedelta(days=day) for day in range(3653))
    for shown in (noon.astimezone(ZoneInfo(zone)) for noon in noons):
        assert [shown.replace(tzinfo=clock).utcoffset() for clock in clocks] == [shown.utcoffset()] * 2, shown


@examples(6, long=40)
@given(table=timetables())
def test_every_zone_that_a_file_names_is_explained_once(table):
    file = Calendar.from_ical(calendar_file(shared_calendar(table, edition())))
    assert file.get_missing_tzids() == set()
    explained = [component.tz_name for component in file.timezones]
    assert sorted(set(explained)) == sorted(explained)


def _expanded(reading: EventsReading, home_zone: str) -> list[Held]:
    """The lessons of a year that a calendar which was read comes to: start (UTC), minutes, title."""
    held = [(each.starts_at, each.minutes, each.title) for each in reading.lessons]
    for event in reading.weekly:
        row = event.row
        rule = standing(
            weekday=row.weekday,
            at=row.at,
            minutes=row.minutes,
            from_on=row.from_on,
            until_on=row.until_on,
            every_weeks=event.every_weeks,
        )
        moved = {each.taught_on for each in event.moved}
        held += [(each.starts_at, each.minutes, row.student) for each in event.moved]
        held += [
            (meeting.starts_at, row.minutes, row.student)
            for meeting in occurrences(rule, row.zone or home_zone, BEGINS, ENDS)
            if meeting.taught_on not in moved and meeting.taught_on not in event.cancelled
        ]
    return sorted(each for each in held if BEGINS <= each[0] < ENDS)


@examples(10, long=50)
@given(table=timetables(), home_zone=st.sampled_from(ZONES))
def test_our_own_file_is_read_as_the_lessons_that_it_came_from(table, home_zone):
    table = replace(table, home=TeacherClock(zone=home_zone))
    text = calendar_file(shared_calendar(table, edition()))
    reading = read_calendar(text.encode(), home_zone=home_zone, begins=BEGINS.date() - timedelta(days=1))
    assume(not reading.left_out)
    assert _expanded(reading, home_zone) == on_the_queue(table, BEGINS, ENDS)


@examples(6, long=40)
@given(table=timetables(), home_zone=st.sampled_from(ZONES))
def test_reading_a_file_twice_changes_nothing_in_the_studio(table, home_zone):
    text = calendar_file(shared_calendar(replace(table, home=TeacherClock(zone=home_zone)), edition()))
    reading = read_calendar(text.encode(), home_zone=home_zone, begins=BEGINS.date())
    assert reading == read_calendar(text.encode(), home_zone=home_zone, begins=BEGINS.date())
    numbers = count(1)
    first = plan_roster(reading.roster, Known(), TeacherClock(zone=home_zone), lambda: next(numbers))
    records = [edit.after for edit in first.edits]
    known = Known(
        families=tuple(each for each in records if isinstance(each, Family)),
        students=tuple(each for each in records if isinstance(each, Student)),
        standing_times=tuple(each for each in records if isinstance(each, StandingTime)),
    )
    assert len(known.standing_times) == len(reading.weekly)
    assert plan_roster(reading.roster, known, TeacherClock(zone=home_zone), lambda: next(numbers)).edits == ()
