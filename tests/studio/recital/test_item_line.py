"""A typed line that is an item of a recital."""

from datetime import time

import pytest

from cockpit.studio.changes.recital import PinnedTo, RecitalId, RecitalItem, RecitalItemId
from cockpit.studio.errors import BadInput, NotFound
from cockpit.studio.people.people import Family, FamilyId, Student, StudentId
from cockpit.studio.recital.item_line import ItemReader
from cockpit.studio.recital.lengths import length_words, read_length
from cockpit.studio.recital.performers import StudentNames

FRESH = RecitalItem(id=RecitalItemId(1), recital_id=RecitalId(2), position=3, student_id=StudentId(4), piece="")
MILL = "the old mill 3:00, by heart, costume miller's apron, prop flour sack, story the mill that would not stop, with a track"


def item_of(name):
    if name.casefold() != "teodor":
        raise NotFound(f'Nobody called "{name}" plays in this recital.')
    return RecitalItemId(9)


FAMILY = Family(id=FamilyId(1), name="Quill", zone="UTC")
STUDENTS = [
    Student(id=StudentId(number), family_id=FAMILY.id, name=name)
    for number, name in ((5, "Wren"), (6, "Teodor"), (7, "Wrenna Quill"))
]
READER = ItemReader(item_of, StudentNames(STUDENTS, {FAMILY.id: FAMILY}).whom, 12)


def test_a_line_says_the_piece_its_length_and_all_that_goes_with_it():
    said = READER.read_new(MILL, FRESH)
    assert said.item == RecitalItem(
        id=RecitalItemId(1), recital_id=RecitalId(2), position=3, student_id=StudentId(4), piece="the old mill",
        seconds=180, costume="miller's apron", props="flour sack", story="the mill that would not stop",
        with_whom="a track",
    )  # fmt: skip
    assert (said.by_heart, said.partners) == (True, ())
    assert said.words[:2] == ("length: 3:00", "by heart")


@pytest.mark.parametrize(
    ("line", "field", "value"),
    [
        ("2m 30s", "seconds", 150),
        ("90 seconds", "seconds", 90),
        ("no length", "seconds", None),
        ("first", "pin", PinnedTo.FIRST),
        ("last", "pin", PinnedTo.LAST),
        ("after teodor", "pinned_after", 9),
        ("before 12:20", "pinned_before", time(12, 20)),
        ("anywhere", "pin", None),
        ("shown as Ilse B.", "shown_as", "Ilse B."),
        ("composer Anna of Eyne", "composer", "Anna of Eyne"),
        ("note lower the stand", "note", "lower the stand"),
        ('story "snow, and more snow"', "story", "snow, and more snow"),
        ("no costume", "costume", None),
        ("enters from the left", "enters", "from the left"),
        ("with grandma", "with_whom", "grandma"),
        ("alone", "with_whom", None),
        ("with nobody", "with_whom", None),
        ('note say "hi"', "note", 'say "hi"'),
        ('note "hi" and "no"', "note", '"hi" and "no"'),
        ('note "breathe first"', "note", "breathe first"),
        ("cello", "instrument", "cello"),
        ("piece Two Sparrows", "piece", "Two Sparrows"),
    ],
)
def test_each_part_changes_one_thing_of_an_item_that_is_there(line, field, value):
    said = READER.read_change(line, READER.read_new(MILL, FRESH).item)
    assert getattr(said.item, field) == value
    assert len(said.words) == 1


def test_by_heart_and_another_student_are_kept_beside_the_item():
    said = READER.read_change("not by heart, with Wren", FRESH)
    assert (said.by_heart, said.partners, said.item) == (False, (5,), FRESH)
    assert READER.read_change("by memory", FRESH).by_heart


@pytest.mark.parametrize(
    ("line", "partners", "with_whom", "words"),
    [
        ("with Teodor and Wren", (6, 5), None, "company: Teodor and Wren play along"),
        ("with wren & teodor", (5, 6), None, "company: Wren and Teodor play along"),
        ("with Teodor and her father", (6,), "her father", "company: Teodor plays along; with her father"),
        ("with salt and pepper", (), "salt and pepper", "company: with salt and pepper"),
        ("with wren and wren", (5,), None, "company: Wren plays along"),
        ("with Quill and Wrenna", (7,), "Quill", "company: Wrenna Quill plays along; with Quill"),
        ('with "Teodor and Wren"', (), "Teodor and Wren", "company: with Teodor and Wren"),
        ("with Teo", (), "Teo", "company: with Teo (somebody else; for your student type: with Teodor)"),
        ("with wre", (), "wre", "company: with wre (somebody else; for your student type: with Wren or Wrenna)"),
        ("with T", (), "T", "company: with T"),
    ],
)
def test_students_who_play_along_are_known_by_their_names_and_a_name_not_whole_is_told(
    line, partners, with_whom, words
):
    said = READER.read_change(line, FRESH)
    assert (said.partners, said.item.with_whom, said.words) == (partners, with_whom, (words,))


def test_of_two_who_are_called_so_both_are_named():
    twin = Student(id=StudentId(8), family_id=FamilyId(2), name="Wren")
    families = {FAMILY.id: FAMILY, FamilyId(2): Family(id=FamilyId(2), name="Okonjo", zone="UTC")}
    reader = ItemReader(item_of, StudentNames([*STUDENTS, twin], families).whom, 12)
    with pytest.raises(BadInput, match='Type Wren Quill or Wren Okonjo behind "with"'):
        reader.read_change("with wren", FRESH)
    assert reader.read_change("with wren okonjo", FRESH).partners == (8,)


def test_a_title_of_300_characters_and_one_in_another_script_are_taken():
    assert READER.read_new("x" * 300 + " 1:30", FRESH).item.piece == "x" * 300
    assert READER.read_new("שלום 2:00", FRESH).item.piece == "שלום"


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("", "Type a piece"),
        ("3:00", "Type a piece"),
        ("mill 3:00, sparkling", '"sparkling" is not understood. Type "3:00"'),
        ("mill 3:00, first, last", "says the place twice"),
        ("mill 3:00, 4:00", "says the length twice"),
        ("mill 3:00, by heart, not by heart", "says the playing by heart twice"),
        ("mill 0:03", "is too short"),
        ("mill 250:00", "is too long"),
        ("mill, before 25:00", "not a time of day"),
        ("y" * 301, "at most 300 characters"),
    ],
)
def test_what_cannot_be_is_told_with_what_would_work(line, said):
    with pytest.raises(BadInput, match=said):
        READER.read_new(line, FRESH)


def test_an_item_that_another_is_to_follow_must_be_there():
    with pytest.raises(NotFound, match="Nobody called"):
        READER.read_change("after wren", FRESH)


@pytest.mark.parametrize(
    ("text", "seconds"), [("3:00", 180), ("90s", 90), ("2 min", 120), ("2m30s", 150), ("1 minute", 60)]
)
def test_a_length_is_read_in_seconds(text, seconds):
    assert read_length(text) == seconds
    assert read_length(length_words(seconds)) == seconds
