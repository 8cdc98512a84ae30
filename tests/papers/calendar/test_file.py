"""The text of the calendar that is handed out: its form, its lasting names, and what is not in it.

Sources: RFC 5545 3.1 (folding), 3.3.11 (escaping), 3.3.10 (UNTIL), 3.8.5.1 (EXDATE), 3.8.4.4 (RECURRENCE-ID); RFC 7986
5.1, 5.7 and 5.11 (NAME, REFRESH-INTERVAL, CONFERENCE).
"""

import re
from datetime import date, time

import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from icalendar import Calendar
from support.examples import examples
from support.shared_calendars import edition, timetable, timetables
from support.studio import BRANDVOLD, ILSE, OKONJO, TEODOR, enrollment, family, lesson, student, utc

from cockpit.papers.calendar.file import calendar_file
from cockpit.studio.calendar.shared import SharedCalendar, SharedLesson, Timetable, shared_calendar
from cockpit.studio.clocks.home import Home, Stay
from cockpit.studio.lessons.breaks import Break, BreakId
from cockpit.studio.lessons.lesson import Kind, LessonId, Outcome
from cockpit.studio.lessons.scheduled import Enrollment
from cockpit.studio.lessons.weekly_times import KeptIn
from cockpit.studio.values import replace

MADE_AT = utc("2026-12-01 22:00")


def made(table: Timetable, **values) -> str:
    return calendar_file(shared_calendar(table, edition(**{"made_at": MADE_AT} | values)))


def unfolded(text: str) -> list[str]:
    return text.replace("\r\n ", "").split("\r\n")


def titled(title: str, call_link: str | None = None) -> str:
    single = SharedLesson(uid="x1@s", title=title, starts_at=MADE_AT, minutes=45, call_link=call_link)
    return calendar_file(SharedCalendar(uid="s", name="Lessons", revision=1, made_at=MADE_AT, lessons=(single,)))


def named(name: str) -> str:
    single = SharedLesson(uid="x1@s", title="Ilse", starts_at=MADE_AT, minutes=45)
    return calendar_file(SharedCalendar(uid="s", name=name, revision=1, made_at=MADE_AT, lessons=(single,)))


def test_a_weekly_lesson_is_one_rule_on_its_own_clock():
    table = timetable(enrollment(ILSE, until_on=date(2026, 12, 22), call_link="https://call.example.org/ilse"))
    text = made(table, begins=MADE_AT)
    event = text[text.index("BEGIN:VEVENT") :]
    assert event == (
        "BEGIN:VEVENT\r\n"
        "SUMMARY:Ilse\\, cello\r\n"
        "DTSTART;TZID=America/Chicago:20261201T160000\r\n"
        "DURATION:PT30M\r\n"
        "DTSTAMP:20261201T220000Z\r\n"
        "UID:standing-1@studio.example.org\r\n"
        "SEQUENCE:4\r\n"
        "RRULE:FREQ=WEEKLY;UNTIL=20261222T220000Z\r\n"
        "CONFERENCE;FEATURE=AUDIO,VIDEO;LABEL=Lesson;VALUE=URI:https://call.example\r\n"
        " .org/ilse\r\n"
        "URL:https://call.example.org/ilse\r\n"
        "END:VEVENT\r\n"
        "END:VCALENDAR\r\n"
    )


def test_the_calendar_says_what_it_is_and_how_often_to_read_it_again():
    lines = unfolded(made(timetable(enrollment(ILSE))))
    head = lines[: lines.index("BEGIN:VTIMEZONE")]
    assert head == [
        "BEGIN:VCALENDAR",
        "VERSION:2.0",
        "PRODID:-//Lesson day cockpit//Lessons//EN",
        "NAME:Lessons",
        "LAST-MODIFIED:20261201T220000Z",
        "REFRESH-INTERVAL;VALUE=DURATION:PT6H",
        "UID:studio.example.org",
    ]


def test_a_rule_ends_at_the_start_of_its_last_meeting_in_utc():
    """RFC 5545 3.3.10 and example L of 3.8.5.3: a date alone would end at midnight UTC, and lose the last evening."""
    table = timetable(enrollment(ILSE, weekday=2, at=time(19), until_on=date(2026, 12, 23)))
    assert "RRULE:FREQ=WEEKLY;UNTIL=20261224T010000Z" in made(table)


def test_a_lesson_every_second_week_has_an_interval_and_one_without_an_end_no_until():
    assert "RRULE:FREQ=WEEKLY;INTERVAL=2\r\n" in made(timetable(enrollment(ILSE, every_weeks=2)), ends=None)


def test_cancelled_lessons_and_breaks_are_left_out_on_the_clock_of_the_rule():
    """RFC 5545 3.8.5.1: of the type of DTSTART, with its TZID."""
    late = lesson(outcome=Outcome.CANCELLED_LATE)
    winter = Break(id=BreakId(1), from_on=date(2026, 12, 20), until_on=date(2027, 1, 2))
    absent = lesson(id=LessonId("w1-2027-01-05"), starts_at=utc("2027-01-05 22:00"), outcome=Outcome.ABSENT)
    text = made(timetable(enrollment(ILSE), recorded=(late, absent), breaks=(winter,)))
    wanted = "EXDATE;TZID=America/Chicago:20261201T160000,20261222T160000,20261229T160000"
    assert wanted in unfolded(text)


def test_a_moved_lesson_stands_in_the_place_of_its_meeting():
    """RFC 5545 3.8.4.4: the UID of the series, and RECURRENCE-ID the start by the rule."""
    moved = lesson(starts_at=utc("2026-12-03 21:30"), minutes=45, is_moved=True)
    text = made(timetable(enrollment(ILSE), recorded=(moved,)))
    event = unfolded(text[text.rindex("BEGIN:VEVENT") :])
    for line in (
        "DTSTART:20261203T213000Z",
        "DURATION:PT45M",
        "UID:standing-1@studio.example.org",
        "RECURRENCE-ID;TZID=America/Chicago:20261201T160000",
    ):
        assert line in event


def test_a_single_lesson_has_a_name_of_its_own():
    trial = lesson(id=LessonId("t7"), standing_time_id=None, kind=Kind.TRIAL, starts_at=utc("2026-12-05 15:00"))
    text = made(timetable(recorded=(trial,)))
    assert "UID:t7@studio.example.org\r\n" in text
    assert "BEGIN:VTIMEZONE" not in text


@pytest.mark.parametrize("outcome", [Outcome.CANCELLED, Outcome.CANCELLED_LATE, Outcome.CALLED_OFF])
def test_a_single_lesson_that_is_cancelled_stays_under_its_name_as_one_that_is_cancelled(outcome):
    # RFC 5545 3.8.1.11: a program that has it under this UID learns by STATUS that it does not take place.
    booked = lesson(id=LessonId("x1"), kind=Kind.EXTRA, starts_at=utc("2026-12-03 21:30"))
    before, after = made(timetable(recorded=(booked,))), made(timetable(recorded=(replace(booked, outcome=outcome),)))
    assert "STATUS" not in before
    (event,) = Calendar.from_ical(after).walk("VEVENT")
    assert (event["UID"], event["STATUS"]) == ("x1@studio.example.org", "CANCELLED")
    assert event["DTSTART"].dt == booked.starts_at
    assert "STATUS:CANCELLED" not in made(timetable(recorded=(replace(booked, outcome=Outcome.ABSENT),)))


def test_a_cancelled_lesson_of_a_rule_is_left_out_and_no_event_of_its_own():
    cancelled = lesson(outcome=Outcome.CANCELLED, starts_at=utc("2026-12-03 21:30"), is_moved=True)
    text = made(timetable(enrollment(ILSE), recorded=(cancelled,)))
    assert "EXDATE;TZID=America/Chicago:20261201T160000" in unfolded(text)
    assert "STATUS" not in text


def test_a_cancelled_single_lesson_is_in_the_calendar_of_its_family_and_of_its_time_alone():
    cancelled = lesson(id=LessonId("x1"), kind=Kind.EXTRA, outcome=Outcome.CANCELLED, starts_at=utc("2026-12-03 21:30"))
    table = timetable(recorded=(cancelled,))
    assert "STATUS:CANCELLED" in made(table, family=BRANDVOLD)
    assert "STATUS:CANCELLED" not in made(table, family=OKONJO)
    assert "STATUS:CANCELLED" not in made(table, ends=utc("2026-12-03 00:00"))


def test_a_lesson_moved_in_from_outside_the_calendar_stands_by_itself():
    moved = lesson(starts_at=utc("2026-11-28 15:00"), is_moved=True)
    text = made(
        timetable(enrollment(ILSE), recorded=(moved,)), begins=utc("2026-11-26 00:00"), ends=utc("2026-11-30 00:00")
    )
    assert "UID:w1-2026-12-01@studio.example.org\r\n" in text
    assert "RRULE" not in text


def test_a_move_of_the_teacher_ends_one_series_and_begins_another():
    there = Home(zone="America/Chicago", stays=(Stay(zone="America/Phoenix", from_on=date(2027, 1, 10)),))
    lines = unfolded(made(timetable(enrollment(ILSE), home_zone=there)))
    assert [line for line in lines if line.startswith(("UID:standing", "DTSTART;", "RRULE:FREQ=WEEKLY"))] == [
        "DTSTART;TZID=America/Chicago:20260901T160000",
        "UID:standing-1@studio.example.org",
        "RRULE:FREQ=WEEKLY;UNTIL=20270105T220000Z",
        "DTSTART;TZID=America/Phoenix:20270112T160000",
        "UID:standing-1-1@studio.example.org",
        "RRULE:FREQ=WEEKLY;UNTIL=20270831T230000Z",
    ]


def test_a_move_of_a_family_in_years_is_in_its_calendar_without_an_end_and_both_zones_are_explained():
    moves = Home(zone="Europe/London", stays=(Stay(zone="America/Denver", from_on=date(2029, 3, 5)),))
    theirs = replace(enrollment(TEODOR, kept_in=KeptIn.FAMILY), family=replace(OKONJO, zone=moves))
    lines = unfolded(made(timetable(theirs), ends=None, family=theirs.family))
    assert [line for line in lines if line.startswith(("UID:standing", "DTSTART;", "RRULE:FREQ=WEEKLY"))] == [
        "DTSTART;TZID=Europe/London:20260901T160000",
        "UID:standing-2@studio.example.org",
        "RRULE:FREQ=WEEKLY;UNTIL=20290227T160000Z",
        "DTSTART;TZID=America/Denver:20290306T160000",
        "UID:standing-2-1@studio.example.org",
        "RRULE:FREQ=WEEKLY",
    ]
    assert [line for line in lines if line.startswith("TZID:")] == ["TZID:America/Denver", "TZID:Europe/London"]
    # On her own clock nothing ends.
    hers = replace(enrollment(TEODOR), family=theirs.family)
    assert "UNTIL" not in made(timetable(hers), ends=None)


def test_a_later_edition_names_everything_as_before_and_counts_on():
    there = Home(zone="America/Chicago", stays=(Stay(zone="America/Phoenix", from_on=date(2027, 1, 10)),))
    table = timetable(enrollment(ILSE), home_zone=there)
    later = made(table, begins=utc("2027-02-01 00:00"), ends=utc("2027-06-01 00:00"), revision=5)
    assert "UID:standing-1-1@studio.example.org" in later
    assert "SEQUENCE:5" in later
    assert "SEQUENCE:4" not in later


def test_a_changed_standing_time_keeps_the_past_and_goes_on_under_another_name():
    before = enrollment(ILSE, until_on=date(2027, 1, 11))
    after = enrollment(ILSE, id=9, weekday=2, at=time(17), minutes=45, from_on=date(2027, 1, 12))
    lines = unfolded(made(timetable(before, after)))
    assert "RRULE:FREQ=WEEKLY;UNTIL=20270105T220000Z" in lines
    assert "DTSTART;TZID=America/Chicago:20270113T170000" in lines


def test_a_family_gets_its_own_lessons_in_its_own_words():
    table = timetable(enrollment(ILSE), enrollment(TEODOR, at=time(17)))
    text = made(table, family=BRANDVOLD)
    assert "SUMMARY:Ilse's lesson\r\n" in text
    assert "NAME:Lessons: Brandvold\r\n" in text
    assert "UID:family-1@studio.example.org\r\n" in text
    assert "UID:standing-1@studio.example.org\r\n" in text
    assert "Teodor" not in text


@pytest.mark.parametrize("whose", [None, BRANDVOLD])
def test_nothing_private_is_in_a_calendar(whose):
    one = enrollment(ILSE)
    told = replace(one.student, remark="remark-of-hers", daily_minutes=17)
    home = family(folder="folder-of-hers")
    table = timetable(Enrollment(standing=one.standing, student=told, family=home), recorded=(lesson(is_moved=True),))
    text = made(table, family=whose)
    assert "of-hers" not in text
    names = {re.split("[;:]", line)[0] for line in unfolded(text[text.index("BEGIN:VEVENT") :]) if line}
    assert names <= {
        "BEGIN", "END", "UID", "DTSTAMP", "SEQUENCE", "SUMMARY", "DTSTART", "DURATION", "RRULE", "RECURRENCE-ID",
    }  # fmt: skip


def test_a_text_is_escaped_as_the_rfc_has_it():
    """RFC 5545 3.3.11; a colon is not escaped. The check value was computed from the rule."""
    assert r"SUMMARY:Scales\; arpeggios\, C:\\ path" in unfolded(titled("Scales; arpeggios, C:\\ path"))


@pytest.mark.parametrize("title", [r"\N", r"\n", r"C:\New", r"\\N", "\\", r"\,\;"])
def test_a_typed_backslash_is_no_line_break(title):
    """RFC 5545 3.3.11: a backslash is written twice, whatever follows. The library alone writes a typed `\\N` as a line break."""
    text = titled(title)
    written = next(line for line in unfolded(text) if line.startswith("SUMMARY:"))
    assert written.removeprefix("SUMMARY:") == title.replace("\\", r"\\").replace(",", r"\,").replace(";", r"\;")
    assert str(Calendar.from_ical(text).events[0]["SUMMARY"]) == title
    assert "NAME:" + written.removeprefix("SUMMARY:") in unfolded(named(title))


def test_a_long_line_is_folded_by_octets_and_not_inside_a_letter():
    """RFC 5545 3.1: at most 75 octets; "SUMMARY:" and 60 letters of two octets are 128."""
    lines = titled("é" * 60).split("\r\n")
    place = next(number for number, line in enumerate(lines) if line.startswith("SUMMARY"))
    assert [len(line.encode()) for line in lines[place : place + 2]] == [74, 55]
    assert lines[place] + lines[place + 1][1:] == "SUMMARY:" + "é" * 60


@given(title=st.text(st.characters(exclude_categories=["Cs"]), min_size=1))
@example(title=r"\N")
def test_any_title_comes_back_as_a_line_of_text_and_breaks_nothing(title):
    text = titled(title)
    assert all(len(line.encode()) <= 75 for line in text.split("\r\n"))
    (event,) = Calendar.from_ical(text).events
    shown = " ".join("".join(letter if letter.isprintable() else " " for letter in title).split())
    read = " ".join("".join(letter if letter.isprintable() else " " for letter in str(event["SUMMARY"])).split())
    assert read.replace("\ufffd", "").replace(" ", "") == shown.replace("\ufffd", "").replace(" ", "")
    assert set(event) == {"UID", "DTSTAMP", "SEQUENCE", "SUMMARY", "DTSTART", "DURATION"}


def test_a_call_link_with_commas_and_semicolons_stays_as_it_is():
    link = "https://call.example.org/a,b;c?d=e:f&g=%2C"
    (event,) = Calendar.from_ical(titled("Ilse", link)).events
    assert (str(event["URL"]), str(event["CONFERENCE"])) == (link, link)


@examples(15, long=100)
@given(table=timetables())
def test_the_same_calendar_is_the_same_text(table):
    assert made(table) == made(replace(table, enrollments=tuple(reversed(table.enrollments))))


@examples(12)
@given(table=timetables(), title=st.sampled_from(["Lesson", "x" * 66, "x" * 67, "é" * 40, "a, b; c"]))
def test_every_line_is_as_the_library_writes_it_whoever_has_it_too(table, title):
    """An event's line is written once where others have it: read by the library and written again, the file is the same."""
    shared = shared_calendar(table, edition(made_at=MADE_AT))
    renamed = replace(shared, series=tuple(replace(each, title=title) for each in shared.series), name=title)
    text = calendar_file(renamed)
    assert Calendar.from_ical(text).to_ical().decode() == text


def test_a_date_far_ahead_bounds_a_calendar_that_would_go_on():
    table = timetable(enrollment(ILSE, until_on=date(2199, 12, 31)), enrollment(TEODOR, kept_in=KeptIn.FAMILY))
    lines = [line for line in unfolded(made(table, ends=None)) if line.startswith("RRULE:FREQ=WEEKLY")]
    assert [line[:27] for line in lines] == ["RRULE:FREQ=WEEKLY;UNTIL=203"] * 2


def test_a_student_whose_name_ends_in_s_is_named_as_people_write():
    who = student(name="Thomas")
    table = timetable(Enrollment(standing=enrollment(ILSE).standing, student=who, family=BRANDVOLD))
    assert "SUMMARY:Thomas's lesson\r\n" in made(table, family=BRANDVOLD)
