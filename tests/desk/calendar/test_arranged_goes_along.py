"""Lessons that were called off, moved or made up, when their weekly time gets another length, in a real store."""

from datetime import date

import pytest
from support.arranged_studio import ROSTER, Arranged, arranged_studio
from support.calendars import WEEKLY, brought, event
from support.shared_calendars import read_back
from support.studio import home

from cockpit.desk.calendar.handing_out import HandingOut
from cockpit.desk.calendar.proposals import Purpose
from cockpit.desk.lookup import bookings_between
from cockpit.papers.calendar.file import calendar_file
from cockpit.studio.errors import Refused
from cockpit.studio.lessons.lesson import Outcome

BEGINS, ENDS = "2026-12-01", "2027-02-01"
LONGER = ROSTER.replace("Ilse,Tuesday,16:00,30", "Ilse,Tuesday,16:00,45")


def by_file(arranged: Arranged) -> None:
    arranged.studio.enrolling.take_in(LONGER)


def by_line(arranged: Arranged) -> None:
    arranged.done(Purpose.CHANGE, "2026-12-01", "Ilse", "from 1 dec 4 pm 45m")


LENGTHENED = pytest.mark.parametrize("lengthen", [by_file, by_line])


def lessons(arranged: Arranged, ends: str = ENDS) -> list[tuple[str, int, Outcome | None]]:
    """Ilse's lessons: the day, minutes, and what became of it."""
    studio = arranged.studio
    found, _ = bookings_between(
        studio.store.reading, home(f"{BEGINS} 00:00"), home(f"{ends} 00:00"), studio.preferences.home
    )
    return [
        (f"{b.lesson.starts_at:%d %b}", b.lesson.minutes, b.lesson.outcome) for b in found if b.student.name == "Ilse"
    ]


def is_handed_out_as_on_the_queue(arranged: Arranged) -> bool:
    """Whether another program reads the queue's lessons out of the calendar file."""
    studio = arranged.studio
    begins, ends = home(f"{BEGINS} 00:00"), home(f"{ENDS} 00:00")
    shared = HandingOut(studio.store.reading, arranged.clock, studio.preferences).calendar(None, None)
    found, _ = bookings_between(studio.store.reading, begins, ends, studio.preferences.home)
    held = [b for b in found if b.lesson.outcome not in {Outcome.CANCELLED, Outcome.CANCELLED_LATE}]
    return [each[:2] for each in read_back(calendar_file(shared), begins, ends)] == sorted(
        (b.lesson.starts_at, b.lesson.minutes) for b in held
    )


@LENGTHENED
@pytest.mark.parametrize(("step", "outcome"), [("mark_cancelled", Outcome.CANCELLED), ("mark_absent", Outcome.ABSENT)])
def test_a_lesson_that_was_called_off_stays_so_when_lessons_get_longer(tmp_path, lengthen, step, outcome):
    with arranged_studio(tmp_path) as arranged:
        arranged.write("2026-12-08", "Ilse", "Scales: D major\nFollow-up: the fingering")
        getattr(arranged.studio.desk.teaching, step)()
        lengthen(arranged)
        assert lessons(arranged, "2026-12-20") == [("01 Dec", 45, None), ("08 Dec", 45, outcome), ("15 Dec", 45, None)]
        assert is_handed_out_as_on_the_queue(arranged)
        there = arranged.booking("2026-12-08", "Ilse")
        assert arranged.studio.desk.notes.sheet(there).body.startswith("Scales: D major")
        ((owed, _),) = arranged.studio.store.reading.open_follow_ups()
        assert owed.lesson_id == there.lesson.id
        arranged.studio.desk.teaching.begin()
        assert lessons(arranged, "2026-12-10") == [("01 Dec", 45, None), ("08 Dec", 45, None)]


@LENGTHENED
def test_a_lesson_that_was_moved_is_that_weeks_one_lesson_when_lessons_get_longer(tmp_path, lengthen):
    with arranged_studio(tmp_path) as arranged:
        arranged.write("2026-12-08", "Ilse", "Scales: D major")
        arranged.done(Purpose.MOVE, "2026-12-08", "Ilse", "2026-12-09 10:00")
        lengthen(arranged)
        assert lessons(arranged, "2026-12-20") == [("01 Dec", 45, None), ("09 Dec", 30, None), ("15 Dec", 45, None)]
        assert is_handed_out_as_on_the_queue(arranged)
        there = arranged.booking("2026-12-09", "Ilse")
        assert arranged.studio.desk.notes.sheet(there).body == "Scales: D major"
        arranged.studio.desk.day.open(date(2026, 12, 8))
        assert "Ilse" not in {booking.student.name for booking in arranged.studio.desk.day.bookings}
        arranged.done(Purpose.MOVE, "2026-12-09", "Ilse", "2026-12-08 16:00 45m")
        assert lessons(arranged, "2026-12-20")[1] == ("08 Dec", 45, None)


@LENGTHENED
def test_a_make_up_stands_for_its_lesson_when_lessons_get_longer(tmp_path, lengthen):
    with arranged_studio(tmp_path) as arranged:
        for on in ("2026-12-08", "2026-12-15"):
            arranged.booking(on, "Ilse")
            arranged.studio.desk.teaching.mark_cancelled()
        arranged.done(Purpose.MAKE_UP, "2026-12-08", "Ilse", "2026-12-11 10:00")
        lengthen(arranged)
        (owed,) = [each for theirs in arranged.studio.desk.ahead.make_ups_owed().values() for each in theirs]
        assert owed.id == arranged.booking("2026-12-15", "Ilse").lesson.id
        cancelled = arranged.booking("2026-12-08", "Ilse").lesson
        (make_up,) = [each for each in arranged.studio.store.reading.closed_lessons() if each.makes_up is not None]
        assert make_up.makes_up == cancelled.id
        assert "Its make-up is still booked: Fri, December 11" in arranged.studio.desk.teaching.begin()


def test_undo_takes_back_a_change_with_all_that_went_along(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        arranged.write("2026-12-08", "Ilse", "Scales: D major\nFollow-up: the fingering")
        arranged.studio.desk.teaching.mark_cancelled()
        arranged.done(Purpose.MAKE_UP, "2026-12-08", "Ilse", "2026-12-11 10:00")
        arranged.done(Purpose.MOVE, "2026-12-15", "Ilse", "2026-12-16 10:00")
        reading = arranged.studio.store.reading

        def everything():
            stored = reading.lessons_between(home(f"{BEGINS} 00:00"), home(f"{ENDS} 00:00"))
            ids = [lesson.id for lesson in stored]
            return reading.standing_times(), stored, reading.notes(ids), [reading.follow_ups(each) for each in ids]

        before = everything()
        by_line(arranged)
        assert everything() != before
        arranged.undo()
        assert everything() == before


def test_a_change_undone_keeps_words_that_were_typed_into_a_lesson_that_went_along(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        arranged.write("2026-12-08", "Ilse", "Scales: D major")
        arranged.done(Purpose.MOVE, "2026-12-08", "Ilse", "2026-12-09 10:00")
        by_line(arranged)
        arranged.write("2026-12-09", "Ilse", "Scales: D major, G major")
        with pytest.raises(Refused, match="typed more"):
            arranged.undo()
        there = arranged.booking("2026-12-09", "Ilse")
        assert arranged.studio.desk.notes.sheet(there).body == "Scales: D major, G major"


@pytest.mark.parametrize("move", [True, False], ids=["moved before", "by rule"])
def test_a_change_undone_keeps_a_follow_up_that_was_typed_into_a_lesson_since(tmp_path, move):
    with arranged_studio(tmp_path) as arranged:
        arranged.write("2026-12-08", "Ilse", "Follow-up: the fingering")
        if move:
            arranged.done(Purpose.MOVE, "2026-12-08", "Ilse", "2026-12-08 10:00")
        by_line(arranged)
        arranged.write("2026-12-08", "Ilse", "Follow-up: the bowing")
        with pytest.raises(Refused, match="typed more"):
            arranged.undo()
        assert [owed.body for owed, _ in arranged.studio.store.reading.open_follow_ups()] == ["the bowing"]


def test_a_roster_that_is_corrected_finds_called_off_and_moved_lessons_again(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        arranged.write("2026-12-08", "Ilse", "Scales: D major")
        arranged.studio.desk.teaching.mark_cancelled()
        arranged.done(Purpose.MAKE_UP, "2026-12-08", "Ilse", "2026-12-11 10:00")
        arranged.done(Purpose.MOVE, "2026-12-15", "Ilse", "2026-12-16 10:00")
        before = lessons(arranged)
        for roster in (LONGER, ROSTER, LONGER, ROSTER):
            arranged.studio.enrolling.take_in(roster)
        assert lessons(arranged) == before
        assert arranged.studio.desk.ahead.make_ups_owed() == {}
        there = arranged.booking("2026-12-08", "Ilse")
        assert arranged.studio.desk.notes.sheet(there).body == "Scales: D major"


@pytest.mark.parametrize("line", ["from 2 dec 5 pm", "from 1 dec 5 pm"])
def test_a_called_off_lesson_is_none_of_a_standing_time_at_another_hour(tmp_path, line):
    with arranged_studio(tmp_path) as arranged:
        arranged.booking("2026-12-08", "Ilse")
        arranged.studio.desk.teaching.mark_cancelled()
        proposal = arranged.done(Purpose.CHANGE, "2026-12-01", "Ilse", line)
        (told,) = proposal.troubles
        assert told.startswith("Lessons that you arranged yourself were not changed: Tue, December 8, canceled.")
        assert sorted(outcome or "" for _, _, outcome in lessons(arranged, "2026-12-12")[-2:]) == ["", "cancelled"]


def test_a_longer_lesson_collides_with_nothing_on_the_day_it_was_moved_from(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        arranged.done(Purpose.MOVE, "2026-12-08", "Ilse", "2026-12-09 10:00")
        arranged.done(Purpose.EXTRA, "2026-12-09", "Mireille", "2026-12-08 15:30")
        assert [
            told
            for told in arranged.proposed(Purpose.CHANGE, "2026-12-01", "Ilse", "from 1 dec 4 pm 30m").troubles
            if "8 Dec" in told
        ] == []


def test_lessons_every_second_week_keep_what_was_called_off_in_the_weeks_that_stay(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        for on in ("2026-12-08", "2026-12-15"):
            arranged.booking(on, "Ilse")
            arranged.studio.desk.teaching.mark_cancelled()
        arranged.done(Purpose.CHANGE, "2026-12-01", "Ilse", "every other week")
        assert lessons(arranged, "2026-12-31") == [
            ("01 Dec", 30, None), ("08 Dec", 30, Outcome.CANCELLED), ("15 Dec", 30, Outcome.CANCELLED), ("29 Dec", 30, None),
        ]  # fmt: skip
        assert is_handed_out_as_on_the_queue(arranged)


def test_notes_typed_ahead_go_into_no_lesson_that_was_called_off(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        arranged.write("2026-12-08", "Ilse", "Scales: D major")
        arranged.booking("2026-12-15", "Ilse")
        arranged.studio.desk.teaching.mark_cancelled()
        arranged.done(Purpose.CHANGE, "2026-12-01", "Ilse", "every other week")
        there = arranged.booking("2026-12-29", "Ilse")
        assert arranged.studio.desk.notes.sheet(there).body == "Scales: D major"


def test_a_lesson_called_off_beyond_an_end_is_so_where_lessons_go_on(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        arranged.booking("2027-01-12", "Ilse")
        arranged.studio.desk.teaching.mark_cancelled()
        arranged.done(Purpose.CHANGE, "2026-12-08", "Ilse", "until 18 dec")
        arranged.done(Purpose.CHANGE, "2026-12-15", "Ilse", "from 5 jan 4 pm")
        assert lessons(arranged, "2027-01-20")[3:] == [
            ("05 Jan", 30, None), ("12 Jan", 30, Outcome.CANCELLED), ("19 Jan", 30, None),
        ]  # fmt: skip


def test_a_lesson_that_a_file_calls_off_is_owed_once_when_its_event_gets_longer(tmp_path):
    off = {"EXDATE;TZID=America/Chicago": "20261208T160000"}
    with arranged_studio(tmp_path) as arranged:
        brought(arranged, event(WEEKLY | off))
        arranged.write("2026-12-08", "Ilse", "Scales: D major")
        brought(arranged, event(WEEKLY | off, DURATION="PT45M"))
        assert lessons(arranged, "2026-12-10") == [("01 Dec", 45, None), ("08 Dec", 45, Outcome.CANCELLED)]
        there = arranged.booking("2026-12-08", "Ilse")
        assert arranged.studio.desk.notes.sheet(there).body == "Scales: D major"
        ((owed,),) = arranged.studio.desk.ahead.make_ups_owed().values()
        assert owed.id == there.lesson.id
        assert brought(arranged, event(WEEKLY | off, DURATION="PT45M")).lines == ()
