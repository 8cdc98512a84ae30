"""The call of a lesson: lost and back, and the minutes given, owed, or let be; through the desk, on the disk."""

import contextlib
import sqlite3
from datetime import date

import pytest
from support.sample import sample_studio
from support.studio import home

from cockpit.clock import SetClock
from cockpit.sample import history
from cockpit.studio.changes.records import Change, added
from cockpit.studio.errors import Refused
from cockpit.studio.lessons.calls import Settled
from cockpit.studio.people.people import Gets, Guardian, GuardianId
from cockpit.wiring import studio_at

DAY = date(2026, 12, 1)


def rows(folder):
    """Everything that a step with a call can change."""
    with contextlib.closing(sqlite3.connect(folder / "studio.db")) as connection, connection:
        return [
            connection.execute(f"SELECT * FROM {table} ORDER BY 1, 2").fetchall() for table in ("call_loss", "lesson")
        ]


def lose(studio, clock, minutes):
    """Loses the call of the running lesson for so many minutes; returns what was said."""
    said = studio.desk.calls.note_lost()
    clock.wind(minutes=minutes)
    return said, studio.desk.calls.note_back()


def owed(studio):
    return [(each.student.name, each.minutes) for each in studio.desk.ahead.outlook(12).owed_minutes]


def test_a_lost_call_is_noted_and_back_and_each_step_is_taken_back(tmp_path):
    with sample_studio(tmp_path) as (studio, clock):
        desk, seen = studio.desk, []
        seen.append(rows(tmp_path))
        assert desk.calls.note_lost() == "Call lost at 4:12 pm. Press F12 or enter when it is back."
        with pytest.raises(Refused, match="lost already"):
            desk.calls.note_lost()
        seen.append(rows(tmp_path))
        clock.wind(minutes=7)
        assert desk.calls.lost is not None
        assert (desk.calls.lost.lost_at, desk.calls.lost.minutes) == (home("2026-12-01 16:12"), 7)
        assert desk.calls.note_back() == "Back at 4:19 pm: 7 minutes lost."
        assert desk.calls.lost is None
        with pytest.raises(Refused, match="not lost"):
            desk.calls.note_back()
        seen.append(rows(tmp_path))
        assert desk.teaching.give_full_length() == "Ilse gets 7 minutes more: the lesson ends at 4:52 pm."
        with pytest.raises(Refused):
            desk.teaching.give_full_length()
        for said in ("giving Ilse 7 minutes more", "Ilse's call back at 4:19 pm", "Ilse's call lost at 4:12 pm"):
            assert desk.teaching.undo() == f"Undone: {said}."
            assert rows(tmp_path) == seen.pop()


def test_a_program_that_is_killed_finds_the_call_still_lost(tmp_path):
    with sample_studio(tmp_path) as (studio, clock):
        studio.desk.calls.note_lost()
        copy = tmp_path / "killed"  # nothing is closed: the copy is what a kill leaves
        copy.mkdir()
        for name in ("studio.db", "studio.db-wal", "settings.toml"):
            if (tmp_path / name).exists():
                (copy / name).write_bytes((tmp_path / name).read_bytes())
        clock.wind(minutes=3)
        with studio_at(copy, SetClock(clock.at), to_write=True) as again:
            again.desk.day.open()
            assert again.desk.calls.lost is not None
            assert again.desk.calls.lost.lost_at == home("2026-12-01 16:12")
            assert again.desk.calls.note_back() == "Back at 4:15 pm: 3 minutes lost."
            assert again.desk.calls.may_be_lost(again.desk.day.running), (
                "it was opened before the kill, as far as anyone knows"
            )


def test_what_was_lost_is_owed_after_the_lesson_and_adds_up_and_is_given_in_a_later_one(tmp_path):
    with sample_studio(tmp_path) as (studio, clock):
        desk = studio.desk
        lose(studio, clock, 4)
        clock.wind(minutes=1)
        lose(studio, clock, 3)
        assert owed(studio) == [], "a lesson that runs owes nothing yet"
        _, lost = desk.teaching.lost()
        assert lost.minutes == 7
        desk.teaching.finish()
        assert owed(studio) == [("Ilse", 7)]
        assert [each.minutes for each in desk.reviewing.review(DAY).owed if hasattr(each, "lost")] == [7]
        clock.at = home("2026-12-08 16:00")
        desk.day.open()
        ilse = next(b for b in desk.day.bookings if b.student.name == "Ilse")
        desk.day.go_to(ilse.lesson.id)
        assert desk.teaching.begin() == "Ilse's lesson has begun. You owe 7 minutes of a lost call: F3 gives them."
        before = rows(tmp_path)
        assert desk.teaching.give_full_length() == "Ilse gets 7 minutes more: the lesson ends at 4:52 pm."
        assert owed(studio) == []
        # The lesson comes to nothing: they are owed again.
        desk.teaching.mark_absent()
        desk.teaching.mark_absent()
        assert owed(studio) == [("Ilse", 7)]
        desk.teaching.undo()
        assert owed(studio) == []
        desk.teaching.undo()
        assert rows(tmp_path) == before
        assert owed(studio) == [("Ilse", 7)]


def test_a_late_start_and_a_lost_call_are_given_one_after_the_other(tmp_path):
    with sample_studio(tmp_path) as (studio, clock):
        desk = studio.desk
        desk.teaching.finish()
        clock.at = home("2026-12-01 16:50")
        desk.teaching.begin()
        lose(studio, clock, 6)
        assert desk.teaching.give_full_length() == "Mireille gets all 45 minutes."
        assert desk.teaching.give_full_length() == "Mireille gets 6 minutes more: the lesson ends at 5:41 pm."


def test_a_loss_that_never_ends_ends_with_the_lesson_and_cannot_be_given_while_it_lasts(tmp_path):
    with sample_studio(tmp_path) as (studio, clock):
        desk = studio.desk
        desk.calls.note_lost()
        clock.wind(minutes=10)
        _, lost = desk.teaching.lost()
        assert lost.minutes == 33, "from 4:12 to 4:45"
        with pytest.raises(Refused, match="still lost"):
            desk.teaching.give_full_length()
        desk.teaching.finish()
        assert desk.calls.lost is None
        assert owed(studio) == [("Ilse", 33)]


def test_let_be_is_one_step_with_the_finish(tmp_path):
    with sample_studio(tmp_path) as (studio, clock):
        lose(studio, clock, 7)
        before = rows(tmp_path)
        studio.desk.teaching.finish(lets_be=True)
        assert owed(studio) == []
        studio.desk.teaching.undo()
        assert rows(tmp_path) == before
        studio.desk.teaching.finish()
        assert owed(studio) == [("Ilse", 7)]


@pytest.mark.parametrize(("how", "word"), [(Settled.GIVEN, "given"), (Settled.LET_BE, "let be")])
def test_owed_minutes_are_settled_by_hand_and_taken_back(tmp_path, how, word):
    with sample_studio(tmp_path) as (studio, clock):
        lose(studio, clock, 7)
        studio.desk.teaching.finish()
        (due,) = studio.desk.ahead.outlook(12).owed_minutes
        assert studio.desk.calls.settle(due, how) == f"7 minutes for Ilse: {word}. Nothing is owed for them now."
        assert owed(studio) == []
        assert studio.desk.teaching.undo() == f"Undone: 7 minutes for Ilse {word}."
        assert owed(studio) == [("Ilse", 7)]


def test_a_lesson_that_was_not_taught_after_all_owes_nothing(tmp_path):
    with sample_studio(tmp_path) as (studio, clock):
        lose(studio, clock, 7)
        studio.desk.teaching.mark_absent()
        studio.desk.teaching.mark_absent()
        assert owed(studio) == []


def test_a_rehearsal_loses_nothing(tmp_path):
    with sample_studio(tmp_path) as (studio, _):
        pass
    clock = SetClock(history.MOMENT, is_rehearsal=True)
    with studio_at(tmp_path, clock, to_write=True) as studio:
        studio.desk.day.open()
        lose(studio, clock, 7)
        studio.desk.teaching.finish()
        assert owed(studio) == []


def test_phones_are_those_of_the_guardians_of_the_running_lesson_in_their_order(tmp_path):
    with sample_studio(tmp_path) as (studio, _):
        running = studio.desk.day.running
        writing = studio.store.writing
        people = [("Per", None, 1), ("Liv", "+1 602 555 0100", 3), ("Ann", "+1 602 555 0199", 2)]
        guardians = [
            Guardian(
                id=GuardianId(writing.new_id()), family_id=running.family.id, name=name, phone=phone,
                gets=frozenset(Gets), position=place,
            )
            for name, phone, place in people
        ]  # fmt: skip
        writing.apply(Change(said="", edits=added(*guardians)))
        assert studio.desk.calls.lost is None
        studio.desk.calls.note_lost()
        studio.desk.day.go_next()  # whatever is shown
        assert [each.phone for each in studio.desk.calls.lost.phones] == ["+1 602 555 0199", "+1 602 555 0100"]


def test_nothing_of_it_is_in_what_a_family_gets(tmp_path):
    """Papers and mails of a lesson with a lost call are those of the same lesson without one."""
    papers = []
    for loses in (False, True):
        folder = tmp_path / str(loses)
        folder.mkdir()
        with sample_studio(folder) as (studio, clock):
            if loses:
                lose(studio, clock, 7)
                studio.desk.teaching.give_full_length()
                lose(studio, clock, 2)
            else:
                clock.wind(minutes=9)
            done = studio.desk.teaching.finish()
            papers.append((done.path.read_bytes(), done.path.with_suffix(".html").read_bytes(), done.for_clipboard))
    assert papers[0] == papers[1]
