"""Lines typed over the queue: moved, made up, added, changed from a date on, left out; each shown on both clocks first."""

from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from support.screens import on_screen
from support.studio import HOME, home
from textual.widgets import OptionList, Static

from cockpit.desk.calendar.proposals import Purpose
from cockpit.desk.lookup import bookings_on
from cockpit.screens.typed_times.line import LineScreen
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.lessons.lesson import Kind, Outcome


async def to_queue(opened, student: str) -> None:
    await opened.press("tab", "tab")
    listing = opened.day.query_one("#lessons", OptionList)
    listing.highlighted = [option.id for option in listing.options].index(opened.id_of(student))


def understood(opened) -> str:
    assert isinstance(opened.app.screen, LineScreen)
    return str(opened.app.screen.query_one("#understood", Static).content)


def on_day(opened, on: str):
    zone = opened.studio.preferences.home.zone
    return {
        b.student.name: b
        for b in bookings_on(opened.studio.store.reading, date.fromisoformat(on), TeacherClock(zone=zone))
    }


def test_a_lesson_is_moved_after_both_clocks_were_shown_and_undo_brings_it_back(tmp_path):
    async def steps(opened):
        await to_queue(opened, "Mireille")
        await opened.press("m")
        assert "For example" in understood(opened)
        await opened.type("fri 4:30pm 30m")
        assert understood(opened).startswith(
            "Moved: Mireille, Fri, December 4, 4:30 pm · 7:00 pm St. John's, 30 minutes."
        )
        await opened.press("enter")
        assert "Mireille" not in on_day(opened, "2026-12-01")
        assert on_day(opened, "2026-12-04")["Mireille"].lesson.starts_at == home("2026-12-04 16:30")
        assert opened.said.startswith("Moved: Mireille")
        await opened.press("escape", "f4")
        assert "Mireille" in on_day(opened, "2026-12-01")
        assert "Mireille" not in on_day(opened, "2026-12-04")

    on_screen(tmp_path, steps)


def test_what_would_collide_is_asked_about_with_free_times_and_one_of_them_is_taken_or_it_is_done_anyway(tmp_path):
    async def steps(opened):
        await to_queue(opened, "Mireille")
        await opened.press("m")
        await opened.paste("5:45pm")
        assert "Nalani" in understood(opened)
        assert "overlap" in understood(opened)
        await opened.press("enter")
        assert isinstance(opened.app.screen, LineScreen)
        assert "to do it anyway" in understood(opened)
        was = on_day(opened, "2026-12-01")["Mireille"].lesson
        await opened.press("down", "down")
        taken = opened.app.screen.query_one(OptionList).highlighted_option.id
        assert taken != was.starts_at.isoformat()
        await opened.press("enter")
        moved = on_day(opened, datetime.fromisoformat(taken).astimezone(ZoneInfo(HOME)).date().isoformat())["Mireille"]
        assert (moved.lesson.id, moved.lesson.starts_at.isoformat(), moved.lesson.minutes) == (was.id, taken, 45)
        await opened.press("escape", "f4")
        await to_queue(opened, "Mireille")
        await opened.press("m")
        await opened.paste("5:45pm 30m")
        await opened.press("enter", "down", "enter")
        assert on_day(opened, "2026-12-01")["Mireille"].lesson.minutes == 30, "as long as was typed"
        await opened.press("escape", "f4")
        await to_queue(opened, "Mireille")
        await opened.press("m")
        await opened.paste("5:45pm")
        await opened.press("enter", "enter")
        wanted = on_day(opened, "2026-12-01")["Mireille"].lesson
        assert wanted.starts_at == home("2026-12-01 17:45"), "she said so twice"

    on_screen(tmp_path, steps)


@pytest.mark.long
def test_a_line_that_says_no_time_changes_nothing(tmp_path):
    async def steps(opened):
        before = opened.studio.store.reading.closed_lessons(), on_day(opened, "2026-12-01")
        await to_queue(opened, "Ilse")
        for line in ("", "thursdy", "25:00", "fri"):
            await opened.press("m")
            await opened.paste(line)
            await opened.press("enter")
            assert isinstance(opened.app.screen, LineScreen), line
            await opened.press("escape")
            assert (opened.studio.store.reading.closed_lessons(), on_day(opened, "2026-12-01")) == before, line

    on_screen(tmp_path, steps)


@pytest.mark.long
def test_a_make_up_is_owed_for_a_lesson_cancelled_in_time_and_booked_once(tmp_path):
    async def steps(opened):
        await to_queue(opened, "Nalani")
        await opened.press("u")
        await opened.paste("fri 4:30pm")
        assert "Nalani is not owed a make-up" in understood(opened)
        await opened.press("escape", "c", "c")
        assert opened.lesson("Nalani").outcome is Outcome.CANCELLED
        await opened.press("u")
        await opened.paste("fri 4:30pm")
        assert understood(opened).startswith("Make-up for Nalani (for Tue, December 1), Fri, December 4, 4:30 pm")
        await opened.press("enter")
        made_up = on_day(opened, "2026-12-04")["Nalani"].lesson
        assert (made_up.kind, made_up.makes_up) == (Kind.MAKE_UP, opened.id_of("Nalani"))
        assert opened.studio.desk.ahead.make_ups_owed() == {}

    on_screen(tmp_path, steps)


def test_a_trial_makes_somebody_new_a_student_in_the_zone_that_was_named(tmp_path):
    async def steps(opened):
        await to_queue(opened, "Ilse")
        await opened.press("t")
        await opened.paste("nora bellwether sat 10am phoenix")
        assert "Trial lesson for Nora Bellwether (new student" in understood(opened)
        await opened.press("enter")
        trial = on_day(opened, "2026-12-05")["Nora Bellwether"]
        assert (trial.lesson.kind, trial.lesson.minutes, trial.family.zone) == (Kind.TRIAL, 30, "America/Phoenix")
        await opened.press("escape", "f4")
        assert on_day(opened, "2026-12-05") == {}
        names = [student.name for student in opened.studio.store.reading.people().students.values()]
        assert "Nora Bellwether" not in names

    on_screen(tmp_path, steps)


@pytest.mark.long
def test_a_standing_time_changes_from_a_date_on_and_the_past_stays(tmp_path):
    async def steps(opened):
        await to_queue(opened, "Ilse")
        await opened.press("s")
        await opened.paste("from wed 13 january at 5 pm, 30 minutes every second week")
        assert "Ilse, every other week, Wed, January 13, 2027, 5:00 pm" in understood(opened)
        await opened.press("enter", "enter")
        assert "Ilse" in on_day(opened, "2027-01-12")
        assert on_day(opened, "2027-01-13")["Ilse"].lesson.minutes == 30
        assert "Ilse" not in on_day(opened, "2027-01-19")
        assert "Ilse" not in on_day(opened, "2027-01-20")
        assert "Ilse" in on_day(opened, "2027-01-27")
        await opened.press("escape", "f4")
        assert "Ilse" in on_day(opened, "2027-01-19")

    on_screen(tmp_path, steps)


def test_a_standing_time_ends(tmp_path):
    async def steps(opened):
        await to_queue(opened, "Ilse")
        await opened.press("s")
        await opened.paste("until 15 december")
        await opened.press("enter")
        assert "Ilse" in on_day(opened, "2026-12-15")
        assert "Ilse" not in on_day(opened, "2026-12-22")

    on_screen(tmp_path, steps)


def test_a_break_takes_its_days_out(tmp_path):
    async def steps(opened):
        await to_queue(opened, "Ilse")
        await opened.press("b")
        await opened.paste("dec 21 to jan 3 holidays")
        assert understood(opened).startswith(
            "No lessons for the whole studio: Mon, December 21, through Sun, January 3, 2027. Reason: holidays."
        )
        await opened.press("enter")
        assert on_day(opened, "2026-12-22") == {}
        assert on_day(opened, "2027-01-05") != {}
        await opened.press("b")
        await opened.paste("family brandvold 8 dec")
        await opened.press("enter")
        assert "Ilse" not in on_day(opened, "2026-12-08")
        assert "Mireille" in on_day(opened, "2026-12-08")

    on_screen(tmp_path, steps)


@pytest.mark.long
def test_undo_never_takes_notes_away(tmp_path):
    async def steps(opened):
        await opened.press("f5", "tab", "tab", "c", "escape")
        assert on_day(opened, "2026-12-01")["Mireille"].lesson.outcome is not None
        await to_queue(opened, "Nalani")
        await opened.press("e")
        await opened.paste("fri 4:30pm")
        await opened.press("enter")
        extra = on_day(opened, "2026-12-04")["Nalani"]
        opened.studio.desk.day.open(date(2026, 12, 4), extra.lesson.id)
        opened.studio.desk.notes.write(extra.lesson.id, "Scales: G major")
        await opened.press("f4")
        assert "has notes now" in opened.said
        assert on_day(opened, "2026-12-04")["Nalani"] == extra
        await opened.press("f4")
        assert on_day(opened, "2026-12-01")["Mireille"].lesson.outcome is None

    on_screen(tmp_path, steps)


def test_the_letters_of_the_queue_are_letters_in_the_notes(tmp_path):
    async def steps(opened):
        await opened.paste("mutes b")
        assert opened.body("Ilse").endswith("mutes b")
        assert not isinstance(opened.app.screen, LineScreen)

    on_screen(tmp_path, steps)


@pytest.mark.long
def test_reading_a_line_at_every_key_uses_up_no_numbers(tmp_path):
    async def steps(opened):
        before = opened.studio.store.writing.new_id()
        await to_queue(opened, "Nalani")
        await opened.press("e")
        await opened.type("fri 4:30pm 45m")
        await opened.press("escape", "e")
        await opened.type("sat 4:30pm 45m")
        await opened.press("escape")
        assert opened.studio.store.writing.new_id() - before <= 4

    on_screen(tmp_path, steps)


@pytest.mark.long
def test_undoing_a_standing_time_whose_lesson_has_notes_is_refused_in_a_sentence(tmp_path):
    async def steps(opened):
        await to_queue(opened, "Ilse")
        await opened.press("s")
        await opened.paste("from 8 dec at 6:45 pm")
        await opened.press("enter", "enter")
        changed = on_day(opened, "2026-12-08")["Ilse"]
        opened.studio.desk.day.open(date(2026, 12, 8), changed.lesson.id)
        opened.studio.desk.notes.write(changed.lesson.id, "Scales: G major")
        await opened.press("escape", "f4")
        assert "has lessons now" in opened.said
        assert on_day(opened, "2026-12-08")["Ilse"].lesson == changed.lesson

    on_screen(tmp_path, steps)


@pytest.mark.long
def test_a_standing_time_that_ended_is_not_changed_later_than_that(tmp_path):
    async def steps(opened):
        await to_queue(opened, "Ilse")
        await opened.press("s")
        await opened.paste("from wed 13 january at 5 pm")
        await opened.press("enter", "enter")
        for line in ("until 26 jan", "from 4 feb at 6 pm"):
            await opened.press("s")
            await opened.paste(line)
            assert "ends on Tuesday, January 12, 2027" in understood(opened)
            await opened.press("enter")
            assert isinstance(opened.app.screen, LineScreen)
            await opened.press("escape")

    on_screen(tmp_path, steps)


async def change_ilse(opened, line: str, *keys: str) -> None:
    await to_queue(opened, "Ilse")
    await opened.press("s")
    await opened.paste(line)
    await opened.press(*keys)


def write_ahead(opened, on: str, body: str) -> None:
    there = on_day(opened, on)["Ilse"]
    opened.studio.desk.day.open(date.fromisoformat(on), there.lesson.id)
    opened.studio.desk.notes.write(there.lesson.id, body)
    opened.studio.desk.day.open()


def note_on(opened, on: str) -> str:
    there = on_day(opened, on)["Ilse"].lesson.id
    note = opened.studio.store.reading.notes([there]).get(there)
    return note.body if note is not None else ""


@pytest.mark.long
def test_notes_typed_ahead_go_with_a_standing_time_that_changes_and_come_back_when_that_is_undone(tmp_path):
    async def steps(opened):
        write_ahead(opened, "2026-12-15", "Scales: G major\nFollow-up: send the etude")
        await change_ilse(opened, "from thu 10 dec at 10 am", "enter", "enter")
        assert "Ilse" not in on_day(opened, "2026-12-15")
        assert note_on(opened, "2026-12-17") == "Scales: G major\nFollow-up: send the etude"
        owed = {each.body: lesson for each, lesson in opened.studio.store.reading.open_follow_ups()}
        assert owed["send the etude"].id == on_day(opened, "2026-12-17")["Ilse"].lesson.id
        await opened.press("escape", "f4")
        assert "Ilse" not in on_day(opened, "2026-12-17")
        assert note_on(opened, "2026-12-15") == "Scales: G major\nFollow-up: send the etude"

    on_screen(tmp_path, steps)


@pytest.mark.long
def test_words_typed_into_carried_notes_are_not_lost_by_an_undo(tmp_path):
    async def steps(opened):
        write_ahead(opened, "2026-12-15", "Scales: G major")
        await change_ilse(opened, "from thu 10 dec at 10 am", "enter", "enter")
        write_ahead(opened, "2026-12-17", "Scales: G major, slowly")
        await opened.press("escape", "f4")
        assert "typed more in these notes" in opened.said
        assert note_on(opened, "2026-12-17") == "Scales: G major, slowly"

    on_screen(tmp_path, steps)


@pytest.mark.long
def test_a_lesson_looked_into_ahead_does_not_stay_where_its_standing_time_left_it(tmp_path):
    async def steps(opened):
        write_ahead(opened, "2026-12-15", "")
        await change_ilse(opened, "from thu 10 dec at 10 am", "enter", "enter")
        assert "Ilse" not in on_day(opened, "2026-12-15")
        assert "Ilse" in on_day(opened, "2026-12-17")

    on_screen(tmp_path, steps)


@pytest.mark.long
def test_lessons_arranged_after_the_day_of_a_change_are_named_before_it_is_done(tmp_path):
    async def steps(opened):
        there = on_day(opened, "2026-12-15")["Ilse"]
        opened.studio.desk.day.open(date(2026, 12, 15), there.lesson.id)
        opened.studio.desk.teaching.mark_cancelled()
        opened.studio.desk.day.open()
        for line in ("from thu 10 dec at 10 am", "until 10 dec"):
            await change_ilse(opened, line)
            assert "Lessons that you arranged yourself were not changed: Tue, December 15, canceled." in understood(
                opened
            )
            await opened.press("escape", "escape")

    on_screen(tmp_path, steps)


@pytest.mark.long
def test_a_lesson_that_was_moved_and_moved_back_follows_its_standing_time_again(tmp_path):
    async def steps(opened):
        await to_queue(opened, "Mireille")
        await opened.press("m")
        await opened.paste("6:30 pm 30m")
        await opened.press("enter")
        if isinstance(opened.app.screen, LineScreen):
            await opened.press("enter")
        assert on_day(opened, "2026-12-01")["Mireille"].lesson.is_moved
        await opened.press("escape")
        await to_queue(opened, "Mireille")
        await opened.press("m")
        await opened.paste("4:45 pm 45m")
        await opened.press("enter")
        if isinstance(opened.app.screen, LineScreen):
            await opened.press("enter")
        assert not on_day(opened, "2026-12-01")["Mireille"].lesson.is_moved

    on_screen(tmp_path, steps)


AS_PEOPLE_SAY_IT = [
    ("biweekly from 5 jan", "2027-01-05", 2),
    ("every other week from 5 jan", "2027-01-05", 2),
    ("from 5 jan every second week", "2027-01-05", 2),
    ("wed 5pm from 13 jan", "2027-01-13", 1),
    ("every other week", "2026-12-08", 2),
    ("fortnightly", "2026-12-08", 2),
]


@pytest.mark.long
def test_a_standing_time_changes_as_people_say_it(tmp_path):
    async def steps(opened):
        await to_queue(opened, "Ilse")
        for line, begins, weeks in AS_PEOPLE_SAY_IT:
            await opened.press("s")
            await opened.paste(line)
            assert understood(opened).startswith(
                f"New weekly time for Ilse, {'every other week' if weeks == 2 else 'every week'}, "
            ), line
            await opened.press("enter")
            if isinstance(opened.app.screen, LineScreen):
                await opened.press("enter")
            first = date.fromisoformat(begins)
            is_there = ["Ilse" in on_day(opened, (first + timedelta(weeks=after)).isoformat()) for after in range(3)]
            assert is_there == [True, weeks == 1, True], line
            await opened.press("f4")
            weekly = [date(2026, 12, 8) + timedelta(weeks=after) for after in range(7)]
            assert all("Ilse" in on_day(opened, on.isoformat()) for on in weekly), line

    on_screen(tmp_path, steps)


def test_a_cancelled_lesson_that_is_taken_up_again_names_the_make_up_that_stays_booked(tmp_path):
    async def steps(opened):
        there = on_day(opened, "2026-12-08")["Nalani"]
        opened.studio.desk.day.open(date(2026, 12, 8), there.lesson.id)
        opened.studio.desk.teaching.mark_cancelled()
        arranging = opened.studio.desk.arranging
        arranging.do(arranging.propose(Purpose.MAKE_UP, opened.studio.desk.day.shown, "fri 11 dec 4:30pm"))
        assert opened.studio.desk.teaching.begin() == (
            "Nalani's lesson is open again. Its make-up is still booked: Fri, December 11, 4:30 pm."
        )

    on_screen(tmp_path, steps)


def test_what_a_line_would_do_and_what_enter_does_are_told_before_anything_is_done(tmp_path):
    async def steps(opened):
        async def typed(key, line, student="Ilse"):
            await opened.press("escape", "escape")
            await to_queue(opened, student)
            await opened.press(key)
            await opened.paste(line)
            return understood(opened)

        before = on_day(opened, "2026-12-01"), on_day(opened, "2027-01-12")
        assert "January 14, 2027 is a Thursday" in await typed("s", "wed 5pm from 14 jan")
        # By a quarter of an hour, it does not collide with the time that it replaces.
        assert "Ilse" not in (await typed("s", "from 8 dec at 3:50 pm 20m")).partition(".")[2]
        assert (await typed("b", "family okonjo 8 dec")).startswith(
            "No lessons for the Okonjo family (days in the family's time zone): Tue, December 8."
        )
        # Free times are spoken of only where there are some.
        assert (await typed("m", "tue 5:30pm", "Mireille")).endswith("\nPress down to choose a free time:")
        weekly = await typed("s", "from 12 january 5 pm")
        assert "overlap" in weekly
        assert "free time" not in weekly
        # What enter does comes before troubles, which may not fit.
        asked = await typed("s", "from 12 january 5 pm 45m every second week")
        assert asked.split("\n")[1] == "Press enter; you will be asked to confirm"
        await opened.press("enter")
        assert understood(opened).split("\n")[1] == "Press enter to do it anyway   esc cancels"
        assert (on_day(opened, "2026-12-01"), on_day(opened, "2027-01-12")) == before

    on_screen(tmp_path, steps)


@pytest.mark.long
def test_the_lesson_that_is_chosen_in_the_queue_is_the_one_that_is_cancelled_or_missed(tmp_path):
    async def steps(opened):
        await to_queue(opened, "Mireille")
        await opened.press("c")
        assert opened.said.startswith("Mireille is marked canceled")
        lessons = on_day(opened, "2026-12-01")
        assert {name for name, each in lessons.items() if each.lesson.outcome is not None} == {"Mireille"}
        listing = opened.day.query_one("#lessons", OptionList)
        listing.highlighted = [option.id for option in listing.options].index(opened.id_of("Nalani"))
        await opened.press("a")
        assert on_day(opened, "2026-12-01")["Nalani"].lesson.outcome is Outcome.ABSENT

    on_screen(tmp_path, steps)


def test_a_chosen_lesson_that_cannot_be_missed_leaves_the_shown_one_on_the_screen(tmp_path):
    async def steps(opened):
        await opened.press("f2", "f9")
        shown = opened.studio.desk.day.shown.lesson.id
        assert shown != opened.id_of("Ilse")
        await to_queue(opened, "Ilse")
        await opened.press("a")
        assert "was taught" in opened.said
        assert opened.studio.desk.day.shown.lesson.id == shown

    on_screen(tmp_path, steps)
