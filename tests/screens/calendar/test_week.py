"""The week: seven days on both clocks, breaks, what is free; lessons moved and opened from it."""

from datetime import date, timedelta
from itertools import product

import pytest
from rich.cells import cell_len
from support.screens import on_screen
from support.studio import CLOCK, HOME, ILSE, MACASKILL, TEODOR, booking, home, utc
from textual.widgets import OptionList

from cockpit.desk.calendar.ahead import DayOfWeek
from cockpit.desk.calendar.proposals import Purpose
from cockpit.desk.lookup import bookings_on
from cockpit.screens.calendar.week import WeekList, WeekScreen
from cockpit.screens.calendar.week_rows import Looked, cursor_on, free_from_now, week_options
from cockpit.screens.commands.commands import BY_ID
from cockpit.screens.day.day import DayScreen
from cockpit.screens.textual_parts.heading import Title
from cockpit.screens.textual_parts.notice import Notice
from cockpit.screens.textual_parts.rows import GroupHeading
from cockpit.screens.typed_times.line import LineScreen
from cockpit.studio.changes.records import Change, added
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.lessons.breaks import Break, BreakId
from cockpit.studio.lessons.lesson import Kind, LessonId, Outcome

BEFORE_SPRING = utc("2027-03-02 22:12")  # the clocks of Chicago change on 14 March 2027, London's on 28 March
HOLIDAYS = Break(id=BreakId(900), from_on=date(2026, 12, 21), until_on=date(2027, 1, 3), reason="holidays")


def listing(opened) -> OptionList:
    assert isinstance(opened.app.screen, WeekScreen)
    return opened.app.screen.query_one(OptionList)


def lines(opened) -> list[str]:
    """Every line of the week, its columns a space apart, without the rules of its headings."""
    return [
        " ".join(str(option.prompt).replace("─", "").replace("━", "").split()) for option in listing(opened).options
    ]


def below(opened, heading: str) -> list[str]:
    """The lines of a day; the heading begins with its weekday."""
    found = lines(opened)
    headings = [place for place, option in enumerate(listing(opened).options) if isinstance(option, GroupHeading)]
    begins = next(place for place in headings if found[place].startswith(heading.upper()))
    return found[begins + 1 : next((place for place in headings if place > begins), len(found))]


def title(opened) -> str:
    return opened.app.screen.query_one(Title).said


def on_day(opened, on: str):
    zone = opened.studio.preferences.home.zone
    return {
        b.student.name: b
        for b in bookings_on(opened.studio.store.reading, date.fromisoformat(on), TeacherClock(zone=zone))
    }


def chosen(opened) -> str | None:
    option = listing(opened).highlighted_option
    return option.id if option is not None else None


async def choose(opened, lesson_id: str) -> None:
    listing(opened).highlighted = [option.id for option in listing(opened).options].index(lesson_id)


async def see_week(opened, *keys: str) -> None:
    await opened.press("ctrl+a", *keys)
    await opened.pilot.pause()


# What stands in it


def test_the_days_stand_from_monday_to_sunday_and_today_is_told_in_words(tmp_path):
    async def steps(opened):
        await see_week(opened)
        assert [line for line in lines(opened) if "DAY, " in line[:11]] == [
            "MONDAY, NOVEMBER 30 no lessons",
            "TUESDAY, DECEMBER 1",
            "WEDNESDAY, DECEMBER 2",
            "THURSDAY, DECEMBER 3",
            "FRIDAY, DECEMBER 4",
            "SATURDAY, DECEMBER 5",
            "SUNDAY, DECEMBER 6",
        ]
        heavy = [line for line in opened.drawn().splitlines() if "━━━" in line and "DAY, " in line]
        assert [line.split(",")[0].strip() for line in heavy] == ["TUESDAY"]
        assert title(opened) == "November 30 to December 6, 2026"
        assert "this week, 12 lessons, 525 minutes" in opened.drawn()

    on_screen(tmp_path, steps)


def test_a_lesson_is_told_on_both_clocks_where_they_differ_with_its_state_where_it_is_not_booked(tmp_path):
    async def steps(opened):
        await see_week(opened)
        assert below(opened, "Tuesday") == [
            "2:30 pm ● Eilidh clarinet 45 4:30 pm Halifax",
            "3:15 ● Teodor guitar 30 9:15 pm London",
            "4:00 ▶ Ilse cello 45 3:00 pm Phoenix",
            "4:45 ○ Mireille clarinet 45 7:15 pm St. John's",
            "5:30 ○ Nalani guitar 60 1:30 pm Honolulu",
            "6:30 ┊ free until 7:00 pm",
            "7:00 ○ Ishaan cello 30 Wed 6:30 am Kolkata",
            "7:30 ┊ free until 9:00 pm",
        ]
        assert below(opened, "Wednesday")[:3] == [
            "7:00 am ┊ free until 3:30 pm",
            "3:30 pm ○ Wren cello 30",
            "4:00 ○ Tobin guitar 30",
        ]
        await opened.press("left")
        await opened.pilot.pause()
        assert below(opened, "Friday") == ["10:00 am ! Marguerite cello 60 not marked"]
        assert "SATURDAY, NOVEMBER 28 no lessons" in lines(opened)

    on_screen(tmp_path, steps)


def test_a_week_in_which_her_clock_changes_says_so_and_the_next_ones_are_right_on_both_clocks(tmp_path):
    # facts: Chicago 14 March 2027, London 28 March, Phoenix never (IANA tzdata; the rules of 2007 and of the EU).
    async def steps(opened):
        async def tuesday(*keys):
            await opened.press(*keys)
            await opened.pilot.pause()
            return below(opened, "Tuesday")

        await see_week(opened)
        before = await tuesday("right")
        assert "3:15 ○ Teodor guitar 30 9:15 pm London" in before
        assert "4:00 ○ Ilse cello 45 3:00 pm Phoenix" in before
        assert "SUNDAY, MARCH 14 ± your clock changes" in lines(opened)
        assert sum("clock changes" in line for line in lines(opened)) == 1
        between = await tuesday("right")
        assert "4:15 ○ Teodor guitar 30 9:15 pm London" in between
        assert "4:00 ○ Ilse cello 45 2:00 pm Phoenix" in between
        assert not any("clock changes" in line for line in lines(opened))
        after = await tuesday("right", "right")
        assert "3:15 ○ Teodor guitar 30 9:15 pm London" in after
        assert "4:00 ○ Ilse cello 45 2:00 pm Phoenix" in after

    on_screen(tmp_path, steps, at=BEFORE_SPRING)


def test_a_break_names_the_lessons_that_it_takes_away_and_leaves_nothing_free(tmp_path):
    async def steps(opened):
        opened.studio.store.writing.apply(Change(said="break", edits=added(HOLIDAYS)))
        await see_week(opened, "right", "right", "right")
        assert below(opened, "Thursday") == [
            "4:00 pm ╱ Oskar, on break: holidays",
            "5:00 ╱ Beatriz, on break: holidays",
        ]
        assert lines(opened)[-1].startswith("SUNDAY, DECEMBER 27")
        assert lines(opened)[-1].endswith("╱ holidays")
        assert not any("free" in line for line in lines(opened))
        assert "in 3 weeks, 0 lessons" in opened.drawn()
        await opened.press("enter", "m")
        assert opened.app.screen.query_one(Notice).sentence == "There is no lesson to move this week."

    on_screen(tmp_path, steps)


def test_a_break_of_one_family_leaves_its_time_free_and_the_others_theirs(tmp_path):
    async def steps(opened):
        ilse = on_day(opened, "2026-12-08")["Ilse"]
        on = date(2026, 12, 8)
        away = Break(id=BreakId(900), family_id=ilse.family.id, from_on=on, until_on=on)
        opened.studio.store.writing.apply(Change(said="break", edits=added(away)))
        await see_week(opened, "right")
        assert below(opened, "Tuesday")[2:6] == [
            "3:15 ○ Teodor guitar 30 9:15 pm London",
            "3:45 ┊ free until 4:45 pm",
            "4:00 ╱ Ilse, on break",
            "4:45 ○ Mireille clarinet 45 7:15 pm St. John's",
        ]

    on_screen(tmp_path, steps)


def test_why_a_lesson_is_there_is_told_unless_it_is_the_weekly_one(tmp_path):
    async def steps(opened):
        arranging = opened.studio.desk.arranging
        day = on_day(opened, "2026-12-01")
        await opened.press("f5", "f5", "tab", "tab", "c", "c", "escape")
        assert opened.lesson("Nalani").outcome is Outcome.CANCELLED
        for purpose, student, line in (
            (Purpose.MAKE_UP, "Nalani", "sat 9am"),
            (Purpose.EXTRA, "Ishaan", "sat 10am 45m"),
            (Purpose.TRIAL, "Ilse", "nora bellwether sat 11am phoenix"),
            (Purpose.MOVE, "Mireille", "sat 1pm"),
        ):
            arranging.do(arranging.propose(purpose, day[student], line))
        await see_week(opened)
        assert below(opened, "Saturday") == [
            "7:00 am ┊ free until 9:00 am",
            "9:00 ○ Nalani guitar 60 5:00 am Honolulu make-up",
            "10:00 ○ Ishaan cello 45 9:30 pm Kolkata extra",
            "10:45 ┊ free until 12:00 pm",
            "12:00 pm ○ Nora Bellwether 30 11:00 am Phoenix trial",
            "12:30 ┊ free until 1:00 pm",
            "1:00 ○ Mireille clarinet 45 3:30 pm St. John's moved",
            "1:45 ┊ free until 9:00 pm",
        ]
        assert "5:30 × Nalani guitar 60 1:30 pm Honolulu canceled" in below(opened, "Tuesday")
        assert not any("Mireille" in line for line in below(opened, "Tuesday"))

    on_screen(tmp_path, steps)


def test_only_what_is_still_to_come_is_free_and_only_from_half_an_hour_on(tmp_path):
    now = home("2026-12-01 16:12")

    def stretch(begins, ends):
        return home(f"2026-12-01 {begins}"), home(f"2026-12-01 {ends}")

    over, short = stretch("07:00", "14:30"), stretch("17:00", "17:29")
    going_on, nearly_over = stretch("15:00", "16:42"), stretch("15:00", "16:41")
    to_come = stretch("18:00", "18:30")
    left = free_from_now([over, going_on, nearly_over, short, to_come], now)
    assert left == [(now, going_on[1]), to_come]

    async def steps(opened):
        opened.clock.at = home("2026-12-01 19:45")
        await see_week(opened)
        assert below(opened, "Tuesday")[-1] == "7:45 ┊ free until 9:00 pm"

    on_screen(tmp_path, steps)


# Keys


def test_the_week_opens_on_the_lesson_that_is_shown_and_closes_again(tmp_path):
    async def steps(opened):
        await opened.press("f5", "f5")
        for key, back in product(BY_ID["app.show_week"].keys, BY_ID["week.close"].keys):
            await opened.press(key)
            assert chosen(opened) == opened.id_of("Nalani"), key
            await opened.press(back)
            assert isinstance(opened.app.screen, DayScreen), back
            assert opened.shown == "Nalani", back
            assert opened.body("Ilse").endswith("17-40"), (key, back)

    on_screen(tmp_path, steps)


def test_a_week_across_new_year_names_both_years(tmp_path):
    async def steps(opened):
        await see_week(opened, *["right"] * 4)
        assert title(opened) == "December 28, 2026, to January 3, 2027"
        assert max(len(line) for line in opened.drawn().splitlines()) <= 44

    on_screen(tmp_path, steps, size=(44, 20))


def test_the_cursor_stays_on_the_standing_time_from_week_to_week_and_t_goes_to_what_comes_next(tmp_path):
    async def steps(opened):
        soraya = on_day(opened, "2026-12-02")["Soraya"].lesson.id
        await see_week(opened)
        await choose(opened, soraya)
        await opened.press("right", "right")
        assert chosen(opened) == on_day(opened, "2026-12-16")["Soraya"].lesson.id
        await opened.press("left", "left")
        assert chosen(opened) == soraya
        await opened.press("right", "t")
        assert chosen(opened) == opened.id_of("Ilse")

    on_screen(tmp_path, steps)


def test_enter_goes_to_the_chosen_lesson_on_its_day(tmp_path):
    async def steps(opened):
        oskar = on_day(opened, "2026-12-10")["Oskar"].lesson.id
        await see_week(opened, "right")
        await opened.choose(oskar)
        await opened.pilot.pause()
        assert isinstance(opened.app.screen, DayScreen)
        assert opened.studio.desk.day.on == date(2026, 12, 10)
        assert opened.studio.desk.day.shown_id == oskar

    on_screen(tmp_path, steps)


def test_a_typed_line_moves_the_chosen_lesson_and_the_cursor_goes_with_it_and_back(tmp_path):
    async def steps(opened):
        oskar = on_day(opened, "2026-12-03")["Oskar"].lesson.id
        await see_week(opened)
        for undo in BY_ID["week.undo"].keys:
            await choose(opened, oskar)
            await opened.press("m")
            assert isinstance(opened.app.screen, LineScreen), undo
            await opened.type("fri 4:30pm 30m")
            await opened.press("enter")
            moved = on_day(opened, "2026-12-04")["Oskar"].lesson
            assert (moved.id, moved.starts_at, moved.minutes) == (oskar, home("2026-12-04 16:30"), 30), undo
            assert "4:30 pm ○ Oskar cello 30 moved" in below(opened, "Friday"), undo
            assert chosen(opened) == oskar, undo
            assert opened.app.screen.query_one(Notice).sentence.startswith("Moved: Oskar, Fri, December 4, 4:30 pm")
            await opened.press(undo)
            assert "4:00 pm ○ Oskar cello 45" in below(opened, "Thursday"), undo
            assert chosen(opened) == oskar, undo
            await opened.press(undo)
            assert opened.said == "Nothing to undo since you opened the cockpit.", undo

    on_screen(tmp_path, steps)


@pytest.mark.long
def test_a_lesson_moved_out_of_the_week_leaves_the_cursor_near_its_place(tmp_path):
    async def steps(opened):
        day = on_day(opened, "2026-12-03")
        await see_week(opened)
        await choose(opened, day["Oskar"].lesson.id)
        await opened.press("m")
        await opened.type("2026-12-19 10:00")
        await opened.press("enter")
        assert chosen(opened) == day["Beatriz"].lesson.id
        assert title(opened) == "November 30 to December 6, 2026"

    on_screen(tmp_path, steps)


@pytest.mark.long
def test_a_lesson_that_is_taught_is_not_moved_and_the_reason_is_told(tmp_path):
    async def steps(opened):
        before = opened.lesson("Ilse")
        await see_week(opened, "m")
        await opened.type("fri 4:30pm")
        await opened.press("enter")
        assert isinstance(opened.app.screen, LineScreen)
        assert "Ilse's lesson has begun" in opened.drawn()
        await opened.press("escape")
        assert isinstance(opened.app.screen, WeekScreen)
        assert opened.lesson("Ilse") == before

    on_screen(tmp_path, steps)


async def move_mireille_in_the_week(opened) -> None:
    await opened.press("f5", "ctrl+a", "m")
    await opened.type("sat 1pm")
    await opened.press("enter", "escape")


async def move_mireille_while_looking_ahead(opened) -> None:
    await opened.press("f5", "ctrl+b")
    arranging, mireille = opened.studio.desk.arranging, on_day(opened, "2026-12-01")["Mireille"]
    arranging.do(arranging.propose(Purpose.MOVE, mireille, "sat 1pm"))
    opened.studio.desk.day.reload()  # as that screen does after a step
    await opened.press("escape")


@pytest.mark.parametrize("move", [move_mireille_in_the_week, move_mireille_while_looking_ahead])
@pytest.mark.long
def test_the_day_shows_another_lesson_when_the_one_that_was_open_is_moved_away(tmp_path, move):
    async def steps(opened):
        await move(opened)
        mireille = on_day(opened, "2026-12-05")["Mireille"].lesson
        await opened.press("x")
        assert opened.shown == "Ilse"
        assert opened.body("Ilse").endswith("\nx")
        assert opened.studio.store.reading.notes([mireille.id]) == {}

    on_screen(tmp_path, steps)


def test_the_week_is_reached_by_a_tap_and_its_keys_too(tmp_path):
    async def steps(opened):
        await opened.tap("app.show_week")
        await opened.tap("week.show_after")
        await opened.pilot.pause()
        assert title(opened) == "December 7 to December 13, 2026"
        await opened.tap("week.close")
        assert isinstance(opened.app.screen, DayScreen)

    on_screen(tmp_path, steps, size=(190, 20))


@pytest.mark.long
def test_the_arrows_turn_the_weeks_t_comes_back_and_each_screen_offers_what_it_can_do(tmp_path):
    async def steps(opened):
        offered = {command.id.split(".")[0] for command in opened.day.commands_here()}
        assert offered.isdisjoint({"week", "year", "ahead", "review"})
        await see_week(opened)
        here = {command.id for command in opened.app.screen.commands_here()}
        assert "week.move" in here
        assert not any(name.startswith(("lesson.", "queue.", "ahead.")) for name in here)
        seen = []
        for key in ("left", "left", "right", "right", "right", "right", "t"):
            await opened.press(key)
            await opened.pilot.pause()
            seen.append(title(opened))
        assert seen == [
            "November 23 to November 29, 2026",
            "November 16 to November 22, 2026",
            "November 23 to November 29, 2026",
            "November 30 to December 6, 2026",
            "December 7 to December 13, 2026",
            "December 14 to December 20, 2026",
            "November 30 to December 6, 2026",
        ]

    on_screen(tmp_path, steps)


# How it is laid out


def test_the_lines_before_the_first_lesson_and_after_the_last_one_can_be_read(tmp_path):
    async def steps(opened):
        await see_week(opened, "right", "end")
        await opened.pilot.pause()
        assert "SUNDAY, DECEMBER 13" in opened.drawn()
        assert "7:00 am ┊ free until 9:00 pm" in opened.drawn().splitlines()[-2]
        await opened.press("home")
        await opened.pilot.pause()
        assert "MONDAY, DECEMBER 7" in opened.drawn()

    on_screen(tmp_path, steps, size=(44, 20))


@pytest.mark.long
def test_a_change_of_size_keeps_the_cursor_and_lays_the_lines_out_anew(tmp_path):
    async def steps(opened):
        await see_week(opened, "down")
        assert "4:45    ○ Mireille    clarinet  45  7:15 pm St. John's" in opened.drawn()
        await opened.pilot.resize_terminal(44, 20)
        await opened.pilot.pause()
        assert "4:45    ○ Mireille    clarinet  45\n            7:15 pm St. John's" in opened.drawn().replace(" ▃", "")
        assert chosen(opened) == opened.id_of("Mireille")

    on_screen(tmp_path, steps)


def a_day(*bookings):
    on = date(2026, 12, 1)
    return [
        DayOfWeek(on=on + timedelta(days=day), bookings=bookings if not day else (), left_out=(), gaps=())
        for day in range(7)
    ]


@pytest.mark.parametrize("hours", [12, 24])
@pytest.mark.parametrize("width", [41, 60, 77, 97, 127, 197])
def test_no_line_is_wider_than_the_list_whatever_the_names(width, hours):
    names = ["Ilse", "Wilhelmina Konstantina von Hohenfels-Aldersgate", "玲奈" * 12]
    bookings = []
    for name, at in zip(names, ("16:00", "16:45", "17:30"), strict=True):
        each = booking(id=LessonId(name), starts_at=home(f"2026-12-01 {at}"), kind=Kind.MAKE_UP, is_moved=True)
        student = type(each.student)(id=each.student.id, family_id=each.student.family_id, name=name)
        bookings.append(type(each)(lesson=each.lesson, student=student, family=each.family))
    looked = Looked(now=home("2026-12-01 19:00"), home=TeacherClock(zone=HOME, hours=hours))
    rows = [str(o.prompt) for o in week_options(a_day(*bookings), looked, width) if not o.disabled]
    assert len(rows) == 3
    assert all(cell_len(line) <= width for row in rows for line in row.splitlines())
    assert all("make-up, moved" in row for row in rows)
    if width >= 97:
        assert "Wilhelmina Konstant…" in rows[1]  # side by side a name has twenty columns
    if all("\n" not in row for row in rows):
        assert len({cell_len(row[: row.index("cello")]) for row in rows}) == 1  # the columns stand under each other


def test_two_students_of_one_name_are_told_apart_by_their_families():
    other = type(ILSE)(id=TEODOR.id, family_id=MACASKILL.id, name="Ilse")
    first, second = booking(), booking(TEODOR, starts_at=home("2026-12-01 17:00"))
    second = type(second)(lesson=second.lesson, student=other, family=MACASKILL)
    looked = Looked(now=home("2026-12-01 12:00"), home=CLOCK)
    text = "\n".join(str(option.prompt) for option in week_options(a_day(first, second), looked, 77))
    assert "Ilse (Brandvold)" in text
    assert "Ilse (MacAskill)" in text


def test_of_two_lessons_of_one_standing_time_the_cursor_goes_to_the_nearer_one():
    like = booking(starts_at=home("2026-12-01 16:00"))
    early = booking(id=LessonId("w1-2026-12-08"), starts_at=home("2026-12-08 16:00"))
    late = booking(id=LessonId("w1-2026-12-15"), starts_at=home("2026-12-11 16:00"), is_moved=True)
    other = booking(TEODOR, id=LessonId("w2-2026-12-08"), starts_at=home("2026-12-08 16:00"))
    for bookings in ([early, late, other], [other, late, early]):
        assert cursor_on(bookings, like, like.lesson.starts_at) == early.lesson.id
    assert cursor_on([late, other], like, like.lesson.starts_at) == late.lesson.id
    extra = booking(id=LessonId("s1"), standing_time_id=None, starts_at=home("2026-12-08 16:00"))
    moved = booking(id=LessonId("s1"), standing_time_id=None, starts_at=home("2026-12-11 16:00"))
    assert cursor_on([early, other, moved], extra, like.lesson.starts_at) == moved.lesson.id
    assert cursor_on([], like, like.lesson.starts_at) is None
    assert cursor_on([early, late], None, home("2026-12-09 12:00")) == late.lesson.id
    assert cursor_on([early, late], None, home("2026-12-20 12:00")) == early.lesson.id


def test_a_lesson_goes_over_time_in_the_week_with_time_alone(tmp_path):
    async def steps(opened):
        await opened.press("ctrl+a")
        listing = opened.app.screen.query_one(WeekList)
        chosen = listing.chosen
        assert "over time" not in opened.drawn()
        opened.clock.wind(minutes=40)
        listing.look_again(opened.clock.now())
        await opened.pilot.pause()
        assert "over time" in opened.drawn()
        assert listing.chosen == chosen

    on_screen(tmp_path, steps)
