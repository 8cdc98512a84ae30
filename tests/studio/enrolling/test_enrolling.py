"""What a roster changes in a studio, and that reading it again changes nothing."""

import itertools
from datetime import date, datetime, time, timedelta

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from support.examples import examples
from support.rosters import rosters
from support.studio import CLOCK, TO_DENVER, utc

from cockpit.studio.changes.records import Change, Record
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.enrolling.enrolling import Known, RosterPlan, plan_roster
from cockpit.studio.enrolling.people import near_misses
from cockpit.studio.errors import BadInput
from cockpit.studio.lessons.weekly_times import ImportedTime, KeptIn, StandingTime, StandingTimeId
from cockpit.studio.people.people import (
    Family,
    FamilyId,
    Gets,
    Guardian,
    GuardianId,
    PlanForm,
    Student,
    StudentId,
    name_key,
)
from cockpit.studio.people.permissions import Permission, Shown
from cockpit.studio.roster.columns import COLUMNS, NEEDED_COLUMNS, RosterReading, RosterRow
from cockpit.studio.roster.roster import read_roster
from cockpit.studio.values import replace

HOME = "America/Chicago"
EMPTY = Known()
HAUGEN = Family(id=FamilyId(1), name="Haugen", zone="America/Phoenix", hours=24)
TEODOR = Student(
    id=StudentId(2),
    family_id=HAUGEN.id,
    name="Teodor",
    daily_minutes=20,
    remark="shy",
    practice_days=frozenset({0, 2, 4}),
    plan=PlanForm.LIST,
    yearly_lessons=30,
)
THURSDAY = StandingTime(
    id=StandingTimeId(3), student_id=TEODOR.id, weekday=3, at=time(16), minutes=30, kept_in=KeptIn.FAMILY,
    instrument="guitar", from_on=date(2026, 9, 1), until_on=date(2027, 6, 1), call_link="https://call.example.org/t",
)  # fmt: skip
HEDDA = Guardian(id=GuardianId(1), family_id=HAUGEN.id, email="h@example.org")
STUDIO = Known(families=(HAUGEN,), guardians=(HEDDA,), students=(TEODOR,), standing_times=(THURSDAY,))
OWN = Family(id=FamilyId(10), name="Ilse", zone="Asia/Kolkata")
ILSE = Student(id=StudentId(11), family_id=OWN.id, name="Ilse", remark="brave")
TUESDAY = StandingTime(id=StandingTimeId(12), student_id=ILSE.id, weekday=1, at=time(16), minutes=45)
ALONE = Known(families=(OWN,), students=(ILSE,), standing_times=(TUESDAY,))


def plan(text: str, known: Known = EMPTY) -> RosterPlan:
    return plan_of(read_roster(text), known)


def plan_of(reading: RosterReading, known: Known, now: datetime | None = None) -> RosterPlan:
    ids = [record.id for record in everything(known) if not isinstance(record, ImportedTime | Permission)]
    counter = itertools.count(max(ids, default=99) + 1)
    return plan_roster(reading, known, CLOCK, lambda: next(counter), now=now)


def carried_out(known: Known, change: Change) -> Known:
    """The studio after a change, as strict as the database: nothing refers to what is not there yet."""
    records: dict[tuple[type, object], Record] = {key_of(record): record for record in everything(known)}
    for edit in change.edits:
        key = key_of(edit.before or edit.after)
        assert edit.before != edit.after
        assert records.get(key) == edit.before
        match edit.after:
            case None:
                del records[key]
                continue
            case Guardian() | Student() as student:
                assert (Family, student.family_id) in records
            case StandingTime() | Permission() as standing:
                assert (Student, standing.student_id) in records
            case ImportedTime() as row:
                assert (StandingTime, row.standing_time_id) in records
        records[key] = edit.after
    return Known(
        families=tuple(record for record in records.values() if isinstance(record, Family)),
        guardians=tuple(record for record in records.values() if isinstance(record, Guardian)),
        students=tuple(record for record in records.values() if isinstance(record, Student)),
        permissions=tuple(record for record in records.values() if isinstance(record, Permission)),
        standing_times=tuple(record for record in records.values() if isinstance(record, StandingTime)),
        imported_times=tuple(record for record in records.values() if isinstance(record, ImportedTime)),
    )


def everything(known: Known) -> tuple[Family | Guardian | Student | Permission | StandingTime | ImportedTime, ...]:
    people = (*known.families, *known.guardians, *known.students, *known.permissions)
    return (*people, *known.standing_times, *known.imported_times)


def key_of(record: Record | None) -> tuple[type, object]:
    if isinstance(record, ImportedTime):
        return ImportedTime, (record.standing_time_id, record.event_uid)
    if isinstance(record, Permission):
        return Permission, (record.student_id, record.what)
    assert isinstance(record, Family | Guardian | Student | StandingTime), "a roster makes no other record"
    return type(record), record.id


def after(text: str, known: Known = EMPTY) -> Known:
    return carried_out(known, whole(plan(text, known)))


def whole(plan: RosterPlan) -> Change:
    """The change with what is kept of the file for the next reading."""
    return Change(said="importing the roster", edits=(*plan.edits, *plan.imported))


def table(*rows: str, columns: str = "") -> str:
    header = ",".join([*NEEDED_COLUMNS, *columns.split()])
    return "\n".join([header, *rows])


def test_a_new_student_comes_with_a_family_and_a_standing_time() -> None:
    text = table("Ilse,Tue,4 pm,45,Brandvold,cello", columns="family instrument")
    assert plan(text).lines == (
        "new family: Brandvold (America/Chicago)",
        "new: Ilse, Tuesday 4:00 pm, 45 minutes, cello (family Brandvold)",
    )
    studio = after(text)
    assert replace(studio, imported_times=()) == Known(
        families=(Family(id=FamilyId(100), name="Brandvold", zone=HOME),),
        students=(Student(id=StudentId(101), family_id=FamilyId(100), name="Ilse"),),
        standing_times=(
            StandingTime(
                id=StandingTimeId(102),
                student_id=StudentId(101),
                weekday=1,
                at=time(16),
                minutes=45,
                instrument="cello",
            ),
        ),
    )


def test_everything_that_a_row_says_arrives() -> None:
    text = table(
        "Ilse,Tue,4 pm,45,Brandvold,b@example.org,cello,Europe/London,family,2026-09-01,2027-06-01,20,https://call.example.org,shy,24,Mon-Fri,none,30",
        columns="family email instrument zone kept_in from until daily_minutes call_link remark clock practice_days plan yearly_lessons",
    )
    assert plan(text).lines == (
        "new family: Brandvold (Europe/London)",
        "clock of Brandvold: - -> 24",
        "new guardian of Brandvold: b@example.org",
        "daily minutes of Ilse: - -> 20",
        "practice days of Ilse: - -> Mon-Fri",
        "plan of Ilse: - -> none",
        "lesson times in the year of Ilse: - -> 30",
        "remark of Ilse: - -> shy",
        "new: Ilse, Tuesday 4:00 pm, 45 minutes, cello, on the family's clock, from 2026-09-01, through 2027-06-01, "
        "https://call.example.org (family Brandvold)",
    )
    (family,), (student,), (standing,) = after(text).families, after(text).students, after(text).standing_times
    assert (family.zone, family.hours) == ("Europe/London", 24)
    assert [(each.email, each.gets) for each in after(text).guardians] == [("b@example.org", frozenset(Gets))]
    assert (student.daily_minutes, student.remark) == (20, "shy")
    assert student.practice_days == {0, 1, 2, 3, 4}
    assert (student.plan, student.yearly_lessons) == (PlanForm.NONE, 30)
    assert standing.kept_in is KeptIn.FAMILY
    assert (standing.from_on, standing.until_on) == (date(2026, 9, 1), date(2027, 6, 1))
    assert standing.call_link == "https://call.example.org"


def test_the_edits_come_in_the_order_in_which_records_refer_to_each_other() -> None:
    found = plan(table("Ilse,Tue,16:00,45,A", "Tor,Wed,16:00,45,B", "Ana,Wed,17:00,45,A", columns="family"))
    kinds = [type(edit.after) for edit in found.edits]
    assert kinds == [Family] * 2 + [Student] * 3 + [StandingTime] * 3


def test_students_of_one_family_are_together_however_it_is_spelled() -> None:
    studio = after(table("Ilse,Tue,16:00,45,Brandvold", "Tor,Wed,16:00,45,BRANDVOLD", columns="family"))
    assert [family.name for family in studio.families] == ["Brandvold"]
    assert {student.family_id for student in studio.students} == {studio.families[0].id}


def test_a_student_without_a_family_in_the_file_gets_one_of_her_own() -> None:
    studio = after(table("Ilse,Tue,16:00,45"))
    assert [family.name for family in studio.families] == ["Ilse"]


def test_a_known_student_keeps_her_family_when_the_row_gives_none() -> None:
    studio = after(table("Teodor,Thu,17:00,30"), STUDIO)
    assert studio.families == (HAUGEN,)
    assert studio.students == (TEODOR,)


def test_a_row_that_gives_none_of_two_known_families_is_refused() -> None:
    other = replace(HAUGEN, id=FamilyId(7), name="Brandvold")
    known = Known(families=(HAUGEN, other), students=(TEODOR, replace(TEODOR, id=StudentId(8), family_id=other.id)))
    with pytest.raises(
        BadInput, match=r'^Line 2, family: found nothing. Write "Haugen" or "Brandvold". The studio has'
    ):
        plan(table("Teodor,Thu,17:00,30"), known)
    assert after(table("Teodor,Thu,17:00,30,Brandvold", columns="family"), known).standing_times[0].student_id == 8


def test_a_student_of_another_family_is_another_student() -> None:
    studio = after(table("Teodor,Thu,17:00,30,Brandvold", columns="family"), STUDIO)
    assert [(student.name, student.family_id) for student in studio.students] == [("Teodor", 1), ("Teodor", 4)]
    assert STUDIO.standing_times[0] in studio.standing_times


def test_a_family_named_after_its_student_gets_the_name_in_the_file_and_keeps_zone_and_address() -> None:
    text = table("Ilse,Tue,16:00,45,Brandvold", columns="family")
    assert plan(text, ALONE).lines == ("family renamed: Ilse -> Brandvold",)
    assert replace(after(text, ALONE), imported_times=()) == replace(ALONE, families=(replace(OWN, name="Brandvold"),))


def test_a_student_whose_own_family_the_file_names_too_does_not_move() -> None:
    rows = ("Ilse,Tue,16:00,45,Ilse", "Ilse,Wed,16:00,45,Brandvold")
    studio = after(table(*rows, columns="family"), ALONE)
    assert [family.name for family in studio.families] == ["Ilse", "Brandvold"]
    assert [student.family_id for student in studio.students] == [OWN.id, studio.families[1].id]
    assert plan(table(*rows, columns="family"), studio).lines == ()


def test_a_student_who_has_a_namesake_does_not_move() -> None:
    namesake = Student(id=StudentId(14), family_id=HAUGEN.id, name="Ilse")
    known = Known(families=(OWN, HAUGEN), students=(ILSE, namesake), standing_times=(TUESDAY,))
    studio = after(table("Ilse,Tue,16:00,45,Brandvold", columns="family"), known)
    assert [student.family_id for student in studio.students] == [OWN.id, HAUGEN.id, studio.families[2].id]


def test_a_blank_family_is_the_students_own_where_another_row_says_so() -> None:
    text = table("Teodor,Thu,16:00,30,", "Teodor,Fri,16:00,30,Teodor", columns="family")
    studio = after(text, STUDIO)
    assert [family.name for family in studio.families] == ["Haugen", "Teodor"]
    assert [standing.student_id for standing in studio.standing_times[1:]] == [studio.students[1].id] * 2
    assert plan(text, studio).lines == ()


def test_a_student_moves_from_a_family_of_her_own_to_a_known_one() -> None:
    known = Known(families=(OWN, HAUGEN), students=(ILSE, TEODOR), standing_times=(TUESDAY, THURSDAY))
    text = table("Ilse,Tue,16:00,45,Haugen", columns="family")
    assert plan(text, known).lines == ("family of Ilse: Ilse -> Haugen",)
    assert replace(ILSE, family_id=HAUGEN.id) in after(text, known).students


def test_a_family_that_another_student_is_in_keeps_its_name_when_one_moves_out() -> None:
    sister = Student(id=StudentId(14), family_id=OWN.id, name="Signe")
    known = replace(ALONE, students=(ILSE, sister))
    studio = after(table("Ilse,Tue,16:00,45,Brandvold", columns="family"), known)
    assert [family.name for family in studio.families] == ["Ilse", "Brandvold"]
    assert [student.family_id for student in studio.students] == [studio.families[1].id, OWN.id]


def test_two_students_of_their_own_families_move_into_one() -> None:
    first = after(table("Ilse,Tue,16:00,45", "Tor,Wed,16:00,45"))
    text = table("Ilse,Tue,16:00,45,Brandvold", "Tor,Wed,16:00,45,Brandvold", columns="family")
    studio = after(text, first)
    assert [family.name for family in studio.families] == ["Brandvold", "Tor"]
    assert {student.family_id for student in studio.students} == {studio.families[0].id}
    assert len(studio.students) == len(studio.standing_times) == 2
    assert plan(text, studio).lines == ()


def test_a_blank_zone_is_the_home_zone_of_a_new_family_and_leaves_that_of_a_known_one() -> None:
    studio = after(table("Teodor,Thu,16:00,30,", "Ilse,Tue,16:00,45,", columns="zone"), STUDIO)
    assert [(family.name, family.zone) for family in studio.families] == [("Haugen", "America/Phoenix"), ("Ilse", HOME)]


def test_a_place_of_a_family_that_moves_leaves_its_moves_and_a_move_in_the_file_changes_them() -> None:
    known = replace(STUDIO, families=(replace(HAUGEN, zone=TO_DENVER),))
    for cell in ("America/Phoenix", "denver", "America/Phoenix; America/Denver from 2027-03-01", ""):
        assert plan(table(f"Teodor,Thu,16:00,30,{cell}", columns="zone"), known).lines == ()
    later = "America/Phoenix; America/Denver from 2027-03-08"
    assert plan(table(f"Teodor,Thu,16:00,30,{later}", columns="zone"), known).lines == (
        f"zone of Haugen: America/Phoenix; America/Denver from 2027-03-01 -> {later}",
    )
    assert after(table("Teodor,Thu,16:00,30,Boise", columns="zone"), known).families[0].zone == "America/Boise"


def test_a_blank_kept_in_is_the_teachers_for_a_new_time_and_leaves_that_of_a_known_one() -> None:
    studio = after(table("Teodor,Thu,16:00,30,", "Ilse,Tue,16:00,45,", columns="kept_in"), STUDIO)
    assert [standing.kept_in for standing in studio.standing_times] == [KeptIn.FAMILY, KeptIn.TEACHER]


def test_a_column_that_is_not_in_the_file_leaves_what_is_known() -> None:
    assert plan(table("Teodor,Thu,16:00,30"), STUDIO).edits == ()


@pytest.mark.parametrize(
    ("column", "line"),
    [
        ("email", "guardian of Haugen removed: h@example.org"),
        ("clock", "clock of Haugen: 24 -> -"),
        ("daily_minutes", "daily minutes of Teodor: 20 -> -"),
        ("remark", "remark of Teodor: shy -> -"),
        ("practice_days", "practice days of Teodor: Mon Wed Fri -> -"),
        ("plan", "plan of Teodor: list -> -"),
        ("yearly_lessons", "lesson times in the year of Teodor: 30 -> -"),
        ("instrument", "changed: Teodor, Thursday: instrument guitar -> -"),
        ("call_link", "changed: Teodor, Thursday: call link https://call.example.org/t -> -"),
    ],
)
def test_a_blank_cell_of_a_column_in_the_file_clears_what_is_known(column: str, line: str) -> None:
    text = table("Teodor,Thu,16:00,30,", columns=column)
    assert plan(text, STUDIO).lines == (line,)
    assert plan(text, after(text, STUDIO)).lines == ()


def test_a_blank_from_or_until_takes_no_date_away_and_an_end_is_told() -> None:
    assert plan(table("Teodor,Thu,16:00,30,", columns="from"), STUDIO).lines == ()
    found = plan(table("Teodor,Thu,16:00,30,", columns="until"), STUDIO)
    assert (found.lines, found.left_alone) == ((), found.ended)
    assert found.ended == (
        "ended in the studio, not brought back: Teodor, Thursday 4:00 pm, 30 minutes, guitar, on the family's clock, "
        "from 2026-09-01, through 2027-06-01, https://call.example.org/t (family Haugen)",
    )
    assert plan(table("Teodor,Thu,16:00,30,2027-07-01", columns="until"), STUDIO).lines == (
        "changed: Teodor, Thursday: through 2027-06-01 -> 2027-07-01",
    )


def test_a_row_changes_no_standing_time_of_other_days() -> None:
    rows = ("Teodor,Fri,17:00,30,2027-09-01,",)
    found = plan(table(*rows, columns="from until"), STUDIO)
    assert found.lines == ("new: Teodor, Friday 5:00 pm, 30 minutes, from 2027-09-01 (family Haugen)",)
    assert THURSDAY in carried_out(STUDIO, whole(found)).standing_times


def test_a_blank_cell_clears_nothing_that_another_row_of_the_family_says() -> None:
    rows = ("Teodor,Thu,16:00,30,,,", "Teodor,Fri,16:00,30,h@example.org,20,shy")
    lines = plan(table(*rows, columns="email daily_minutes remark"), STUDIO).lines
    assert lines == ("new: Teodor, Friday 4:00 pm, 30 minutes (family Haugen)",)


@pytest.mark.parametrize("column", ["family", "zone", "kept_in"])
def test_a_blank_family_zone_or_whose_clock_clears_nothing(column: str) -> None:
    assert plan(table("Teodor,Thu,16:00,30,", columns=column), STUDIO).lines == ()


@pytest.mark.parametrize(
    ("cells", "line"),
    [
        ("Thu,5 pm,30,guitar,", "changed: Teodor, Thursday: time 4:00 pm -> 5:00 pm"),
        ("Fri,4 pm,45,guitar,", "changed: Teodor, Thursday: weekday Thursday -> Friday, minutes 30 -> 45"),
        ("Thu,4 pm,30,cello,teacher", "changed: Teodor, Thursday: instrument guitar -> cello, follows the clock of the family -> teacher"),
    ],
)  # fmt: skip
def test_a_changed_row_updates_its_standing_time_in_place(cells: str, line: str) -> None:
    weekday, at, minutes, instrument, kept_in = cells.split(",")
    text = table(f"Teodor,{weekday},{at},{minutes},{instrument},{kept_in}", columns="instrument kept_in")
    assert plan(text, STUDIO).lines == (line,)
    assert [standing.id for standing in after(text, STUDIO).standing_times] == [THURSDAY.id]


def test_the_lines_tell_the_time_on_the_teachers_clock() -> None:
    reading = read_roster(table("Teodor,Thu,17:00,30"))
    assert plan_roster(reading, STUDIO, TeacherClock(zone=HOME, hours=24), lambda: 0).lines == (
        "changed: Teodor, Thursday: time 16:00 -> 17:00",
    )


def test_a_name_in_other_capitals_is_the_same_person_and_renames_nobody() -> None:
    text = table("TEODOR,Thu,16:00,30,haugen", columns="family")
    assert not [line for line in plan(text, STUDIO).lines if "renamed" in line]
    assert [student.id for student in after(text, STUDIO).students] == [TEODOR.id]


def test_what_the_file_does_not_name_is_left_alone_and_told() -> None:
    found = plan(table("Ilse,Tue,16:00,45"), STUDIO)
    assert found.left_alone == (
        "not in the file, kept: Teodor, Thursday 4:00 pm, 30 minutes, guitar, on the family's clock, "
        "from 2026-09-01, through 2027-06-01, https://call.example.org/t (family Haugen)",
    )
    assert set(STUDIO.standing_times) < set(carried_out(STUDIO, whole(found)).standing_times)
    assert plan(table("Teodor,Mon,16:00,45"), STUDIO).left_alone == ()


def times_of_teodor(*slots: tuple[int, int, str]) -> Known:
    standing_times = tuple(
        StandingTime(
            id=StandingTimeId(20 + place),
            student_id=TEODOR.id,
            weekday=weekday,
            at=time(hour),
            minutes=30,
            instrument=instrument,
        )
        for place, (weekday, hour, instrument) in enumerate(slots)
    )
    return Known(families=(HAUGEN,), students=(TEODOR,), standing_times=standing_times)


@pytest.mark.parametrize(
    ("known", "rows", "ids"),
    [
        pytest.param([(0, 16, "cello"), (1, 16, "cello")], ["Tue,16:00,30,cello", "Mon,16:00,30,cello"], [21, 20], id="exact"),
        pytest.param([(0, 16, "cello"), (0, 17, "guitar")], ["Mon,18:00,30,guitar", "Mon,19:00,30,cello"], [21, 20], id="weekday and instrument"),
        pytest.param([(0, 16, "cello"), (1, 16, "cello")], ["Tue,17:00,30,guitar", "Fri,16:00,30,cello"], [21, 20], id="weekday"),
        pytest.param([(0, 16, "cello"), (1, 16, "guitar")], ["Fri,16:00,30,Guitar", "Sat,16:00,30,cello"], [21, 20], id="instrument"),
        pytest.param([(0, 16, "cello"), (1, 16, "guitar")], ["Fri,16:00,30,oboe", "Sat,16:00,30,flute"], [20, 21], id="order"),
        pytest.param([(0, 16, "cello")], ["Fri,16:00,30,oboe", "Mon,16:00,30,cello"], [30, 20], id="an exact one before all others"),
        pytest.param([(0, 16, "cello"), (0, 17, "cello")], ["Mon,17:00,30,cello"], [21], id="one is left"),
    ],
)  # fmt: skip
def test_rows_are_matched_to_standing_times_by_what_they_have_in_common(
    known: list[tuple[int, int, str]], rows: list[str], ids: list[int]
) -> None:
    studio = times_of_teodor(*known)
    text = table(*(f"Teodor,{row}" for row in rows), columns="instrument")
    counter = itertools.count(30)
    change = whole(plan_roster(read_roster(text), studio, CLOCK, lambda: next(counter)))
    by_slot = {(standing.weekday, standing.at): standing.id for standing in carried_out(studio, change).standing_times}
    assert [by_slot[row.weekday, row.at] for row in read_roster(text).rows] == ids


def test_two_seasons_of_one_weekday_and_time_stay_two() -> None:
    text = table("Ilse,Tue,16:00,30,,2026-12-31", "Ilse,Tue,16:00,45,2027-01-01,", columns="from until")
    studio = after(text)
    assert [standing.minutes for standing in studio.standing_times] == [30, 45]
    assert plan(text, studio).lines == ()
    turned = replace(studio, standing_times=studio.standing_times[::-1])
    assert plan(text, turned).lines == ()


@pytest.mark.parametrize("columns", ["from until", "from until instrument"])
def test_two_seasons_are_told_apart_in_whatever_order_the_file_has_them(columns: str) -> None:
    rows = ("Ilse,Tue,16:00,30,,2026-12-31", "Ilse,Tue,16:00,45,2027-01-01,")
    studio = after(table(*rows, columns=columns))
    assert plan(table(*rows[::-1], columns=columns), studio).lines == ()


def test_of_two_standing_times_alike_the_older_is_changed_in_whatever_order_they_come() -> None:
    twins = times_of_teodor((0, 16, "cello"), (0, 16, "cello"))
    for known in (twins, replace(twins, standing_times=twins.standing_times[::-1])):
        (edit,) = plan(table("Teodor,Mon,16:00,45"), known).edits
        assert isinstance(edit.after, StandingTime)
        assert edit.after.id == 20


def test_faults_of_the_reading_are_refused_all_at_once() -> None:
    with pytest.raises(BadInput, match=r"^Line 2, weekday: .*\nLine 3, minutes: .*$"):
        plan(table("Ilse,T,16:00,45", "Tor,Tue,16:00,4"))


def test_rows_that_disagree_only_by_what_the_studio_knows_are_refused() -> None:
    text = table("Teodor,Thu,16:00,30,,a@example.org", "Ana,Fri,16:00,30,Haugen,b@example.org", columns="family email")
    assert read_roster(text).faults == ()
    with pytest.raises(
        BadInput, match=r'^Line 3, email: found "b@example.org". Line 2 has "a@example.org" for the family Haugen'
    ):
        plan(text, STUDIO)


def test_a_number_is_asked_for_each_new_record_alone() -> None:
    asked = itertools.count(50)
    plan_roster(read_roster(table("Teodor,Thu,17:00,30", "Ilse,Tue,16:00,45")), STUDIO, CLOCK, lambda: next(asked))
    assert next(asked) == 53


@pytest.mark.parametrize("part", [10, pytest.param(1, marks=pytest.mark.long)])
def test_ten_thousand_rows_or_a_part_are_planned_and_change_nothing_the_second_time(part: int) -> None:
    rows = [
        f"Student {n % (4000 // part)},{('Mon', 'Tue', 'Wed')[n % 3]},{7 + n % 13:02d}:{n % 60:02d},45,Family {n % (800 // part)}"
        for n in range(10_000 // part)
    ]
    text = table(*rows, columns="family")
    studio = after(text)
    assert (len(studio.families), len(studio.students), len(studio.standing_times)) == (
        800 // part,
        4000 // part,
        10_000 // part,
    )
    assert plan(text, studio).edits == ()


FEW_NAMES = ("Ilse", "Teodor", "Ana")
FEW_FAMILIES = (None, None, "Ilse", "Haugen", "Brandvold", "ilse")


@st.composite
def crowded(draw: st.DrawFn) -> RosterReading:
    """Rosters over so few names, weekdays and times that two of them meet in every way."""
    optional = st.sets(st.sampled_from([column for column in COLUMNS if column not in NEEDED_COLUMNS]))
    columns = draw(optional | st.just(set(COLUMNS)))
    emails = {
        name: draw(st.sampled_from((None, "a@example.org", "b@example.org")))
        for name in ("ilse", "haugen", "brandvold")
    }
    remarks = {name: draw(st.sampled_from((None, "shy", "bold"))) for name in FEW_NAMES}
    homes = {name: draw(st.lists(st.sampled_from(FEW_FAMILIES), min_size=1, max_size=2)) for name in FEW_NAMES}

    def known(column: str, value: object) -> object:
        return value if column in columns else None

    rows = []
    for line in range(2, 2 + draw(st.integers(1, 6))):
        student = draw(st.sampled_from(FEW_NAMES))
        family = draw(st.sampled_from(homes[student])) if "family" in columns else None
        season = draw(st.sampled_from(((None, None), (None, date(2026, 6, 30)), (date(2026, 7, 1), None))))
        rows.append(
            RosterRow(
                line=line,
                student=student,
                family=family,
                weekday=draw(st.integers(0, 1)),
                at=draw(st.sampled_from((time(16), time(17)))),
                minutes=draw(st.sampled_from((30, 45))),
                email=emails.get(name_key(family or student)) if "email" in columns else None,
                instrument=draw(st.sampled_from((None, "cello", "guitar"))) if "instrument" in columns else None,
                zone=draw(st.sampled_from((None, "Asia/Kolkata"))) if "zone" in columns else None,
                kept_in=draw(st.sampled_from((None, *KeptIn))) if "kept_in" in columns else None,
                from_on=season[0] if "from" in columns else None,
                until_on=season[1] if "until" in columns else None,
                remark=remarks[student] if "remark" in columns else None,
            )
        )
    return RosterReading(rows=tuple(rows), columns=frozenset((*NEEDED_COLUMNS, *columns)))


def taken(reading: RosterReading, known: Known, now: datetime | None = None) -> Known:
    try:
        return carried_out(known, whole(plan_of(reading, known, now)))
    except BadInput:
        assume(False)
        raise


@given(rosters())
def test_reading_any_roster_twice_changes_nothing(rows: list[RosterRow]) -> None:
    reading = RosterReading(rows=tuple(rows), columns=frozenset(COLUMNS))
    second = plan_of(reading, taken(reading, EMPTY))
    assert (second.lines, second.left_alone, second.edits) == ((), (), ())


@examples(10, long=50)
@given(crowded(), crowded(), crowded())
def test_reading_a_roster_twice_changes_nothing_whatever_the_studio_was(
    first: RosterReading, second: RosterReading, third: RosterReading
) -> None:
    studio = taken(third, taken(second, taken(first, EMPTY)))
    again = plan_of(third, studio)
    assert again.lines == ()
    assert again.edits == ()


@settings(examples(10, long=50), suppress_health_check=[HealthCheck.filter_too_much])
@given(crowded(), crowded(), crowded(), st.sampled_from(("2026-03-02 09:00", "2026-07-03 21:00", "2027-01-01 12:00")))
def test_reading_a_roster_twice_changes_nothing_when_some_of_the_studio_is_history(
    first: RosterReading, second: RosterReading, third: RosterReading, now: str
) -> None:
    studio = taken(third, taken(second, taken(first, EMPTY, utc(now)), utc(now)), utc(now))
    assert plan_of(third, studio, utc(now)).lines == ()


@given(crowded(), crowded())
def test_each_row_is_a_standing_time_of_its_student_afterwards_and_nothing_is_lost(
    first: RosterReading, second: RosterReading
) -> None:
    before = taken(first, EMPTY)
    studio = taken(second, before)
    names = {student.id: name_key(student.name) for student in studio.students}
    slots = [
        (names[standing.student_id], standing.weekday, standing.at, standing.minutes)
        for standing in studio.standing_times
    ]
    for row in second.rows:
        assert (name_key(row.student), row.weekday, row.at, row.minutes) in slots
    for earlier, later in (
        (before.families, studio.families), (before.students, studio.students), (before.standing_times, studio.standing_times)
    ):  # fmt: skip
        assert {record.id for record in earlier} <= {record.id for record in later}


@examples(10, long=50)
@given(crowded(), crowded())
def test_what_changes_is_told_and_what_is_told_changes(first: RosterReading, second: RosterReading) -> None:
    studio = taken(first, EMPTY)
    taken(second, studio)
    found = plan_of(second, studio)
    assert bool(found.lines) == bool(found.edits)
    told = "\n".join(found.lines)
    for edit in found.edits:
        match edit.after:
            case Guardian() | None:
                assert "guardian of " in told
            case Family() | Student() as record:
                assert record.name in told
            case StandingTime():
                assert ("new: " if edit.before is None else "changed: ") in told


@examples(10, long=50)
@given(crowded(), crowded())
def test_a_roster_can_be_taken_back(first: RosterReading, second: RosterReading) -> None:
    studio = taken(first, EMPTY)
    taken(second, studio)
    change = whole(plan_of(second, studio))
    undone = carried_out(carried_out(studio, change), change.turned_around())
    assert set(everything(undone)) == set(everything(studio))


NEAR = table("Mireille,Tue,16:00,30,Dupont", "Anna,Wed,16:00,30,Berg", "Otto Holm,Thu,16:00,30,", columns="family")


@pytest.mark.parametrize(
    ("row", "near"),
    [
        ("Mirielle,Tue,17:00,30,Dupont", [("student", "Mirielle", ("Mireille",))]),
        ("Mirielle,Tue,17:00,30,", [("student", "Mirielle", ("Mireille",))]),
        ("Mireile,Tue,17:00,30,Dupond", [("student", "Mireile", ("Mireille",)), ("family", "Dupond", ("Dupont",))]),
        ("Mireille,Tue,17:00,30,Dupond", [("family", "Dupond", ("Dupont",))]),
        ("Mirielle,Tue,17:00,30,Sato", []),  # another family's
        ("Anne,Tue,17:00,30,Berg", [("student", "Anne", ("Anna",))]),
        ("Oto Holm,Tue,17:00,30,Holm", [("student", "Oto Holm", ("Otto Holm",))]),  # his family is not known
        ("Änna,Tue,17:00,30,Berg", [("student", "Änna", ("Anna",))]),
        ("ANNA,Tue,17:00,30,berg", []),
        ("Mira,Tue,17:00,30,Dupont", []),
        ("Anna Berg,Tue,17:00,30,Berg", [("student", "Anna Berg", ("Anna",))]),  # the first name, and the family's
        ("Berg Anna,Tue,17:00,30,", [("student", "Berg Anna", ("Anna",))]),
        ("Berg,Tue,17:00,30,", [("student", "Berg", ("Anna",))]),
        ("Otto,Tue,17:00,30,", [("student", "Otto", ("Otto Holm",))]),
        ("Anna & Mia,Tue,17:00,30,Berg", [("student", "Anna & Mia", ("Anna",))]),
        ("Anna Berg,Tue,17:00,30,Sato", []),
        ("Anna Sato,Tue,17:00,30,", []),
        ("Mia Berg,Tue,17:00,30,Berg", []),
        ("Otto,Tue,17:00,30,Holm", [("student", "Otto", ("Otto Holm",))]),  # first name and family name together
        ("Otto,Tue,17:00,30,Berg", []),
        ("Ida Holm,Tue,17:00,30,", []),
    ],
)
def test_a_name_that_nearly_is_one_of_the_studio_is_found_so_that_it_can_be_asked_about(
    row: str, near: list[tuple[str, str, tuple[str, ...]]]
) -> None:
    reading = read_roster(table(row, columns="family"))
    assert [(miss.kind, miss.name, miss.near) for miss in near_misses(reading.rows, after(NEAR))] == near


def test_a_name_that_nearly_is_an_earlier_one_of_the_file_is_found_in_the_same_family() -> None:
    reading = read_roster(
        table("Lena,Tue,16:00,30,Berg", "Lina,Wed,16:00,30,Berg", "Lenna,Wed,16:00,30,Sato", columns="family")
    )
    assert [(miss.name, miss.near) for miss in near_misses(reading.rows, EMPTY)] == [("Lina", ("Lena",))]


def test_another_number_is_another_name() -> None:
    reading = read_roster(table(*(f"Student {number},Mon,16:00,30" for number in range(1, 12))))
    assert near_misses(reading.rows, EMPTY) == ()


def test_an_answer_is_the_name_of_all_rows_that_have_the_other() -> None:
    reading = read_roster(table("Mirielle,Tue,17:00,30,Dupond", "Mirielle,Wed,17:00,30,Dupond", columns="family"))
    named = reading.named({("student", "Mirielle"): "Mireille", ("family", "Dupond"): "Dupont"})
    assert {(row.student, row.family) for row in named.rows} == {("Mireille", "Dupont")}
    assert not [edit for edit in plan_of(named, after(NEAR)).edits if isinstance(edit.after, Student | Family)]


def test_a_weekly_time_that_is_over_when_it_comes_is_told_once() -> None:
    reading = read_roster(
        table("Ilse,Tue,16:00,30,2026-01-01,2026-05-01", "Ilse,Wed,16:00,30,,2099-01-01", columns="from,until")
    )
    found = plan_of(reading, EMPTY, utc("2026-12-01 12:00"))
    assert found.over == (
        "ended already, no lessons to come: Ilse, Tuesday 4:00 pm, 30 minutes, from 2026-01-01, through 2026-05-01 (family Ilse)",
    )
    assert plan_of(reading, carried_out(EMPTY, whole(found)), utc("2026-12-01 12:00")).over == ()


GUARDIANS = "family email guardian phone gets"


def test_guardians_are_told_with_what_is_known_of_them_and_what_changes() -> None:
    text = table("Nora,Fri,14:00,45,Bell,ana@bell.example,Ana,602 555 0100,notes", columns=GUARDIANS)
    assert "new guardian of Bell: Ana, ana@bell.example, 602 555 0100, gets notes" in plan(text).lines
    studio = after(text)
    assert plan(text, studio).lines == ()
    changed = text.replace("ana@bell", "ana@new").replace("notes", "none").replace(",Ana,", ",Ana; Per,")
    assert plan(changed, studio).lines == (
        "guardian of Bell, Ana: email ana@bell.example -> ana@new.example, gets notes -> none",
        "new guardian of Bell: Per, gets none",
    )


def test_an_address_that_another_family_has_is_told_once_and_taken() -> None:
    text = table("Nora,Fri,14:00,45,Bell,h@example.org", columns="family email")
    found = plan(text, STUDIO)
    assert found.shared == ("h@example.org of Bell is an address of Haugen too",)
    studio = after(text, STUDIO)
    assert [each.email for each in studio.guardians] == ["h@example.org", "h@example.org"]
    assert plan(text, studio).shared == ()


def test_more_guardians_in_gets_than_there_are_is_a_fault() -> None:
    with pytest.raises(BadInput, match=r'Line 2, gets: found "notes; none", for 2 guardians where there is 1\. Write'):
        plan(table("Nora,Fri,14:00,45,Bell,a@bell.example,,,notes; none", columns=GUARDIANS))


def test_a_first_name_and_a_family_that_are_a_trial_students_name_become_that_student() -> None:
    trial = Family(id=FamilyId(1), name="Nora Bell", zone="America/Phoenix")
    nora = Student(id=StudentId(2), family_id=trial.id, name="Nora Bell", remark="from the trial")
    known = Known(families=(trial,), students=(nora,))
    reading = read_roster(table("Nora,Fri,14:00,45,Bell", columns="family"))
    assert [miss.near for miss in near_misses(reading.rows, known)] == [("Nora Bell",)]
    found = plan_of(reading.named({("student", "Nora"): "Nora Bell"}), known)
    assert found.lines[:2] == ("family renamed: Nora Bell -> Bell", "student renamed: Nora Bell -> Nora")
    studio = carried_out(known, whole(found))
    assert studio.students == (replace(nora, name="Nora"),)
    assert studio.families == (replace(trial, name="Bell"),)
    # She is asked about once: the file says now what the studio has.
    assert near_misses(reading.rows, studio) == ()
    assert plan_of(reading, studio).lines == ()
    # So she is where the answer is that it is somebody else.
    other = carried_out(known, whole(plan_of(reading, known)))
    assert sorted(each.name for each in other.students) == ["Nora", "Nora Bell"]
    assert near_misses(reading.rows, other) == ()


def test_a_trial_student_joins_the_family_of_a_sibling() -> None:
    bell = Family(id=FamilyId(3), name="Bell", zone="America/Phoenix")
    trial = Family(id=FamilyId(1), name="Nora Bell", zone="America/Phoenix")
    nora = Student(id=StudentId(2), family_id=trial.id, name="Nora Bell")
    known = Known(families=(trial, bell), students=(nora, Student(id=StudentId(4), family_id=bell.id, name="Jo")))
    reading = read_roster(table("Nora,Fri,14:00,45,Bell", columns="family"))
    assert [miss.near for miss in near_misses(reading.rows, known)] == [("Nora Bell",)]
    studio = carried_out(known, whole(plan_of(reading.named({("student", "Nora"): "Nora Bell"}), known)))
    assert [(each.name, each.family_id) for each in studio.students] == [("Nora", 3), ("Jo", 3)]


def test_a_namesake_in_another_family_stays_who_she_is() -> None:
    trial, sato = Family(id=FamilyId(1), name="Nora Bell", zone=HOME), Family(id=FamilyId(3), name="Sato", zone=HOME)
    nora, other = (
        Student(id=StudentId(2), family_id=trial.id, name="Nora Bell"),
        Student(id=StudentId(4), family_id=sato.id, name="Nora"),
    )
    known = Known(families=(trial, sato), students=(nora, other))
    reading = read_roster(table("Nora,Fri,14:00,45,Bell", "Nora,Mon,14:00,45,Sato", columns="family"))
    assert [miss.near for miss in near_misses(reading.rows, known)] == [("Nora Bell",)]
    studio = carried_out(known, whole(plan_of(reading.named({("student", "Nora"): "Nora Bell"}), known)))
    assert [(each.name, each.family_id) for each in studio.students] == [("Nora", 1), ("Nora", 3)]
    assert near_misses(reading.rows, studio) == ()


def test_what_may_be_shown_of_a_student_is_taken_in_and_a_blank_cell_says_nothing_any_more() -> None:
    row, now = "Ilse,Tue,4 pm,45", utc("2026-12-01 18:00")
    first = read_roster(table(f"{row},named; not in pictures", columns="permissions"))
    studio = carried_out(EMPTY, whole(plan_of(first, EMPTY, now)))
    assert [(each.what, each.is_given, each.said_on) for each in studio.permissions] == [
        (Shown.NAMED, True, now.date()), (Shown.PICTURED, False, now.date())
    ]  # fmt: skip
    later = now + timedelta(days=30)
    second = read_roster(table(f"{row},named; recorded until 2027-06-30", columns="permissions"))
    changed = plan_of(second, studio, later)
    assert changed.lines == (
        "Ilse: no longer said: may not be in pictures",
        "Ilse may be recorded through Wednesday, June 30, 2027",
    )
    studio = carried_out(studio, whole(changed))
    assert [(each.what, each.said_on) for each in studio.permissions] == [
        (Shown.NAMED, now.date()), (Shown.RECORDED, later.date())
    ]  # fmt: skip
    assert plan_of(read_roster(table(row)), studio, later).edits == ()
    assert (
        carried_out(
            studio, whole(plan_of(read_roster(table(f"{row},", columns="permissions")), studio, later))
        ).permissions
        == ()
    )
