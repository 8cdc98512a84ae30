"""Calendar files brought into a studio that has lessons already, in a real store."""

from datetime import date

import pytest
from support.arranged_studio import arranged_studio
from support.calendars import SINGLE, WEEKLY, at, brought, calendar, event
from support.studio import home

from cockpit.desk.calendar.proposals import Purpose
from cockpit.papers.calendar.reading import read_calendar
from cockpit.studio.calendar.events import EventTitle
from cockpit.studio.lessons.lesson import Outcome

TUESDAYS = ["Tue 2026-12-01 16:00", "Tue 2026-12-08 16:00", "Tue 2026-12-15 16:00"]


def test_a_weekly_event_of_a_student_who_has_another_lesson_is_one_more(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        other = event(WEEKLY | at("20261203T100000"), RRULE="FREQ=WEEKLY;COUNT=2")
        found = brought(arranged, other)
        assert found.lines == (
            "new: Ilse, Thursday 10:00 am, 30 minutes, from 2026-12-03, through 2026-12-10 (family Brandvold)",
        )
        lessons = [*TUESDAYS, "Thu 2026-12-03 10:00", "Thu 2026-12-10 10:00"]
        assert arranged.lessons("Ilse", "2026-12-01", "2026-12-17") == sorted(lessons, key=lambda said: said[4:])
        assert brought(arranged, other).lines == ()


def test_a_weekly_event_at_the_weekday_and_time_of_a_lesson_is_that_lesson(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        assert brought(arranged, event(WEEKLY, DURATION="PT45M")).lines == (
            "changed: Ilse, Tuesday: through - -> 2026-11-29",
            "new: Ilse, Tuesday 4:00 pm, 45 minutes, cello, from 2026-11-30 (family Brandvold)",
        )
        assert arranged.lessons("Ilse", "2026-12-01", "2026-12-16") == TUESDAYS


def test_a_weekly_event_that_was_put_at_another_time_is_known_by_its_name(tmp_path):
    with arranged_studio(tmp_path, roster="") as arranged:
        second = event(WEEKLY | at("20260903T100000"), UID="second@example.org")
        brought(arranged, event(WEEKLY), second)
        assert arranged.lessons("Ilse", "2026-12-01", "2026-12-09") == [
            "Tue 2026-12-01 16:00", "Thu 2026-12-03 10:00", "Tue 2026-12-08 16:00",
        ]  # fmt: skip
        moved = event(WEEKLY | at("20260904T173000"))
        brought(arranged, second, moved)
        assert arranged.lessons("Ilse", "2026-12-07", "2026-12-14") == ["Thu 2026-12-10 10:00", "Fri 2026-12-11 17:30"]
        assert brought(arranged, second, moved).lines == ()


def test_an_event_that_gets_another_weekday_has_one_lesson_more(tmp_path):
    with arranged_studio(tmp_path, roster="") as arranged:
        brought(arranged, event(WEEKLY))
        brought(arranged, event(WEEKLY, RRULE="FREQ=WEEKLY;BYDAY=TU,TH"))
        assert arranged.lessons("Ilse", "2026-12-01", "2026-12-09") == [
            "Tue 2026-12-01 16:00", "Thu 2026-12-03 16:00", "Tue 2026-12-08 16:00",
        ]  # fmt: skip


def test_an_event_whose_title_nobody_explained_is_left_out_and_asked_for_again(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        coffee = event(WEEKLY | at("20261203T100000"), SUMMARY="Coffee with Ilse")
        found = brought(arranged, coffee, names={"Coffee with Ilse": None})
        assert (found.lines, found.troubles) == ((), ('"Coffee with Ilse": you did not say which student this is.',))
        assert arranged.lessons("Ilse", "2026-12-01", "2026-12-16") == TUESDAYS
        assert arranged.studio.store.reading.calendar_titles() == {}


def put(local: str) -> str:
    """The meeting of 8 December at another time."""
    by_rule = {"RRULE": None, "RECURRENCE-ID;TZID=America/Chicago": "20261208T160000"}
    return event(WEEKLY | at(local) | by_rule)


NINTH = "Ilse, moved to: Wednesday, December 9, 2026, 10:00 am, 30 minutes"


@pytest.mark.parametrize(
    ("events", "in_the_file"),
    [
        pytest.param(
            (event(WEEKLY), put("20261211T120000")),
            "moved to: Friday, December 11, 2026, 12:00 pm, 30 minutes",
            id="moved again",
        ),
        pytest.param((event(WEEKLY),), "lesson: Tuesday, December 8, 2026, 4:00 pm, 30 minutes", id="put back"),
        pytest.param(
            (event(WEEKLY | {"EXDATE;TZID=America/Chicago": "20261208T160000"}),),
            "canceled: Tuesday, December 8, 2026, 4:00 pm, 30 minutes",
            id="called off",
        ),
    ],
)
def test_a_moved_meeting_that_the_file_has_otherwise_is_left_so_and_told(tmp_path, events, in_the_file):
    with arranged_studio(tmp_path, roster="") as arranged:
        brought(arranged, event(WEEKLY), put("20261209T100000"))
        found = brought(arranged, *events)
        said = f"kept as in the studio; the file differs: {NINTH} (in the file, {in_the_file})"
        assert (found.lines, found.troubles) == ((), (said,))
        assert arranged.lessons("Ilse", "2026-12-07", "2026-12-14") == ["Wed 2026-12-09 10:00"]


def test_a_lesson_that_the_file_does_not_leave_out_any_more_stays_cancelled_and_that_is_told(tmp_path):
    with arranged_studio(tmp_path, roster="") as arranged:
        brought(arranged, event(WEEKLY | {"EXDATE;TZID=America/Chicago": "20261215T160000"}))
        assert brought(arranged, event(WEEKLY)).troubles == (
            "kept as in the studio; the file differs: "
            "Ilse, canceled: Tuesday, December 15, 2026, 4:00 pm, 30 minutes "
            "(in the file, lesson: Tuesday, December 15, 2026, 4:00 pm, 30 minutes)",
        )


def test_what_the_file_and_the_studio_both_call_off_or_move_is_not_told(tmp_path):
    with arranged_studio(tmp_path, roster="") as arranged:
        weekly = event(WEEKLY | {"EXDATE;TZID=America/Chicago": "20261215T160000"})
        brought(arranged, weekly, put("20261209T100000"))
        again = brought(arranged, weekly, put("20261209T100000"))
        assert (again.lines, again.troubles) == ((), ())
        arranged.booking("2026-12-22", "Ilse")
        arranged.studio.desk.teaching.mark_cancelled()
        called_off = event(WEEKLY | {"EXDATE;TZID=America/Chicago": "20261215T160000,20261222T160000"})
        assert brought(arranged, called_off, put("20261209T100000")).troubles == ()


def test_a_single_lesson_follows_the_file_until_it_is_cancelled_here(tmp_path):
    with arranged_studio(tmp_path, roster="") as arranged:
        brought(arranged, event(SINGLE))
        brought(arranged, event(SINGLE | at("20261210T110000")))
        assert arranged.lessons("Ilse", "2026-12-07", "2026-12-14") == ["Thu 2026-12-10 11:00"]
        arranged.booking("2026-12-10", "Ilse")
        arranged.studio.desk.teaching.mark_cancelled()
        assert brought(arranged, event(SINGLE | at("20261210T110000"))).troubles == (
            "kept as in the studio; the file differs: "
            "Ilse, canceled: Thursday, December 10, 2026, 11:00 am, 30 minutes "
            "(in the file, lesson: Thursday, December 10, 2026, 11:00 am, 30 minutes)",
        )


def test_a_single_lesson_that_the_file_cancels_is_cancelled(tmp_path):
    with arranged_studio(tmp_path, roster="") as arranged:
        brought(arranged, event(SINGLE))
        off = event(SINGLE, STATUS="CANCELLED")
        assert brought(arranged, off).lines == ("Ilse, canceled: Thursday, December 10, 2026, 10:00 am, 30 minutes",)
        assert arranged.booking("2026-12-10", "Ilse").lesson.outcome is Outcome.CANCELLED
        again = brought(arranged, off)
        assert (again.lines, again.troubles) == ((), ())


def test_a_single_lesson_that_was_moved_here_stays_though_the_file_cancels_it(tmp_path):
    with arranged_studio(tmp_path, roster="") as arranged:
        brought(arranged, event(SINGLE))
        arranged.done(Purpose.MOVE, "2026-12-10", "Ilse", "2026-12-11 11:00")
        assert brought(arranged, event(SINGLE, STATUS="CANCELLED")).troubles == (
            "kept as in the studio; the file differs: "
            "Ilse, moved to: Friday, December 11, 2026, 11:00 am, 30 minutes "
            "(in the file, canceled: Friday, December 11, 2026, 11:00 am, 30 minutes)",
        )
        assert arranged.lessons("Ilse", "2026-12-07", "2026-12-14") == ["Fri 2026-12-11 11:00"]


def test_a_series_that_the_file_cancels_ends_and_its_past_stays(tmp_path):
    with arranged_studio(tmp_path, roster="") as arranged:
        series = {"RRULE": "FREQ=WEEKLY;BYDAY=TU,TH"}
        brought(arranged, event(WEEKLY | series))
        arranged.clock.at = home("2026-12-03 10:00")
        off = event(WEEKLY | series, STATUS="CANCELLED")
        assert brought(arranged, off).lines == (
            "changed: Ilse, Tuesday: through - -> 2026-12-02",
            "changed: Ilse, Thursday: through - -> 2026-12-02",
        )
        assert arranged.lessons("Ilse", "2026-11-23", "2027-06-01") == [
            "Tue 2026-11-24 16:00", "Thu 2026-11-26 16:00", "Tue 2026-12-01 16:00",
        ]  # fmt: skip
        again = brought(arranged, off)
        assert (again.lines, again.troubles) == ((), ())


def test_a_series_that_has_not_begun_and_is_cancelled_has_no_lesson(tmp_path):
    with arranged_studio(tmp_path, roster="") as arranged:
        brought(arranged, event(WEEKLY | at("20270202T160000")))
        brought(arranged, event(WEEKLY | at("20270202T160000"), STATUS="CANCELLED"))
        assert arranged.lessons("Ilse", "2026-11-23", "2027-06-01") == []


def test_what_a_cancelled_series_does_not_end_is_told(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        off = event(WEEKLY, STATUS="CANCELLED")
        left = "canceled in the file, kept in the studio: "
        tuesday = "Ilse, Tuesday 4:00 pm, 30 minutes, cello (family Brandvold)"
        found = brought(arranged, off)
        assert (found.lines, found.troubles) == ((), (left + tuesday,))
        thursday = WEEKLY | at("20260903T100000")
        brought(arranged, event(thursday))
        arranged.done(Purpose.CHANGE, "2026-12-10", "Ilse", "from fri 18 dec 11 am")
        found = brought(arranged, event(thursday, STATUS="CANCELLED"))
        assert found.lines == ("changed: Ilse, Thursday: through 2026-12-17 -> 2026-11-24",)
        assert found.troubles == (f"{left}Ilse, Friday 11:00 am, 30 minutes, from 2026-12-18 (family Brandvold)",)


def test_a_cancelled_series_whose_place_another_event_took_ends_nothing(tmp_path):
    with arranged_studio(tmp_path, roster="") as arranged:
        brought(arranged, event(WEEKLY))
        found = brought(arranged, event(WEEKLY, STATUS="CANCELLED"), event(WEEKLY, UID="new@example.org"))
        assert found.lines == ()
        assert arranged.lessons("Ilse", "2026-12-01", "2026-12-16") == TUESDAYS


def test_a_cancelled_event_of_which_the_studio_has_nothing_is_counted(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        nora = {"SUMMARY": "Nora", "STATUS": "CANCELLED"}
        found = brought(arranged, event(SINGLE | nora), event(WEEKLY | nora))
        assert (found.lines, found.troubles) == ((), ("2 events canceled in the file and never added to the studio",))


def test_an_event_that_goes_to_another_time_and_back_is_followed(tmp_path):
    with arranged_studio(tmp_path, roster="") as arranged:
        brought(arranged, event(WEEKLY))
        brought(arranged, event(WEEKLY | at("20260904T173000")))
        brought(arranged, event(WEEKLY))
        assert arranged.lessons("Ilse", "2026-11-16", "2026-12-16") == [
            "Tue 2026-11-17 16:00", "Tue 2026-11-24 16:00", *TUESDAYS,
        ]  # fmt: skip


def test_an_event_that_ended_here_stays_so_whatever_time_the_file_gives_it(tmp_path):
    with arranged_studio(tmp_path, roster="") as arranged:
        brought(arranged, event(WEEKLY))
        arranged.done(Purpose.CHANGE, "2026-12-08", "Ilse", "until 18 dec")
    with arranged_studio(tmp_path, roster="", now="2027-02-10 09:00") as arranged:
        found = brought(arranged, event(WEEKLY | at("20260904T173000")))
        assert found.lines == ()
        assert found.troubles == (
            "ended in the studio, not brought back: "
            "Ilse, Tuesday 4:00 pm, 30 minutes, from 2026-09-01, through 2026-12-18 (family Ilse)",
        )
        assert arranged.lessons("Ilse", "2026-12-08", "2027-04-01") == TUESDAYS[1:]


def test_notes_go_along_with_a_series_past_a_week_that_the_file_calls_off(tmp_path):
    with arranged_studio(tmp_path, roster="") as arranged:
        brought(arranged, event(WEEKLY))
        arranged.write("2026-12-08", "Ilse", "Scales: D major")
        moved = WEEKLY | at("20260903T173000") | {"EXDATE;TZID=America/Chicago": "20261210T173000"}
        brought(arranged, event(moved))
        assert arranged.booking("2026-12-10", "Ilse").lesson.outcome is Outcome.CANCELLED
        assert arranged.studio.desk.notes.sheet(arranged.booking("2026-12-17", "Ilse")).body == "Scales: D major"


def test_a_lesson_of_the_roster_that_an_event_speaks_of_too_goes_on_when_the_event_is_cancelled(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        brought(arranged, event(WEEKLY))
        found = brought(arranged, event(WEEKLY, STATUS="CANCELLED"))
        tuesday = "Ilse, Tuesday 4:00 pm, 30 minutes, cello (family Brandvold)"
        assert found.lines == ()
        assert found.troubles == (f"canceled in the file, kept in the studio: {tuesday}",)
        assert arranged.lessons("Ilse", "2026-12-01", "2026-12-16") == TUESDAYS


@pytest.mark.parametrize("start", ["20261125T080000", "20261123T090000"])
def test_a_lesson_that_the_file_moved_into_the_past_is_not_at_its_old_time_any_more(tmp_path, start):
    """RFC 5545 3.8.4.4: an exception takes the place of its meeting, wherever it is."""
    moved = event(WEEKLY | at(start), RRULE=None, **{"RECURRENCE-ID;TZID=America/Chicago": "20261201T160000"})
    with arranged_studio(tmp_path) as arranged:
        brought(arranged, event(WEEKLY))
        brought(arranged, event(WEEKLY), moved)
        assert arranged.lessons("Ilse", "2026-12-01", "2026-12-09") == ["Tue 2026-12-08 16:00"]
        assert brought(arranged, event(WEEKLY), moved).lines == ()


def test_a_lesson_of_a_series_that_is_another_students_takes_its_place(tmp_path):
    other = {"RRULE": None, "SUMMARY": "Teodor", "RECURRENCE-ID;TZID=America/Chicago": "20261208T160000"}
    with arranged_studio(tmp_path) as arranged:
        proposal = brought(arranged, event(WEEKLY), event(WEEKLY | at("20261208T170000") | other))
        assert "Ilse, canceled: Tuesday, December 8, 2026, 4:00 pm, 30 minutes" in proposal.lines
        assert arranged.booking("2026-12-08", "Ilse").lesson.outcome is Outcome.CANCELLED
        assert "Tue 2026-12-08 17:00" in arranged.lessons("Teodor", "2026-12-07", "2026-12-14")


def test_a_calendar_in_capitals_renames_nobody(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        proposal = brought(arranged, event(WEEKLY, SUMMARY="ILSE"))
        assert not [line for line in proposal.lines if "renamed" in line]
        names = {student.name for student in arranged.studio.store.reading.people().students.values()}
        assert names == {"Ilse", "Teodor", "Mireille", "Ishaan"}


@pytest.mark.parametrize("title", ["Brandvold", "the Brandvold family", "BRANDVOLD"])
def test_a_title_that_names_a_family_alone_is_asked_about(tmp_path, title):
    with arranged_studio(tmp_path) as arranged:
        assert arranged.studio.enrolling.students_near(EventTitle(text=title)) == ("Ilse",)


def test_a_lesson_by_itself_of_somebody_new_says_that_there_is_a_new_family(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        proposal = brought(arranged, event(SINGLE, SUMMARY="Dentist"))
        assert next(line for line in proposal.lines if "Dentist" in line) == "new family: Dentist (America/Chicago)"
        again = brought(arranged, event(SINGLE, SUMMARY="Dentist"))
        assert again.lines == ()


def test_a_title_is_asked_about_by_first_name_turned_or_among_other_words_once(tmp_path):
    titles = ("Lesson with Ilse", "Brandvold, Ilse", "Mira's lesson", "Holm, Mira", "Mira")
    with arranged_studio(tmp_path) as arranged:
        enrolling = arranged.studio.enrolling
        assert [enrolling.students_near(EventTitle(text=title)) for title in titles] == [
            ("Ilse",),
            ("Ilse",),
            ("Mira",),
            ("Mira Holm",),
            (),
        ]
        lesson = event(SINGLE, SUMMARY="Lesson with Ilse")
        brought(arranged, lesson, names={"Lesson with Ilse": "Ilse"})
        assert arranged.lessons("Ilse", "2026-12-10", "2026-12-11") == ["Thu 2026-12-10 10:00"]
        reading = read_calendar(calendar(lesson), home_zone="America/Chicago", begins=date(2026, 11, 25))
        assert enrolling.unknown_titles(reading) == ()


def within(series: dict[str, str | None], title: str, start: str = "20261208T160000") -> str:
    """A lesson of a series under another title; by `start` it may be one that the series has not."""
    meeting = {"RRULE": None, "SUMMARY": title, "RECURRENCE-ID;TZID=America/Chicago": start}
    return event(series | at(start) | meeting)


@pytest.mark.parametrize("start", ["20261208T160000", "20261209T160000"])
def test_one_lesson_of_a_series_with_another_title_is_asked_about_and_may_be_its_students(tmp_path, start):
    otto = WEEKLY | {"UID": "otto@example.org", "SUMMARY": "Otto Falk"}
    events = (event(otto), within(otto, "Dentist", start))
    reading = read_calendar(calendar(*events), home_zone="America/Chicago", begins=date(2026, 11, 25))
    with arranged_studio(tmp_path) as arranged:
        enrolling = arranged.studio.enrolling
        titles = enrolling.unknown_titles(reading)
        assert list(map(str, titles)) == ["Otto Falk", "Dentist (in place of Otto Falk)"]
        assert [enrolling.students_near(title) for title in titles] == [(), ("Otto Falk",)]
        assert enrolling.students_near(titles[1], {"Otto Falk": "Ilse"}) == ("Ilse",)
        proposal = brought(arranged, *events, names={"Dentist (in place of Otto Falk)": None})
        assert '"Dentist (in place of Otto Falk)": you did not say which student this is.' in proposal.troubles
        assert "Dentist" not in proposal.understood


def test_the_same_title_in_the_series_of_two_students_is_asked_about_for_each(tmp_path):
    otto = WEEKLY | {"UID": "otto@example.org", "SUMMARY": "Otto Falk"}
    events = (event(WEEKLY), event(otto), within(WEEKLY, "Dentist"), within(otto, "Dentist"))
    reading = read_calendar(calendar(*events), home_zone="America/Chicago", begins=date(2026, 11, 25))
    with arranged_studio(tmp_path) as arranged:
        enrolling = arranged.studio.enrolling
        asked = [title for title in enrolling.unknown_titles(reading) if title.series]
        assert [enrolling.students_near(title) for title in asked] == [("Ilse",), ("Otto Falk",)]
        said = {str(title): enrolling.students_near(title)[0] for title in asked}
        assert not [line for line in brought(arranged, *events, names=said).lines if "Dentist" in line]
        assert not [title for title in enrolling.unknown_titles(reading) if title.series]


def test_one_lesson_of_a_series_under_the_title_of_another_series_is_that_students(tmp_path):
    otto = WEEKLY | {"UID": "otto@example.org", "SUMMARY": "Otto Falk"}
    events = (event(WEEKLY), event(otto), within(WEEKLY, "Otto Falk"))
    reading = read_calendar(calendar(*events), home_zone="America/Chicago", begins=date(2026, 11, 25))
    with arranged_studio(tmp_path) as arranged:
        assert list(map(str, arranged.studio.enrolling.unknown_titles(reading))) == ["Otto Falk"]
