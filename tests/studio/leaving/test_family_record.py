"""A family's record without what is the teacher's own: whatever she types, none of it is left."""

import json
from datetime import date

from hypothesis import given
from hypothesis import strategies as st
from support.studio import BRANDVOLD, BRANDVOLDS, ILSE, STARTS_AT, TO_DENVER, home, lesson, standing

from cockpit.papers.family.family_files import family_files
from cockpit.studio.changes.pieces import Piece, PieceAlias, StrandLeft
from cockpit.studio.changes.recital import RecitalId, RecitalItem, RecitalItemId
from cockpit.studio.changes.records import BoardLine, FollowUp, Heard, MarkSet, Note
from cockpit.studio.leaving.family_record import FamilyRecord, titles_of, without_private
from cockpit.studio.lessons.breaks import Pause, PauseId
from cockpit.studio.lessons.calls import CallLoss
from cockpit.studio.lessons.lesson import LessonId
from cockpit.studio.notes.notes import Mark, for_family, read_notes
from cockpit.studio.people.people import Level
from cockpit.studio.people.permissions import Permission, Shown
from cockpit.studio.values import replace

SECRET = "wrzlbrmft"
OPEN = st.sampled_from(
    [
        "Scales: D major, q=72",
        "Piece: The Heron",
        "Well done.",
        "",
        "Ear: hum",
        "-dim.",
        "Get: rosin (dark), wax",
        "Goal: the Heron by heart, by dec 19",
        "  indented",
    ]
)
KEPT_BACK = st.sampled_from(
    [f"Private: {SECRET}", f"Follow-up: {SECRET}", f"next time: {SECRET}", f"Scales: A. Private: {SECRET}",
     f"Private:\n{SECRET}\nScales: {SECRET}", f"1) PRIVATE - {SECRET}"]
)  # fmt: skip


def record(body: str) -> FamilyRecord:
    """A lesson with these notes, where everything that is the teacher's own is the secret."""
    lines = {line.typed for line in read_notes(body)}
    return FamilyRecord(
        family=BRANDVOLD,
        guardians=(replace(BRANDVOLDS, email=SECRET, phone=SECRET),),
        students=(replace(ILSE, remark=SECRET, level=Level.BEGINNER, ended_because=SECRET),),
        permissions=(
            Permission(student_id=ILSE.id, what=Shown.NAMED, is_given=True, said_on=date(2026, 12, 1), words=SECRET),
        ),
        standing_times=(standing(),),
        imported_times=(),
        lessons=(lesson(),),
        notes=(Note(lesson_id=lesson().id, body=body, changed_at=STARTS_AT),),
        marks=tuple(MarkSet(lesson_id=lesson().id, line=line, mark=Mark.DONE) for line in sorted(lines)),
        heard=tuple(Heard(lesson_id=lesson().id, line=line, tempo=60) for line in sorted(lines)),
        follow_ups=(FollowUp(lesson_id=lesson().id, body=SECRET),),
        exports=(),
        breaks=(),
        pauses=(Pause(id=PauseId(9), student_id=ILSE.id, from_on=date(2027, 6, 1), reason=SECRET),),
        outgoing=(),
        titles={SECRET: "Ilse"},
        accepted=(),
        withdrawn_lessons=(),
        withdrawn_times=(),
        pieces=(Piece(student_id=ILSE.id, key=SECRET), Piece(student_id=ILSE.id, key="old mill", origin="Ireland")),
        piece_aliases=(PieceAlias(student_id=ILSE.id, key=SECRET, piece="old mill", is_one=False),),
        board_lines=(BoardLine(lesson_id=lesson().id, words=SECRET, put_at=STARTS_AT),),
        strands_left=(StrandLeft(student_id=ILSE.id, strand=SECRET),),
        call_losses=(CallLoss(lesson_id=lesson().id, lost_at=STARTS_AT, given_in=LessonId(SECRET)),),
    )


@given(st.lists(st.one_of(OPEN, KEPT_BACK), max_size=8).map("\n".join))
def test_nothing_of_the_teachers_own_is_in_any_file(body):
    files = family_files(without_private(record(body)), STARTS_AT, "0")
    for name, text in files.items():
        assert SECRET not in text, name
    assert json.loads(files["family.json"])["students"][0]["level"] is None


@given(st.lists(st.one_of(OPEN, KEPT_BACK), max_size=8).map("\n".join))
def test_what_the_family_may_see_is_all_there_with_its_marks(body):
    seen, given_away = for_family(body), without_private(record(body))
    again = for_family(given_away.notes[0].body)
    assert [(line.area, line.text) for line in again.assignments] == [(s.area, s.text) for s in seen.assignments]
    assert [remark for remark in again.remarks if remark.strip()] == [r for r in seen.remarks if r.strip()]
    assert {mark.line for mark in given_away.marks} == {line.typed for line in (*again.assignments, *again.goals)}
    assert {each.line for each in given_away.heard} == {line.typed for line in (*again.assignments, *again.goals)}
    assert [goal.text for goal in again.goals] == [goal.text for goal in seen.goals]


def test_a_record_with_everything_is_told_from_one_without():
    assert record("").has_private
    assert not without_private(record("")).has_private
    assert set(FamilyRecord.__struct_fields__) >= {"notes", "outgoing", "titles"}


def test_titles_of_a_calendar_that_name_a_student_of_theirs_are_theirs_also_by_the_series_they_stand_in():
    titles = {
        "Lesson with Ilse": "Ilse",
        "Mimi (in place of Lesson with Ilse)": "Teodor",
        "Mimi (in place of Ilse)": "Teodor",
        "Teo": "Teodor",
    }
    assert titles_of(titles, ["Ilse"], ["Teodor"]) == {title: titles[title] for title in titles if "Ilse" in title}
    assert list(titles_of(titles, ["Teodor"], ["Ilse"])) == list(titles)[1:]


def test_each_lesson_of_a_family_that_moves_is_in_the_zone_of_its_day():
    later = lesson(id=LessonId("w1-2027-03-16"), starts_at=home("2027-03-16 16:00"))
    moved = replace(record(""), family=replace(BRANDVOLD, zone=TO_DENVER), lessons=(lesson(), later))
    files = family_files(moved, STARTS_AT, "0")
    assert [line.split(",")[1:4] for line in files["lessons.csv"].splitlines()[1:]] == [
        ["2026-12-01", "15:00:00", "America/Phoenix"],
        ["2027-03-16", "15:00:00", "America/Denver"],
    ]
    assert json.loads(files["family.json"])["family"]["zone"] == "America/Phoenix; America/Denver from 2027-03-01"


def test_who_plays_along_is_not_given_away_as_it_may_be_of_another_family():
    item = RecitalItem(
        id=RecitalItemId(1), recital_id=RecitalId(1), position=1, student_id=ILSE.id, piece="Mill", with_whom=SECRET
    )
    whole = replace(record(""), recital_items=(item,))
    assert without_private(whole).recital_items == (replace(item, with_whom=None),)
