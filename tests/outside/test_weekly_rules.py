"""Standing times against the worked examples of RFC 5545 and against two independent expansions.

Sources: RFC 5545 3.8.5.3 (worked examples), 3.3.5 (local times that exist twice or not at all), 3.3.10 (UNTIL is
inclusive; DTSTART is the first of COUNT). Independent: python-dateutil's rrule, pendulum's calendar arithmetic, and
local times worked out from UTC alone (support.instants).
"""

import zoneinfo
from datetime import UTC, date, datetime, time, timedelta
from itertools import islice

import pendulum
import pytest
from dateutil.rrule import WEEKLY, rrule
from hypothesis import assume, given
from hypothesis import strategies as st
from support.instants import changes, readings, rfc_moment
from support.studio import standing, utc
from support.zone_tables import ZONE_YEARS

from cockpit.studio.calendar import WEEK, local_time, moment, occurrences

NEW_YORK = "America/New_York"
ZONES = sorted(zoneinfo.available_timezones())
CHANGING = sorted({zone for zone, _, _ in ZONE_YEARS})


def _local(moments: list[datetime], zone: str) -> list[str]:
    return [local_time(at, zone).isoformat() for at in moments]


def _dates(year: int, months: dict[int, tuple[int, ...]]) -> list[date]:
    return [date(year, month, day) for month, days in months.items() for day in days]


RFC_DATES = _dates(1997, {9: (2, 9, 16, 23, 30), 10: (7, 14, 21, 28), 11: (4, 11, 18, 25), 12: (2, 9, 16, 23)})


def test_weekly_for_ten_occurrences_is_as_the_rfc_works_it_out():
    """RFC 5545 3.8.5.3: DTSTART;TZID=America/New_York:19970902T090000, FREQ=WEEKLY;COUNT=10."""
    tuesdays = standing(weekday=1, at=time(9), from_on=date(1997, 9, 2))
    found = list(islice(occurrences(tuesdays, NEW_YORK, utc("1997-01-01"), utc("1999-01-01")), 10))
    assert [each.taught_on for each in found] == RFC_DATES[:10]
    expected = [f"{on}T09:00:00-{'04' if on < date(1997, 10, 26) else '05'}:00" for on in RFC_DATES[:10]]
    assert _local([each.starts_at for each in found], NEW_YORK) == expected


def test_weekly_until_christmas_eve_is_as_the_rfc_works_it_out():
    """RFC 5545 3.8.5.3: the same with FREQ=WEEKLY;UNTIL=19971224T000000Z, inclusive by 3.3.10."""
    tuesdays = standing(weekday=1, at=time(9), from_on=date(1997, 9, 2))
    until = datetime(1997, 12, 24, tzinfo=UTC) + timedelta(seconds=1)
    found = list(occurrences(tuesdays, NEW_YORK, utc("1997-01-01"), until))
    assert [each.taught_on for each in found] == RFC_DATES
    expected = [f"{on}T09:00:00-{'04' if on < date(1997, 10, 26) else '05'}:00" for on in RFC_DATES]
    assert _local([each.starts_at for each in found], NEW_YORK) == expected


def test_the_last_day_of_a_standing_time_is_taught():
    """UNTIL names the last lesson (3.3.10, inclusive); ours is a date on the clock that the time is kept in."""
    tuesdays = standing(weekday=1, at=time(23, 30), from_on=date(1997, 9, 2), until_on=date(1997, 12, 23))
    found = list(occurrences(tuesdays, NEW_YORK, utc("1997-01-01"), utc("1999-01-01")))
    assert [each.taught_on for each in found] == RFC_DATES


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


@given(
    zone=st.sampled_from(ZONES),
    weekday=st.integers(0, 6),
    at=st.times().map(lambda at: at.replace(second=0, microsecond=0)),
    from_on=st.dates(date(2020, 1, 1), date(2034, 12, 31)),
    weeks=st.integers(0, 60),
    extra_days=st.integers(0, 6),
)
def test_dateutil_finds_the_same_lessons(zone, weekday, at, from_on, weeks, extra_days):
    until_on = from_on + timedelta(weeks=weeks, days=extra_days)
    kept = standing(weekday=weekday, at=at, from_on=from_on, until_on=until_on)
    found = list(occurrences(kept, zone, utc("2019-01-01"), utc("2037-01-01")))
    rule = rrule(
        WEEKLY, byweekday=weekday, dtstart=datetime.combine(from_on, at), until=datetime.combine(until_on, time.max)
    )
    locals_ = list(rule)
    assert [each.taught_on for each in found] == [local.date() for local in locals_]
    assert [each.starts_at for each in found] == [
        local.replace(tzinfo=zoneinfo.ZoneInfo(zone)).astimezone(UTC) for local in locals_
    ]


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
    assert moment(local, zone) == rfc_moment(local, zone)
