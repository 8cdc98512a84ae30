"""A typed line that is an item of a recital."""

from datetime import time

import pytest

from cockpit.studio.changes.recital import PinnedTo, RecitalId, RecitalItem, RecitalItemId
from cockpit.studio.errors import BadInput, NotFound
from cockpit.studio.people.people import StudentId
from cockpit.studio.recital.item_line import ItemReader
from cockpit.studio.recital.lengths import length_words, read_length

FRESH = RecitalItem(id=RecitalItemId(1), recital_id=RecitalId(2), position=3, student_id=StudentId(4), piece="")
MILL = "the old mill 3:00, by heart, costume miller's apron, prop flour sack, story the mill that would not stop, with a track"


def item_of(name):
    if name.casefold() != "teodor":
        raise NotFound(f'Nobody called "{name}" plays in this recital.')
    return RecitalItemId(9)


READER = ItemReader(item_of, lambda name: StudentId(5) if name.casefold() == "wren" else None, 12)


def test_a_line_says_the_piece_its_length_and_all_that_goes_with_it():
    said = READER.read_new(MILL, FRESH)
    assert said.item == RecitalItem(
        id=RecitalItemId(1), recital_id=RecitalId(2), position=3, student_id=StudentId(4), piece="the old mill",
        seconds=180, costume="miller's apron", props="flour sack", story="the mill that would not stop",
        with_whom="a track",
    )  # fmt: skip
    assert (said.by_heart, said.partner) == (True, None)
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
    assert (said.by_heart, said.partner, said.item) == (False, StudentId(5), FRESH)
    assert READER.read_change("by memory", FRESH).by_heart


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
