"""Files read again: what they say otherwise than before is done, and what was changed here since stays."""

from pathlib import Path

import pytest
from support.arranged_studio import ROSTER, Arranged, arranged_studio
from support.calendars import SINGLE, WEEKLY, at, brought, event
from support.studio import home

from cockpit.desk.calendar.proposals import Purpose

ILSE = "Ilse,{},30,Brandvold,cello,America/Phoenix,teacher,{},{}\n"


def dated(day: str = "Tuesday,16:00", begins: str = "", ends: str = "") -> str:
    """A roster of Ilse alone, with columns of dates."""
    header = ROSTER.splitlines()[0]
    return f"{header},from,until\n{ILSE.format(day, begins, ends)}"


def read(arranged: Arranged, roster: str) -> tuple[str, ...]:
    lines = arranged.studio.enrolling.take_in(roster).lines
    assert arranged.studio.enrolling.take_in(roster).lines == ()
    return lines


def at_a_later_day(folder: Path, now: str):
    return arranged_studio(folder, roster="", now=now)


def test_an_end_made_here_stays_though_the_file_has_a_later_one(tmp_path):
    roster = dated(ends="2027-06-30")
    with arranged_studio(tmp_path, roster) as arranged:
        arranged.done(Purpose.CHANGE, "2026-12-08", "Ilse", "until 18 dec")
        plan = arranged.studio.enrolling.take_in(roster)
        assert plan.lines == ()
        assert plan.troubles == (
            "ended in the studio, not brought back: Ilse, Tuesday 4:00 pm, 30 minutes, cello, through 2026-12-18 (family Brandvold)",
        )
        assert arranged.lessons("Ilse", "2026-12-14", "2027-03-01") == ["Tue 2026-12-15 16:00"]


def test_another_end_in_the_file_is_followed_after_one_was_made_here(tmp_path):
    with arranged_studio(tmp_path, dated(ends="2027-06-30")) as arranged:
        arranged.done(Purpose.CHANGE, "2026-12-08", "Ilse", "until 18 dec")
        assert read(arranged, dated(ends="2026-12-31")) == ("changed: Ilse, Tuesday: through 2026-12-18 -> 2026-12-31",)
        assert arranged.lessons("Ilse", "2026-12-21", "2027-03-01") == ["Tue 2026-12-22 16:00", "Tue 2026-12-29 16:00"]


def test_an_end_taken_out_of_the_file_is_taken_out(tmp_path):
    with arranged_studio(tmp_path, dated(ends="2026-12-01")) as arranged:
        assert read(arranged, dated()) == ("changed: Ilse, Tuesday: through 2026-12-01 -> -",)
        assert arranged.lessons("Ilse", "2026-12-07", "2026-12-16") == ["Tue 2026-12-08 16:00", "Tue 2026-12-15 16:00"]


def test_lessons_that_are_over_go_on_from_today_where_the_file_names_another_end(tmp_path):
    with arranged_studio(tmp_path, dated(ends="2026-12-15")):
        pass
    with at_a_later_day(tmp_path, "2027-02-10 10:00") as arranged:
        assert read(arranged, dated(ends="2027-03-05")) == (
            "new: Ilse, Tuesday 4:00 pm, 30 minutes, cello, from 2027-02-10, through 2027-03-05 (family Brandvold)",
        )
        assert arranged.lessons("Ilse", "2026-12-08", "2027-03-20") == [
            "Tue 2026-12-08 16:00", "Tue 2026-12-15 16:00", "Tue 2027-02-16 16:00", "Tue 2027-02-23 16:00",
            "Tue 2027-03-02 16:00",
        ]  # fmt: skip


@pytest.mark.parametrize(
    ("later", "lessons"),
    [
        ("2027-01-19", ["Tue 05 16:00", "Tue 12 16:00", "Tue 19 17:00"]),
        ("2027-01-05", ["Tue 05 17:00", "Tue 12 17:00", "Tue 19 17:00"]),
        ("", ["Tue 05 17:00", "Tue 12 17:00", "Tue 19 17:00"]),
    ],
)
def test_a_change_to_come_that_the_file_puts_at_another_date_leaves_no_gap(tmp_path, later, lessons):
    with arranged_studio(tmp_path, dated()) as arranged:
        read(arranged, dated("Tuesday,17:00", "2027-01-12"))
        arranged.write("2027-01-12", "Ilse", "Scales: D major")
        read(arranged, dated("Tuesday,17:00", later))
        said = [each.replace("2027-01-", "") for each in arranged.lessons("Ilse", "2027-01-01", "2027-01-25")]
        assert said == lessons
        assert arranged.studio.desk.notes.sheet(arranged.booking("2027-01-12", "Ilse")).body == "Scales: D major"


def test_a_second_change_before_the_first_has_met_leaves_this_week_its_lesson(tmp_path):
    with arranged_studio(tmp_path, dated("Sunday,16:00")) as arranged:
        read(arranged, dated("Friday,16:00"))
        read(arranged, dated("Monday,16:00"))
        assert arranged.lessons("Ilse", "2026-11-23", "2026-12-12") == [
            "Sun 2026-11-29 16:00", "Mon 2026-11-30 16:00", "Mon 2026-12-07 16:00",
        ]  # fmt: skip


def test_only_what_the_row_says_otherwise_reaches_a_time_that_was_changed_here(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        arranged.done(Purpose.CHANGE, "2026-12-15", "Ilse", "from thu 17 dec 5 pm")
        read(arranged, ROSTER.replace("Ilse,Tuesday,16:00,30", "Ilse,Tuesday,16:00,60"))
        booking = arranged.booking("2026-12-17", "Ilse")
        assert booking.lesson.minutes == 60
        assert arranged.lessons("Ilse", "2026-12-21", "2026-12-28") == ["Thu 2026-12-24 17:00"]


def test_one_more_row_leaves_a_time_alone_that_was_changed_here_twice(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        arranged.done(Purpose.CHANGE, "2026-12-15", "Ilse", "from thu 17 dec 5 pm 45m")
        arranged.done(Purpose.CHANGE, "2026-12-17", "Ilse", "from fri 1 jan 3 pm")
        lines = read(arranged, f"{ROSTER}Ilse,Saturday,10:00,30,Brandvold,piano,America/Phoenix,teacher\n")
        assert [line.split(",")[0] for line in lines] == ["new: Ilse"]
        assert arranged.lessons("Ilse", "2027-01-04", "2027-01-11") == ["Fri 2027-01-08 15:00", "Sat 2027-01-09 10:00"]


@pytest.mark.parametrize("ends", ["2026-12-01", "2027-02-02"])
def test_a_file_that_ends_earlier_ends_what_was_changed_here_for_later(tmp_path, ends):
    with arranged_studio(tmp_path, dated()) as arranged:
        arranged.done(Purpose.CHANGE, "2026-12-08", "Ilse", "from thu 14 jan 5 pm")
        read(arranged, dated(ends=ends))
        lessons = arranged.lessons("Ilse", "2026-11-24", "2027-06-01")
        assert lessons[-1] == {"2026-12-01": "Tue 2026-12-01 16:00", "2027-02-02": "Thu 2027-01-28 17:00"}[ends]


def test_a_row_that_begins_later_than_it_did_keeps_its_past(tmp_path):
    with arranged_studio(tmp_path, dated()) as arranged:
        read(arranged, dated(begins="2027-01-12"))
        assert arranged.lessons("Ilse", "2026-11-16", "2027-01-20") == [
            "Tue 2026-11-17 16:00", "Tue 2026-11-24 16:00", "Tue 2027-01-12 16:00", "Tue 2027-01-19 16:00",
        ]  # fmt: skip


def test_a_row_that_begins_earlier_does_not_run_beside_what_was_there_before_a_change_made_here(tmp_path):
    with arranged_studio(tmp_path, dated()) as arranged:
        arranged.done(Purpose.CHANGE, "2026-12-15", "Ilse", "every other week")
        read(arranged, dated(begins="2026-12-01"))
        assert arranged.lessons("Ilse", "2026-11-30", "2026-12-30") == [
            "Tue 2026-12-01 16:00", "Tue 2026-12-08 16:00", "Tue 2026-12-15 16:00", "Tue 2026-12-29 16:00",
        ]  # fmt: skip


def test_a_file_of_before_the_studio_remembered_says_nothing_new(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        arranged.done(Purpose.CHANGE, "2026-12-15", "Ilse", "from thu 17 dec 5 pm")
        arranged.studio.store.connection.execute("DELETE FROM imported_time")
        assert read(arranged, ROSTER) == ()
        read(arranged, ROSTER.replace("Ilse,Tuesday,16:00,30", "Ilse,Tuesday,16:00,45"))
        assert arranged.booking("2026-12-24", "Ilse").lesson.minutes == 45


def test_an_event_is_known_by_its_name_after_it_was_found_by_its_time(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        brought(arranged, event(WEEKLY))
        moved = event(WEEKLY | at("20260902T173000"))
        brought(arranged, moved)
        assert arranged.lessons("Ilse", "2026-11-30", "2026-12-14") == ["Wed 2026-12-02 17:30", "Wed 2026-12-09 17:30"]
        assert read(arranged, ROSTER) == ()
        assert brought(arranged, moved).lines == ()


def test_a_weekday_that_an_event_does_not_name_any_more_ends_and_can_come_back(tmp_path):
    both, one = "FREQ=WEEKLY;BYDAY=TU,TH", "FREQ=WEEKLY;BYDAY=TH"
    with arranged_studio(tmp_path, roster="") as arranged:
        brought(arranged, event(WEEKLY, RRULE=both))
        less = event(WEEKLY | at("20260903T160000"), RRULE=one)
        assert brought(arranged, less).lines == ("changed: Ilse, Tuesday: through - -> 2026-11-24",)
        assert brought(arranged, less).lines == ()
        assert arranged.lessons("Ilse", "2026-11-23", "2026-12-09") == [
            "Tue 2026-11-24 16:00", "Thu 2026-11-26 16:00", "Thu 2026-12-03 16:00",
        ]  # fmt: skip
    with at_a_later_day(tmp_path, "2026-12-09 10:00") as arranged:
        brought(arranged, event(WEEKLY, RRULE=both))
        assert arranged.lessons("Ilse", "2026-11-24", "2026-12-18") == [
            "Tue 2026-11-24 16:00", "Thu 2026-11-26 16:00", "Thu 2026-12-03 16:00", "Thu 2026-12-10 16:00",
            "Tue 2026-12-15 16:00", "Thu 2026-12-17 16:00",
        ]  # fmt: skip


@pytest.mark.parametrize(
    ("first", "second"),
    [("UNTIL=20261209T000000Z", "UNTIL=20261216T000000Z"), ("COUNT=15", "COUNT=16"), ("COUNT=15", "COUNT=14")],
)
def test_an_end_that_an_event_puts_elsewhere_is_followed(tmp_path, first, second):
    with arranged_studio(tmp_path, roster="") as arranged:
        brought(arranged, event(WEEKLY, RRULE=f"FREQ=WEEKLY;{first}"))
        assert arranged.lessons("Ilse", "2026-12-01", "2027-03-01")[-1] == "Tue 2026-12-08 16:00"
        brought(arranged, event(WEEKLY, RRULE=f"FREQ=WEEKLY;{second}"))
        last = "Tue 2026-12-01 16:00" if second == "COUNT=14" else "Tue 2026-12-15 16:00"
        assert arranged.lessons("Ilse", "2026-12-01", "2027-03-01")[-1] == last


def test_a_series_that_ended_here_and_moves_in_the_file_keeps_its_past(tmp_path):
    with arranged_studio(tmp_path, roster="", now="2026-12-10 10:00") as arranged:
        brought(arranged, event(WEEKLY))
        arranged.done(Purpose.CHANGE, "2026-12-15", "Ilse", "until 14 dec")
        moved = event(WEEKLY | at("20260907T160000"))
        for _ in range(3):
            brought(arranged, moved)
            assert arranged.lessons("Ilse", "2026-11-23", "2027-01-04") == [
                "Tue 2026-11-24 16:00", "Tue 2026-12-01 16:00", "Tue 2026-12-08 16:00", "Mon 2026-12-14 16:00",
            ]  # fmt: skip


def test_a_date_that_the_file_leaves_out_of_its_rule_is_none_of_a_time_that_was_changed_here(tmp_path):
    with arranged_studio(tmp_path, roster="") as arranged:
        brought(arranged, event(WEEKLY))
        arranged.done(Purpose.CHANGE, "2026-12-08", "Ilse", "from thu 10 dec 5 pm")
        brought(arranged, event(WEEKLY | {"EXDATE;TZID=America/Chicago": "20261215T160000"}))
        assert arranged.lessons("Ilse", "2026-12-09", "2026-12-21") == ["Thu 2026-12-10 17:00", "Thu 2026-12-17 17:00"]


def test_a_single_event_that_is_past_can_be_put_at_a_day_to_come(tmp_path):
    with arranged_studio(tmp_path, roster="") as arranged:
        brought(arranged, event(SINGLE))
        arranged.clock.at = home("2026-12-12 10:00")
        brought(arranged, event(SINGLE | at("20261217T100000")))
        assert arranged.lessons("Ilse", "2026-12-07", "2026-12-21") == ["Thu 2026-12-17 10:00"]
