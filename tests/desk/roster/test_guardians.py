"""The guardians of a family at the desk: understood before anything is done, and taken back in one step."""

import pytest
from support.sample import sample_studio

from cockpit.desk.calendar.proposals import Purpose
from cockpit.desk.lookup import addresses_for
from cockpit.studio.errors import BadInput, Refused


@pytest.fixture
def studio(tmp_path):
    with sample_studio(tmp_path) as (studio, _clock):
        yield studio


def of(studio, name="Ilse"):
    return next(each for each in studio.desk.roster().view().entries if each.student.name == name)


def do(studio, line, name="Ilse"):
    proposal = studio.desk.roster().propose(Purpose.GUARDIANS, of(studio, name), line)
    studio.desk.arranging.do(proposal)
    return proposal


def test_guardians_come_go_and_get_what_the_line_says(studio):
    before = studio.store.reading.guardians()
    family = of(studio).family
    proposal = do(studio, "ana ana@example.org notes news, not brandvold@example.org, phone ana +1 602 555 0100")
    assert proposal.understood == (
        "Brandvold family: Ana (new) gets notes and news at ana@example.org, phone +1 602 555 0100, for you alone; "
        "brandvold@example.org is no guardian any more."
    )
    assert proposal.troubles == ()
    assert addresses_for(studio.store.reading, family.id) == ("ana@example.org",)
    said = do(studio, "ana news, tom tom@example.org notes").understood
    assert said == ("Brandvold family: Ana gets news at ana@example.org; Tom (new) gets notes at tom@example.org.")
    assert addresses_for(studio.store.reading, family.id) == ("tom@example.org",)
    (ana, tom) = studio.desk.roster().guardians(family.id)
    assert (ana.phone, tom.position > ana.position) == ("+1 602 555 0100", True)
    assert do(studio, "ana ana.bell@example.org").understood == (
        "Brandvold family: Ana gets news at ana.bell@example.org, in place of ana@example.org."
    )
    for _ in range(3):
        studio.desk.teaching.undo()
    assert studio.store.reading.guardians() == before


def test_what_she_would_not_expect_is_told_before(studio):
    told = do(studio, "brandvold@example.org nothing").troubles
    assert told == ("Nobody in the Brandvold family gets the notes then.",)
    told = do(studio, "gran macaskill@example.org").troubles
    assert told == ("macaskill@example.org is an address of the MacAskill family, too.",)


def test_a_line_that_changes_nothing_or_names_nobody_is_refused(studio):
    with pytest.raises(Refused, match="That is so already"):
        do(studio, "brandvold@example.org notes news")
    with pytest.raises(BadInput, match=r"No guardian of this family is called dad@example.org\. There is brandvold"):
        do(studio, "not dad@example.org")
