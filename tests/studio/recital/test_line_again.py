"""A recital and an item as lines: what a line says of one makes the same one again."""

from datetime import date, datetime, time

import pytest
from support.studio import home

from cockpit.studio.changes.recital import PinnedTo, Recital, RecitalId, RecitalItem, RecitalItemId
from cockpit.studio.errors import BadInput
from cockpit.studio.people.people import Family, FamilyId, Student, StudentId
from cockpit.studio.recital.item_line import ItemReader
from cockpit.studio.recital.line_again import bare_item, bare_recital, item_again, recital_again, time_to_type
from cockpit.studio.recital.performers import StudentNames, item_typed
from cockpit.studio.recital.recital_line import RecitalReader
from cockpit.studio.typed_times.when import Reference
from cockpit.studio.values import replace

BARE = Recital(id=RecitalId(1), name="Winter tales", held_on=date(2026, 12, 19), at=time(12), zone="America/Chicago")
COMMAS = "https://call.example.org/room,winter;tales?with=a,b"
FULL = replace(
    BARE, name="Tales, and more", theme="snow; night", minutes_limit=60, changeover=45, is_online=True,
    link="https://call.example.org/winter", place="library hall", opening_seconds=180, closing_seconds=120,
)  # fmt: skip
ITEM = RecitalItem(
    id=RecitalItemId(5), recital_id=RecitalId(1), position=1, student_id=StudentId(1), piece="Etude, no. 5"
)
TOLD = replace(
    ITEM, composer="Ada Bell", instrument="cello", seconds=180, with_whom="a track", costume="apron, blue", props="sack",
    story="the mill", enters="from the left", note='says "hm" softly', shown_as="Ilse B.", pin=PinnedTo.BEFORE,
    pinned_before=time(12, 20),
)  # fmt: skip


@pytest.mark.parametrize("month_first", [True, False])
@pytest.mark.parametrize("hours", [12, 24])
@pytest.mark.parametrize("recital", [BARE, FULL, replace(FULL, link=COMMAS)])
def test_the_line_of_a_recital_makes_it_again(recital, hours, month_first):
    reference = Reference(
        now=home("2026-12-01 16:12"),
        around=date(2026, 12, 1),
        home_zone="America/Chicago",
        month_first=month_first,
    )
    again, _ = RecitalReader(reference, hours).read_change(recital_again(recital, hours), bare_recital(recital))
    assert again == recital


@pytest.mark.parametrize("hours", [12, 24])
@pytest.mark.parametrize(
    "item",
    [
        ITEM,
        TOLD,
        replace(TOLD, pin=PinnedTo.FIRST, pinned_before=None),
        replace(TOLD, note='say "hi, all"', story='"Snow, snow" and "ice"', costume='a "hat"'),
        replace(TOLD, pin=PinnedTo.AFTER, pinned_after=RecitalItemId(7), pinned_before=None),
    ],
)
def test_the_line_of_an_item_makes_it_again(item, hours):
    reader = ItemReader(lambda name: {"Teodor": RecitalItemId(7)}[name], StudentNames([], {}).whom, hours)
    said = reader.read_change(item_again(item, "Teodor", hours), bare_item(item))
    assert said.item == item


def test_a_length_that_was_worked_out_is_not_said_and_a_moment_is_said_as_it_is_typed():
    assert item_again(replace(ITEM, seconds=240, is_computed=True), None, 12) == 'piece "Etude, no. 5"'
    assert time_to_type(datetime.fromisoformat("2026-12-19T19:30"), 12) == "sat december 19 2026 7:30 pm"


def test_a_line_of_an_item_begins_with_the_longest_name_that_somebody_has():
    families = {FamilyId(1): Family(id=FamilyId(1), name="Bell", zone="UTC")}
    students = [
        Student(id=StudentId(number), family_id=FamilyId(1), name=name)
        for number, name in enumerate(("Ada", "Ada Mae", "Tobin", "tobin"), start=1)
    ]

    def typed(line):
        found = item_typed(line, students, families)
        return found.student.name, found.rest

    assert typed("ada mae waltz 2:00") == ("Ada Mae", "waltz 2:00")
    assert typed("ADA Waltz 2:00, by heart") == ("Ada", "Waltz 2:00, by heart")
    assert typed("ada bell waltz") == ("Ada", "waltz")
    assert typed("ada") == ("Ada", "")
    with pytest.raises(BadInput, match="Who is meant"):
        typed("tobin march")
    for line in ("waltz 2:00", "", "  ", "adagio 2:00"):
        with pytest.raises(BadInput, match="Type a student of yours first"):
            typed(line)
