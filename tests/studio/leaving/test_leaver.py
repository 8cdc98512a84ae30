"""A family that leaves, recognized in an older state of the studio."""

from support.studio import BRANDVOLD, BRANDVOLDS, ILSE, OKONJO, TEODOR, family, student

from cockpit.studio.leaving.leaver import Leaver, is_named, leaver_of, names_of
from cockpit.studio.lessons.scheduled import People
from cockpit.studio.people.people import FamilyId, GuardianId, StudentId
from cockpit.studio.values import replace

TODAY = People(students={ILSE.id: ILSE, TEODOR.id: TEODOR}, families={BRANDVOLD.id: BRANDVOLD, OKONJO.id: OKONJO})
LEAVER = leaver_of(TODAY, [BRANDVOLDS], BRANDVOLD)


def found(families, students, leaver: Leaver = LEAVER):
    return leaver.families_among(families, students), leaver.students_among(students)


def test_the_family_as_it_is_today():
    assert found([BRANDVOLD, OKONJO], [ILSE, TEODOR]) == ({1}, {1})


def test_under_an_earlier_name_it_is_known_by_its_number_and_a_student():
    assert found([replace(BRANDVOLD, name="Ilse"), OKONJO], [ILSE, TEODOR])[0] == {1}


def test_a_number_that_was_somebody_elses_before_a_backup_was_put_back_is_not_theirs():
    assert found([replace(BRANDVOLD, name="Quist")], [replace(ILSE, name="Bo")]) == (set(), set())
    assert found([replace(BRANDVOLD, name="Quist")], []) == (set(), set())


def test_taken_in_under_another_number_it_is_known_by_its_name():
    earlier = replace(BRANDVOLD, id=FamilyId(77), name=" brandvold")
    assert found([earlier], [replace(ILSE, id=StudentId(78), family_id=earlier.id)])[0] == {77}


def test_another_family_of_the_name_that_is_in_the_studio_today_stays():
    twin = family(id=FamilyId(9))
    today = replace(TODAY, families={**TODAY.families, twin.id: twin})
    assert found([BRANDVOLD, twin], [ILSE], leaver_of(today, [], BRANDVOLD))[0] == {1}
    assert found([BRANDVOLD, twin], [ILSE], leaver_of(today, [], twin))[0] == {9}


def test_a_student_who_lived_elsewhere_then_is_found_there_and_an_emptied_family_too():
    own = family(id=FamilyId(8), name="Ilse")
    assert found([own, OKONJO], [replace(ILSE, family_id=own.id), TEODOR]) == ({8}, {1})
    with_others = [replace(ILSE, family_id=OKONJO.id), TEODOR]
    assert found([OKONJO], with_others) == (set(), {1})


def test_a_student_of_another_family_today_who_was_theirs_is_told():
    assert LEAVER.others_among([replace(TEODOR, family_id=BRANDVOLD.id), ILSE]) == (
        replace(TEODOR, family_id=BRANDVOLD.id),
    )


def test_the_words_that_tell_a_family_are_those_that_nobody_else_has():
    other = student(id=StudentId(5), family_id=OKONJO.id)
    today = replace(TODAY, students={**TODAY.students, other.id: other})
    grandmother = replace(BRANDVOLDS, id=GuardianId(2), family_id=OKONJO.id, phone=None)
    assert names_of(leaver_of(today, [BRANDVOLDS, grandmother], BRANDVOLD)) == ("brandvold", "+1 602 555 0100")
    assert names_of(LEAVER) == ("brandvold", "ilse", "liv", "brandvold@example.org", "+1 602 555 0100")


def test_a_name_counts_as_a_word_of_its_own():
    assert is_named(["tor"], "a duet with TOR.")
    assert not is_named(["tor"], "a tortoise, a mentor")
    assert is_named(["zoë"], "for Zoe\u0308")


def test_a_student_is_told_by_the_first_name_too_where_nobody_else_is_called_so():
    whole = replace(ILSE, name="Ilse Brandvold")
    today = replace(TODAY, students={**TODAY.students, whole.id: whole})
    assert names_of(leaver_of(today, [], BRANDVOLD)) == ("brandvold", "ilse brandvold", "ilse")
