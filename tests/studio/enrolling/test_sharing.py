"""A roster that says with whom a lesson is shared."""

import itertools

import pytest
from support.studio import CLOCK, utc

from cockpit.papers.family.csv_text import csv_text
from cockpit.studio.enrolling.enrolling import Known, plan_roster
from cockpit.studio.errors import BadInput
from cockpit.studio.lessons.scheduled import People
from cockpit.studio.lessons.weekly_times import StandingTime
from cockpit.studio.people.people import Family, Student
from cockpit.studio.roster.columns import COLUMNS
from cockpit.studio.roster.roster import read_roster
from cockpit.studio.roster.written import written_roster
from cockpit.studio.values import replace

NOW = utc("2026-12-01 18:00")
WITH = COLUMNS.index("with")
TODAY = CLOCK.date_of(NOW)
HEADER = "student,weekday,time,minutes,family,with\n"
DUET = f"{HEADER}Wren,Wed,15:30,45,Aldersgate,Tobin\nTobin,Wed,15:30,45,Aldersgate,\nIlse,Tue,16:00,45,Brandvold,\n"


def taken_in(text, known=None, first=1):
    numbers = itertools.count(first)
    plan = plan_roster(read_roster(text), known or Known(), CLOCK, lambda: next(numbers), NOW)
    known = known or Known()
    records = {(type(each), each.id): each for each in (*known.families, *known.students, *known.standing_times)}
    for edit in plan.edits:
        records[type(edit.after), edit.after.id] = edit.after
    kept = {
        kind: tuple(each for each in records.values() if isinstance(each, kind))
        for kind in (Family, Student, StandingTime)
    }
    imported = tuple(edit.after for edit in plan.imported)
    return plan, Known(
        families=kept[Family],
        students=kept[Student],
        standing_times=kept[StandingTime],
        imported_times=imported or known.imported_times,
    )


def shares_of(known):
    names = {each.id: each.name for each in known.students}
    return {names[each.student_id]: each.shares for each in known.standing_times}


def written(known):
    people = People(
        families={each.id: each for each in known.families}, students={each.id: each for each in known.students}
    )
    return written_roster(people, (), (), (), known.standing_times, TODAY)


def test_one_cell_is_enough_and_the_table_that_is_written_names_each_to_the_other():
    plan, known = taken_in(DUET)
    shares = shares_of(known)
    assert shares["Wren"] == shares["Tobin"] is not None
    assert shares["Ilse"] is None
    assert any("shared with others" in line and "Tobin" in line for line in plan.lines)
    rows = {row[0]: row[WITH] for row in written(known).rows}
    assert rows == {"Wren": "Tobin", "Tobin": "Wren", "Ilse": ""}
    again, _ = taken_in(csv_text(COLUMNS, written(known).rows), known, first=100)
    assert (again.lines, again.edits) == ((), ())
    # A new studio that reads it shares them too.
    _, anew = taken_in(csv_text(COLUMNS, written(known).rows), first=500)
    assert shares_of(anew)["Wren"] == shares_of(anew)["Tobin"] is not None


def test_three_share_by_a_chain_of_cells_and_one_joins_later():
    rows = "Wren,Wed,15:30,45,Aldersgate,\nTobin,Wed,15:30,45,Aldersgate,Wren\n"
    _, two = taken_in(HEADER + rows)
    plan, three = taken_in(f"{HEADER}{rows}Arlo,Wed,15:30,45,Aldersgate,Tobin\n", two, first=100)
    assert len(set(shares_of(three).values())) == 1
    assert shares_of(three)["Wren"] == shares_of(two)["Wren"]
    assert len([edit for edit in plan.edits if edit.before != edit.after]) == 2  # Arlo and the weekly time
    chain = "Ann,Wed,15:30,45,A,Ben\nBen,Wed,15:30,45,A,\nCy,Wed,15:30,45,A,Dot\nDot,Wed,15:30,45,A,Ben\n"
    assert len(set(shares_of(taken_in(HEADER + chain)[1]).values())) == 1


def test_a_blank_cell_leaves_what_was_shared_in_the_studio_and_so_does_a_weekly_time_that_was_moved():
    _, known = taken_in(DUET)
    plan, _ = taken_in(DUET.replace("Aldersgate,Tobin", "Aldersgate,"), known, first=100)
    assert plan.edits == ()
    moved = replace(
        known,
        standing_times=tuple(
            replace(each, weekday=3, shares=None)
            if each.student_id == known.students[1].id
            else replace(each, shares=None)
            for each in known.standing_times
        ),
    )
    plan, after = taken_in(DUET, moved, first=100)
    assert plan.edits == ()
    assert set(shares_of(after).values()) == {None}


@pytest.mark.parametrize(
    ("rows", "fault"),
    [
        (
            "Wren,Wed,15:30,45,A,Tobin",
            'Line 2, with: found "Tobin". Write a student whose own row has this weekday, time',
        ),
        ("Wren,Wed,15:30,45,A,Wren", 'Line 2, with: found "Wren". Write a student'),
        ("Wren,Wed,15:30,45,A,Tobin\nTobin,Wed,15:30,30,A,", 'Line 2, with: found "Tobin". Write a student'),
        ("Wren,Wed,15:30,45,A,(Bell)", 'Line 2, with: found "(Bell)". Write the name of the student who shares'),
        (
            "Wren,Wed,15:30,45,A,Jo\nJo,Wed,15:30,45,Bell,\nJo,Wed,15:30,45,Sato,",
            'Line 2, with: found "Jo". More than one has this weekday and time: write "Jo (Bell)"',
        ),
    ],
)
def test_a_cell_that_names_nobody_of_that_time_or_several_is_told(rows, fault):
    with pytest.raises(BadInput) as refused:
        taken_in(HEADER + rows)
    assert str(refused.value).startswith(fault)


def test_of_two_with_one_name_the_family_says_who():
    rows = "Wren,Wed,15:30,45,A,Jo (sato)\nJo,Wed,15:30,45,Bell,\nJo,Wed,15:30,45,Sato,"
    _, known = taken_in(HEADER + rows)
    homes = {each.id: each.name for each in known.families}
    of_home = {
        homes[student.family_id]: each.shares
        for student, each in zip(known.students, known.standing_times, strict=True)
    }
    assert of_home["A"] == of_home["Sato"] is not None
    assert of_home["Bell"] is None
    assert [row[WITH] for row in written(known).rows] == ["Jo (Sato)", "", "Wren"]
