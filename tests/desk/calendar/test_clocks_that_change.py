"""Lessons that were written down before a clock became another one: each is on one day."""

from datetime import date

import pytest
from support.arranged_studio import ROSTER, Arranged, arranged_studio
from support.studio import home

from cockpit.desk.calendar.handing_out import HandingOut
from cockpit.desk.calendar.proposals import Purpose
from cockpit.desk.lookup import bookings_on
from cockpit.studio.lessons.lesson import Outcome

IN_HONOLULU = ROSTER.replace("Asia/Kolkata", "Pacific/Honolulu")


def outcomes(arranged: Arranged) -> dict[str, list[Outcome | None]]:
    """What the queues of Ishaan's two days show of him; in Kolkata he comes on Thursday, from Honolulu at midnight."""
    studio = arranged.studio
    return {
        on: [
            booking.lesson.outcome
            for booking in bookings_on(studio.store.reading, date.fromisoformat(on), studio.preferences.home)
            if booking.student.name == "Ishaan"
        ]
        for on in ("2026-12-10", "2026-12-11")
    }


def handed_out(arranged: Arranged) -> list[str]:
    """When Ishaan's lessons of the week are by the calendar that others get, UTC."""
    studio = arranged.studio
    shared = HandingOut(studio.store.reading, arranged.clock, studio.preferences).calendar(4, "Banerjee")
    begins, ends = home("2026-12-07 00:00"), home("2026-12-14 00:00")
    (series,) = shared.series
    single = [each.starts_at for each in (*shared.lessons, *series.moved) if begins <= each.starts_at < ends]
    assert not single
    return [str(out) for out in series.left_out if date(2026, 12, 7) <= out.date() < date(2026, 12, 14)]


def test_notes_typed_ahead_go_to_the_other_day_with_their_lesson(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        arranged.write("2026-12-10", "Ishaan", "Scales: D major")
        arranged.studio.enrolling.take_in(IN_HONOLULU)
        assert outcomes(arranged) == {"2026-12-10": [], "2026-12-11": [None]}
        assert handed_out(arranged) == []
        there = arranged.booking("2026-12-11", "Ishaan")
        assert arranged.studio.desk.notes.sheet(there).body == "Scales: D major"
        arranged.studio.desk.teaching.mark_absent()
        assert outcomes(arranged) == {"2026-12-10": [], "2026-12-11": [Outcome.ABSENT]}
        arranged.undo()
        assert outcomes(arranged) == {"2026-12-10": [], "2026-12-11": [None]}


def test_a_lesson_that_was_called_off_is_on_one_day_when_its_clock_changes(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        arranged.booking("2026-12-10", "Ishaan")
        arranged.studio.desk.teaching.mark_cancelled()
        arranged.studio.enrolling.take_in(IN_HONOLULU)
        assert outcomes(arranged) == {"2026-12-10": [], "2026-12-11": [Outcome.CANCELLED]}
        assert handed_out(arranged) == ["2026-12-10 20:00:00"]
        ((owed,),) = arranged.studio.desk.ahead.make_ups_owed().values()
        assert owed == arranged.booking("2026-12-11", "Ishaan").lesson
        proposal = arranged.proposed(Purpose.MAKE_UP, "2026-12-11", "Ishaan", "sat 12 dec 10 am")
        assert "Make-up for Ishaan (for Fri, December 11)" in proposal.understood


@pytest.mark.parametrize("first", ["2026-12-10", "2026-12-11"])
def test_a_lesson_that_was_taught_stays_on_its_day_when_its_clock_changes(tmp_path, first):
    roster = ROSTER if first == "2026-12-10" else IN_HONOLULU
    with arranged_studio(tmp_path, roster) as arranged:
        there = arranged.booking(first, "Ishaan").lesson
        arranged.clock.at = there.starts_at
        arranged.studio.desk.teaching.begin()
        arranged.clock.at = there.planned_end
        arranged.studio.desk.teaching.finish()
        arranged.studio.enrolling.take_in(IN_HONOLULU if roster is ROSTER else ROSTER)
        assert {on for on, theirs in outcomes(arranged).items() if theirs} == {first}


def test_a_lesson_with_notes_stays_on_its_weekday_when_the_teacher_lives_elsewhere(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        arranged.write("2026-12-08", "Ilse", "Scales: D major")
    # Tuesday 4 pm in Chicago, where the notes were typed, is Wednesday in Kolkata.
    with arranged_studio(tmp_path, roster="", settings='home_zone = "Asia/Kolkata"\n') as arranged:
        there = arranged.booking("2026-12-08", "Ilse")
        assert there.lesson.outcome is None
        assert arranged.studio.desk.notes.sheet(there).body == "Scales: D major"
        arranged.studio.desk.day.open(date(2026, 12, 9))
        assert "Ilse" not in {booking.student.name for booking in arranged.studio.desk.day.bookings}
