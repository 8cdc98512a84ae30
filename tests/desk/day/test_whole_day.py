"""A lesson day through the desk: real database, real folder, a clock that is wound."""

import contextlib
import sqlite3
import tempfile
from datetime import date, timedelta
from pathlib import Path

import pytest
from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, rule
from support.examples import examples
from support.sample import sample_studio

from cockpit.desk.lookup import bookings_on
from cockpit.studio.changes.records import Change, Edit, added
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.errors import Refused
from cockpit.studio.lessons.breaks import Break, BreakId
from cockpit.studio.lessons.lesson import State, state_of
from cockpit.studio.notes.notes import Mark
from cockpit.studio.values import replace

SECRET = "braces come off on the ninth"


def everything(folder: Path) -> dict[str, list[tuple]]:
    """Every row that a step can change."""
    tables = {
        "lesson": "id",
        "mark": "lesson_id, line",
        "heard": "lesson_id, line",
        "follow_up": "lesson_id, body",
        "note": "lesson_id",
    }
    with contextlib.closing(sqlite3.connect(folder / "studio.db")) as connection, connection:
        return {
            name: connection.execute(f"SELECT * FROM {name} ORDER BY {key}").fetchall() for name, key in tables.items()
        }


def test_finishing_writes_both_papers_and_shows_the_next_student(tmp_path):
    with sample_studio(tmp_path) as (studio, _clock):
        shown = studio.desk.day.shown
        assert shown is not None
        studio.desk.notes.write(shown.lesson.id, f"Scales: D major\nPrivate: {SECRET}\nWell played")
        done = studio.desk.teaching.finish()
        assert done.fault is None
        assert done.path == tmp_path / "notes" / "Brandvold" / "2026-12-01 Ilse.md"
        assert studio.desk.day.shown is not None
        assert studio.desk.day.shown.student.name == "Mireille"
        for paper in (done.path, done.path.with_suffix(".html")):
            text = paper.read_text(encoding="utf-8")
            assert "D major" in text
            assert "Well played" in text
            assert SECRET not in text
            assert paper.stat().st_mode & 0o777 == 0o600


def test_a_draft_lies_there_from_the_planned_end_and_is_kept_current(tmp_path):
    with sample_studio(tmp_path) as (studio, clock):
        desk = studio.desk
        lesson_id = desk.day.shown.lesson.id
        draft = tmp_path / "notes" / "Brandvold" / "2026-12-01 Ilse.md"
        clock.wind(minutes=32, seconds=59)
        desk.teaching.keep_drafts()
        assert not draft.exists()
        clock.wind(seconds=1)
        desk.teaching.keep_drafts()
        assert "Old Mill" in draft.read_text(encoding="utf-8")
        clock.wind(seconds=5)
        desk.notes.write(lesson_id, "Ear: hum the drone")
        desk.teaching.keep_drafts()
        assert "hum the drone" in draft.read_text(encoding="utf-8")
        assert not studio.store.reading.exports([lesson_id])[lesson_id].is_final
        desk.teaching.finish()
        assert studio.store.reading.exports([lesson_id])[lesson_id].is_final


def test_a_folder_that_refuses_does_not_hold_the_lesson_up(tmp_path):
    with sample_studio(tmp_path) as (studio, clock):
        lesson_id = studio.desk.day.shown.lesson.id
        (tmp_path / "notes").rename(tmp_path / "elsewhere")
        (tmp_path / "notes").write_text("a file where the folder should be", encoding="utf-8")
        done = studio.desk.teaching.finish()
        assert done.fault is not None
        assert "could not be written" in done.fault
        assert state_of(studio.desk.day.booking(lesson_id).lesson, clock.now()) is State.FINISHED
        (tmp_path / "notes").unlink()
        studio.desk.day.go_to(lesson_id)
        studio.desk.teaching.begin()
        assert studio.desk.teaching.finish().path.exists()


def test_finishing_while_looking_at_another_student_finishes_the_running_lesson(tmp_path):
    with sample_studio(tmp_path) as (studio, _clock):
        studio.desk.day.go_next()
        assert studio.desk.teaching.finish().student == "Ilse"


def test_a_lesson_ahead_cannot_be_finished_and_a_second_one_not_begun(tmp_path):
    with sample_studio(tmp_path) as (studio, _clock):
        studio.desk.day.go_next()
        with pytest.raises(Refused, match="Ilse's lesson is running"):
            studio.desk.teaching.begin()
        studio.desk.teaching.finish()
        with pytest.raises(Refused, match="has not begun"):
            studio.desk.teaching.finish()


class Undoing(RuleBasedStateMachine):
    """Any steps, then undo: the records are as they were before each of them."""

    @initialize()
    def open(self) -> None:
        self.temporary = tempfile.TemporaryDirectory()
        self.folder = Path(self.temporary.name)
        self.context = sample_studio(self.folder)
        self.studio, self.clock = self.context.__enter__()
        self.studio.desk.notes._steps._taken.clear()
        self.before: list[dict[str, list[tuple]]] = []

    def step(self, take) -> None:
        for booking in self.studio.desk.day.bookings:
            self.studio.desk.day.recorded(booking.lesson.id)
        state = everything(self.folder)
        try:
            take()
        except Refused:
            assert everything(self.folder) == state
        else:
            if everything(self.folder) != state:
                self.before.append(state)

    @rule(step=st.sampled_from(["begin", "finish", "mark_absent", "mark_cancelled", "give_full_length"]))
    def teach(self, step: str) -> None:
        self.step(getattr(self.studio.desk.teaching, step))

    @rule(mark=st.sampled_from([None, *Mark]), place=st.integers(0, 2))
    def mark(self, mark: Mark | None, place: int) -> None:
        last = self.studio.desk.notes.sheet(self.studio.desk.day.shown).last
        if last is not None:
            given = last.assignments[place % len(last.assignments)]
            self.step(lambda: self.studio.desk.hearing.mark(given, mark))

    @rule(tempo=st.integers(40, 60), place=st.integers(0, 2))
    def hear(self, tempo: int, place: int) -> None:
        last = self.studio.desk.notes.sheet(self.studio.desk.day.shown).last
        if last is not None:
            given = last.assignments[place % len(last.assignments)]
            self.step(lambda: self.studio.desk.hearing.keep_tempo(given, tempo))
            self.step(lambda: self.studio.desk.hearing.count_clean_run(given))

    @rule()
    def tick(self) -> None:
        owed = self.studio.desk.reviewing.review(self.studio.desk.day.on).owed
        if owed:
            self.step(lambda: self.studio.desk.reviewing.tick(owed[0]))

    @rule(minutes=st.integers(1, 40))
    def wait(self, minutes: int) -> None:
        self.clock.wind(minutes=minutes)
        self.studio.desk.teaching.keep_drafts()

    @rule()
    def look_at_the_next(self) -> None:
        self.studio.desk.day.go_next()

    @rule()
    def undo(self) -> None:
        if self.before:
            self.studio.desk.teaching.undo()
            assert everything(self.folder) == self.before.pop()
        else:
            with pytest.raises(Refused, match="Nothing to undo"):
                self.studio.desk.teaching.undo()

    @invariant()
    def at_most_one_lesson_is_live(self) -> None:
        if hasattr(self, "studio"):
            assert sum(booking.lesson.is_live for booking in self.studio.desk.day.bookings) <= 1

    def teardown(self) -> None:
        if hasattr(self, "studio"):
            self.context.__exit__(None, None, None)
            self.temporary.cleanup()


TestUndoing = Undoing.TestCase
TestUndoing.settings = settings(examples(3, long=12), stateful_step_count=20, deadline=None)


def test_a_late_student_of_the_evening_is_still_awaited_after_midnight(tmp_path):
    with sample_studio(tmp_path) as (studio, clock):
        studio.enrolling.take_in("student,weekday,time,minutes\nOttoline,Tue,11:30 pm,60\n")
        day = studio.desk.day
        studio.desk.teaching.finish()
        day.open()
        clock.wind(hours=7, minutes=58)
        assert (day.today().isoformat(), day.is_over()) == ("2026-12-02", False)
        day.open()
        assert day.shown is not None
        assert (day.on.isoformat(), day.shown.student.name) == ("2026-12-01", "Ottoline")
        clock.wind(minutes=20)
        assert day.is_over()
        day.open()
        assert day.on.isoformat() == "2026-12-02"


def test_a_family_that_changes_its_name_keeps_its_folder_and_another_that_takes_the_name_gets_its_own(tmp_path):
    with sample_studio(tmp_path) as (studio, _clock):
        ours = next(f for f in studio.store.reading.people().families.values() if f.name == "Brandvold")
        assert ours.folder == "Brandvold"
        others = next(f for f in studio.store.reading.people().families.values() if f.name == "Perreault")
        edits = (
            Edit(before=ours, after=replace(ours, name="Quist")),
            Edit(before=others, after=replace(others, name="Brandvold", folder=None)),
        )
        studio.store.writing.apply(Change(said="rename", edits=edits))
        studio.desk.day.open()
        for student, folder in (("Ilse", "Brandvold"), ("Mireille", f"Brandvold ({others.id})")):
            assert studio.desk.day.shown.student.name == student
            studio.desk.notes.write(studio.desk.day.shown.lesson.id, "Scales: D major")
            if not studio.desk.day.shown.lesson.is_live:
                studio.desk.teaching.begin()
            assert studio.desk.teaching.finish().path == tmp_path / "notes" / folder / f"2026-12-01 {student}.md"


def test_a_cancellation_is_in_time_or_late_by_the_hours_that_pass_and_she_has_the_last_word(tmp_path):
    with sample_studio(tmp_path) as (studio, clock):
        oskar = next_lesson(studio, "Oskar")
        clock.at = oskar.lesson.starts_at - timedelta(hours=24)
        studio.desk.day.open(date(2026, 12, 3), oskar.lesson.id)
        assert studio.desk.teaching.mark_cancelled() == "Oskar is marked canceled."
        studio.desk.teaching.undo()
        clock.wind(seconds=1)
        assert studio.desk.teaching.mark_cancelled() == "Oskar is marked canceled late."
        assert studio.desk.teaching.mark_cancelled() == "Oskar is marked canceled."


def test_what_falls_into_a_break_is_on_no_queue_and_the_family_is_told_when_it_goes_on(tmp_path):
    with sample_studio(tmp_path) as (studio, _clock):
        reading, zone = studio.store.reading, studio.preferences.home.zone
        holidays = Break(id=BreakId(90), from_on=date(2026, 12, 7), until_on=date(2026, 12, 16), reason="a secret trip")
        assert bookings_on(reading, date(2026, 12, 8), TeacherClock(zone=zone))
        studio.store.writing.apply(Change(said="break", edits=added(holidays)))
        assert bookings_on(reading, date(2026, 12, 8), TeacherClock(zone=zone)) == []
        assert next_lesson(studio, "Oskar").lesson.starts_at.date() == date(2026, 12, 3)
        paper = studio.desk.teaching.finish().path.read_text(encoding="utf-8")
        assert "Tuesday, December 22, 2026, 3:00 pm Phoenix time" in paper
        assert "(no lesson on Tue December 8 and Tue December 15)" in paper
        assert "secret" not in paper


def test_a_day_that_is_free_says_when_lessons_go_on_or_that_none_is_booked(tmp_path):
    with sample_studio(tmp_path) as (studio, clock):
        finding = studio.desk.finding
        clock.wind(days=4)
        assert finding.what_is_next() == "Next lesson: Eilidh, Tue, December 8, 2:30 pm. Find (F8) takes you there."
        holidays = Break(id=BreakId(90), from_on=date(2026, 12, 6), until_on=date(2026, 12, 16), reason="")
        studio.store.writing.apply(Change(said="break", edits=added(holidays)))
        assert "Thu, December 17" in finding.what_is_next()
        for_good = replace(holidays, id=BreakId(91), until_on=date(2027, 9, 1))
        studio.store.writing.apply(Change(said="break", edits=added(for_good)))
        assert finding.what_is_next().startswith("No lesson is booked in the next 120 days.")


def next_lesson(studio, name):
    return studio.desk.finding.next_lesson(studio.desk.finding.student(name).student)


def test_a_moved_lesson_is_on_its_new_day_alone(tmp_path):
    with sample_studio(tmp_path) as (studio, _clock):
        reading, zone = studio.store.reading, studio.preferences.home.zone
        oskar = next_lesson(studio, "Oskar").lesson
        moved = replace(oskar, starts_at=oskar.starts_at + timedelta(days=1), is_moved=True, minutes=30)
        studio.store.writing.apply(Change(said="move", edits=added(moved)))

        def ids(on: date) -> set[str]:
            return {booking.lesson.id for booking in bookings_on(reading, on, TeacherClock(zone=zone))}

        assert oskar.id not in ids(date(2026, 12, 3))
        assert oskar.id in ids(date(2026, 12, 4))
        assert next_lesson(studio, "Oskar").lesson == moved


def test_the_review_names_the_lessons_that_a_break_takes_away_on_both_days(tmp_path):
    with sample_studio(tmp_path) as (studio, _clock):
        holidays = Break(id=BreakId(90), from_on=date(2026, 12, 8), until_on=date(2026, 12, 8), reason="choir tour")
        studio.store.writing.apply(Change(said="break", edits=added(holidays)))
        for on in (date(2026, 12, 7), date(2026, 12, 8)):
            review = studio.desk.reviewing.review(on)
            assert "Ilse" in {each.booking.student.name for each in review.left_out}
            paper = studio.desk.reviewing.write_out(on).read_text(encoding="utf-8")
            assert "Ilse, Tue, December 8, 4:00 pm (choir tour)" in paper
        assert studio.desk.reviewing.review(date(2026, 12, 1)).left_out == ()
