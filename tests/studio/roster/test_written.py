"""The studio written as a roster: read again, whatever was changed in it since, it says nothing new."""

from datetime import date, datetime, timedelta

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from support.examples import examples
from support.rosters import rosters
from support.studio import CLOCK, utc

from cockpit.papers.family.csv_text import csv_text
from cockpit.store.tables import table_of
from cockpit.studio.changes.records import Edit
from cockpit.studio.enrolling.enrolling import Known, RosterPlan, plan_roster
from cockpit.studio.errors import BadInput
from cockpit.studio.lessons.breaks import Pause, PauseId
from cockpit.studio.lessons.later_times import Clocks, ended_now, from_now_on
from cockpit.studio.lessons.scheduled import People
from cockpit.studio.lessons.weekly_times import ImportedTime, StandingTime, StandingTimeId
from cockpit.studio.people.people import Family, FamilyId, Guardian, Student, StudentId
from cockpit.studio.people.permissions import Permission
from cockpit.studio.roster.columns import COLUMNS, RosterReading
from cockpit.studio.roster.roster import read_roster
from cockpit.studio.roster.written import WrittenRoster, written_roster
from cockpit.studio.values import replace

NOW = utc("2026-12-01 18:00")
TODAY = date(2026, 12, 1)


class Studio:
    """The records of a studio, changed as a database is."""

    def __init__(self) -> None:
        self.records: dict[object, Family | Guardian | Student | Permission | Pause | StandingTime | ImportedTime] = {}
        self._last = 0

    def new_id(self) -> int:
        self._last += 1
        return self._last

    def all(self, kind):
        return tuple(each for each in self.records.values() if isinstance(each, kind))

    @property
    def known(self) -> Known:
        return Known(
            families=self.all(Family),
            guardians=self.all(Guardian),
            students=self.all(Student),
            permissions=self.all(Permission),
            pauses=self.all(Pause),
            standing_times=self.all(StandingTime),
            imported_times=self.all(ImportedTime),
        )

    def read(self, reading: RosterReading, now: datetime = NOW) -> RosterPlan:
        plan = plan_roster(reading, self.known, CLOCK, self.new_id, now)
        self.take(*plan.edits, *plan.imported)
        return plan

    def take(self, *edits: Edit) -> None:
        for edit in edits:
            if edit.before is not None:
                del self.records[key(edit.before)]
            if edit.after is not None:
                self.records[key(edit.after)] = edit.after

    def written(self) -> WrittenRoster:
        people = People(
            families={each.id: each for each in self.all(Family)},
            students={each.id: each for each in self.all(Student)},
        )
        return written_roster(
            people, self.all(Guardian), self.all(Permission), self.all(Pause), self.all(StandingTime), TODAY
        )

    def change(self, standing: StandingTime, how: str, days: int) -> None:
        """What the teacher does to a weekly time in the cockpit."""
        clocks = Clocks(home=CLOCK, family_zone="UTC", now=NOW)
        begins = TODAY + timedelta(days=days)
        match how:
            case "end":
                self.take(Edit(before=standing, after=ended_now(standing, clocks)))
            case "in place":
                self.take(Edit(before=standing, after=replace(standing, minutes=60 if standing.minutes != 60 else 90)))
            case _:
                wanted = replace(standing, weekday=(standing.weekday + 1) % 7, minutes=50, from_on=begins)
                ended, later = from_now_on(standing, wanted, clocks)
                self.take(Edit(before=standing, after=ended))
                if later is not None:
                    later = replace(later, id=StandingTimeId(self.new_id()), follows=standing.id)
                    self.take(Edit(before=None, after=later))


def key(record):
    return type(record), *(getattr(record, name) for name in table_of(type(record)).keys)


def text_of(roster: WrittenRoster) -> str:
    return "\ufeff" + csv_text(COLUMNS, roster.rows)


def holds(studio: Studio) -> None:
    roster = studio.written()
    if not roster.rows:
        return
    reading = read_roster(text_of(roster))
    assert [str(fault) for fault in reading.faults] == []
    plan = studio.read(reading)
    assert (plan.lines, plan.edits, plan.left_alone, plan.shared) == ((), (), (), ())
    again = studio.written()
    assert again.rows == roster.rows
    assert studio.read(read_roster(text_of(again))).imported == ()


@given(rosters())
def test_a_studio_that_came_from_any_roster_is_written_and_read_as_it_is(rows):
    studio = Studio()
    studio.read(RosterReading(rows=tuple(rows), columns=frozenset(COLUMNS)))
    holds(studio)


CHANGES = st.lists(
    st.tuples(st.integers(0, 20), st.sampled_from(("end", "in place", "from a date on")), st.integers(0, 60)),
    max_size=4,
)


@examples(25, long=60)
@given(rosters(), CHANGES)
def test_what_was_changed_in_the_cockpit_is_written_and_read_as_it_is(rows, changes):
    studio = Studio()
    studio.read(RosterReading(rows=tuple(rows), columns=frozenset(COLUMNS)))
    for nth, how, days in changes:
        going = [each for each in studio.all(StandingTime) if (each.until_on or date.max) > TODAY]
        if going:
            studio.change(going[nth % len(going)], how, days)
    # Two lessons of one student at once are a slip, which a table does not say either.
    slots = [(each.student_id, each.weekday, each.at) for each in studio.all(StandingTime)]
    assume(len(set(slots)) == len(slots))
    holds(studio)


def test_a_pause_is_written_and_read_and_a_file_changes_its_days():
    studio = Studio()
    head = "student,weekday,time,minutes,paused_from,paused_until\n"
    plan = studio.read(read_roster(f"{head}Ilse,Tue,16:00,45,2027-06-01,2027-08-31\nWren,Wed,15:30,30,2027-01-04,\n"))
    assert [line for line in plan.lines if "pause" in line] == [
        "pause of Ilse: 2027-06-01 through 2027-08-31",
        "pause of Wren: from 2027-01-04 on",
    ]
    ilse, wren = studio.all(Pause)
    assert (ilse.keeps_time, wren.until_on) == (True, None)
    holds(studio)
    # What is known of it stays; another day in the file moves it.
    freed = replace(ilse, keeps_time=False, reason="trip")
    over = Pause(id=PauseId(900), student_id=ilse.student_id, from_on=date(2026, 2, 1), until_on=date(2026, 2, 28))
    studio.take(Edit(before=ilse, after=freed), Edit(before=None, after=over))
    holds(studio)
    plan = studio.read(read_roster(f"{head}Ilse,Tue,16:00,45,2027-06-08,2027-08-31\nWren,Wed,15:30,30,,\n"))
    assert plan.lines == ("pause of Ilse: 2027-06-01 through 2027-08-31 -> 2027-06-08 through 2027-08-31",)
    assert set(studio.all(Pause)) == {replace(freed, from_on=date(2027, 6, 8)), over, wren}
    # A file without last days leaves them.
    alone = studio.read(read_roster("student,weekday,time,minutes,paused_from\nIlse,Tue,16:00,45,2027-06-08\n"))
    assert alone.edits == ()
    holds(studio)


@pytest.mark.parametrize(
    ("cells", "fault"),
    [
        (
            ",2027-06-01",
            'Line 2, paused_until: found "2027-06-01" alone. Write the first day of the pause in the column',
        ),
        (
            "2027-06-02,2027-06-01",
            'Line 2, paused_until: found "2027-06-01", which is before "2027-06-02" in the column',
        ),
    ],
)
def test_a_pause_that_cannot_be_is_a_fault(cells, fault):
    with pytest.raises(BadInput) as refused:
        Studio().read(
            read_roster(f"student,weekday,time,minutes,paused_from,paused_until\nIlse,Tue,16:00,45,{cells}\n")
        )
    assert str(refused.value).startswith(fault)


def test_a_change_from_a_date_on_is_two_rows_and_each_can_be_edited():
    studio = Studio()
    studio.read(read_roster("student,weekday,time,minutes,from\nIlse,Tue,16:00,45,2026-09-01\n"))
    (standing,) = studio.all(StandingTime)
    studio.change(standing, "from a date on", 42)
    text = text_of(studio.written())
    assert [line.split(",")[1:4] for line in text.splitlines()[1:]] == [
        ["Tuesday", "16:00", "45"], ["Wednesday", "16:00", "50"]
    ]  # fmt: skip
    edited = text.replace("Wednesday,16:00", "Wednesday,17:00")
    assert "changed: Ilse, Wednesday: time 4:00 pm -> 5:00 pm" in str(studio.read(read_roster(edited)).lines)
    assert [(each.weekday, each.at.hour) for each in studio.all(StandingTime)] == [(1, 16), (2, 17)]
    holds(studio)


def test_words_that_would_be_a_formula_come_back_as_they_were():
    studio = Studio()
    studio.read(
        read_roster("student,weekday,time,minutes,phone,remark\nIlse,Tue,16:00,45,'+1 602 555 0100,\"'-dim., '=1\"\n")
    )
    text = text_of(studio.written())
    assert "'+1 602" in text
    assert "'-dim." in text
    assert studio.all(Student)[0].remark == "-dim., '=1"
    holds(studio)


@pytest.mark.parametrize(
    ("families", "students", "left_out"),
    [
        ([(1, "Bell")], [(2, 1, "Nora")], ["Nora (family Bell): no weekly time"]),
        (
            [(1, "Bell"), (3, "BELL")],
            [(2, 1, "Nora"), (4, 3, "Jo")],
            ["Nora (family Bell): another has the same name", "Jo (family BELL): another has the same name"],
        ),
        ([(1, "Bell")], [(2, 1, "Nora"), (4, 1, "nora")], ["Nora (family Bell): another has the same name"] * 1 + ["nora (family Bell): another has the same name"]),
    ],
)  # fmt: skip
def test_who_cannot_be_in_a_table_is_named(families, students, left_out):
    studio = Studio()
    for number, name in families:
        studio.take(Edit(before=None, after=Family(id=FamilyId(number), name=name, zone="UTC")))
    for number, home, name in students:
        studio.take(Edit(before=None, after=Student(id=StudentId(number), family_id=FamilyId(home), name=name)))
    assert list(studio.written().left_out) == left_out
