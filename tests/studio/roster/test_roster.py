"""Files that teachers have, and what is told of each fault in them."""

from datetime import date, time

import pytest

from cockpit.studio.lessons.weekly_times import KeptIn
from cockpit.studio.people.people import Level, PlanForm
from cockpit.studio.roster.columns import COLUMNS, RosterFault, RosterReading, RosterRow
from cockpit.studio.roster.roster import read_roster

HEADER = "student,weekday,time,minutes"
ILSE = "Ilse,Tue,16:00,45"


def told(text: str) -> list[str]:
    return [str(fault) for fault in read_roster(text).faults]


def the_fault(text: str) -> RosterFault:
    (fault,) = read_roster(text).faults
    return fault


def test_a_row_with_everything_is_read() -> None:
    reading = read_roster(
        "student,weekday,time,minutes,family,email,instrument,zone,kept_in,from,until,daily_minutes,call_link,remark,clock,every_weeks,"
        "practice_days,send_by,language,plan,yearly_lessons,guardian,phone,gets,permissions,level,with,paused_from,paused_until\n"
        "Ilse,Tue,4:00 pm,45 min,Brandvold,b@example.org,cello,america/phoenix,family,2026-09-01,2027-06-01,20,"
        "https://call.example.org/i,shy,24,2,M W F,mail+draft,es,List,30,Liv  Brandvold,'+1 602 555 0100,News notes,named; no photos,Elementary,Tor ; Wren  (Bell),2026-12-24,2027-01-02\n"
    )
    assert reading == RosterReading(
        rows=(
            RosterRow(
                line=2, student="Ilse", weekday=1, at=time(16), minutes=45, family="Brandvold", email="b@example.org",
                instrument="cello", zone="America/Phoenix", kept_in=KeptIn.FAMILY, from_on=date(2026, 9, 1),
                until_on=date(2027, 6, 1), daily_minutes=20, call_link="https://call.example.org/i", remark="shy", hours=24, every_weeks=2,
                practice_days=frozenset({0, 2, 4}),
                send_by="draft, mail", language="es", plan=PlanForm.LIST, yearly_lessons=30,
                guardian="Liv Brandvold", phone="+1 602 555 0100", gets="notes, news",
                permissions="named; not in pictures", level=Level.ELEMENTARY, shared_with="Tor; Wren (Bell)",
                paused_from=date(2026, 12, 24), paused_until=date(2027, 1, 2),
            ),
        ),
        columns=frozenset(COLUMNS),
    )  # fmt: skip


def test_a_row_of_the_needed_columns_alone_leaves_the_rest_blank() -> None:
    reading = read_roster(f"{HEADER}\n{ILSE}\n")
    assert reading.rows == (RosterRow(line=2, student="Ilse", weekday=1, at=time(16), minutes=45),)
    assert reading.columns == {"student", "weekday", "time", "minutes"}


@pytest.mark.parametrize(
    "header", ["MINUTES,Week Day,time,Student", " minutes , week-day,TIME,student", "minutes,week_day,Time,\tSTUDENT"]
)
def test_columns_are_known_by_name_in_any_order_and_spelling(header: str) -> None:
    (row,) = read_roster(f"{header}\n45,Tue,16:00,Ilse").rows
    assert (row.student, row.weekday, row.at, row.minutes) == ("Ilse", 1, time(16), 45)


@pytest.mark.parametrize("name", ["Kept in", "kept-in", "KEPTIN", "kept_in"])
def test_a_name_of_two_words_is_known_however_they_are_joined(name: str) -> None:
    (row,) = read_roster(f"{HEADER},{name}\n{ILSE},family").rows
    assert row.kept_in is KeptIn.FAMILY


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
@pytest.mark.parametrize("separator", [",", ";", "\t"])
@pytest.mark.parametrize("mark", ["", "\ufeff"])
def test_separators_line_ends_and_a_byte_order_mark_are_read(end: str, separator: str, mark: str) -> None:
    text = mark + f"{HEADER}\n{ILSE}\n\nTeodor,Thu,17:00,30".replace(",", separator).replace("\n", end)
    reading = read_roster(text)
    assert [(row.line, row.student) for row in reading.rows] == [(2, "Ilse"), (4, "Teodor")]
    assert reading.faults == ()


@pytest.mark.parametrize("separator", [",", ";", "\t"])
def test_the_separator_is_that_of_our_columns_whatever_else_stands_in_the_header(separator: str) -> None:
    others = [other for other in ",;\t" if other != separator]
    header = separator.join(["student", f'"a{others[0] * 9}b{others[1] * 9}"', "weekday", "time", "minutes"])
    row = separator.join(["Ilse", "x", "Tue", "16:00", "45"])
    assert [row.student for row in read_roster(f"{header}\n{row}").rows] == ["Ilse"]


def test_a_separator_line_of_a_spreadsheet_is_passed_over() -> None:
    assert [row.line for row in read_roster("sep=;\r\nstudent;weekday;time;minutes\r\nIlse;Tue;16:00;45").rows] == [3]


def test_empty_lines_and_lines_of_separators_are_passed_over() -> None:
    text = f"\n,,,\n{HEADER}\n\n  \n,,,\n , ,, \n{ILSE}\n,,,,,,\n\n"
    reading = read_roster(text)
    assert [row.line for row in reading.rows] == [8]
    assert reading.faults == ()


def test_lines_are_those_of_the_file_behind_a_quoted_line_break() -> None:
    text = f'{HEADER},remark\n{ILSE},"one\ntwo\r\nthree"\n\nTeodor,Thu,5,30,\n'
    reading = read_roster(text)
    assert [(row.line, row.remark) for row in reading.rows] == [(2, "one\ntwo\nthree")]
    assert [(fault.line, fault.column) for fault in reading.faults] == [(6, "time")]


def test_a_line_break_in_the_header_is_read() -> None:
    assert read_roster(f'"student",week day,time,"min\nutes"\n{ILSE}').rows[0].line == 3


def test_a_quoted_cell_holds_separators_and_quotation_marks() -> None:
    (row,) = read_roster(f'{HEADER},remark\n"Ilse ""Iggy"" B",Tue,16:00,45, "a, b; c"\n').rows
    assert (row.student, row.remark) == ('Ilse "Iggy" B', "a, b; c")


def test_cells_are_stripped_and_a_short_row_leaves_the_rest_blank() -> None:
    (row,) = read_roster(f"{HEADER},family,remark\n  Ilse  ,\u00a0Tue ,16:00, 45").rows
    assert (row.student, row.weekday, row.family, row.remark) == ("Ilse", 1, None, None)


@pytest.mark.parametrize(
    "name",
    [
        "Þóra Ásdís",
        "Δάφνη",
        "Олена",
        "सरिता",
        "小春",
        "ليلى",
        "שירה",
        "한결",
        "ნინო",
        "அனு",
        "ཚེ་རིང",
        "Ngọc Ánh",
        "🎻 Iggy",
    ],
)
def test_names_are_read_in_any_script(name: str) -> None:
    (row,) = read_roster(f"{HEADER},family\n{name},Tue,16:00,45,{name}").rows
    assert (row.student, row.family) == (name, name)


def test_a_name_in_pieces_is_composed_and_its_spaces_are_single() -> None:
    (row,) = read_roster(f"{HEADER}\nZoe\u0308   A\u030ake,Tue,16:00,45").rows
    assert row.student == "Zo\u00eb \u00c5ke"


def test_a_column_that_is_not_ours_is_told_and_not_used() -> None:
    reading = read_roster(f"{HEADER},fax,room,Fax,fax\n{ILSE},1,2,3,4")
    assert reading.notices == (
        'The column "fax" is not used.',
        'The column "room" is not used.',
        'The column "Fax" is not used.',
    )
    assert (len(reading.rows), reading.faults) == (1, ())


def test_columns_without_a_name_are_passed_over_when_nothing_stands_below() -> None:
    reading = read_roster(f"{HEADER},,\n{ILSE},,\n")
    assert (len(reading.rows), reading.faults, reading.notices) == (1, (), ())


def test_a_fault_is_one_sentence_with_line_column_found_and_wanted() -> None:
    assert told(f"{HEADER}\nIlse,T,16:00,45") == ['Line 2, weekday: found "T". Write Tue or Thu.']


@pytest.mark.parametrize("name", ["End", "end time", "Ends", "Finish"])
def test_a_column_of_ends_could_be_of_the_last_day_or_of_an_hour(name: str) -> None:
    for cell in ("5:15 pm", "2027-06-01"):
        fault = the_fault(f"{HEADER},{name}\n{ILSE},{cell}")
        assert (fault.line, fault.column) == (1, name)
        assert 'Rename it "until" if it has the last day.' in str(fault)


@pytest.mark.parametrize(
    ("name", "beside"),
    [
        ("Mia (piano)", "piano"), ("Piano: Mia", "Piano"), ("Mia (stopped)", "(stopped)"), ("Mia Klavier", "Klavier"), ("Violon Mia", "Violon"), ("Mia*", "*"), ("Mia - paused", "- paused"),
        ("Mia [old]", "[old]"), ("Mia", None), ("Anna-Lena de la Cruz", None), ("J. R. O'Hara", None), ("Mia & Leo", None), ("Student 12", None), ("Viola Stone", None),
    ],
)  # fmt: skip
def test_what_stands_beside_a_name_is_told(name: str, beside: str | None) -> None:
    notices = read_roster(f"{HEADER}\n{name},Tue,16:00,45").notices
    assert [f'with "{beside}" in the name' in notice for notice in notices] == [True] * (beside is not None)


@pytest.mark.parametrize(
    ("name", "meant"),
    [
        ("studnet", "student"), ("students", "student"), ("e-mails", "email"), ("emial", "email"), ("zoen", "zone"),
        ("form", "from"), ("untill", "until"), ("instument", "instrument"), ("kept_on", "kept_in"), ("remarks", "remark"),
        ("time zoen", "zone"), ("tz", "zone"), ("link", "call_link"), ("Last day", "until"), ("First lesson", "from"), ("Frequency", "every_weeks"), ("daily minute", "daily_minutes"),
    ],
)  # fmt: skip
def test_a_name_that_is_nearly_ours_is_asked_about(name: str, meant: str) -> None:
    header = HEADER if meant != "student" else "family,weekday,time,minutes"
    fault = (
        the_fault(f"{header},{name}\n{ILSE}")
        if meant != "student"
        else read_roster(f"{header},{name}\n{ILSE},I").faults[0]
    )
    assert (fault.line, fault.column) == (1, name)
    assert f'Did you mean "{meant}"?' in str(fault)


@pytest.mark.parametrize(
    "name",
    [
        "mobile",
        "room",
        "age",
        "grade",
        "address",
        "city",
        "rate",
        "fee",
        "book",
        "parent",
        "birthday",
        "notes",
    ],
)
def test_a_name_that_is_far_from_ours_is_only_not_used(name: str) -> None:
    assert read_roster(f"{HEADER},{name}\n{ILSE},x").faults == ()


def test_a_misspelled_needed_column_is_one_fault_and_its_cells_are_read_too() -> None:
    assert told("student,weekdy,time,minutes\nIlse,T,16:00,45") == [
        'Line 1, weekdy: found a column "weekdy". Did you mean "weekday"? Rename the column or delete it.',
        'Line 2, weekday: found "T". Write Tue or Thu.',
    ]


def test_a_name_nearly_like_a_column_that_is_there_is_a_fault_too() -> None:
    fault = the_fault(f"{HEADER},email,email2\n{ILSE}")
    assert (fault.column, fault.found) == ("email2", 'a column "email2"')
    assert 'already has a column "email"' in fault.wanted


def test_a_column_that_stands_there_twice_is_a_fault() -> None:
    fault = the_fault(f"{HEADER},email,E-Mail\n{ILSE}")
    assert str(fault) == ("Line 1, email: found this column twice (5th and 6th in the file). Keep one of them.")


def test_each_missing_column_is_told_with_what_is_there() -> None:
    faults = read_roster("student,room,minutes\nIlse,1,45").faults
    assert [(fault.line, fault.column) for fault in faults] == [(1, "weekday"), (1, "time")]
    assert all('"student, room, minutes"' in fault.found for fault in faults)
    assert 'Add a column "weekday"' in faults[0].wanted


def test_another_separator_is_told_with_those_that_work() -> None:
    faults = read_roster("student|weekday|time|minutes\nIlse|Tue|16:00|45").faults
    assert {fault.column for fault in faults} == {"student", "weekday", "time", "minutes"}
    assert all("commas, semicolons, or tabs" in fault.wanted for fault in faults)


@pytest.mark.parametrize("text", ["", "\ufeff", "\n\n", " \r\n\t\r\n", "sep=;\n"])
def test_an_empty_file_is_told_how_to_begin(text: str) -> None:
    assert the_fault(text).found == "an empty file"
    assert HEADER in the_fault(text).wanted


@pytest.mark.parametrize("text", [",,,\n,,,\n", ";;\n", "\t\t", '"",""\n', "\u00a0\n", '"', '" ";\u00a0'])
def test_a_file_of_separators_and_spaces_alone_is_told_as_empty(text: str) -> None:
    assert the_fault(text).found == "an empty file"


def test_a_header_alone_is_a_fault() -> None:
    assert told(f"{HEADER}\n,,,\n") == [
        "Line 1: found column names with no rows below them. Add a row for each weekly time."
    ]


def test_nul_characters_are_one_fault_at_their_first_line() -> None:
    reading = read_roster(f"{HEADER}\nIl\0se,Tue,16:00,45\nTeo\0dor,Thu,17:00,30\nAnna,Fri,x,30\n")
    assert [(fault.line, fault.column) for fault in reading.faults] == [(2, None), (4, "time")]
    assert "a NUL character, which a text file cannot have (and in 1 more line)" in str(reading.faults[0])


@pytest.mark.parametrize("character", ["\x1b", "\x07", "\x7f", "\x9b", "\ud800", "\x1d"])
def test_a_character_that_cannot_be_shown_is_a_fault_and_is_not_repeated(character: str) -> None:
    fault = the_fault(f"{HEADER}\nIl{character}se,Tue,16:00,45")
    assert (fault.line, fault.column) == (2, "student")
    assert character not in str(fault)


def test_a_quotation_mark_that_is_never_closed_is_told_where_it_opens_and_the_rest_is_read() -> None:
    reading = read_roster(f'{HEADER}\nIlse,Tue,16:00,"45\nTeodor,T,17:00,30\nAnna,Fri,17:00,4\n')
    assert [(fault.line, fault.column) for fault in reading.faults] == [(2, None), (3, "weekday"), (4, "minutes")]
    assert "opening quotation mark with no closing one" in reading.faults[0].found
    assert 'Ilse,Tue,16:00,"45' in reading.faults[0].found


def test_text_behind_a_closing_quotation_mark_is_told_and_the_rest_is_read() -> None:
    reading = read_roster(f'{HEADER}\n"Ilse" B,Tue,16:00,45\nTeodor,T,17:00,30\n')
    assert [(fault.line, fault.column) for fault in reading.faults] == [(2, None), (3, "weekday")]
    assert 'double any that belong to the text ("")' in reading.faults[0].wanted


def test_a_quotation_mark_that_swallows_lines_does_not_hide_their_faults() -> None:
    reading = read_roster(f'{HEADER}\n"Ilse,Tue,16:00,45\nTeodor,T,17:00,30\n"Anna",Fri,17:00,30\n')
    assert [(fault.line, fault.column) for fault in reading.faults] == [(2, None), (3, "weekday")]


def test_a_cell_too_long_for_a_cell_is_told_as_a_quotation_mark_never_closed() -> None:
    reading = read_roster(f'{HEADER}\n"Ilse,Tue,16:00,45\n' + "Teodor,Thu,17:00,30\n" * 9000)
    assert reading.faults[0].line == 2
    assert "no closing one" in reading.faults[0].found


def test_more_cells_than_columns_are_a_fault_unless_they_are_blank() -> None:
    assert read_roster(f"{HEADER}\n{ILSE}, ,,").faults == ()
    fault = the_fault(f"{HEADER}\n{ILSE},cello,")
    assert (fault.line, fault.column) == (2, None)
    assert fault.found == 'one cell too many, "cello"'


@pytest.mark.parametrize(
    ("column", "row"), [("student", " ,Tue,16:00,45"), ("weekday", "Ilse,,16:00,45"), ("time", "Ilse,Tue,,45"), ("minutes", "Ilse,Tue,16:00")]
)  # fmt: skip
def test_a_needed_cell_that_is_blank_is_a_fault(column: str, row: str) -> None:
    fault = the_fault(f"{HEADER}\n{row}")
    assert (fault.line, fault.column, fault.found) == (2, column, "nothing")
    assert fault.wanted.startswith("Write the ")


@pytest.mark.parametrize(
    ("column", "cell"),
    [
        ("email", "a@b"), ("zone", "Central"), ("kept_in", "mine"), ("from", "9/1/2026"), ("until", "2026-02-30"),
        ("daily_minutes", "many"), ("call_link", "example.org"), ("clock", "am"), ("every_weeks", "3"),
        ("send_by", "fax"), ("language", "Klingon!"), ("yearly_lessons", "all"), ("level", "grade 3"),
    ],
)  # fmt: skip
def test_a_cell_that_cannot_be_read_is_told_with_what_was_found(column: str, cell: str) -> None:
    fault = the_fault(f"{HEADER},{column}\n{ILSE},{cell}")
    assert (fault.line, fault.column, fault.found) == (2, column, f'"{cell}"')
    assert fault.wanted.startswith("Write ")


def test_a_long_cell_is_cut_in_the_sentence() -> None:
    fault = the_fault(f"{HEADER}\nIlse,{'x' * 500},16:00,45")
    assert len(str(fault)) < 200
    assert fault.found.endswith('…"')


def test_until_before_from_is_a_fault_and_the_same_day_is_not() -> None:
    fault = the_fault(f"{HEADER},from,until\n{ILSE},2026-09-02,2026-09-01")
    assert (fault.line, fault.column) == (2, "until")
    assert fault.found == '"2026-09-01", which is before "2026-09-02" in the column from'
    assert read_roster(f"{HEADER},from,until\n{ILSE},2026-09-01,2026-09-01").faults == ()


def test_all_faults_are_told_in_one_go_in_the_order_of_the_lines() -> None:
    text = f"{HEADER},emial,zone\nIlse,T,5:00,3,a,EST\n,Tue,16:00,45,,\nTeodor,Thu,17:00,30,,,9\n{ILSE},x,\n"
    assert [(fault.line, fault.column) for fault in read_roster(text).faults] == [
        (1, "emial"), (2, "weekday"), (2, "time"), (2, "minutes"), (2, "email"), (2, "zone"), (3, "student"), (4, None),
        (5, "email"),
    ]  # fmt: skip


def test_family_as_whose_clock_is_read_without_a_zone_too() -> None:
    (row,) = read_roster(f"{HEADER},kept_in,zone\n{ILSE},family,").rows
    assert (row.kept_in, row.zone) == (KeptIn.FAMILY, None)


@pytest.mark.parametrize(
    ("column", "first", "second"),
    [("email", "a@example.org", "b@example.org"), ("zone", "America/Chicago", "Asia/Kolkata"), ("clock", "12", "24"),
     ("send_by", "mail", "folder"), ("language", "es", "fr")],
)  # fmt: skip
def test_rows_that_disagree_about_a_family_are_told_the_earlier_line(column: str, first: str, second: str) -> None:
    text = (
        f"{HEADER},family,{column}\nIlse,Tue,16:00,45,Brandvold,\nIlse,Wed,16:00,45,BRANDVOLD,{first}\n"
        f"Tor,Thu,16:00,45,Brandvold,{second}\nTor,Fri,16:00,45,brandvold,{first}"
    )
    fault = the_fault(text)
    assert (fault.line, fault.column, fault.found) == (4, column, f'"{second}"')
    assert f'Line 3 has "{first}" for the family Brandvold' in fault.wanted


@pytest.mark.parametrize(
    ("column", "first", "second"),
    [
        ("daily_minutes", "20", "0"),
        ("remark", "shy", "not shy"),
        ("practice_days", "Mon-Sat", "Mon-Fri"),
        ("yearly_lessons", "36", "30"),
    ],
)
def test_rows_that_disagree_about_a_student_are_told_the_earlier_line(column: str, first: str, second: str) -> None:
    text = (
        f"{HEADER},family,{column}\nIlse,Tue,16:00,45,Brandvold,{first}\nTor,Tue,16:00,45,Brandvold,{second}\n"
        f"ilse,Wed,16:00,45,Brandvold,{second}\nIlse,Tue,16:00,45,Haugen,{second}"
    )
    fault = the_fault(text)
    assert (fault.line, fault.column) == (4, column)
    assert f'Line 2 has "{first}" for ilse' in fault.wanted


def test_a_row_with_a_fault_of_its_own_is_compared_with_the_others_too() -> None:
    text = f"{HEADER},email\nIlse,Tue,16:00,3,a@example.org\nIlse,Wed,16:00,45,b@example.org"
    assert [(fault.line, fault.column) for fault in read_roster(text).faults] == [(2, "minutes"), (3, "email")]


def test_a_family_is_named_after_its_student_when_the_file_does_not_say() -> None:
    text = f"{HEADER},family,email\nIlse,Tue,16:00,45,,a@example.org\nTor,Tue,16:00,45,Ilse,b@example.org"
    assert (the_fault(text).line, the_fault(text).column) == (3, "email")


def test_a_row_without_the_family_that_another_row_names_is_a_fault_since_it_may_be_another_child() -> None:
    fault = the_fault(f"{HEADER},family\nIlse,Tue,16:00,45,Brandvold\nIlse,Wed,16:00,45,")
    assert str(fault) == (
        'Line 3, family: found nothing. Write "Brandvold" as in line 2, or "Ilse" if this is another Ilse.'
    )


def test_the_same_standing_time_twice_is_a_fault() -> None:
    fault = the_fault(f"{HEADER}\n{ILSE}\nTor,Tue,16:00,45\nILSE,tuesday,4 pm,30")
    assert (fault.line, fault.column) == (4, "time")
    assert str(fault).startswith(
        "Line 4, time: found Tuesday 16:00 for ILSE again. Line 2 already has this weekly time"
    )


@pytest.mark.parametrize(
    ("first", "second", "is_fault"),
    [
        ("2026-01-01,2026-06-30", "2026-07-01,2026-12-31", False), ("2026-01-01,2026-06-30", "2026-06-30,", True),
        (",2026-06-30", "2026-07-01,", False), (",2026-06-30", ",2026-01-01", True), ("2026-07-01,", ",2026-06-30", False),
        ("2026-01-01,", "2027-01-01,", True), (",", "2027-01-01,2027-01-01", True),
    ],
)  # fmt: skip
def test_the_same_weekday_and_time_is_no_fault_in_another_season(first: str, second: str, is_fault: bool) -> None:
    reading = read_roster(f"{HEADER},from,until\n{ILSE},{first}\n{ILSE},{second}\n")
    assert [fault.line for fault in reading.faults] == ([3] if is_fault else [])


@pytest.mark.long
def test_a_roster_of_ten_thousand_rows_is_read() -> None:
    rows = [
        f"Student {n},{('Mon', 'Tue', 'Wed')[n % 3]},{7 + n % 13:02d}:{n % 60:02d},45,Family {n % 900}"
        for n in range(10_000)
    ]
    reading = read_roster("\r\n".join([f"{HEADER},family", *rows]))
    assert (len(reading.rows), reading.faults) == (10_000, ())
    assert reading.rows[-1].line == 10_001


@pytest.mark.parametrize(
    ("cell", "weekday", "weeks"),
    [
        *(
            ("Friday biweekly", "Fri", 2),
            ("bi-weekly Fri", "Fri", 2),
            ("Every other Tuesday", "Tue", 2),
            ("Mon (every 2 weeks)", "Mon", 2),
        ),
        *(
            ("Fridays, fortnightly", "Fri", 2),
            ("Sat/alternate weeks", "Sat", 2),
            ("every second Thu", "Thu", 2),
            ("Wed weekly", "Wed", 1),
        ),
        *(("every Monday", "Mon", 1), ("each Sunday", "Sun", 1), ("Fri - every other week", "Fri", 2)),
    ],
)
def test_a_weekday_with_how_often_it_comes_is_told_with_the_column_for_that(cell, weekday, weeks):
    assert told(f'{HEADER}\nIlse,"{cell}",16:00,45') == [
        f'Line 2, weekday: found "{cell}". Write {weekday} here, and {weeks} in a column every_weeks.'
    ]
    assert read_roster(f"{HEADER},every_weeks\nIlse,{weekday},16:00,45,{weeks}").rows[0].every_weeks == weeks


@pytest.mark.parametrize("cell", ["Friday monthly", "biweekly", "Fri 3 weeks", "Mon or Tue weekly"])
def test_a_weekday_with_other_words_is_told_as_before(cell):
    (line,) = told(f"{HEADER}\nIlse,{cell},16:00,45")
    assert line.startswith(f'Line 2, weekday: found "{cell}". Write ')
    assert "every_weeks" not in line
