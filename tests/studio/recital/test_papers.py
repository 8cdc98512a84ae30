"""What papers say of a recital: nothing of one family in another's, names as permitted, and each clock as it is that day."""

from datetime import UTC, date, datetime, time, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.phrases import IN_ENGLISH, SPOKEN
from support.studio import CLOCK

from cockpit.papers.recital.program import program_body, program_markdown, sheet_body, sheet_markdown, sheet_text
from cockpit.studio.changes.recital import Recital, RecitalId, RecitalItem, RecitalItemId
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.people.people import Family, FamilyId, Student, StudentId
from cockpit.studio.people.permissions import Permission, Shown
from cockpit.studio.preferences import Preferences
from cockpit.studio.recital.papers import calendar_days, family_program, public_program
from cockpit.studio.recital.program import AgainstRecital, RecitalPeople, program_of
from cockpit.studio.values import replace
from cockpit.wording.recital import trouble_words

ZONES = (
    "America/Phoenix", "America/Halifax", "America/St_Johns", "Europe/London", "Pacific/Honolulu", "Asia/Kolkata",
    "America/Chicago",
)  # fmt: skip
FAMILIES = {FamilyId(n): Family(id=FamilyId(n), name=f"Family{n}x", zone=ZONES[n % 7]) for n in range(5)}
# Two of each family; the numbers end with a letter, so that no name is within another one.
STUDENTS = {
    StudentId(n): Student(id=StudentId(n), family_id=FamilyId(n % 5), name=f"Name{n}x Family{n % 5}x")
    for n in range(10)
}
TALES = Recital(
    id=RecitalId(1),
    name="Winter tales",
    held_on=date(2026, 12, 19),
    at=time(12),
    zone="America/Chicago",
    is_online=True,
    link="https://call.example.org/zqlink",
)
SECRET = ("costume", "props", "enters", "note")  # nobody but the own family; a note nobody at all


def item_of(number, student, position, **more):
    fields = {each: f"zq{each}{number}x" for each in SECRET} | {"piece": f"Piece{number}x", "seconds": 90}
    return RecitalItem(
        id=RecitalItemId(number), recital_id=RecitalId(1), position=position, student_id=student, **(fields | more)
    )


def people(*permitted):
    given_ = (
        Permission(student_id=each, what=Shown.NAMED, is_given=True, said_on=date(2026, 1, 1)) for each in permitted
    )
    return RecitalPeople(students=STUDENTS, families=FAMILIES, permissions=tuple(given_), time_off=(), times=())


def program(items, *permitted, recital=TALES):
    return program_of(recital, items, people(*permitted), Preferences(home=TeacherClock(zone="America/Chicago")))


def papers_of(found, family_id, strangers=()):
    return family_program(found, FAMILIES[FamilyId(family_id)], {}, strangers)


def texts_of(papers):
    """All that a family gets, in every form."""
    return "\n".join(form(papers, 12, IN_ENGLISH) for form in (sheet_text, sheet_markdown, sheet_body))


ITEMS = st.lists(
    st.tuples(st.integers(0, 9), st.integers(1, 12), st.sampled_from((None, "zqbrother", "a track"))), max_size=14
)


@given(ITEMS, st.sets(st.integers(0, 9)))
def test_nothing_of_one_family_is_in_the_papers_of_another_and_names_are_shown_as_permitted(found, permitted):
    items = [
        item_of(number, StudentId(student), position, with_whom=with_whom and f"{with_whom}{number}x")
        for number, (student, position, with_whom) in enumerate(found)
    ]
    whole = program(items, *map(StudentId, permitted))
    for family in whole.families:
        papers = papers_of(whole, family.id)
        text = texts_of(papers)
        for item in items:
            of_family = STUDENTS[item.student_id].family_id == family.id
            for each in ("costume", "props", "enters"):
                assert (f"zq{each}{item.id}x" in text) is of_family
            assert f"zqnote{item.id}x" not in text
            assert of_family or f"zqbrother{item.id}x" not in text
            if not of_family:
                assert (f"Name{item.student_id}x" in text) is (item.student_id in permitted)
    public = public_program(whole, "America/Chicago")
    for form in (program_markdown, program_body):
        assert "zq" not in form(public, 12, IN_ENGLISH)  # the link, too
    assert [each.number for each in public.items] == list(range(1, len(public.items) + 1))


def test_who_plays_along_from_another_family_is_called_as_on_the_program():
    together = [item_of(1, StudentId(1), 1, with_whom="zqfriend"), item_of(2, StudentId(2), 1, with_whom="zqfriend")]
    papers = papers_of(program(together, StudentId(1)), 2)
    assert "With: Name1x" in texts_of(papers)
    assert "With: a student" in texts_of(papers_of(program(together, StudentId(1)), 1))
    assert "zqfriend" not in texts_of(papers)  # it was typed of both


def test_company_that_is_on_no_sheet_is_told_to_the_teacher():
    def company(found):
        return [
            (each.performer.called, trouble_words(each, CLOCK))
            for each in found.troubles
            if each.kind is AgainstRecital.COMPANY
        ]

    own, sibling, other = (
        item_of(1, StudentId(1), 1, with_whom="zqfather"), item_of(2, StudentId(6), 1), item_of(2, StudentId(2), 1),
    )  # fmt: skip
    assert company(program([own])) == company(program([own, sibling])) == []
    left_off = [("Name1x", '"With zqfather" is not on the sheet for Name1x: it may be about another family.')]
    assert company(program([own, other])) == left_off
    assert "zqfather" not in texts_of(papers_of(program([own, other]), 1))
    named = program([replace(own, with_whom="the mother of Name2x")], StudentId(2))
    assert [name for name, _ in company(named)] == ["Name1x"]
    assert company(program([replace(own, with_whom="a track"), other])) == []


def test_two_of_one_family_and_somebody_in_the_room_are_told_together():
    together = [
        item_of(1, StudentId(1), 1, with_whom="their father"),
        item_of(2, StudentId(6), 1, with_whom="their father"),
    ]
    text = texts_of(papers_of(program(together), 1))
    assert "With: Name6x and their father" in text
    assert "With: Name1x and their father" in text


def test_somebody_in_the_room_is_told_unless_it_names_a_student_of_another_family():
    alone = program([item_of(1, StudentId(1), 1, with_whom="Name2x at the piano")])
    assert "Name2x at the piano" in texts_of(papers_of(alone, 1))
    assert "at the piano" not in texts_of(papers_of(alone, 1, ["Name2x"]))
    german = program([item_of(1, StudentId(1), 1, with_whom="Name2xs Mutter")])
    assert "Mutter" not in texts_of(papers_of(german, 1, ["Name2x"]))


def test_a_name_of_her_own_choice_is_on_the_program_of_all():
    shown = program([item_of(1, StudentId(1), 1, shown_as="the Sailor"), item_of(2, StudentId(2), 2)])
    names = [each.names for each in public_program(shown, "America/Chicago").items]
    assert names == [("the Sailor",), (None,)]
    german = program_markdown(public_program(shown, "America/Chicago"), 24, SPOKEN["de"])
    assert "jemand aus der Klasse" in german


def test_another_date_on_the_clock_of_a_family_is_said():
    evening = replace(TALES, at=time(19, 30))
    found = program([item_of(1, StudentId(5), 1), item_of(2, StudentId(0), 2)], recital=evening)
    indian = replace(FAMILIES[FamilyId(0)], zone="Asia/Kolkata")
    text = sheet_text(family_program(found, indian, {}, ()), 12, IN_ENGLISH)
    assert "Sunday, December 20, 2026, 7:00 am (Kolkata time)" in text
    assert (
        "It is Sunday, December 20, 2026 in Kolkata, and Saturday, December 19, 2026 in Chicago, when it begins."
        in text
    )
    assert "when it begins" not in sheet_text(papers_of(found, 0), 12, IN_ENGLISH)  # Phoenix has the same date


def test_a_recital_moved_across_a_clock_change_says_the_hour_after_it_and_that_clocks_change():
    # By the zone data: Chicago and Halifax go back on November 1, 2026, London on October 25; Phoenix and Kolkata never do.
    items = [item_of(n, StudentId(n), n + 1) for n in range(5)]
    before, after = (
        program(items, recital=replace(TALES, held_on=on)) for on in (date(2026, 10, 31), date(2026, 11, 1))
    )
    starts = [papers_of(each, 0).program.starts.at.time() for each in (before, after)]
    assert starts == [time(10), time(11)]  # Phoenix
    assert [papers_of(each, 3).changed_on for each in (before, after)] == [date(2026, 10, 25), None]
    assert [papers_of(each, 1).changed_on for each in (before, after)] == [None, date(2026, 11, 1)]
    assert papers_of(after, 0).changed_on is None
    assert "Clocks change in Halifax by Sunday, November 1, 2026." in texts_of(papers_of(after, 1))
    days = [calendar_days(each)[0] for each in (before, after)]
    assert days[0].id == days[1].id
    assert days[1].starts_at - days[0].starts_at == timedelta(hours=25)


def test_a_start_is_not_said_behind_a_number_whose_length_nobody_knows():
    items = [item_of(1, StudentId(1), 1), item_of(2, StudentId(2), 2, seconds=None), item_of(3, StudentId(3), 3)]
    found = program(items)
    starts = [papers_of(found, family).own[0].starts for family in (1, 2, 3)]
    assert [each is not None for each in starts] == [True, True, False]
    assert "Number 3\n" in sheet_text(papers_of(found, 3), 12, IN_ENGLISH)


def test_who_is_to_be_there_before_midnight_is_told_the_date():
    early = replace(TALES, at=time(0, 5))
    found = program([item_of(1, StudentId(6), 1)], recital=early)
    chicago = replace(FAMILIES[FamilyId(1)], zone="America/Chicago")
    text = sheet_text(family_program(found, chicago, {}, ()), 12, IN_ENGLISH)
    assert "Please be there at Friday, December 18, 2026, 11:50 pm (Chicago time)" in text


@pytest.mark.parametrize("phrases", [IN_ENGLISH, *SPOKEN.values()], ids=lambda each: each.language)
def test_typed_text_is_shown_as_typed_and_asks_for_nothing(phrases):
    typed = '<img src="https://example.org/x.png"> *bold* [a](https://example.org) & "so"'
    fields = dict.fromkeys(("piece", "composer", "instrument", "story", "costume", "props", "shown_as"), typed)
    recital = replace(TALES, name=typed, theme=typed, place=typed, link=f"https://example.org/{typed}")
    found = program([item_of(1, StudentId(1), 1, **fields)], recital=recital)
    body = sheet_body(papers_of(found, 1), 12, phrases)
    assert "<img" not in body
    assert 'href="https://example.org/' not in body
    assert "&lt;img src=" in body


def test_a_recital_with_nothing_in_it_says_so():
    nothing = public_program(program([]), "America/Chicago")
    assert "The program is not settled yet." in program_markdown(nothing, 12, IN_ENGLISH)
    assert calendar_days(program([]))[0].minutes == 1
    assert nothing.starts.at == datetime(2026, 12, 19, 12, tzinfo=UTC).replace(tzinfo=None)


def test_names_in_typed_words_are_told_where_nobody_said_that_others_may_see_them():
    def told(*permitted, **words):
        found = program([item_of(1, StudentId(1), 1, **words), item_of(2, StudentId(1), 2)], *permitted).troubles
        return [(each.named.about, each.named.called) for each in found if each.kind is AgainstRecital.NAMES]

    assert told() == []
    assert told(enters="after Name2x", costume="NAME3X's hat") == [("entry", "Name2x"), ("costume", "Name3x")]
    assert told(StudentId(2), enters="after Name2x") == []
    assert told(enters="as Name1x or Name6x", story="Name1x runs the mill") == [("story", "Name1x")]  # 6 is a sibling
    assert told(story="Name22x and aName2x") == []
