"""What the roster knows of one student, changed by a line."""

from datetime import UTC, datetime

import pytest
from support.sample import sample_studio

from cockpit.desk.calendar.proposals import Purpose
from cockpit.papers.family.csv_text import csv_text
from cockpit.screens.calendar.ahead_rows import ahead_options
from cockpit.studio.errors import BadInput, Refused
from cockpit.studio.people.people import Level, PlanForm
from cockpit.studio.roster.columns import COLUMNS, OF_FAMILY, OF_STUDENT

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
        ("level elementary", "level: elementary", {"level": Level.ELEMENTARY}),
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


def test_a_link_alone_is_that_of_the_calls(studio):
    assert "call link: https://call.example.org/two" in do(studio, "link https://call.example.org/two")
    with pytest.raises(BadInput, match=r'Call link: found room 5\. Write a web address that begins with "https://"'):
        propose(studio, "link room 5")


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


def shown_of(studio):
    return [
        (each.what.value, each.is_given, each.until_on and str(each.until_on), each.words)
        for each in studio.store.reading.permissions()
    ]


def test_what_may_be_shown_is_a_detail_and_undo_takes_it_back(studio):
    assert do(studio, "may be named, recorded until jun 30: for the audition, language de") == (
        "Ilse, Brandvold family: language: de; may be named; may be recorded through Wednesday, June 30, 2027 (for the audition)."
    )
    assert shown_of(studio) == [("named", True, None, ""), ("recorded", True, "2027-06-30", "for the audition")]
    (named, _) = before = studio.store.reading.permissions()
    assert (str(named.said_on), named.student_id) == ("2026-12-01", of_id(studio))
    do(studio, "may not be named")
    assert shown_of(studio)[0] == ("named", False, None, "")
    studio.desk.teaching.undo()
    assert studio.store.reading.permissions() == before
    with pytest.raises(Refused, match="That is so already"):
        propose(studio, "may be named")
    assert "so nothing may" in do(studio, "permissions -")
    assert shown_of(studio) == []
    studio.desk.teaching.undo()
    assert studio.store.reading.permissions() == before


@pytest.mark.parametrize(
    ("line", "named"),
    [
        ("may be on stage", '"may be on stage" is not understood. A student may be seen in a recital'),
        ("may be recorded until feb 30", "30"),
        ("may be recorded until 2026-01-01", "has passed"),
        ("may be named, permissions -", "Keep one"),
        ("recorded", '"recorded" is not understood'),
    ],
)
def test_a_permission_that_is_not_understood_is_named_and_nothing_is_kept(studio, line, named):
    with pytest.raises(BadInput, match=named):
        propose(studio, line)
    assert shown_of(studio) == []


def test_the_roster_that_is_written_has_it_and_changes_nothing_when_it_is_read(studio):
    do(studio, 'may be seen in a recital: "first name, no town", may not be in pictures')
    written = studio.enrolling.written()
    cell = 'seen in a recital: "first name, no town"; not in pictures'
    assert next(row for row in written.rows if cell in row)[0] == "Ilse"
    proposal = studio.enrolling.look_at(csv_text(COLUMNS, written.rows))
    assert (proposal.lines, proposal.edits) == ((), ())


def test_coming_up_names_and_counts_what_ends_within_thirty_days(studio):
    before = studio.desk.ahead.to_settle()
    do(studio, "may be recorded until dec 31, may not be named")
    (ending,) = studio.desk.ahead.outlook(12).permissions
    assert studio.desk.ahead.to_settle() == before + 1
    assert (ending.what, str(ending.until_on)) == ("recorded", "2026-12-31")
    (row,) = [
        str(option.prompt)
        for option in ahead_options(studio.desk.ahead.outlook(12), studio.preferences.home, 80)
        if (option.id or "").startswith("permission")
    ]
    assert " ".join(row.split()) == "○ Ilse may be recorded through Thursday, December 31, 2026 in 30 days"
    do(studio, "may be recorded until jan 1 2027")
    assert studio.desk.ahead.outlook(12).permissions == ()
    assert studio.desk.ahead.to_settle() == before


def left_of(studio):
    return [(each.student_id, each.strand, each.until_on) for each in studio.store.reading.strands_left()]


def test_a_strand_is_left_out_for_good_and_taken_up_again_and_undo_takes_it_back(studio):
    assert do(studio, "Without Theory, without music of the world, language de") == (
        "Ilse, Brandvold family: language: de; without theory; without music of the world."
    )
    both = [(of_id(studio), "music of the world", None), (of_id(studio), "theory", None)]
    assert left_of(studio) == both
    with pytest.raises(Refused, match="That is so already"):
        propose(studio, "without theory")
    assert do(studio, "with theory again").endswith(": with theory.")
    assert left_of(studio) == both[:1]
    studio.desk.teaching.undo()
    assert left_of(studio) == both
    studio.desk.teaching.undo()
    assert left_of(studio) == []


@pytest.mark.parametrize(
    ("line", "named"),
    [
        ("without harmony", '"without harmony" leaves out nothing of the mix. Type one of warm-up, scales'),
        ("without theory, with theory", 'The line says "theory" twice'),
        ("with theory", "That is so already"),
        ("with harmony", '"with harmony" is not understood'),
    ],
)
def test_a_strand_that_cannot_be_left_out_is_told(studio, line, named):
    with pytest.raises((BadInput, Refused), match=named):
        propose(studio, line)
    assert left_of(studio) == []
