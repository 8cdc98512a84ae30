"""What lies ahead: collisions with free times, clock changes and their messages, make-ups, breaks."""

from datetime import date, timedelta

import pytest
from rich.cells import cell_len
from support.sample import sample_studio
from support.screens import on_screen
from support.studio import CLOCK, ILSE, STARTS_AT, TEODOR, booking, family, standing, student, utc
from textual.widgets import OptionList

from cockpit.clock import SetClock
from cockpit.desk.calendar.ahead import Outlook
from cockpit.desk.lookup import bookings_on
from cockpit.sample import history
from cockpit.screens.calendar.ahead import AheadScreen
from cockpit.screens.calendar.ahead_rows import ahead_options, weeks_line
from cockpit.screens.day.day import DayScreen
from cockpit.screens.textual_parts.key_strip import KeyStrip
from cockpit.screens.textual_parts.notice import Notice
from cockpit.screens.typed_times.line import LineScreen
from cockpit.studio.calendar.collisions import Group, SchedulingProblem, Trouble
from cockpit.studio.changes.records import Change, added
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.lessons.breaks import Break, BreakId
from cockpit.studio.lessons.lesson import Kind
from cockpit.studio.lessons.scheduled import People
from cockpit.studio.lessons.weekly_times import StandingTimeId
from cockpit.studio.people.people import FamilyId, StudentId
from cockpit.studio.values import replace
from cockpit.wiring import studio_at

BEFORE_SPRING = utc("2027-03-02 22:12")  # the clocks of Chicago change on 14 March 2027, London's on 28 March


def rows(opened) -> dict[str, str]:
    listing = opened.app.screen.query_one(OptionList)
    return {
        option.id or f"heading {n}": " ".join(str(option.prompt).split()) for n, option in enumerate(listing.options)
    }


async def look_ahead(opened) -> dict[str, str]:
    await opened.press("ctrl+b")
    assert isinstance(opened.app.screen, AheadScreen)
    return rows(opened)


@pytest.mark.long
def test_two_times_kept_on_different_clocks_collide_after_one_clock_changed_and_nobody_is_to_be_written_to(tmp_path):
    async def steps(opened):
        found = await look_ahead(opened)
        (collision,) = [row for key, row in found.items() if key.startswith("trouble") and "overlap" in row]
        assert "Tue, March 16, 2027 Teodor overlaps Ilse, 4:00 pm to 4:45 pm, by" in collision
        assert "4:15 pm 30 minutes" in collision
        assert "and 2 more times through Tue, November 2" in collision
        assert "9:15 pm London" in collision
        await opened.press("w")
        assert "no one to write to" in opened.app.screen.query_one(Notice).sentence
        assert not (tmp_path / "messages").exists()

    on_screen(tmp_path, steps)


@pytest.mark.long
def test_moving_the_lesson_that_collides_makes_the_trouble_smaller_and_enter_leads_to_its_day(tmp_path):
    async def steps(opened):
        found = await look_ahead(opened)
        (collision,) = [key for key, row in found.items() if key.startswith("trouble") and "overlap" in row]
        listing = opened.app.screen.query_one(OptionList)
        listing.highlighted = [option.id for option in listing.options].index(collision)
        await opened.press("m")
        assert isinstance(opened.app.screen, LineScreen)
        await opened.type("2027-03-16 11:00")
        await opened.press("enter")
        assert isinstance(opened.app.screen, AheadScreen)
        said = "".join(rows(opened).values())
        assert "Tue, March 23, 2027 Teodor" in said
        assert "and 1 more time through" in said
        await opened.press("f4")
        found = rows(opened)
        assert "Tue, March 16, 2027 Teodor overlaps Ilse" in "".join(found.values())
        (collision,) = [key for key, row in found.items() if key.startswith("trouble") and "overlap" in row]
        await opened.choose(collision)
        await opened.pilot.pause()
        assert isinstance(opened.app.screen, DayScreen)
        assert opened.shown == "Teodor"
        assert opened.studio.desk.day.on == date(2027, 3, 16)

    on_screen(tmp_path, steps)


def test_clock_changes_say_what_shifts_on_both_clocks_and_each_family_concerned_gets_its_message_and_nobody_else(
    tmp_path,
):
    async def steps(opened):
        text = "\n".join((await look_ahead(opened)).values())
        assert "Sunday, March 14, 2027" in text
        # London changes at 1 am on Sunday 28 March 2027 (Directive 2000/84/EC); in Chicago that is Saturday evening.
        assert "Sunday, March 28, 2027 London" in text
        assert "Saturday" not in text
        assert "you Tue 3:15 pm → Tue 4:15 pm London Tue 9:15 pm" in text
        assert "you Tue 4:00 pm Phoenix Tue 3:00 pm → Tue 2:00 pm" in text
        await opened.press("w")
        assert "3 messages ready to send" in opened.app.screen.query_one(Notice).sentence
        messages = {path.name: path.read_text(encoding="utf-8") for path in (tmp_path / "messages").iterdir()}
        assert len(messages) == 3
        (phoenix,) = [text for name, text in messages.items() if "Brandvold" in name]
        assert "2:00 pm Phoenix time" in phoenix
        assert "Teodor" not in phoenix
        assert not any("Okonjo" in name for name in messages)  # their clock shows the same time as before

    on_screen(tmp_path, steps, at=BEFORE_SPRING)


def test_a_make_up_that_is_owed_is_booked_from_here(tmp_path):
    async def steps(opened):
        await opened.press("f5", "f5", "tab", "tab", "c", "c", "escape")
        found = await look_ahead(opened)
        assert found["owed:0"].startswith("○ Nalani 60 min for Tue, December 1")
        opened.app.screen.query_one(OptionList).highlighted = list(found).index("owed:0")
        await opened.press("x")
        assert "owed:0" not in rows(opened)
        assert rows(opened)["let_go:0"].startswith("× Nalani 60 min for Tue, December 1")
        await opened.press("f4")
        assert "let_go:0" not in rows(opened)
        await opened.choose("owed:0")
        await opened.type("fri 4:30pm")
        await opened.press("enter")
        assert "owed:0" not in rows(opened)
        zone = opened.studio.preferences.home.zone
        (made_up,) = bookings_on(opened.studio.store.reading, date(2026, 12, 4), TeacherClock(zone=zone))[-1:]
        assert made_up.lesson.kind is Kind.MAKE_UP

    on_screen(tmp_path, steps)


def test_a_break_is_taken_out_and_put_back_and_a_family_that_ended_long_ago_is_kept(tmp_path):
    async def steps(opened):
        before = opened.studio.store.reading.breaks()
        holidays = Break(id=BreakId(900), from_on=date(2026, 12, 21), until_on=date(2027, 1, 3), reason="holidays")
        quist = family(id=FamilyId(901), name="Quist")
        edda = student(id=StudentId(902), family_id=quist.id, name="Edda")
        over = standing(id=StandingTimeId(903), student_id=edda.id, until_on=date(2024, 6, 3))
        opened.studio.store.writing.apply(Change(said="break", edits=added(holidays, quist, edda, over)))
        assert "Mon, December 21, through Sun, January 3, 2027 holidays" in (await look_ahead(opened))["break:0"]
        listing = opened.app.screen.query_one(OptionList)
        listing.highlighted = [option.id for option in listing.options].index("break:0")
        await opened.press("delete")
        assert opened.studio.store.reading.breaks() == before
        await opened.press("f4")
        assert opened.studio.store.reading.breaks() == (holidays, *before)
        assert rows(opened)["ended:0"].startswith("○ Edda ended Monday, June 3, 2024 2 years ago cockpit family")
        listing.highlighted = [option.id for option in listing.options].index("ended:0")
        await opened.press("x")
        assert "will not be asked about the Quist family again" in opened.app.screen.query_one(Notice).sentence
        assert "ended:0" not in rows(opened)
        await opened.press("f4")
        assert "ended:0" in rows(opened)

    on_screen(tmp_path, steps)


@pytest.mark.long
def test_the_key_strip_says_how_much_is_to_be_settled_soon_after_the_start_and_after_each_change(tmp_path):
    def ahead_in_strip(opened) -> str:
        opened.drawn()
        return next(c.short for c in opened.app.screen.query_one(KeyStrip)._commands if c.id == "app.show_ahead")

    async def steps(opened):
        opened.app.look_ahead()
        assert ahead_in_strip(opened) == "coming up: 3"
        await opened.press("tab", "tab", "down", "m")
        await opened.type("fri 22:00")
        await opened.press("enter", "enter")
        assert ahead_in_strip(opened) == "coming up: 4"
        await opened.press("b")
        await opened.type("1 dec to 1 dec 2027")
        await opened.press("enter", "enter")
        assert ahead_in_strip(opened) == "coming up: 1"  # what she moved by hand stays, in the night of the family

    on_screen(tmp_path, steps)


def test_a_pause_is_typed_in_the_queue_changed_and_removed_in_coming_up(tmp_path):
    async def steps(opened):
        await opened.press("f5", "f5", "tab", "tab", "p")
        assert isinstance(opened.app.screen, LineScreen)
        await opened.type("from jan 4, frees the time")
        await opened.press("enter", "enter", "escape")
        pause, wrens = opened.studio.store.reading.breaks()
        assert (pause.from_on, pause.until_on, pause.keeps_time) == (date(2027, 1, 4), None, False)
        found = await look_ahead(opened)
        assert found["break:0"] == (
            "╱ Nalani paused from Mon, January 4, 2027 time free ask from Mon, March 1, 2027 on whether Nalani comes back"
        )
        opened.clock.at += timedelta(days=100)
        opened.app.screen.show()
        assert rows(opened)["break:0"].endswith("time free ! ask whether Nalani comes back")
        listing = opened.app.screen.query_one(OptionList)
        listing.highlighted = [option.id for option in listing.options].index("break:0")
        await opened.press("p")
        await opened.type("until apr 30")
        await opened.press("enter", "enter")
        assert rows(opened)["break:0"] == "╱ Nalani paused Mon, January 4, through Fri, April 30 time free"
        pause, wrens = opened.studio.store.reading.breaks()
        assert pause.until_on == date(2027, 4, 30)
        listing.highlighted = [option.id for option in listing.options].index("break:0")
        await opened.press("delete")
        assert opened.app.screen.query_one(Notice).sentence == "Pause removed. Its lessons are back on."
        assert opened.studio.store.reading.breaks() == (wrens,)
        await opened.press("f4")
        assert opened.studio.store.reading.breaks() == (pause, wrens)

    on_screen(tmp_path, steps)


def test_the_next_four_weeks_count_a_change_that_shifts_a_lesson(tmp_path):
    async def steps(opened):
        ahead = opened.studio.desk.ahead
        assert ahead.to_settle() == len(ahead.troubles()[0]) + 2
        opened.clock.at -= timedelta(days=60)
        assert ahead.to_settle() == len(ahead.troubles()[0])

    on_screen(tmp_path, steps, at=BEFORE_SPRING)


def test_what_is_meant_so_is_left_as_it_is_and_not_told_again_until_she_takes_that_back(tmp_path):
    async def steps(opened):
        found = await look_ahead(opened)
        night = found["trouble:0"]
        assert "outside your teaching hours for the family" in night
        await opened.press("x")
        found = rows(opened)
        assert "Ishaan (7:00 pm to 7:30 pm; Wed 6:30 am Kolkata) is outside your teaching hours" in found["accepted:0"]
        assert "Ishaan outside your teaching hours for the family 7:00 pm Wed 6:30 am Kolkata" in night
        assert opened.studio.desk.ahead.to_settle() == 2
        await opened.press("f4")
        assert rows(opened)["trouble:0"] == night
        await opened.press("x")
        listing = opened.app.screen.query_one(OptionList)
        listing.highlighted = [option.id for option in listing.options].index("accepted:0")
        await opened.press("x")
        assert rows(opened)["trouble:0"] == night
        assert opened.studio.desk.ahead.to_settle() == 3

    on_screen(tmp_path, steps)


NARROW, WIDE = 41, 97


@pytest.mark.parametrize("width", range(39, 90, 3))
@pytest.mark.parametrize("today", [date(2026, 12, 1), date(2026, 12, 21), date(2027, 1, 4)])
def test_no_two_months_run_together_over_the_weeks(width, today):
    people = People(students={}, families={})
    outlook = Outlook(today=today, weeks=12, troubles=(), free=(), changes=(), owed=(), breaks=(), people=people)
    months, *_ = weeks_line(outlook, CLOCK, width)
    assert len(months.plain.split()) >= 3
    assert all(len(name) == 3 for name in months.plain.split())


@pytest.mark.parametrize("width", [30, NARROW, 57, 77, WIDE, 127])
def test_problems_lie_in_columns_that_line_up_or_are_sentences_where_these_do_not_fit(width):
    long = "Wilhelmina Konstantina von Hohenfels-Aldersgate"
    first, second = booking(TEODOR), booking(ILSE, starts_at=STARTS_AT + timedelta(days=300))
    second = replace(second, student=replace(second.student, name=long))
    groups = [
        Group(findings=(SchedulingProblem(trouble=trouble, booking=each, other=other, minutes=minutes),))
        for trouble, each, other, minutes in (
            (Trouble.OVERLAP, first, second, 5),
            (Trouble.TOO_CLOSE, second, first, 0),
            (Trouble.NIGHT, second, None, 0),
            (Trouble.OWN_NIGHT, first, None, 0),
        )
    ]
    outlook = Outlook(
        today=date(2026, 12, 1), weeks=12, troubles=tuple(groups), free=((STARTS_AT,),) * 4, changes=(), owed=(), breaks=(),
        people=People(students={}, families={}),
    )  # fmt: skip
    found = [str(o.prompt).splitlines() for o in ahead_options(outlook, CLOCK, width) if o.id is not None]
    assert len(found) == 4
    assert all(cell_len(line) <= width for lines in found for line in lines)
    assert all(lines[0].startswith("! ") for lines in found)
    if width >= WIDE:
        at = {
            lines[0].index(word)
            for lines, word in zip(found, ("overlaps", "no time after", "outside", "outside"), strict=True)
        }
        assert len(at) == 1
        assert all(lines[-1].index("free") < at.copy().pop() for lines in found)
    if width <= NARROW:
        assert "overlap by 5" in " ".join(" ".join(found[0]).split())


@pytest.mark.parametrize("width", [38, 76])
def test_the_seats_of_each_taught_weekday_are_shown_where_teaching_hours_are_set(tmp_path, width):
    with sample_studio(tmp_path) as (studio, _):
        options = ahead_options(studio.desk.ahead.outlook(12), studio.preferences.home, width)
        assert not any(str(option.id).startswith("seats") for option in options)
    with (tmp_path / "settings.toml").open("a", encoding="utf-8") as settings:
        settings.write('[teaching]\ntue = "14:00-20:00"\nthu = "16:00-18:00"\n')
    with studio_at(tmp_path, SetClock(history.MOMENT), to_write=False) as studio:
        options = ahead_options(studio.desk.ahead.outlook(12), studio.preferences.home, width)
    found = {option.id: str(option.prompt) for option in options if str(option.id).startswith("seats")}
    assert [" ".join(row.split()) for row in found.values()] == [
        "Tue 3 of 30 0 of 45 0 of 60 free 2:00 to 2:30 pm, 3:45 to 4:00 pm, 6:30 to 7:00 pm, 7:30 to 8:00 pm",
        "Thu 0 of 30 0 of 45 0 of 60 free 4:45 to 5:00 pm",
    ]
    assert max(len(line) for row in found.values() for line in row.splitlines()) <= width
