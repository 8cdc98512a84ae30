"""The roster as it is looked at: who is in which group, with which weekly times, and since when."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.studio import BRANDVOLD, CLOCK, ILSE, OKONJO, TEODOR, home, lesson, standing

from cockpit.studio.lessons.breaks import Pause, PauseId
from cockpit.studio.lessons.lesson import Kind, Outcome
from cockpit.studio.lessons.scheduled import People
from cockpit.studio.lessons.status import Status
from cockpit.studio.lessons.weekly_times import KeptIn, StandingTimeId
from cockpit.studio.people.people import StudentId
from cockpit.studio.roster.entries import EntryGroup, roster_entries
from cockpit.studio.values import replace

TODAY = date(2026, 12, 1)
NOW = home("2026-12-01 16:12")
AUTUMN = standing(from_on=date(2026, 9, 1))
TRIAL = lesson(kind=Kind.TRIAL, standing_time_id=None, starts_at=home("2026-12-03 17:00"))
SUMMER = Pause(id=PauseId(1), student_id=ILSE.id, from_on=date(2026, 11, 24), until_on=date(2026, 12, 31))


def entries(times=(), pauses=(), lessons=(), students=(ILSE,)):
    people = People(students={each.id: each for each in students}, families={f.id: f for f in (BRANDVOLD, OKONJO)})

    def of(student_id):
        return [each for each in lessons if each.student_id == student_id]

    return roster_entries(people, times, pauses, of, TODAY, NOW)


def entry(*times, pauses=(), lessons=()):
    (only,) = entries(times, pauses, lessons)
    return only


@pytest.mark.parametrize(
    ("times", "pauses", "lessons", "status", "group"),
    [
        ([], [], [], Status.ASKED, EntryGroup.TO_DO),
        ([], [], [TRIAL], Status.TRIAL, EntryGroup.WAITING),
        ([], [], [replace(TRIAL, starts_at=home("2026-12-01 15:00"))], Status.TRIAL, EntryGroup.TO_DO),
        ([], [], [replace(TRIAL, starts_at=home("2026-08-04 15:00"))], Status.TRIAL, EntryGroup.TO_DO),
        ([], [], [replace(TRIAL, starts_at=home("2026-08-02 15:00"))], Status.TRIAL, EntryGroup.OVER),
        ([], [], [lesson(kind=Kind.EXTRA)], Status.ACTIVE, EntryGroup.GOING_ON),
        ([standing(from_on=date(2026, 12, 8))], [], [], Status.BEGINS, EntryGroup.WAITING),
        ([AUTUMN], [], [], Status.ACTIVE, EntryGroup.GOING_ON),
        ([AUTUMN], [SUMMER], [], Status.PAUSED, EntryGroup.WAITING),
        ([AUTUMN], [replace(SUMMER, until_on=None)], [], Status.PAUSED, EntryGroup.WAITING),
        # Eight weeks after its first day one asks; a day before, one does not.
        ([AUTUMN], [replace(SUMMER, from_on=date(2026, 10, 6), until_on=None)], [], Status.PAUSED, EntryGroup.TO_DO),
        ([AUTUMN], [replace(SUMMER, from_on=date(2026, 10, 7), until_on=None)], [], Status.PAUSED, EntryGroup.WAITING),
        ([replace(AUTUMN, until_on=date(2026, 11, 30))], [SUMMER], [], Status.ENDED, EntryGroup.OVER),
        ([replace(AUTUMN, until_on=TODAY)], [], [], Status.ACTIVE, EntryGroup.GOING_ON),
    ],
)
def test_a_student_stands_where_she_looks_for_what_is_to_be_done(times, pauses, lessons, status, group):
    found = entry(*times, pauses=pauses, lessons=lessons)
    assert (found.status, found.group) == (status, group)


def test_the_times_of_a_line_are_those_that_hold_then_those_to_come_then_the_last():
    viola = standing(id=StandingTimeId(2), weekday=3, instrument="viola", from_on=date(2026, 10, 1))
    old = standing(id=StandingTimeId(3), from_on=date(2025, 9, 1), until_on=date(2026, 8, 31))
    new = standing(id=StandingTimeId(4), from_on=date(2027, 1, 12), minutes=60)
    both = entry(old, viola, new, AUTUMN)
    assert (both.times, both.later) == ((AUTUMN, viola), (new,))
    begins = entry(old, new)
    assert (begins.times, begins.later) == ((new,), ())
    ended = entry(old, replace(AUTUMN, until_on=date(2026, 11, 30)))
    assert [each.id for each in ended.times] == [AUTUMN.id]
    assert ended.ended_on == date(2026, 11, 30)


def test_since_when_goes_back_through_what_a_weekly_time_was_before():
    old = standing(id=StandingTimeId(3), from_on=date(2024, 9, 3), until_on=date(2026, 8, 31))
    assert entry(old, replace(AUTUMN, follows=old.id)).since == date(2024, 9, 3)
    assert entry(old, AUTUMN).since == date(2026, 9, 1)  # one who came back
    assert entry(replace(old, from_on=None), replace(AUTUMN, follows=old.id)).since is None
    # What it followed was deleted with a file.
    assert entry(replace(AUTUMN, follows=StandingTimeId(77))).since == date(2026, 9, 1)


def test_two_students_of_one_name_are_called_by_their_families_too():
    other = replace(TEODOR, name="ILSE")
    names = [each.called for each in entries(students=(ILSE, other, replace(ILSE, id=StudentId(9), name="Arno")))]
    assert names == ["Arno", "Ilse (Brandvold)", "ILSE (Okonjo)"]


@pytest.mark.parametrize(
    ("times", "at"),
    [
        (AUTUMN, "2026-12-01 16:00"),
        # On the family's clock it is another hour of hers in the summer; the next lesson says which.
        (standing(kept_in=KeptIn.FAMILY, from_on=date(2027, 7, 1)), "2027-07-06 18:00"),
        (standing(from_on=date(2027, 1, 12)), "2027-01-12 16:00"),
        (replace(AUTUMN, until_on=date(2026, 11, 27)), "2026-11-24 16:00"),
        (replace(AUTUMN, every_weeks=2, until_on=TODAY), "2026-11-24 16:00"),
        (standing(from_on=date(2026, 9, 1), every_weeks=2), "2026-12-08 16:00"),
    ],
)
def test_a_line_shows_a_weekly_time_by_the_lesson_that_is_next_or_was_last(times, at):
    booking = entry(times).lesson_of(times, CLOCK)
    assert booking is not None
    assert booking.lesson.starts_at == home(at)


some_day = st.dates(date(2026, 6, 1), date(2027, 6, 1))


@given(st.integers(0, 6), some_day, st.integers(0, 200), st.sampled_from([1, 2]), st.sampled_from(list(KeptIn)))
def test_a_weekly_time_that_meets_is_always_shown_by_one_of_its_lessons(weekday, begins, days, every, kept_in):
    times = standing(
        weekday=weekday, from_on=begins, until_on=begins + timedelta(days=14 + days), every_weeks=every, kept_in=kept_in
    )
    booking = entry(times).lesson_of(times, CLOCK)
    assert booking is not None
    assert booking.lesson.standing_time_id == times.id


def test_a_trial_that_was_called_off_is_no_trial():
    assert entry(lessons=[replace(TRIAL, outcome=Outcome.CALLED_OFF)]).status is Status.ASKED
    assert entry(lessons=[TRIAL]).trial == TRIAL
