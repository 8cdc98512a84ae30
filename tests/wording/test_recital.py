"""A recital in words, as the shell prints it."""

from datetime import date, time

from support.studio import CLOCK, preferences

from cockpit.studio.changes.recital import Recital, RecitalId, RecitalItem, RecitalItemId
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.people.people import Family, FamilyId, Student, StudentId
from cockpit.studio.recital.program import RecitalPeople, program_of
from cockpit.studio.values import replace
from cockpit.wording.recital import recital_text

TALES = Recital(
    id=RecitalId(1), name="Winter tales", theme="snow and night", held_on=date(2026, 12, 19), at=time(12),
    zone="America/Chicago", minutes_limit=4, is_online=True, opening_seconds=180, closing_seconds=120,
)  # fmt: skip
PEOPLE = RecitalPeople(
    students={
        StudentId(1): Student(id=StudentId(1), family_id=FamilyId(1), name="Ishaan"),
        StudentId(2): Student(id=StudentId(2), family_id=FamilyId(2), name="שירה"),
    },
    families={
        FamilyId(1): Family(id=FamilyId(1), name="Banerjee", zone="Asia/Kolkata"),
        FamilyId(2): Family(id=FamilyId(2), name="Quist", zone="America/Chicago"),
    },
    permissions=(),
    time_off=(),
    times=(),
)


def item(number, **values):
    return RecitalItem(
        id=RecitalItemId(number),
        recital_id=TALES.id,
        position=number,
        student_id=StudentId(number),
        piece="Piece",
        **values,
    )


def test_a_recital_is_a_head_its_items_in_columns_and_what_stands_against_it():
    program = program_of(TALES, [item(1, seconds=90, is_computed=True), item(2)], PEOPLE, preferences())
    assert recital_text(program, CLOCK) == (
        "Winter tales · snow and night\n"
        "Saturday, December 19, 2026, 12:00 pm · online · 1:30 of music\n"
        "\n"
        "   12:00:00 pm   3:00  welcome\n"
        "1  12:03:00 pm  ~1:30  Ishaan   Piece\n"
        "2  12:05:30 pm      ?  שירה     Piece\n"
        "   12:05:30 pm   2:00  thanks\n"
        "Ends 12:07:30 pm, 3:30 over your 4 minutes.\n"
        "\n"
        "! Ishaan has no permission to be seen in a recital.\n"
        "! שירה's Piece has no length yet.\n"
        "! שירה has no permission to be seen in a recital.\n"
        "! It is night for the Banerjee family: Sat 11:30 pm in Kolkata.\n"
        "! The recital is 3:30 over its limit.\n"
    )


def test_a_recital_without_items_and_one_on_a_clock_of_24_hours():
    program = program_of(replace(TALES, at=time(19), place="hall", is_online=False), [], PEOPLE, preferences())
    assert recital_text(program, TeacherClock(zone="America/Chicago", hours=24)) == (
        "Winter tales · snow and night\nSaturday, December 19, 2026, 19:00 · hall · no items yet\n\n"
        "! The recital is 1:00 over its limit.\n"
    )
