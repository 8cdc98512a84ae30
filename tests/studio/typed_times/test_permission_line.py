"""Parts of a line that say what may be shown of a student, and the cell of a roster that says the same."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cockpit.studio.errors import BadInput
from cockpit.studio.people.permissions import PermissionSaid, Shown, permissions_cell
from cockpit.studio.roster.permission_cell import permissions_in, read_permissions_cell
from cockpit.studio.typed_times.line_parts import parts_of
from cockpit.studio.typed_times.permission_line import read_permissions

JUNE = date(2027, 6, 30)
WORDS = st.text(st.characters(categories=("L", "N", "P", "Zs")), max_size=30).map(
    lambda text: " ".join(text.replace('"', "").split())
)


def day(text: str) -> date:
    if text != "jun 30":
        raise BadInput(f'"{text}" is no day.')
    return JUNE


def read(line: str) -> list[tuple[str, bool, date | None, str]]:
    said, others = read_permissions(parts_of(line), day)
    assert others == ()
    return [(each.what.value, each.is_given, each.until_on, each.words) for each in said]


@pytest.mark.parametrize(
    ("line", "expected"),
    [
        ("may be named", [("named", True, None, "")]),
        ("may be named, recorded until jun 30", [("named", True, None, ""), ("recorded", True, JUNE, "")]),
        ("may be named and recorded until jun 30", [("named", True, JUNE, ""), ("recorded", True, JUNE, "")]),
        ("may not be in pictures", [("in pictures", False, None, "")]),
        ("She may be seen in a recital", [("seen in a recital", True, None, "")]),
        ("can play in the recital; no photos", [("seen in a recital", True, None, ""), ("in pictures", False, None, "")]),
        ("may not be named or recorded", [("named", False, None, ""), ("recorded", False, None, "")]),
        ("must not be filmed", [("recorded", False, None, "")]),
        ("may be recorded: for the audition", [("recorded", True, None, "for the audition")]),
        ("may be recorded until jun 30: for the audition", [("recorded", True, JUNE, "for the audition")]),
        ('may be named: "first name, no town"', [("named", True, None, "first name, no town")]),
        ("may be named (first name only)", [("named", True, None, "first name only")]),
        ("ok to record", [("recorded", True, None, "")]),
        ("is allowed to be filmed through jun 30", [("recorded", True, JUNE, "")]),
        ("may not be in pictures, recorded", [("in pictures", False, None, ""), ("recorded", False, None, "")]),
    ],
)  # fmt: skip
def test_a_line_says_what_may_be(line: str, expected: list[tuple[str, bool, date | None, str]]) -> None:
    assert read(line) == expected


def test_what_speaks_of_something_else_is_left_for_others() -> None:
    said, others = read_permissions(
        parts_of("language es, may be named, remark no photos please, recorded, no remark"), day
    )
    assert [each.what for each in said] == [Shown.NAMED]
    assert others == ("language es", "remark no photos please", "recorded", "no remark")


@pytest.mark.parametrize(
    ("line", "named"),
    [
        ("may be on television", '"may be on television" is not understood.*named'),
        ("may be named and famous", "is not understood"),
        ("may not be named until jun 30", "needs no last day"),
        ("may be recorded until whenever", '"whenever" is no day'),
        ("may be named, may not be named", 'says "named" twice'),
        (f"may be named: {'x' * 201}", "too long"),
    ],
)
def test_what_cannot_be_used_is_named(line: str, named: str) -> None:
    with pytest.raises(BadInput, match=named):
        read(line)


@given(
    st.lists(
        st.sampled_from(Shown).flatmap(
            lambda what: st.builds(PermissionSaid, what=st.just(what), is_given=st.just(True), until_on=st.none() | st.dates(date(2024, 1, 1), date(2030, 1, 1)), words=WORDS)
            | st.builds(PermissionSaid, what=st.just(what), is_given=st.just(False), words=WORDS)
        ),
        unique_by=lambda each: each.what,
    )
)  # fmt: skip
def test_a_cell_is_read_as_what_it_was_written_from(said: list[PermissionSaid]) -> None:
    cell = permissions_cell(said)
    assert set(permissions_in(cell)) == set(said)
    assert read_permissions_cell(cell) == cell if said else cell == ""


@pytest.mark.parametrize(
    ("cell", "kept"),
    [
        ("Named, recorded", "recorded; named"),
        ("may be named; may not be filmed", "not recorded; named"),
        ("recorded until 2027-06-30", "recorded until 2027-06-30"),
    ],
)
def test_a_cell_is_kept_in_one_form(cell: str, kept: str) -> None:
    assert read_permissions_cell(cell) == kept


@pytest.mark.parametrize("cell", ["yes", "named until june", "named; famous", "not named until 2027-06-30"])
def test_a_cell_that_is_not_understood_is_refused(cell: str) -> None:
    with pytest.raises(BadInput, match=r"[^.]\Z"):
        read_permissions_cell(cell)
