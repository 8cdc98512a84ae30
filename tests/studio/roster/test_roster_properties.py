"""What holds of every roster, in whatever dialect it is written."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.examples import examples
from support.rosters import Dialect, dialects, file_of, rosters, times, written

from cockpit.studio.clocks.words import clock_time
from cockpit.studio.roster.columns import COLUMNS, RosterRow
from cockpit.studio.roster.roster import read_roster
from cockpit.studio.roster.values import beside_name, read_time
from cockpit.studio.values import replace

BAD_CELLS = {
    "student": ("", "\x07", "Berg, Anna", "#REF!", "=A1"),
    "weekday": ("", "T", "zondag"),
    "time": ("", "4:30", "25:00", "late"),
    "minutes": ("", "4", "241", "an hour"),
    "family": ("\x1b[31m", "Berg, Anna", "#N/A"),
    "email": ("a", "a@b.example, c@d", "a@example"),
    "instrument": ("\x1bcello",),
    "zone": ("EST", "Central", "GMT+1", "Mars/Olympus"),
    "kept_in": ("mine",),
    "from": ("1/2/2026", "2026-13-01"),
    "until": ("tomorrow", "2026-02-29"),
    "daily_minutes": ("601", "some"),
    "call_link": ("example.org", "ftp://example.org"),
    "remark": ("\x9b", "#VALUE!", "=B2&C2"),
    "clock": ("13",),
    "every_weeks": ("3", "often"),
    "send_by": ("fax", "mail, pigeon"),
    "language": ("e", "de-AUT"),
    "plan": ("table", "yes"),
    "yearly_lessons": ("0", "367", "many"),
    "level": ("grade 3", "x"),
    "guardian": ("Bell, Ana", "#N/A"),
    "phone": ("by mail", "12"),
    "gets": ("bills", "notes; all"),
    "permissions": ("yes", "named until june"),
    "with": ("(Bell)", "Wren (Bell) and Jo"),
    "paused_from": ("soon", "2027-02-30"),
    "paused_until": ("soon", "2027-02-30"),
    "practice_days": ("S", "Mon-Fri-Sun", "never"),
}


@given(rosters(), dialects())
def test_rows_come_back_from_every_dialect(rows: list[RosterRow], dialect: Dialect) -> None:
    text, begins = file_of([written(row) for row in rows], dialect)
    reading = read_roster(text)
    assert [str(fault) for fault in reading.faults] == []
    assert reading.rows == tuple(replace(row, line=line) for row, line in zip(rows, begins, strict=True))
    assert reading.columns == set(COLUMNS)
    odd = {row.student for row in rows if beside_name(row.student)}
    assert len(reading.notices) == len(odd)
    assert all("in the name" in notice for notice in reading.notices)


@given(rosters(), st.data())
def test_columns_that_are_not_there_leave_their_values_blank(rows: list[RosterRow], data: st.DataObject) -> None:
    left_out = data.draw(
        st.sets(st.sampled_from(("email", "zone", "kept_in", "daily_minutes", "call_link", "remark", "clock")))
    )
    dialect = data.draw(dialects(tuple(column for column in COLUMNS if column not in left_out)))
    text, _ = file_of([written(row) for row in rows], dialect)
    reading = read_roster(text)
    assert reading.columns == set(COLUMNS) - left_out
    blank = {"clock": "hours"}
    for row in reading.rows:
        assert all(getattr(row, blank.get(column, column)) is None for column in left_out)
    assert len(reading.rows) == len(rows)


@pytest.mark.parametrize(
    "column", [pytest.param(name, marks=pytest.mark.long if place % 3 else ()) for place, name in enumerate(COLUMNS)]
)
@examples(8)  # for each column, each with every bad cell
@given(data=st.data())
def test_a_fault_anywhere_is_told_with_its_line_and_its_column(column: str, data: st.DataObject) -> None:
    rows = [written(row) for row in data.draw(rosters())]
    place, dialect = data.draw(st.integers(0, len(rows) - 1)), data.draw(dialects())
    for bad in BAD_CELLS[column]:
        rows[place][column] = bad
        text, begins = file_of(rows, dialect)
        reading = read_roster(text)
        assert (begins[place], column) in {(fault.line, fault.column) for fault in reading.faults}
        assert any(str(fault).startswith(f"Line {begins[place]}, {column}: found ") for fault in reading.faults)
        assert begins[place] not in {row.line for row in reading.rows}


@given(st.text() | st.text(alphabet='student,weekday,time,minutes;\t"\r\n\0\ufeff 1:'))
def test_any_text_is_either_read_or_told_to_be_faulty(text: str) -> None:
    reading = read_roster(text)
    assert reading.rows or reading.faults
    lines = text.count("\n") + text.count("\r") + 1
    assert all(1 <= fault.line <= lines for fault in reading.faults)


@given(times())
def test_a_time_said_on_a_12_hour_clock_is_read_back(at: object) -> None:
    assert read_time(clock_time(at, 12)) == at  # type: ignore[arg-type]
