"""What may be shown of a student on a day: nothing that nobody said, and nothing after its last day."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cockpit.studio.people.people import StudentId
from cockpit.studio.people.permissions import (
    Permission,
    PermissionSaid,
    Shown,
    allowed,
    permissions_after,
    running_out,
    said_words,
)

SAID_ON = date(2026, 12, 1)
DAYS = st.dates(date(2026, 11, 1), date(2027, 2, 1))
SAID = st.builds(
    PermissionSaid,
    what=st.sampled_from(Shown),
    is_given=st.booleans(),
    until_on=st.none() | DAYS,
    words=st.sampled_from(("", "once")),
)
PERMISSIONS = st.lists(
    st.builds(
        Permission,
        student_id=st.just(StudentId(1)),
        what=st.sampled_from(Shown),
        is_given=st.booleans(),
        said_on=DAYS,
        until_on=st.none() | DAYS,
    ),
    max_size=6,
)


def permission(what: Shown = Shown.NAMED, *, is_given: bool = True, until_on: date | None = None) -> Permission:
    return Permission(student_id=StudentId(1), what=what, is_given=is_given, said_on=SAID_ON, until_on=until_on)


@pytest.mark.parametrize(
    ("permissions", "on", "expected"),
    [
        ([], SAID_ON, False),
        ([permission()], SAID_ON, True),
        ([permission()], SAID_ON - timedelta(days=1), False),
        ([permission(Shown.RECORDED)], SAID_ON, False),
        ([permission(is_given=False)], SAID_ON, False),
        ([permission(until_on=date(2027, 6, 30))], date(2027, 6, 30), True),
        ([permission(until_on=date(2027, 6, 30))], date(2027, 7, 1), False),
        ([permission(), permission(is_given=False)], SAID_ON, False),
    ],
)
def test_only_what_was_said_and_has_not_ended_is_allowed(permissions, on: date, expected: bool) -> None:
    assert allowed(permissions, Shown.NAMED, on) is expected


@given(PERMISSIONS, st.sampled_from(Shown), DAYS)
def test_nothing_is_allowed_without_a_word_for_it_and_every_no_counts(permissions, what: Shown, on: date) -> None:
    found = allowed(permissions, what, on)
    said = [each for each in permissions if each.what is what and each.said_on <= on]
    assert found is (bool(said) and not any(not each.is_given or (each.until_on or on) < on for each in said))
    assert allowed([each for each in permissions if each.what is not what], what, on) is False
    assert allowed([each for each in permissions if each.what is what], what, on) is found
    no = Permission(student_id=StudentId(1), what=what, is_given=False, said_on=on)
    assert allowed([*permissions, no], what, on) is False


@given(PERMISSIONS, DAYS)
def test_what_runs_out_is_allowed_today_by_itself_or_to_come_and_ends_within_thirty_days(
    permissions, today: date
) -> None:
    found = running_out(permissions, today)
    assert set(found) == {
        each for each in permissions if each.is_given and each.until_on and 0 <= (each.until_on - today).days <= 30
    }
    assert [each.until_on for each in found] == sorted(each.until_on for each in found)


@given(
    st.lists(SAID, max_size=6, unique_by=lambda each: each.what),
    st.lists(SAID, max_size=4, unique_by=lambda each: each.what),
)
def test_the_last_word_counts_and_the_day_of_what_is_said_again_stays(first, second) -> None:
    known = permissions_after(StudentId(1), (), first, SAID_ON)
    assert {each.said for each in known} == set(first)
    later = permissions_after(StudentId(1), known, second, SAID_ON + timedelta(days=9))
    assert {each.said for each in later if each.what in {said.what for said in second}} == set(second)
    for each in later:
        assert each.said_on == (SAID_ON if each.said in first else SAID_ON + timedelta(days=9))
    assert permissions_after(StudentId(1), later, second, SAID_ON + timedelta(days=20)) == later


@pytest.mark.parametrize(("days", "is_told"), [(-1, False), (0, True), (30, True), (31, False)])
def test_one_that_ends_is_told_of_from_thirty_days_before_through_its_last_day(days: int, is_told: bool) -> None:
    ending = permission(until_on=SAID_ON + timedelta(days=days))
    assert bool(running_out([ending], SAID_ON)) is is_told
    assert running_out([permission(), permission(is_given=False)], SAID_ON) == ()


def test_it_is_said_with_its_last_day_and_her_words() -> None:
    said = PermissionSaid(what=Shown.RECORDED, is_given=True, until_on=date(2027, 6, 30), words="for the audition")
    assert said_words(said) == "may be recorded through Wednesday, June 30, 2027 (for the audition)"
    assert said_words(PermissionSaid(what=Shown.PICTURED, is_given=False)) == "may not be in pictures"
