"""Weekly times against the worked examples of RFC 5545 and against three independent expansions.

Sources: RFC 5545 3.8.5.3 (worked examples, DTSTART;TZID=America/New_York at 09:00), 3.3.5 (local times that exist twice
or not at all), 3.3.10 (UNTIL is inclusive; DTSTART is the first of COUNT; WKST); erratum 6212 (rejected), which asked for
another reading of UNTIL. Independent: python-dateutil's rrule, recurring-ical-events on an event that icalendar reads,
pendulum's calendar arithmetic, and local times worked out from UTC alone (support.instants).

Rules that no lesson has (I to L, monthly or daily) are held against the references alone, so that these can be trusted
where they judge ours.
"""

import zoneinfo
from collections.abc import Iterable
from datetime import UTC, date, datetime, time, timedelta
from functools import cache
from itertools import islice

import pendulum
import pytest
import recurring_ical_events
from dateutil.rrule import WEEKLY, rrule, rruleset, rrulestr
from hypothesis import assume, example, given
from hypothesis import strategies as st
from icalendar import Calendar
from support.examples import examples
from support.instants import changes, readings, rfc_moment
from support.studio import standing, utc
from support.zone_tables import ZONE_YEARS

from cockpit.studio.clocks.moments import WEEK, local_time, moment
from cockpit.studio.lessons.weekly_times import StandingTime, occurrences

NEW_YORK = "America/New_York"
ZONES = sorted(zoneinfo.available_timezones())
CHANGING = sorted({zone for zone, _, _ in ZONE_YEARS})
EXAMPLES, LONG = 80, 1200
LAST_MINUTE = time(23, 59)
YEAR_2011, YEAR_2026 = ((utc(f"{year}-01-01"), utc(f"{year + 1}-06-01")) for year in (2011, 2026))
MONDAY, TUESDAY, WEDNESDAY, THURSDAY, FRIDAY, SUNDAY = 0, 1, 2, 3, 4, 6
DAYS = ("MO", "TU", "WE", "TH", "FR", "SA", "SU")

# Each as the RFC prints it: the days of 9 am EDT (UTC-4) and of 9 am EST (UTC-5).
A_TO_L = {
    "A": (
        "19970902T090000",
        "FREQ=WEEKLY;COUNT=10",
        "EDT 1997-09: 2 9 16 23 30, 1997-10: 7 14 21; EST 1997-10: 28, 1997-11: 4",
    ),
    "B": (
        "19970902T090000",
        "FREQ=WEEKLY;UNTIL=19971224T000000Z",
        "EDT 1997-09: 2 9 16 23 30, 1997-10: 7 14 21; EST 1997-10: 28, 1997-11: 4 11 18 25, 1997-12: 2 9 16 23",
    ),
    "C": (
        "19970902T090000",
        "FREQ=WEEKLY;INTERVAL=2;WKST=SU",
        "EDT 1997-09: 2 16 30, 1997-10: 14; EST 1997-10: 28, 1997-11: 11 25, 1997-12: 9 23, 1998-01: 6 20, 1998-02: 3 17",
    ),
    "D until": (
        "19970902T090000",
        "FREQ=WEEKLY;UNTIL=19971007T000000Z;WKST=SU;BYDAY=TU,TH",
        "EDT 1997-09: 2 4 9 11 16 18 23 25 30, 1997-10: 2",
    ),
    "D count": (
        "19970902T090000",
        "FREQ=WEEKLY;COUNT=10;WKST=SU;BYDAY=TU,TH",
        "EDT 1997-09: 2 4 9 11 16 18 23 25 30, 1997-10: 2",
    ),
    "E": (
        "19970901T090000",
        "FREQ=WEEKLY;INTERVAL=2;UNTIL=19971224T000000Z;WKST=SU;BYDAY=MO,WE,FR",
        "EDT 1997-09: 1 3 5 15 17 19 29, 1997-10: 1 3 13 15 17;"
        "EST 1997-10: 27 29 31, 1997-11: 10 12 14 24 26 28, 1997-12: 8 10 12 22",
    ),
    "F": (
        "19970902T090000",
        "FREQ=WEEKLY;INTERVAL=2;COUNT=8;WKST=SU;BYDAY=TU,TH",
        "EDT 1997-09: 2 4 16 18 30, 1997-10: 2 14 16",
    ),
    "G": ("19970805T090000", "FREQ=WEEKLY;INTERVAL=2;COUNT=4;BYDAY=TU,SU;WKST=MO", "EDT 1997-08: 5 10 19 24"),
    "H": ("19970805T090000", "FREQ=WEEKLY;INTERVAL=2;COUNT=4;BYDAY=TU,SU;WKST=SU", "EDT 1997-08: 5 17 19 31"),
    "I": (
        "19970905T090000",
        "FREQ=MONTHLY;COUNT=10;BYDAY=1FR",
        "EDT 1997-09: 5, 1997-10: 3; EST 1997-11: 7, 1997-12: 5, 1998-01: 2, 1998-02: 6, 1998-03: 6, 1998-04: 3;"
        "EDT 1998-05: 1, 1998-06: 5",
    ),
    "J": (
        "19970902T090000",
        "FREQ=MONTHLY;BYDAY=FR;BYMONTHDAY=13",
        "EST 1998-02: 13, 1998-03: 13, 1998-11: 13; EDT 1999-08: 13, 2000-10: 13",
    ),
    "K": (
        "20070115T090000",
        "FREQ=MONTHLY;BYMONTHDAY=15,30;COUNT=5",
        "EST 2007-01: 15 30, 2007-02: 15; EDT 2007-03: 15 30",
    ),
    "L": (
        "19970902T090000",
        "FREQ=DAILY;UNTIL=19971224T000000Z",
        "EDT 1997-09: 2-30, 1997-10: 1-25; EST 1997-10: 26-31, 1997-11: 1-30, 1997-12: 1-23",
    ),
}
# RFC 5545 takes the first day of J out: EXDATE;TZID=America/New_York:19970902T090000.
TAKEN_OUT = {"J": "19970902T090000"}
GOES_ON = {"C", "J"}

# What a teacher would write down for the weekly ones: each weekday from which day on, up to and on which.
BEFORE_CHRISTMAS_EVE = date(1997, 12, 23)
AS_STANDING_TIMES = {
    "A": (1, [(TUESDAY, date(1997, 9, 2))], None),
    "B": (1, [(TUESDAY, date(1997, 9, 2))], BEFORE_CHRISTMAS_EVE),
    "C": (2, [(TUESDAY, date(1997, 9, 2))], None),
    "D until": (1, [(TUESDAY, date(1997, 9, 2)), (THURSDAY, date(1997, 9, 2))], date(1997, 10, 6)),
    "D count": (1, [(TUESDAY, date(1997, 9, 2)), (THURSDAY, date(1997, 9, 2))], None),
    "E": (2, [(day, date(1997, 9, 1)) for day in (MONDAY, WEDNESDAY, FRIDAY)], BEFORE_CHRISTMAS_EVE),
    "F": (2, [(TUESDAY, date(1997, 9, 2)), (THURSDAY, date(1997, 9, 2))], None),
    "G": (2, [(TUESDAY, date(1997, 8, 5)), (SUNDAY, date(1997, 8, 5))], None),
    "H": (2, [(TUESDAY, date(1997, 8, 5)), (SUNDAY, date(1997, 8, 17))], None),
}


def _published(text: str) -> list[datetime]:
    """The UTC moments of a printed expansion; every example is at nine in the morning."""
    found = []
    for part in text.split(";"):
        name, months = part.strip().split(" ", 1)
        nine = {"EDT": 13, "EST": 14}[name]
        for month_and_days in months.split(","):
            month, days = month_and_days.split(":")
            for each in days.split():
                first, _, last = each.partition("-")
                found += [
                    utc(f"{month.strip()}-{day:02d} {nine}:00") for day in range(int(first), int(last or first) + 1)
                ]
    return found


def _event(dtstart: str, zone: str, rule: str, taken_out: str | None = None) -> Calendar:
    """A calendar file with one repeating lesson, read by icalendar."""
    lines = [
        "BEGIN:VCALENDAR",
        "VERSION:2.0",
        "PRODID:-//example.org//lessons//EN",
        "BEGIN:VEVENT",
        "UID:lesson@example.org",
        "DTSTAMP:20260101T000000Z",
        f"DTSTART;TZID={zone}:{dtstart}",
        "DURATION:PT30M",
        f"RRULE:{rule}",
        *([f"EXDATE;TZID={zone}:{taken_out}"] if taken_out else []),
        "END:VEVENT",
        "END:VCALENDAR",
    ]
    return Calendar.from_ical("\r\n".join([*lines, ""]))


def _by_recurring_ical_events(calendar: Calendar, begins: datetime, ends: datetime) -> list[datetime]:
    """The moments that start in [begins, ends), normalized through UTC.

    The library compares a local time that does not exist as it is written: it is asked for a day more on each side.
    """
    day = timedelta(days=1)
    events = recurring_ical_events.of(calendar).between(begins - day, max(begins, ends) + day)
    starts = sorted(event["DTSTART"].dt.astimezone(UTC) for event in events)
    return [at for at in starts if begins <= at < ends]


def _by_dateutil(name: str) -> list[datetime]:
    """The moments of a worked example; of one that goes on for ever, as many as are printed."""
    dtstart, rule, published = A_TO_L[name]
    in_new_york = zoneinfo.ZoneInfo(NEW_YORK)
    begins = datetime.fromisoformat(dtstart).replace(tzinfo=in_new_york)
    found = rruleset()
    found.rrule(rrulestr(rule, dtstart=begins))
    if name in TAKEN_OUT:
        found.exdate(datetime.fromisoformat(TAKEN_OUT[name]).replace(tzinfo=in_new_york))
    most = len(_published(published)) if name in GOES_ON else None
    return [at.astimezone(UTC) for at in islice(found, most)]


def _lessons(kept: Iterable[StandingTime], zone: str, begins: datetime, ends: datetime) -> list[datetime]:
    return sorted(each.starts_at for one in kept for each in occurrences(one, zone, begins, ends))


@pytest.mark.parametrize("name", A_TO_L)
def test_dateutil_reproduces_the_worked_examples_of_the_rfc(name):
    assert _by_dateutil(name) == _published(A_TO_L[name][2])


@pytest.mark.parametrize("name", A_TO_L)
def test_recurring_ical_events_reproduces_the_worked_examples_of_the_rfc(name):
    dtstart, rule, published = A_TO_L[name]
    expected = _published(published)
    ends = expected[-1] + timedelta(seconds=1) if name in GOES_ON else utc("2010-01-01")
    calendar = _event(dtstart, NEW_YORK, rule, TAKEN_OUT.get(name))
    assert _by_recurring_ical_events(calendar, utc("1997-01-01"), ends) == expected


@pytest.mark.parametrize("name", AS_STANDING_TIMES)
def test_standing_times_are_as_the_rfc_works_them_out(name):
    """A lesson has one weekday, so that a rule of several is several weekly times; COUNT is where she stops looking.

    Ours have no WKST. Each counts its weeks from its own first lesson day, which is what a rule of one weekday does
    whatever its week begins with; G and H differ in nothing but the first Sunday, 10 or 17 August, and that is the day
    which she names.
    """
    every_weeks, days, until_on = AS_STANDING_TIMES[name]
    kept = [
        standing(weekday=weekday, at=time(9), from_on=from_on, until_on=until_on, every_weeks=every_weeks)
        for weekday, from_on in days
    ]
    expected = _published(A_TO_L[name][2])
    ends = utc("2010-01-01") if until_on else expected[-1] + timedelta(seconds=1)
    assert _lessons(kept, NEW_YORK, utc("1997-01-01"), ends) == expected


@pytest.mark.parametrize(("first_sunday", "name"), [(date(1997, 8, 10), "G"), (date(1997, 8, 17), "H")])
def test_any_day_of_the_week_up_to_the_first_lesson_begins_the_same_count(first_sunday, name):
    expected = _published(A_TO_L[name][2])
    for days_before in range(7):
        from_on = first_sunday - timedelta(days=days_before)
        sundays = standing(weekday=SUNDAY, at=time(9), from_on=from_on, every_weeks=2)
        found = _lessons([sundays], NEW_YORK, utc("1997-08-01"), utc("1997-09-01"))
        assert found == [at for at in expected if at.weekday() == SUNDAY]


@pytest.mark.parametrize("every_weeks", [1, 2])
def test_the_last_day_of_a_rule_is_a_day_and_not_a_midnight(every_weeks):
    """The trap of 3.3.10 (erratum 6212, rejected): UNTIL=19971224T000000Z is 19:00 on the 23rd in New York.

    Ours is a date on the clock that the time is kept in, and that day's lesson is taught; to say it in a rule, UNTIL is
    the last lesson's own start.
    """
    always = utc("1997-01-01"), utc("1999-01-01")
    christmas_eve = utc("1997-12-24 14:00")
    before = christmas_eve - every_weeks * WEEK
    for until_on, until, last in (
        (date(1997, 12, 23), "19971224T000000Z", before),
        (date(1997, 12, 24), "19971224T140000Z", christmas_eve),
    ):
        kept = standing(
            weekday=WEDNESDAY, at=time(9), from_on=date(1997, 9, 3), until_on=until_on, every_weeks=every_weeks
        )
        rule = f"FREQ=WEEKLY;INTERVAL={every_weeks};UNTIL={until}"
        found = _lessons([kept], NEW_YORK, *always)
        assert found[-1] == last
        assert found == _by_recurring_ical_events(_event("19970903T090000", NEW_YORK, rule), *always)


def test_the_last_day_of_a_standing_time_is_taught():
    """UNTIL names the last lesson (3.3.10, inclusive); ours is a date on the clock that the time is kept in."""
    tuesdays = standing(weekday=1, at=time(23, 30), from_on=date(1997, 9, 2), until_on=date(1997, 12, 23))
    found = list(occurrences(tuesdays, NEW_YORK, utc("1997-01-01"), utc("1999-01-01")))
    assert [each.taught_on for each in found] == [at.date() for at in _published(A_TO_L["B"][2])]


def test_a_lesson_in_the_gap_counts_and_does_not_bend_the_next():
    """DTSTART;TZID=America/New_York:20260301T023000, FREQ=WEEKLY;COUNT=3, resolved by RFC 5545 3.3.5.

    3.3.10 says both that a time which does not exist is left out and that it is read by 3.3.5; a lesson that she
    agreed on is not left out.
    """
    sundays = standing(weekday=6, at=time(2, 30), from_on=date(2026, 3, 1))
    found = list(islice(occurrences(sundays, NEW_YORK, utc("2026-01-01"), utc("2027-01-01")), 3))
    assert [each.starts_at for each in found] == [
        utc("2026-03-01 07:30"),
        utc("2026-03-08 07:30"),
        utc("2026-03-15 06:30"),
    ]
    assert local_time(found[1].starts_at, NEW_YORK).strftime("%H:%M") == "03:30"


some_time = st.times().map(lambda at: at.replace(second=0, microsecond=0))
some_zone = st.sampled_from(CHANGING) | st.sampled_from(ZONES)
some_weekday = st.integers(MONDAY, SUNDAY)
some_day = st.dates(date(1990, 1, 1), date(2050, 12, 31))


def _is_misread(local: datetime, zone: str) -> bool:
    """Whether Python's own zoneinfo, seen in 3.11, is an hour wrong: it thinks that the clocks of Nuuk went back in 2023.

    No other local time since 1990 is, in any zone of 2026f; nor is the UTC moment's own reading in Nuuk.
    """
    return zone in ("America/Nuuk", "America/Godthab") and f"{local:%Y-%m-%d %H}" == "2023-10-28 23"


@cache
def _bent(zone: str, year: int) -> list[datetime]:
    """The local times, in quarters of an hour, around every clock change of a year: those that clocks skip or repeat."""
    found = []
    for change in changes(zone, utc(f"{year}-01-01"), utc(f"{year + 1}-01-01")):
        shown = local_time(change - timedelta(hours=1), zone).replace(tzinfo=None, second=0)
        found += [shown + timedelta(minutes=15 * quarter) for quarter in range(12)]
    return found


@st.composite
def rules(draw):
    """A weekly time that begins on a day, for some time or for good; its zone; and a stretch to look for it in.

    Half of them have a lesson at a clock change, which chance alone would hardly ever meet.
    """
    zone, on, at = draw(some_zone), draw(some_day), draw(some_time)
    if bent := _bent(zone, on.year):
        near = draw(st.none() | st.sampled_from(bent))
        on, at = (on, at) if near is None else (near.date(), near.time())
    every_weeks = draw(st.sampled_from((1, 2)))
    # `on` is the day of a lesson, `before` weeks after the first one and `after` weeks before the last.
    before, after = draw(st.integers(0, 60)), draw(st.none() | st.integers(-3, 60))
    from_on = on - before * every_weeks * WEEK - timedelta(days=draw(st.integers(0, 6)))
    until_on = None if after is None else on + after * WEEK + timedelta(days=draw(st.integers(-1, 6)))
    kept = standing(weekday=on.weekday(), at=at, from_on=from_on, until_on=until_on, every_weeks=every_weeks)
    lesson = rfc_moment(datetime.combine(on, at), zone)
    begins = lesson - timedelta(days=draw(st.integers(0, 100)), minutes=draw(st.integers(-1, 1440)))
    ends = lesson + timedelta(days=draw(st.integers(-1, 300)), minutes=draw(st.integers(0, 1440)))
    return kept, zone, begins, ends


def _first_lesson_day(kept: StandingTime) -> date:
    """Found by walking."""
    on = kept.from_on
    while on.weekday() != kept.weekday:
        on += timedelta(days=1)
    return on


def _as_rule(kept: StandingTime, zone: str, weeks_begin_on: int) -> str:
    parts = [
        "FREQ=WEEKLY",
        f"INTERVAL={kept.every_weeks}",
        f"WKST={DAYS[weeks_begin_on]}",
        f"BYDAY={DAYS[kept.weekday]}",
    ]
    if kept.until_on is not None:
        last = rfc_moment(datetime.combine(kept.until_on, LAST_MINUTE), zone)
        parts.append(f"UNTIL={last:%Y%m%dT%H%M%SZ}")
    return ";".join(parts)


@examples(EXAMPLES, long=LONG)
@given(rules())
@example((standing(weekday=SUNDAY, at=time(2, 30), from_on=date(2026, 2, 22), every_weeks=2), NEW_YORK, *YEAR_2026))
@example((standing(weekday=SUNDAY, at=time(1, 30), from_on=date(2026, 10, 18), every_weeks=2), NEW_YORK, *YEAR_2026))
@example((standing(weekday=FRIDAY, at=time(16), from_on=date(2011, 12, 2)), "Pacific/Apia", *YEAR_2011))
def test_dateutil_finds_the_same_lessons(rule):
    """Weeks that begin on the weekday of `from_on` are weeks counted from the first lesson day on or after it."""
    kept, zone, begins, ends = rule
    theirs = rrule(
        WEEKLY,
        interval=kept.every_weeks,
        wkst=kept.from_on.weekday(),
        byweekday=kept.weekday,
        dtstart=datetime.combine(kept.from_on, kept.at),
        until=None if kept.until_on is None else datetime.combine(kept.until_on, time.max),
    )
    day = timedelta(days=2)
    near = theirs.between(begins.replace(tzinfo=None) - day, ends.replace(tzinfo=None) + day, inc=True)
    assume(not any(_is_misread(local, zone) for local in near))
    expected = [(local.date(), rfc_moment(local, zone)) for local in near]
    found = [(each.taught_on, each.starts_at) for each in occurrences(kept, zone, begins, ends)]
    assert found == [(on, at) for on, at in expected if begins <= at < ends]


@examples(EXAMPLES, long=LONG)
@given(rules(), some_weekday)
@example((standing(weekday=SUNDAY, at=time(2, 30), from_on=date(2026, 2, 22)), NEW_YORK, *YEAR_2026), SUNDAY)
@example((standing(weekday=SUNDAY, at=time(1, 30), from_on=date(2026, 10, 18)), NEW_YORK, *YEAR_2026), SUNDAY)
def test_recurring_ical_events_finds_the_same_lessons(rule, weeks_begin_on):
    """A rule of one weekday that begins on its first lesson means the same whatever its weeks begin with."""
    kept, zone, begins, ends = rule
    found = [each.starts_at for each in occurrences(kept, zone, begins, ends)]
    first = _first_lesson_day(kept)
    if kept.until_on is not None and kept.until_on < first:
        assert found == []
        return
    calendar = _event(f"{datetime.combine(first, kept.at):%Y%m%dT%H%M%S}", zone, _as_rule(kept, zone, weeks_begin_on))
    assert found == _by_recurring_ical_events(calendar, begins, ends)


@examples(EXAMPLES // 4, long=LONG // 5)
@given(weekday=some_weekday, at=some_time, every_weeks=st.sampled_from((1, 2)), near=some_day, zone=some_zone)
def test_without_a_first_day_weeks_are_counted_from_that_of_1_january_2001_both_ways(
    weekday, at, every_weeks, near, zone
):
    kept = standing(weekday=weekday, at=at, every_weeks=every_weeks)
    # 300 times two weeks before Monday 1 January 2001.
    begins_in = datetime.combine(date(1989, 7, 3), at)
    theirs = rrule(WEEKLY, interval=every_weeks, byweekday=weekday, dtstart=begins_in)
    begins = utc(near.isoformat())
    ends = begins + 60 * WEEK
    locals_ = theirs.between(begins.replace(tzinfo=None) - WEEK, ends.replace(tzinfo=None) + WEEK)
    assume(not any(_is_misread(local, zone) for local in locals_))
    expected = [at for at in (rfc_moment(local, zone) for local in locals_) if begins <= at < ends]
    assert [each.starts_at for each in occurrences(kept, zone, begins, ends)] == expected
    assert len(expected) in (60 // every_weeks - 1, 60 // every_weeks, 60 // every_weeks + 1)


@pytest.mark.parametrize("zone", CHANGING)
def test_the_weeks_around_every_clock_change_are_right(zone):
    """Each quarter of an hour of the night, and two afternoon hours, two weeks before to two after every change."""
    times = [time(hour, minute) for hour in range(4) for minute in range(0, 60, 15)]
    for change in changes(zone, utc("2026-01-01"), utc("2028-01-01")):
        on = local_time(change, zone).date()
        for at in (*times, time(16), time(23, 45)):
            kept = standing(weekday=on.weekday(), at=at, from_on=on - 2 * WEEK, until_on=on + 2 * WEEK)
            found = list(occurrences(kept, zone, change - 4 * WEEK, change + 4 * WEEK))
            days = [on + weeks * WEEK for weeks in range(-2, 3)]
            assert [each.taught_on for each in found] == days
            assert [each.starts_at for each in found] == [rfc_moment(datetime.combine(day, at), zone) for day in days]


@pytest.mark.parametrize("zone", CHANGING)
def test_pendulum_reads_the_nights_of_a_clock_change_alike(zone):
    """With `fold=0` where the time exists; in a gap its default, which is the offset before the gap."""
    for change in changes(zone, utc("2026-01-01"), utc("2028-01-01")):
        midnight = datetime.combine(local_time(change, zone).date(), time())
        for quarter in range(4 * 24):
            local = midnight + timedelta(minutes=15 * quarter)
            fields = (local.year, local.month, local.day, local.hour, local.minute)
            fold = 0 if readings(local, zone) else 1
            theirs = pendulum.datetime(*fields, tz=zone, fold=fold)
            assert moment(local, zone).timestamp() == theirs.timestamp(), (zone, local)


@given(
    zone=st.sampled_from(ZONES),
    starts=st.datetimes(datetime(2020, 1, 1), datetime(2035, 1, 1)).map(lambda at: at.replace(second=0, microsecond=0)),
    weeks=st.integers(1, 60),
)
def test_pendulum_adds_weeks_to_the_same_moments(zone, starts, weeks):
    last = starts + weeks * WEEK
    assume(readings(starts, zone) and len(readings(last, zone)) == 1)
    fields = (starts.year, starts.month, starts.day, starts.hour, starts.minute)
    theirs = pendulum.datetime(*fields, tz=zone, fold=0).add(weeks=weeks)
    kept = standing(weekday=starts.weekday(), at=starts.time(), from_on=starts.date(), until_on=last.date())
    *_, ours = occurrences(kept, zone, utc("2019-01-01"), utc("2037-01-01"))
    assert ours.starts_at.timestamp() == theirs.timestamp()


@given(
    zone=st.sampled_from(ZONES),
    local=st.datetimes(datetime(2020, 1, 1), datetime(2035, 1, 1)).map(lambda at: at.replace(second=0, microsecond=0)),
)
def test_every_local_time_of_every_zone_is_read_by_the_rfc(zone, local):
    assume(not _is_misread(local, zone))
    assert moment(local, zone) == rfc_moment(local, zone)
