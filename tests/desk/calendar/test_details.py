"""What the roster knows of one student, changed by a line."""

from datetime import UTC, datetime

import pytest
from support.sample import sample_studio

from cockpit.desk.calendar.proposals import Purpose
from cockpit.studio.errors import BadInput, Refused
from cockpit.studio.people.people import PlanForm
from cockpit.studio.roster.columns import OF_FAMILY, OF_STUDENT

TEN = datetime(2026, 12, 1, 16, tzinfo=UTC)  # 10:00 in Chicago


@pytest.fixture
def studio(tmp_path):
    with sample_studio(tmp_path, TEN) as (studio, _clock):
        yield studio


def of(studio, name="Ilse"):
    return next(each for each in studio.desk.day.bookings if each.student.name == name)


def propose(studio, line):
    return studio.desk.arranging.propose(Purpose.DETAILS, of(studio), line)


def do(studio, line):
    proposal = propose(studio, line)
    studio.desk.arranging.do(proposal)
    studio.desk.day.reload()
    return proposal.understood


def records(studio):
    people = studio.store.reading.people()
    student = next(each for each in people.students.values() if each.id == of_id(studio))
    return student, people.families[student.family_id], studio.store.reading.standing_times()


def of_id(studio):
    people = studio.store.reading.people()
    (family,) = [each for each in people.families.values() if each.name.startswith("Brandvold")]
    return next(each.id for each in people.students.values() if each.family_id == family.id)


@pytest.mark.parametrize(
    ("line", "said", "changed"),
    [
        ("language es", "language: es", {"language": "es"}),
        ("clock 24", "clock: 24", {"hours": 24}),
        ("remark likes duets: a lot", "remark: likes duets: a lot", {"remark": "likes duets: a lot"}),
        ("remark -", "remark: none", {"remark": None}),
        ("25 a day", "daily minutes: 25", {"daily_minutes": 25}),
        ("practice days mon-wed", "practice days: Mon-Wed", {"practice_days": frozenset({0, 1, 2})}),
        ("plan list", "plan: list", {"plan": PlanForm.LIST}),
        ("call her Ilsabe", "name: Ilsabe", {"name": "Ilsabe"}),
        ("send by none", "send by: none", {"send_by": "none"}),
    ],
)
def test_one_thing_is_changed_and_undo_brings_it_back(studio, line, said, changed):
    before = records(studio)
    assert said in do(studio, line)
    student, family, times = records(studio)
    assert times == before[2]
    for name, value in changed.items():
        record = student if hasattr(student, name) and (name != "name" or "call" in line) else family
        assert getattr(record, name) == value
    studio.desk.teaching.undo()
    assert records(studio) == before


def test_several_things_stand_in_one_line(studio):
    said = do(studio, "language de, clock 24, family Brandvold-Ruiz, call link https://call.example.org/new")
    assert said == (
        "Ilse, Brandvold family: language: de; clock: 24; family: Brandvold-Ruiz; call link: https://call.example.org/new."
    )
    student, family, times = records(studio)
    assert (family.language, family.hours, family.name) == ("de", 24, "Brandvold-Ruiz")
    assert {each.call_link for each in times if each.student_id == student.id} == {"https://call.example.org/new"}


@pytest.mark.parametrize(
    ("line", "named"),
    [
        ("favorite color blue", '"favorite color blue" is not understood'),
        ("language klingon", "Language: found klingon"),
        ("clock 13", "Clock: found 13"),
        ("language", "Language of what"),
        ("language es, language de", "says language twice"),
        ("zone -", "Zone of what"),
        ("call link my room", "Call link: found my room"),
        ("family macaskill", "Another family is called"),
        ("tue 5pm from jan 12", "is not understood.*`s` changes the weekly time"),
    ],
)
def test_what_cannot_be_used_is_named_and_nothing_changes(studio, line, named):
    before = records(studio)
    with pytest.raises(BadInput, match=named):
        propose(studio, line)
    assert records(studio) == before


def test_what_is_so_already_is_told(studio):
    with pytest.raises(Refused, match="That is so already"):
        propose(studio, "call her Ilse")


def test_every_column_of_a_student_and_a_family_can_be_changed_by_its_name(studio):
    for column in (*OF_FAMILY, *OF_STUDENT):
        with pytest.raises(BadInput, match="of what"):
            propose(studio, column.name)
