"""The spellings of a cell. Which spellings people use is common practice, without a source."""

from datetime import date, time

import pytest

from cockpit.studio.clocks.home import Home, Stay
from cockpit.studio.clocks.moments import WEEKDAYS
from cockpit.studio.errors import BadInput
from cockpit.studio.lessons.weekly_times import KeptIn
from cockpit.studio.roster import values


@pytest.mark.parametrize(
    ("text", "weekday"),
    [
        ("Tue", 1), ("tuesday", 1), ("TUESDAY", 1), ("Tues.", 1), ("tu", 1), ("Tuesdays", 1), (" thu ", 3), ("Thurs", 3),
        ("Th", 3), ("mo", 0), ("Mon.", 0), ("we", 2), ("Weds", 2), ("Fr", 4), ("sa", 5), ("Su", 6), ("Sunday", 6),
        ("Dienstag", 1), ("Mi", 2), ("mardi", 1), ("mar.", 1), ("jeudi", 3), ("sam", 5), ("jueves", 3), ("Mié", 2), ("domingo", 6), ("So", 6),
    ],
)  # fmt: skip
def test_a_weekday_is_read_by_its_first_letters(text: str, weekday: int) -> None:
    assert values.read_weekday(text) == weekday


@pytest.mark.parametrize("text", ["T", "S", "M", ".", "Dinsdag", "Di", "Do", "tusday", "2", "tue wed", "Tuesdayss"])
def test_another_weekday_is_refused(text: str) -> None:
    with pytest.raises(BadInput, match=r"^Write .*\b(Tue|Mon|Sat)\b"):
        values.read_weekday(text)


def test_a_single_letter_is_told_the_days_it_could_be() -> None:
    with pytest.raises(BadInput, match=r"^Write Tue or Thu$"):
        values.read_weekday("T")
    with pytest.raises(BadInput, match=r"^Write Sat or Sun$"):
        values.read_weekday("s.")


def test_every_beginning_of_two_letters_or_more_is_one_weekday() -> None:
    for number, name in enumerate(WEEKDAYS):
        for length in range(2, len(name) + 1):
            assert values.read_weekday(name[:length]) == number


@pytest.mark.parametrize(
    ("text", "at"),
    [
        ("4:30 pm", time(16, 30)), ("4:30pm", time(16, 30)), ("4:30 PM", time(16, 30)), ("4.30pm", time(16, 30)),
        ("4:30 p.m.", time(16, 30)), ("4:30p", time(16, 30)), ("4 pm", time(16)), ("4pm", time(16)), ("4 p.m.", time(16)),
        ("4:30\u202fPM", time(16, 30)), ("4:30\u00a0pm", time(16, 30)), ("４：３０ ｐｍ", time(16, 30)),
        ("430 pm", time(16, 30)), ("16:30", time(16, 30)), ("16.30", time(16, 30)), ("1630", time(16, 30)),
        ("16h30", time(16, 30)), ("16h", time(16)), ("16:30:00", time(16, 30)), ("4:30:00 PM", time(16, 30)),
        ("930", time(9, 30)), ("0930", time(9, 30)), ("9:30", time(9, 30)), ("9:30 am", time(9, 30)),
        ("noon", time(12)), ("12 pm", time(12)), ("12:30 pm", time(12, 30)), ("12:30", time(12, 30)),
        ("12 am", time(0)), ("12:05 am", time(0, 5)), ("0:15", time(0, 15)), ("00:15", time(0, 15)),
        ("04:30", time(4, 30)), ("0430", time(4, 30)), ("4:30 am", time(4, 30)), ("7:00", time(7)), ("7:00 pm", time(19)),
        ("6:59 am", time(6, 59)), ("23:59", time(23, 59)), ("11 pm", time(23)),
    ],
)  # fmt: skip
def test_a_time_is_read_on_either_clock(text: str, at: time) -> None:
    assert values.read_time(text) == at


@pytest.mark.parametrize("text", ["4:30", "4.30", "430", "4h30", "4h", "1:00", "6:59"])
def test_a_time_that_may_be_night_or_afternoon_is_refused(text: str) -> None:
    with pytest.raises(BadInput, match=r'^Write "\d:\d\d pm" or "1\d:\d\d", or "0\d:\d\d" if it is before noon$'):
        values.read_time(text)


def test_a_doubtful_time_is_told_in_the_three_ways_to_write_it() -> None:
    with pytest.raises(BadInput, match=r'^Write "4:30 pm" or "16:30", or "04:30" if it is before noon$'):
        values.read_time("4:30")


@pytest.mark.parametrize(
    "text",
    [
        "4", "16", "24:00", "25:00", "2500", "16:60", "1660", "13 pm", "16:30 pm", "0 am", "0:30 pm", "4:5 pm", "16:30 m",
        "half past four", "4:30-5:15", "16:30:15", "pm", "midnight", "-4:30", "12345", "4:30 pmm", "٤:٣٠ pm",
    ],
)  # fmt: skip
def test_another_time_is_refused(text: str) -> None:
    with pytest.raises(BadInput, match=r'^Write a time such as "4:30 pm" or "16:30"$'):
        values.read_time(text)


@pytest.mark.parametrize("hour", range(24))
def test_every_hour_is_read_back_from_both_clocks(hour: int) -> None:
    at = time(hour, 5)
    assert values.read_time(f"{hour:02d}:05") == at
    assert values.read_time(f"{hour % 12 or 12}:05 {'am' if hour < 12 else 'pm'}") == at


@pytest.mark.parametrize(
    ("text", "minutes"),
    [("45", 45), ("45 min", 45), ("45m", 45), ("45 minutes", 45), ("45 Min.", 45), ("5", 5), ("240", 240), ("060", 60)],
)
def test_the_length_of_a_lesson_is_read(text: str, minutes: int) -> None:
    assert values.read_minutes(text) == minutes


@pytest.mark.parametrize("text", ["4", "241", "0", "-45", "45.5", "5h", "45 hours", "three quarters", "4 5", "1000"])
def test_another_length_is_refused(text: str) -> None:
    with pytest.raises(BadInput, match="5 to 240"):
        values.read_minutes(text)


def test_daily_minutes_go_from_0_to_600() -> None:
    assert [values.read_daily_minutes(text) for text in ("0", "20 min", "600")] == [0, 20, 600]
    for text in ("601", "-1", "an hour"):
        with pytest.raises(BadInput, match="0 to 600"):
            values.read_daily_minutes(text)


def test_the_lesson_times_of_a_year_go_from_1_to_366() -> None:
    assert [values.read_yearly_lessons(text) for text in ("1", " 36 lessons", "36.0", "366")] == [1, 36, 36, 366]
    for text in ("0", "367", "-1", "3.5", "many", "³"):
        with pytest.raises(BadInput, match="1 to 366"):
            values.read_yearly_lessons(text)


def test_a_date_is_read_in_iso_form_alone() -> None:
    assert values.read_date(" 2026-09-01 ") == date(2026, 9, 1)
    assert values.read_date("2028-02-29") == date(2028, 2, 29)


@pytest.mark.parametrize(
    "text", ["9/1/2026", "1.9.2026", "2026-9-1", "20260901", "2026/09/01", "Sep 1 2026", "2026-W36-2", "0001-01-01", "9999-12-31"]
)  # fmt: skip
def test_another_form_of_a_date_is_refused(text: str) -> None:
    with pytest.raises(BadInput, match=r"^Write the date as YYYY-MM-DD, such as 2026-09-01$"):
        values.read_date(text)


@pytest.mark.parametrize("text", ["2026-02-29", "2026-13-01", "2026-00-10", "2026-04-31"])
def test_a_day_that_the_calendar_does_not_have_is_refused(text: str) -> None:
    with pytest.raises(BadInput, match=r"a real date"):
        values.read_date(text)


def test_whose_clock_is_teacher_or_family() -> None:
    assert values.read_kept_in("Teacher") is KeptIn.TEACHER
    assert values.read_kept_in(" FAMILY ") is KeptIn.FAMILY
    for text in ("mine", "student", "t"):
        with pytest.raises(BadInput, match=r"^Write teacher or family"):
            values.read_kept_in(text)


def test_a_familys_clock_has_12_or_24_hours() -> None:
    assert [values.read_clock(text) for text in ("12", "24", "24h", "12 hours", "24-hour")] == [12, 24, 24, 12, 24]
    for text in ("am/pm", "13", "1224"):
        with pytest.raises(BadInput, match=r"^Write 12 or 24"):
            values.read_clock(text)


@pytest.mark.parametrize("text", ["a@example.org", "a.b+c@mail.example.org", "õ@пример.example", "o'x@example.org"])
def test_an_address_is_read_as_it_stands(text: str) -> None:
    assert values.read_emails(f" {text} ") == text


@pytest.mark.parametrize(
    "text",
    ["a@example.org, b@example.org", "a@example.org;b@example.org", "a@example.org b@example.org\na@example.org"],
)
def test_each_guardian_has_an_address(text: str) -> None:
    assert values.read_emails(text) == "a@example.org, b@example.org"


@pytest.mark.parametrize(
    "text",
    ["a", "@example.org", "a@", "a@example", "a b@example.org", "a@b@example.org", "a@example.org, b",
     ",", "A <a@example.org>", "mailto:a@example.org", "a@example.",
     "a\x07@example.org", "a\\@example.org", "a@[127.0.0.1]"],
)  # fmt: skip
def test_what_is_no_address_is_refused(text: str) -> None:
    with pytest.raises(BadInput, match=r"^Write an email address"):
        values.read_emails(text)


@pytest.mark.parametrize(
    ("text", "wanted"),
    [("mail", "mail"), ("Mail; folder", "folder, mail"), ("draft+mail", "draft, mail"), ("none", "none")],
)
def test_the_ways_in_which_notes_go_out(text: str, wanted: str) -> None:
    assert values.read_send_by(text) == wanted
    with pytest.raises(BadInput, match=r"^Write one or more of clipboard, folder, draft, mail"):
        values.read_send_by(f"{text}, pigeon")


def test_a_language_has_a_short_name() -> None:
    assert [values.read_language(text) for text in ("es", " DE ", "eus")] == ["es", "de", "eus"]
    assert [values.read_language(text) for text in ("en-GB", "EN_gb", "de-at")] == ["en-GB", "en-GB", "de-AT"]
    for text in ("e", "span", "e1", "de-", "de-AUT", "de-1", "de-AT-x", "-gb", "../de"):
        with pytest.raises(BadInput, match=r"^Write a language code"):
            values.read_language(text)


@pytest.mark.parametrize(
    "text", ["https://call.example.org/room?a=1#b", "http://localhost:8080", "HTTPS://EXAMPLE.ORG"]
)
def test_a_call_link_is_read_as_it_stands(text: str) -> None:
    assert values.read_call_link(text) == text


@pytest.mark.parametrize(
    "text", ["call.example.org", "ftp://example.org", "https://", "https:///x", "javascript:x", "file:///x", "http://[", "https://a b"]
)  # fmt: skip
def test_what_is_not_a_web_address_is_refused(text: str) -> None:
    with pytest.raises(BadInput, match='begins with "https://"'):
        values.read_call_link(text)


def test_a_name_is_composed_and_its_spaces_are_single() -> None:
    assert values.read_name("  Zoe\u0308 \n  A\u030akesson ") == "Zo\u00eb \u00c5kesson"


def test_a_remark_keeps_its_spaces_and_its_line_breaks() -> None:
    assert values.read_remark(" bow  hand\r\nsecond\rthird ") == "bow  hand\nsecond\nthird"


IN_MARCH = Stay(zone="America/Denver", from_on=date(2027, 3, 1))


@pytest.mark.parametrize(
    ("text", "zone"),
    [
        ("America/Phoenix", "America/Phoenix"),
        ("phoenix", "America/Phoenix"),
        ("America/Phoenix; America/Denver from 2027-03-01", Home(zone="America/Phoenix", stays=(IN_MARCH,))),
        ("phoenix;denver from 2027-03-01;", Home(zone="America/Phoenix", stays=(IN_MARCH,))),
        (
            "Phoenix; Denver from 2027-03-01; Asia/Kolkata from 2027-06-01 to 2027-07-01",
            Home(
                zone="America/Phoenix",
                stays=(IN_MARCH, Stay(zone="Asia/Kolkata", from_on=date(2027, 6, 1), until_on=date(2027, 7, 1))),
            ),
        ),
    ],
)
def test_a_zone_may_name_moves_behind_it(text, zone):
    assert values.read_zone(text) == zone


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("America/Denver from 2027-03-01", "IANA name"),
        ("America/Phoenix; America/Denver", "with its first day"),
        ("America/Phoenix; America/Denver from march 1", "with its first day"),
        ("America/Phoenix; America/Denver from 3/1/27", "YYYY-MM-DD"),
        ("America/Phoenix; Denvr from 2027-03-01", "IANA name"),
        ("America/Phoenix; America/Denver from 2027-03-01 to 2027-02-01", "last day"),
        ("America/Phoenix; America/Denver from 2027-03-01; America/Boise from 2027-03-01", "in order"),
    ],
)
def test_a_move_that_is_not_understood_is_refused_with_what_works(text, wanted):
    with pytest.raises(BadInput, match=wanted):
        values.read_zone(text)
