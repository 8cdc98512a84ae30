"""Tables as spreadsheets write and show them. Which forms they have is common practice, without a source."""

import csv
import io
from datetime import date, time

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cockpit.studio.errors import BadInput
from cockpit.studio.roster import values
from cockpit.studio.roster.columns import TABLE, value_of
from cockpit.studio.roster.dates import DateOrder, order_of, read_shown_date
from cockpit.studio.roster.encoding import decoded
from cockpit.studio.roster.guardian_cells import read_addresses
from cockpit.studio.roster.roster import read_roster
from cockpit.studio.roster.table import column_key

HEADER = "student,weekday,time,minutes"
ANY, MONTH, DAY, BOTH = DateOrder.NOT_SHOWN, DateOrder.MONTH_FIRST, DateOrder.DAY_FIRST, DateOrder.BOTH


@pytest.mark.parametrize(
    ("text", "at"),
    [
        ("0.6875", time(16, 30)), ("0,6875", time(16, 30)), (".6875", time(16, 30)), ("0.5", time(12)), ("0.75", time(18)),
        ("0.652777777777778", time(15, 40)), ("0.375", time(9)), ("0.6528", time(15, 40)), ("16:30 Uhr", time(16, 30)),
        ("16.30 Uhr", time(16, 30)), ("16 Uhr", time(16)), ("09:00 uhr", time(9)),
    ],
)  # fmt: skip
def test_a_time_is_read_as_a_sheet_has_it(text: str, at: time) -> None:
    assert values.read_time(text) == at


@pytest.mark.parametrize(
    "text", ["0.25", "0.50", "0.65", "0.653", "1.6875", "0.68751", "0.99999", "4 Uhr", "0.1234", "6875", "Uhr"]
)
def test_a_number_that_may_be_another_time_is_asked_about(text: str) -> None:
    with pytest.raises(BadInput, match=r"^Write "):
        values.read_time(text)


@given(st.integers(1, 24 * 60 - 1), st.integers(5, 17))
def test_every_minute_of_the_day_is_read_from_its_part_of_a_day(minutes: int, digits: int) -> None:
    text = f"{minutes / 1440:.{digits}f}".rstrip("0")
    try:
        assert values.read_time(text) == time(minutes // 60, minutes % 60)
    except BadInput:
        assert len(text) <= 5, "few digits may be another number"


@pytest.mark.parametrize(
    ("text", "minutes"),
    [
        ("45.0", 45), ("45,00", 45), ("0:45", 45), ("1:00", 60), ("1:15:00", 75), ("00:45:00", 45), ("1h", 60), ("1 hour", 60),
        ("1 hr 15", 75), ("1h30", 90), ("1h 30 min", 90), ("2 hrs.", 120), ("45'", 45), ("0.03125", 45), ("0.0416666666666667", 60),
    ],
)  # fmt: skip
def test_a_length_is_read_as_a_sheet_has_it(text: str, minutes: int) -> None:
    assert values.read_minutes(text) == minutes


@pytest.mark.parametrize("text", ["45.5", "0.5", "5h", "1.5", "0:04", "45:00", "1", "h", "4h30", "0.75"])
def test_another_length_is_refused(text: str) -> None:
    with pytest.raises(BadInput, match="5 to 240"):
        values.read_minutes(text)


@pytest.mark.parametrize(
    "text", ["biweekly", "Bi-weekly", "fortnightly", "every other week", "Every 2 weeks", "2.0", "2"]
)
def test_every_other_week_has_several_names(text: str) -> None:
    assert values.read_every_weeks(text) == 2
    assert values.read_every_weeks("Weekly") == 1
    for other in ("monthly", "3", "twice a week", "semiweekly"):
        with pytest.raises(BadInput, match=r"^Write 1 for"):
            values.read_every_weeks(other)


@pytest.mark.parametrize(
    ("text", "addresses"),
    [
        ("Anna <a@example.org>", "a@example.org"), ("<a@example.org>", "a@example.org"),
        ('Anna Berg <a@example.org>; "Berg, Per" <p@example.org>', "a@example.org, p@example.org"),
        ("Anna <a@example.org>, p@example.org", "a@example.org, p@example.org"), ("a@example.org", "a@example.org"),
    ],
)  # fmt: skip
def test_an_address_is_read_behind_the_name_of_its_guardian(text: str, addresses: str) -> None:
    assert read_addresses(text) == addresses


@pytest.mark.parametrize(
    "text",
    [
        "Anna",
        "Anna <a>",
        "Anna a@example.org",
        "<a@example.org",
        "Anna <a@example.org> Berg",
        "a@example.org <b@example.org>",
    ],
)
def test_a_word_beside_an_address_is_not_lost(text: str) -> None:
    with pytest.raises(BadInput, match=r"^Write an email address"):
        read_addresses(text)


@pytest.mark.parametrize(
    ("text", "days"),
    [
        ("Mon/Wed", ("Mon", "Wed")), ("Mon & Wed", ("Mon", "Wed")), ("Tue, Thu", ("Tue", "Thu")), ("Tue and Thu", ("Tue", "Thu")),
        ("mon wed fri", ("mon", "wed", "fri")), ("Mondays + Fridays", ("Mondays", "Fridays")), ("Tue", ("Tue",)),
        ("Mon-Wed", ("Mon-Wed",)), ("Mon/Funday", ("Mon/Funday",)), ("Mon or Wed", ("Mon or Wed",)),
    ],
)  # fmt: skip
def test_several_weekdays_in_a_cell_are_as_many_weekly_times(text: str, days: tuple[str, ...]) -> None:
    assert values.split_weekdays(text) == days


def test_a_row_with_two_weekdays_is_two_weekly_times_and_told() -> None:
    reading = read_roster(f"{HEADER},email\nIlse,Mon/Wed,16:00,45,a@example.org\n")
    assert [(row.line, row.weekday, row.email) for row in reading.rows] == [
        (2, 0, "a@example.org"),
        (2, 2, "a@example.org"),
    ]
    assert reading.notices == ('Line 2: "Mon/Wed" was read as 2 weekly times.',)
    assert len(read_roster(f"{HEADER}\nIlse,Mon/Wed,16:00,4\n").faults) == 1


@pytest.mark.parametrize(
    ("text", "order", "on"),
    [
        ("9/1/2026", MONTH, date(2026, 9, 1)), ("9/1/2026", DAY, date(2026, 1, 9)), ("01.09.2026", DAY, date(2026, 9, 1)),
        ("9/1/26", MONTH, date(2026, 9, 1)), ("9/9/2026", ANY, date(2026, 9, 9)), ("25/12/2026", ANY, date(2026, 12, 25)),
        ("12/25/26", ANY, date(2026, 12, 25)), ("2026/9/1", ANY, date(2026, 9, 1)), ("2026-09-01 00:00:00", ANY, date(2026, 9, 1)),
        ("Sep 1, 2026", ANY, date(2026, 9, 1)), ("Tue, Sep 1, 2026", ANY, date(2026, 9, 1)), ("1. Dezember 2026", ANY, date(2026, 12, 1)), ("1er septembre 2026", ANY, date(2026, 9, 1)), ("1 de septiembre de 2026", ANY, date(2026, 9, 1)), ("Montag, 1. M\u00e4rz 2027", ANY, date(2027, 3, 1)), ("1-Sep-26", ANY, date(2026, 9, 1)),
        ("Tuesday, September 1, 2026", ANY, date(2026, 9, 1)), ("1. Sept. 2026", ANY, date(2026, 9, 1)),
        ("September 1st 2026", ANY, date(2026, 9, 1)), ("2026-09-01", BOTH, date(2026, 9, 1)),
    ],
)  # fmt: skip
def test_a_date_is_read_as_a_sheet_shows_it(text: str, order: DateOrder, on: date) -> None:
    assert read_shown_date(text, order) == on


@pytest.mark.parametrize(
    ("text", "order"),
    [
        ("9/1/2026", ANY), ("01.09.2026", ANY), ("9/1/2026", BOTH), ("25/12/2026", BOTH), ("26-09-01", ANY), ("9/1", ANY), ("46266", ANY),
        ("Mon, Sep 1, 2026", ANY), ("mardi 1 mars 2027", ANY), ("Di, 1. M\u00e4rz 2027", ANY), ("2/30/2026", ANY), ("Sep 31, 2026", ANY), ("31/31/2026", ANY), ("Smarch 1, 2026", ANY),
        ("9/1/2026 16:30", MONTH), ("9/1/1926", MONTH), ("9.1/2026", MONTH),
    ],
)  # fmt: skip
def test_a_date_that_may_be_another_is_asked_about(text: str, order: DateOrder) -> None:
    with pytest.raises(BadInput, match=r"^Write "):
        read_shown_date(text, order)


def test_a_date_of_two_readings_is_asked_about_with_both_of_them() -> None:
    fault = str(read_roster(f"{HEADER},from\nIlse,Tue,16:00,45,9/1/2026\n").faults[0])
    assert "2026-09-01 for Tuesday, September 1, 2026 or 2026-01-09 for Friday, January 9, 2026" in fault


@given(st.lists(st.dates(date(2020, 1, 1), date(2059, 12, 31)), min_size=1), st.booleans(), st.sampled_from("/.-"))
def test_the_dates_of_one_file_are_read_in_the_one_order_that_they_show_or_asked_about(
    dates: list[date], is_month_first: bool, sign: str
) -> None:
    parts = ((on.month, on.day, on.year) if is_month_first else (on.day, on.month, on.year) for on in dates)
    shown = [sign.join(map(str, each)) for each in parts]
    order = order_of(shown)
    assert order in {ANY, MONTH if is_month_first else DAY}
    for on, text in zip(dates, shown, strict=True):
        try:
            assert read_shown_date(text, order) == on
        except BadInput as fault:
            is_asked = order is ANY and f"{on}" in str(fault)
            assert is_asked, text


@pytest.mark.parametrize("name", ["Name", "student name", "NAME"])
def test_columns_are_known_by_the_names_that_sheets_have_and_told(name: str) -> None:
    text = f"Spring 2027,,,,\n,,,,\n{name},Day,Start,Length,Time zone\nIlse,Tue,4 pm,45,Chicago\n{name},Day,Start,Length,Time zone\nTor,Tue,5 pm,45,\n"
    reading = read_roster(text)
    assert [(row.line, row.student, row.at, row.zone) for row in reading.rows] == [
        (4, "Ilse", time(16), "America/Chicago"),
        (6, "Tor", time(17), None),
    ]
    assert reading.faults == ()
    assert reading.notices[:2] == (
        'Line 1 stands above the column names and was passed over: "Spring 2027".',
        "Line 5 has the column names again and was passed over.",
    )
    assert f'The column "{name}" was read as student.' in reading.notices
    assert len(reading.notices) == 7


def test_two_columns_of_one_meaning_are_asked_about() -> None:
    (fault,) = read_roster("student,name,weekday,time,minutes\nIlse,Anna,Tue,16:00,45\n").faults
    assert str(fault) == 'Line 1, student: found "student" and "name" (1st and 2nd in the file). Keep one of them.'


@pytest.mark.parametrize(
    "cell", ["#REF!", "#N/A", "#VALUE!", "#DIV/0!", "#NAME?", "####", "=A1", '=CONCAT("a")', "=-B2", "Err:502"]
)
@pytest.mark.parametrize("place", range(6))
def test_an_error_or_a_formula_of_a_sheet_is_never_a_value(cell: str, place: int) -> None:
    cells = ["Ilse", "Tue", "16:00", "45", "Berg", "shy"]
    cells[place] = cell
    table = io.StringIO()
    csv.writer(table).writerow(cells)
    (fault,) = read_roster(f"{HEADER},family,remark\n{table.getvalue()}").faults
    assert fault.wanted == "Write the value itself"


@pytest.mark.parametrize("column", ["student", "family"])
def test_a_turned_name_is_asked_about(column: str) -> None:
    header = "student,weekday,time,minutes,family"
    row = '"Berg, Anna",Tue,16:00,45,Berg' if column == "student" else 'Anna,Tue,16:00,45,"Berg, Anna"'
    (fault,) = read_roster(f"{header}\n{row}").faults
    assert (fault.column, fault.wanted) == (column, 'Write the name without a comma, such as "Anna Berg"')


def test_a_cell_in_a_column_without_a_name_is_told() -> None:
    (fault,) = read_roster("student,,weekday,time,minutes\nIlse,Berg,Tue,16:00,45\n").faults
    assert str(fault) == 'Line 2: found "Berg" in a column without a name. Name the column or empty the cell.'


@given(
    st.text(st.characters(exclude_categories=["Cs"])),
    st.sampled_from(["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be"]),
)
def test_a_text_comes_back_from_every_encoding(text: str, encoding: str) -> None:
    text = f"{HEADER}\n{text}"
    assert decoded(text.encode(encoding))[0].removeprefix("\ufeff") == text.removeprefix("\ufeff")


def test_what_is_not_utf_8_is_told_with_its_words() -> None:
    text, (told,) = decoded("student,weekday\nÉric,Tue\nZoë,Wed\n".encode("cp1252"))
    assert "Éric" in text
    assert 'read as Windows-1252: "Éric", "Zoë".' in told


_NAMES = (
    "student",
    "weekday",
    "time",
    "minutes",
    "Name",
    "Day",
    "from",
    "until",
    "zone",
    "email",
    "family",
    "Phone",
    "",
    "every weeks",
    "remark",
)
_CELLS = (
    "", "", "Ilse", "Berg, Anna", "Mon", "Mon/Wed", "Mon-Wed", "16:30 Uhr", "0.6875", "4:30", "45", "1h", "0:45", "9/1/2026", "25/12/2026",
    "12/25/2026", "#REF!", "=A1", "Chicago", "GMT+1", "Anna <a@example.org>", "biweekly", "x",
)  # fmt: skip


@given(st.data())
def test_no_cell_of_a_random_file_is_lost(data: st.DataObject) -> None:
    """Every cell is in a row, or in a line with a fault, or in a column that is told as not used."""
    names = data.draw(st.lists(st.sampled_from(_NAMES), min_size=1, max_size=9))
    rows = data.draw(
        st.lists(
            st.lists(st.sampled_from(_CELLS), min_size=len(names), max_size=len(names) + 1), min_size=1, max_size=6
        )
    )
    table = io.StringIO()
    csv.writer(table).writerows([names, *rows])
    reading = read_roster(table.getvalue())
    faulty = {fault.line for fault in reading.faults}
    if any(fault.found.startswith("no such column") for fault in reading.faults):
        return  # the whole file is refused, and its header named: of an empty first row it is the second
    unused = {name for name in names if f'The column "{name}" is not used.' in reading.notices}
    told = " ".join(reading.notices)
    same = {"Name": "student", "Day": "weekday"}
    columns = {column_key(column.name): column for column in TABLE}
    for line, cells in enumerate(rows, start=2):
        if line in faulty or 1 in faulty or f"Line {line} " in told:
            continue
        of_line = [row for row in reading.rows if row.line == line]
        for name, cell in zip([*names, ""], cells, strict=False):
            if cell and name not in unused:
                column = columns[column_key(same.get(name, name))]
                assert of_line
                assert all(value_of(row, column) is not None for row in of_line), (name, cell)


@pytest.mark.parametrize(
    ("name", "wanted"),
    [
        ("Smith, John, Jr.", 'Write the name without a comma, such as "John Smith Jr."'),
        ("Smith, John", 'Write the name without a comma, such as "John Smith"'),
        ("Smith,", 'Write the name without a comma, such as "Smith"'),
        (", John", 'Write the name without a comma, such as "John"'),
        *((name, "Write the student's name") for name in ("N/A", "n/a", "none", "TBD", "?", "-", "--", "Total", "Grand total", "null")),
        ("Ilse (canceled)", "Write the student's name"),
        ("NO LESSON Bob", "Write the student's name"),
        *((name, "Write the student's name") for name in ("(none)", "[empty]", "<open>", "(open slot)", "*TBD*", "- n/a -", "Kim?", "Kim ??")),
    ],
)  # fmt: skip
def test_a_cell_that_is_no_name_is_refused_with_what_would_work(name: str, wanted: str) -> None:
    row = f'"{name}",Tue,16:00,30'
    (fault,) = read_roster(f"{HEADER}\n{row}\n").faults
    assert (fault.column, fault.wanted) == ("student", wanted)
    assert name in fault.found


@pytest.mark.parametrize("column", ["family", "instrument"])
@pytest.mark.parametrize("cell", ["N/A", "-", "none", "?", "TBD", "unknown"])
def test_a_cell_that_says_nothing_is_left_empty_and_not_filled(column: str, cell: str) -> None:
    (fault,) = read_roster(f"{HEADER},{column}\nIlse,Tue,16:00,30,{cell}\n").faults
    assert (fault.column, fault.wanted) == (column, f"Write the {column}, or leave the cell empty")


@pytest.mark.parametrize(
    "name", ["Na", "Tot Alba", "Nona", "Sum Yi", "X Æ", "Student 12", "小春", "O. K.", "Noel", "'t Hart", "Kim (Bo)"]
)
def test_a_short_or_rare_name_is_one(name: str) -> None:
    assert [row.student for row in read_roster(f"{HEADER}\n{name},Tue,16:00,30\n").rows] == [name]


@pytest.mark.parametrize(
    ("header", "row", "found"),
    [
        (HEADER, "Smith, John, Jr.,Tue,16:00,30", "Smith, John"),
        (HEADER, "Smith, John,Tue,16:00,30", "Smith, John"),
        ("weekday,time,minutes,student,family", "Tue,16:00,30,Smith, John", "Smith, John"),
        ("weekday,time,minutes,student,family,instrument", "Tue,16:00,30,Smith, John, Jr.", "Smith, John"),
        ("weekday,time,minutes,family,instrument", "Tue,16:00,30,Smith, John", "Smith, John"),
    ],
)
def test_a_comma_within_a_name_without_quotation_marks_is_one_fault_and_is_never_two_cells(
    header: str, row: str, found: str
) -> None:
    reading = read_roster(f"{header}\n{row}\n")
    fault = next(fault for fault in reading.faults if fault.line == 2)
    assert reading.rows == ()
    assert (fault.found, fault.wanted) == (
        f'"{found}" without quotation marks, which is two cells',
        "Write the name without a comma, or delete the space if these are two cells",
    )
    assert len([fault for fault in reading.faults if fault.line == 2]) == 1


@pytest.mark.parametrize(
    "row",
    ["Ilse, Tue, 16:00, 30, Berg", "Ilse, Tue,16:00,30,Berg", 'Ilse,Tue, 16:00,30,"Berg"', "Ilse,Tue,16:00,30,Berg"],
)
def test_a_space_behind_a_comma_between_cells_changes_nothing(row: str) -> None:
    (read,) = read_roster(f"{HEADER},family\n{row}\n").rows
    assert (read.student, read.weekday, read.at, read.family) == ("Ilse", 1, time(16), "Berg")


@pytest.mark.parametrize(
    "row",
    [
        "Total,,,75",
        "Totals:,,,75",
        "Grand total,,,75",
        "Sum,,,75",
        ",,Total,75",
        "Total: 2 lessons,,,75",
        "Average,,,37.5",
    ],
)
def test_a_row_of_totals_is_passed_over_and_told(row: str) -> None:
    reading = read_roster(f"{HEADER}\nIlse,Tue,16:00,30\nOtto,Wed,16:00,45\n{row}\n")
    assert ([row.student for row in reading.rows], reading.faults) == (["Ilse", "Otto"], ())
    (told,) = reading.notices
    assert told.startswith("Line 4 has totals and was passed over: ")


def test_a_row_of_somebody_without_a_weekday_is_no_row_of_totals() -> None:
    faults = read_roster(f"{HEADER}\nSum Yi,,,75\nTotal,Tue,16:00,30\n").faults
    assert [(fault.line, fault.column) for fault in faults] == [(2, "weekday"), (2, "time"), (3, "student")]
