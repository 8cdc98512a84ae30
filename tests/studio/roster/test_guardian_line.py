"""Lines about guardians: who gets what at which address, who is none any more, and a phone for the teacher alone."""

from itertools import count

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cockpit.studio.errors import BadInput
from cockpit.studio.people.people import FamilyId, Gets, Guardian, GuardianId
from cockpit.studio.roster.guardian_line import GuardianLine, read_guardians, with_line

BELL = FamilyId(1)
ANA = Guardian(id=GuardianId(1), family_id=BELL, name="Ana", email="ana@example.org")
DAD = Guardian(id=GuardianId(2), family_id=BELL, email="dad@example.org", phone="602 555 0101", position=1)
BOTH = frozenset(Gets)
NOTES = frozenset({Gets.NOTES})


def after(line, *known):
    numbers = count(9)
    for said in read_guardians(line):
        known = with_line(known, said, BELL, lambda: GuardianId(next(numbers)))
    return [(each.name, each.email, each.phone, each.gets) for each in known]


@pytest.mark.parametrize(
    ("line", "read"),
    [
        ("ana ana@example.org notes news", [GuardianLine(name="Ana", email="ana@example.org", gets=BOTH)]),
        ("ana ana@example.org notes, news", [GuardianLine(name="Ana", email="ana@example.org", gets=BOTH)]),
        ("Anna Berg gets only notes", [GuardianLine(name="Anna Berg", gets=NOTES)]),
        ("ana@example.org", [GuardianLine(email="ana@example.org")]),
        ("ana nothing", [GuardianLine(name="Ana", gets=frozenset())]),
        ("not dad@example.org", [GuardianLine(email="dad@example.org", is_out=True)]),
        ("not ana", [GuardianLine(name="Ana", is_out=True)]),
        ("phone ana +1 602 555 0100", [GuardianLine(name="Ana", phone="+1 602 555 0100")]),
        ("ana's phone: (602) 555-0100 (work)", [GuardianLine(name="Ana", phone="(602) 555-0100 (work)")]),
        ("phone 020 7946 0100", [GuardianLine(phone="020 7946 0100")]),
        ("phone ana -", [GuardianLine(name="Ana", phone="-")]),
        ("ana notes, not dad@example.org", [GuardianLine(name="Ana", gets=NOTES), GuardianLine(email="dad@example.org", is_out=True)]),
    ],
)  # fmt: skip
def test_a_line_says_one_thing_of_each(line, read):
    assert list(read_guardians(line)) == read


@pytest.mark.parametrize(
    ("line", "named"),
    [
        ("", "Type"),
        ("ana.example.org", '"ana.example.org" is no email address'),
        ("ana ana@example notes", '"ana@example" is no email address'),
        ("notes", "says nobody"),
        ("ana a@example.org b@example.org", "two email addresses"),
        ("ana notes nothing", "nothing and something"),
        ("phone ana 12", "no phone number"),
        ("not ana notes", "is not understood"),
        ("ana ana@example.org 2", '"2" is no'),
        (
            "ana ana@example.org notes bills",
            '"bills" is nothing that goes out. A guardian gets notes, news, or nothing.',
        ),
        ("ana at example", '"at example" is no email address'),
        ("x" * 501, "too long"),
    ],
)
def test_what_is_not_understood_is_named(line, named):
    with pytest.raises(BadInput) as refused:
        read_guardians(line)
    assert named in str(refused.value)


def test_a_guardian_is_found_by_address_by_name_or_alone():
    assert after("ana@example.org notes", ANA, DAD)[0] == ("Ana", "ana@example.org", None, NOTES)
    assert after("ANA ana.bell@example.org", ANA, DAD)[0] == ("Ana", "ana.bell@example.org", None, BOTH)
    assert after("tom dad@example.org", ANA, DAD)[1] == ("Tom", "dad@example.org", "602 555 0101", BOTH)
    assert after("phone +1 602 555 0199", ANA) == [("Ana", "ana@example.org", "+1 602 555 0199", BOTH)]
    assert after("phone ana 602 555 0199, not dad@example.org", ANA, DAD) == [
        ("Ana", "ana@example.org", "602 555 0199", BOTH)
    ]
    assert after("gran gran@example.org news", ANA)[1] == ("Gran", "gran@example.org", None, frozenset({Gets.NEWS}))
    assert after("phone gran 602 555 0107", ANA)[1] == ("Gran", None, "602 555 0107", BOTH)


@pytest.mark.parametrize(
    ("line", "named"),
    [
        ("not tom", "No guardian of this family is called Tom. There are Ana and dad@example.org."),
        ("anna notes", "No guardian of this family is called Anna."),
        ("phone tom -", "No guardian of this family is called Tom."),
        ("phone 602 555 0100", "More than one guardian may be meant"),
        ("ana dad@example.org", "More than one guardian may be meant"),
    ],
)
def test_nobody_is_changed_where_it_is_not_clear_who_is_meant(line, named):
    with pytest.raises(BadInput) as refused:
        after(line, ANA, DAD)
    assert named in str(refused.value)


@given(st.text(max_size=60))
def test_any_text_is_read_or_refused_with_a_sentence(text):
    said = ""
    try:
        read = read_guardians(text)
    except BadInput as fault:
        read, said = (), str(fault)
    assert read or said.endswith((".", '"'))
