"""The line that says whom a letter is for: each word is claimed once, and what is not understood is named."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cockpit.studio.errors import BadInput
from cockpit.studio.lessons.status import Status
from cockpit.studio.people.people import Family, FamilyId, Student, StudentId
from cockpit.studio.roster.whom import Candidate, read_whom

MONDAY, TUESDAY = 0, 1


def somebody(number, name, family, status=Status.ACTIVE, plays=(), on=(), **more):
    of = Family(id=FamilyId(len(family)), name=family, zone="America/Denver")
    student = Student(id=StudentId(number), family_id=of.id, name=name)
    return Candidate(
        student=student, family=of, status=status, instruments=frozenset(plays), weekdays=frozenset(on), **more
    )


THERE = (
    somebody(1, "Ilse", "Bell", plays=["cello"], on=[TUESDAY]),
    somebody(2, "Tor", "Bell", plays=["viola"], on=[MONDAY], is_owed=True),
    somebody(3, "Wren", "Okonjo", plays=["cello"], on=[MONDAY], is_in_recital=True),
    somebody(4, "Ilse", "Perreault", status=Status.PAUSED, plays=["double bass"], on=[TUESDAY]),
    somebody(5, "Viola", "Quist", status=Status.TRIAL),
    somebody(6, "Sam", "Ng", status=Status.ENDED, plays=["cello"], on=[TUESDAY]),
)


def names(line):
    return [f"{each.student.name} {each.family.name}" for each in read_whom(line, THERE).students]


@pytest.mark.parametrize(
    ("line", "expected"),
    [
        ("all", ["Ilse Bell", "Tor Bell", "Wren Okonjo", "Ilse Perreault"]),
        ("Everybody", ["Ilse Bell", "Tor Bell", "Wren Okonjo", "Ilse Perreault"]),
        ("cello", ["Ilse Bell", "Wren Okonjo"]),
        ("the cello students", ["Ilse Bell", "Wren Okonjo"]),
        ("double bass", ["Ilse Perreault"]),
        ("tuesday", ["Ilse Bell", "Ilse Perreault"]),
        ("on Tuesdays", ["Ilse Bell", "Ilse Perreault"]),
        ("cello tuesday", ["Ilse Bell"]),
        ("cello, tuesday", ["Ilse Bell", "Wren Okonjo", "Ilse Perreault"]),
        ("cello and double bass", ["Ilse Bell", "Wren Okonjo", "Ilse Perreault"]),
        ("owes a make-up", ["Tor Bell"]),
        ("in the recital", ["Wren Okonjo"]),
        ("paused", ["Ilse Perreault"]),
        ("trial", ["Viola Quist"]),
        ("bell", ["Ilse Bell", "Tor Bell"]),
        ("wren", ["Wren Okonjo"]),
        ("ilse bell, wren", ["Ilse Bell", "Wren Okonjo"]),
        ("sam", ["Sam Ng"]),
        ("viola quist", ["Viola Quist"]),
        ("viola students", ["Tor Bell"]),
        ("all but not bell", ["Wren Okonjo", "Ilse Perreault"]),
        ("all, but not bell, wren", ["Ilse Perreault"]),
        ("all except cello tuesday", ["Tor Bell", "Wren Okonjo", "Ilse Perreault"]),
        ("cello but not ilse bell", ["Wren Okonjo"]),
    ],
)
def test_words_that_stand_together_narrow_a_comma_adds_and_but_not_leaves_out(line, expected):
    assert names(line) == expected


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("cello on tuesday", "cello students on Tuesday"),
        ("tuesday", "students on Tuesday"),
        ("paused cello, wren", None),
        ("cello, wren but not bell", "cello students and Wren (Okonjo), but not the Bell family"),
        ("all in the recital", "all students in the next recital"),
    ],
)
def test_it_is_said_in_words_who_is_meant(line, said):
    if said is None:
        with pytest.raises(BadInput, match='"paused cello" is nobody at the moment'):
            read_whom(line, THERE)
    else:
        assert read_whom(line, THERE).said == said


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("", "Type whom the letter is for"),
        ("the families", "Type whom the letter is for"),
        (" , ", "Type whom the letter is for"),
        ("flute", '"flute" is not understood'),
        ("flute and harp students", '"flute" is not understood'),
        ("cello harp kazoo", '"harp" and "kazoo" are not understood'),
        ("ilse", 'could be Ilse (Bell) and Ilse (Perreault). Type more of the name'),
        ("viola", "could be Viola (Quist) and viola students"),
        ("all but not", "Type who is left out"),
        ("but not bell", "Type whom the letter is for"),
        ("wren but not wren", "Nobody is left"),
        ("all but not harp", '"harp" is not understood'),
        ("friday", '"friday" is nobody at the moment'),
        ("all " * 100, "too long"),
    ],
)  # fmt: skip
def test_what_is_not_understood_or_could_be_two_is_named(line, said):
    with pytest.raises(BadInput) as fault:
        read_whom(line, THERE)
    assert said in str(fault.value)


_WORDS = st.sampled_from(
    [
        "all",
        "cello",
        "tuesday",
        "bell",
        "wren",
        "ilse",
        "but not",
        ",",
        "and",
        "trial",
        "kazoo",
        "viola quist",
        "the",
        "paused",
    ]
)


@given(st.lists(_WORDS, max_size=7).map(" ".join))
def test_a_line_names_students_of_the_roster_once_each_or_is_refused_with_a_sentence(line):
    try:
        whom = read_whom(line, THERE)
    except BadInput as fault:
        said = str(fault)
        whom = None
    if whom is None:
        assert said.endswith(".")
        return
    assert whom.students
    assert list(whom.students) == [each for each in THERE if each in whom.students]
    assert "kazoo" not in line


@given(st.permutations(["bell", "wren", "double bass"]))
def test_the_order_of_the_parts_changes_nothing(parts):
    assert names(", ".join(parts)) == names("bell, wren, double bass")
