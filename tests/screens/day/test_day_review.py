"""The end of the day on the screen: its rows at every width, and lessons that are marked from it."""

import re
from datetime import date, timedelta

import pytest
from rich.cells import cell_len
from support.screens import on_screen
from support.studio import CLOCK, TEODOR, booking, home, preferences
from textual.widgets import OptionList

from cockpit.desk.calendar.proposals import Purpose
from cockpit.screens.calendar.ahead import AheadScreen
from cockpit.screens.day.day import DayScreen
from cockpit.screens.day.day_review import DayReviewScreen
from cockpit.screens.day.day_review_rows import (
    day_line,
    review_options,
    review_title,
    sent_words,
    tomorrow_beside,
)
from cockpit.screens.typed_times.line import LineScreen
from cockpit.studio.changes.records import Export, FollowUp
from cockpit.studio.day.review import BroughtAlong, DayReview, Lack, OwedFollowUp, ReviewedLesson, missing_of
from cockpit.studio.lessons.lesson import LessonId, Outcome, State
from cockpit.studio.post.outgoing import DeliveryStatus
from cockpit.studio.values import replace
from cockpit.wording.day_review import brought_words

ON = date(2026, 12, 1)


def reviewed(at="16:00", state=State.FINISHED, student=None, **more) -> ReviewedLesson:
    begins = home(f"2026-12-01 {at}")
    each = booking(id=LessonId(at), starts_at=begins)
    each = replace(each, student=student or each.student)
    lesson = each.lesson
    if state is State.FINISHED:
        lesson = replace(lesson, began_at=begins, finished_at=begins + timedelta(minutes=lesson.minutes))
    facts = {"minutes_taught": 30, "has_notes": True, "assignments": 3, "private_lines": 1, "is_stale": False}
    export = Export(lesson_id=lesson.id, path="x.md", is_final=True, exported_at=begins)
    return ReviewedLesson(booking=replace(each, lesson=lesson), state=state, **facts | {"export": export} | more)


def review_of(*lessons) -> DayReview:
    return DayReview(on=ON, lessons=lessons, missing=(), owed=(), tomorrow_on=ON + timedelta(days=1), tomorrow=())


@pytest.mark.parametrize("width", [30, 41, 60, 77, 97, 127])
def test_no_row_is_wider_than_the_list_and_the_columns_stand_under_each_other(width):
    long = replace(TEODOR, name="Wilhelmina Konstantina von Hohenfels-Aldersgate")
    lessons = [reviewed(), reviewed("16:45", student=long), reviewed("17:30", State.NOT_MARKED, TEODOR)]
    rows = [str(option.prompt) for option in review_options(review_of(*lessons), CLOCK, width)]
    assert all(cell_len(line) <= width for row in rows for line in row.splitlines())
    taught = [row for row in rows if "● Ilse" in row or "● Wilhelmina" in row]
    assert len({cell_len(row[: row.index("● exported")]) for row in taught if "● exported" in row}) <= 1
    if width >= 77:
        assert any("4:00 to 4:30" in row for row in taught) or width < 97
        assert any("! Teodor" in row and "not marked" in row for row in rows)


@pytest.mark.parametrize(
    ("more", "said"),
    [
        ({}, "● exported"),
        ({"has_notes": False}, "! no notes"),
        ({"export": None}, "! not exported"),
        ({"is_stale": True}, "! before the change"),
        ({"fate": DeliveryStatus.REFUSED}, "! refused"),
        ({"fate": DeliveryStatus.UNSURE}, "! not sure"),
        ({"fate": DeliveryStatus.WAITING}, "! to send"),
        ({"state": State.BOOKED, "export": None}, ""),
    ],
)
def test_what_became_of_the_notes_is_a_sign_and_a_word(more, said):
    assert sent_words(reviewed(**more))[0] == said


def test_every_lack_of_a_finished_lesson_has_its_word():
    lacks = set(Lack) - {Lack.NOT_FINISHED, Lack.NO_OUTCOME}
    found = {
        missing_of(reviewed(**more)): sent_words(reviewed(**more))[0]
        for more in (
            {"has_notes": False},
            {"export": None},
            {"export": Export(lesson_id=LessonId("x"), path="x", is_final=False, exported_at=home("2026-12-01 16:00"))},
            {"is_stale": True},
            *({"fate": fate} for fate in (DeliveryStatus.UNSURE, DeliveryStatus.REFUSED, DeliveryStatus.WAITING)),
        )
    }
    assert set(found) == lacks
    assert all(words.startswith("! ") for words in found.values())


def test_the_day_is_a_line_heavy_where_it_was_taught():
    lessons = [reviewed("15:00"), reviewed("15:30", State.ABSENT, TEODOR), reviewed("17:30", State.BOOKED)]
    line, names = (row.plain for row in day_line(lessons, 61))
    assert cell_len(line) <= 61
    assert line.startswith("┠━━━")
    assert "╌" in line
    assert line.rstrip().endswith("─┤")
    assert line[line.index("╌") : line.rindex("├")].count(" ") > 10  # an hour and a half that is free
    assert names.split()[:2] == ["Ilse", "×"]


@pytest.mark.parametrize("width", range(20, 80, 4))
def test_a_name_under_the_day_is_whole_or_left_out(width):
    lessons = [reviewed("15:00"), reviewed("15:30", student=TEODOR), reviewed("16:15", State.ABSENT, TEODOR)]
    _, names = (row.plain for row in day_line(lessons, width))
    assert cell_len(names) <= width
    assert set(names.split()) <= {"Ilse", "Teodor", "×"}
    assert names.rstrip().endswith("× Teodor"), "the last one may begin before its lesson"


def test_what_is_owed_lies_in_columns_where_it_has_room():
    owed = tuple(
        OwedFollowUp(
            follow_up=FollowUp(lesson_id=LessonId("n"), body=body), student=name, noted_at=home(f"2026-{on} 16:00")
        )
        for body, name, on in (
            ("ask her mother", "Ilse", "11-24"),
            ("send the duet", "Mireille", "12-01"),
            ("x" * 60, "Ilse", "12-01"),
        )
    )
    options = review_options(replace(review_of(), owed=owed), CLOCK, 78)
    first, second, long = (
        str(option.prompt).splitlines() for option in options if (option.id or "").startswith("owed")
    )
    assert first[0].index("Ilse") == second[0].index("Mireille")
    assert first[0].endswith("  Tue, November 24")
    assert second[0].endswith("   Tue, December 1")
    assert cell_len(first[0]) == cell_len(second[0]) == 78
    assert long[1] == "  Ilse, Tue, December 1"


def test_the_title_counts_the_minutes_that_were_taught():
    assert (
        review_title(review_of(reviewed(), reviewed("17:00", State.BOOKED, minutes_taught=None))) == "30 of 60 minutes"
    )
    assert review_title(review_of()) == ""


def test_lessons_are_marked_from_the_end_of_the_day_and_the_day_below_stays_as_it_was(tmp_path):
    async def steps(opened):
        shown = opened.shown
        opened.clock.wind(minutes=240)
        await opened.press("f10")
        listing = opened.app.screen.query_one(OptionList)

        def choose(student):
            rows = [str(option.prompt) for option in listing.options]
            listing.highlighted = next(n for n, row in enumerate(rows) if f"! {student}" in row and "not marked" in row)

        choose("Nalani")
        await opened.press("a")
        assert opened.lesson("Nalani").outcome is Outcome.ABSENT
        assert opened.said == "Nalani is marked absent."
        assert "× Nalani" in opened.drawn()
        choose("Ishaan")
        await opened.press("c")
        assert opened.lesson("Ishaan").outcome is Outcome.CANCELLED_LATE
        await opened.press(*["left"] * 4)
        choose("Marguerite")
        await opened.press("a")
        assert isinstance(opened.app.screen, DayReviewScreen)
        assert "Marguerite is marked absent." in opened.said
        assert (opened.studio.desk.day.on, opened.shown) == (ON, shown)
        await opened.press("escape")
        assert isinstance(opened.app.screen, DayScreen)
        assert opened.shown == shown
        await opened.press("f4")
        assert "absent" in opened.said

    on_screen(tmp_path, steps)


def test_a_lesson_is_marked_as_taught_with_all_that_a_finish_does_and_that_is_taken_back_from_here(tmp_path):
    async def steps(opened):
        await opened.press("f5")
        await opened.type("Scales: G major")
        opened.clock.wind(minutes=240)
        await opened.press("f10")
        listing = opened.app.screen.query_one(OptionList)

        def choose(student):
            rows = [str(option.prompt) for option in listing.options]
            listing.highlighted = next(n for n, row in enumerate(rows) if f" {student}" in row and "not marked" in row)

        choose("Mireille")
        await opened.press("d")
        assert opened.lesson("Mireille").finished_at == opened.clock.at
        assert opened.said.startswith("Mireille: copied to the clipboard and in notes/Perreault/2026-12-01 Mireille.md")
        assert "G major" in opened.app.clipboard
        assert opened.studio.store.reading.exports([opened.id_of("Mireille")])
        choose("Nalani")
        await opened.press("d")
        assert opened.lesson("Nalani").finished_at == opened.clock.at
        assert "● Nalani" in opened.drawn()
        await opened.press("f4")
        assert opened.said == "Undone: finishing Nalani's lesson."
        assert opened.lesson("Nalani").finished_at is None
        assert "! Nalani" in opened.drawn()
        listing.highlighted = next(n for n, option in enumerate(listing.options) if "● Mireille" in str(option.prompt))
        await opened.press("d")
        assert opened.said.startswith("This lesson is finished.")

    on_screen(tmp_path, steps)


@pytest.mark.long
def test_a_lesson_that_has_not_begun_is_not_marked_as_taught_and_another_that_runs_goes_on(tmp_path):
    async def steps(opened):
        await opened.press("f10")
        listing = opened.app.screen.query_one(OptionList)
        rows = [str(option.prompt) for option in listing.options]
        listing.highlighted = next(n for n, row in enumerate(rows) if "○ Mireille" in row)
        await opened.press("d")
        assert opened.said == "Mireille's lesson has not begun."
        assert opened.lesson("Ilse").finished_at is None
        assert not opened.is_recorded("Mireille")

    on_screen(tmp_path, steps)


def test_something_owed_from_no_lesson_is_noted_checked_off_and_owed_again(tmp_path):
    async def steps(opened):
        await opened.press("escape", "f10", "plus")
        await opened.type("order strings every tuesday")
        assert "You owe: order strings every Tuesday." in opened.drawn()
        await opened.press("enter")
        assert "order strings" in opened.drawn()
        assert "since Tue, December 1" in opened.drawn()
        listing = opened.app.screen.query_one("#review", OptionList)
        listing.highlighted = next(
            place for place, option in enumerate(listing.options) if "order strings" in str(option.prompt)
        )
        await opened.press("enter")
        assert opened.said == "Checked off: order strings"
        assert "since Tue" not in opened.drawn()
        await opened.press("f4")
        assert "since Tue, December 1" in opened.drawn()
        await opened.press("f4")
        assert opened.studio.store.reading.duties() == ()

    on_screen(tmp_path / "studio", steps, size=(100, 45))


def test_tomorrow_stands_below_the_day_or_to_scale_beside_it_with_what_students_bring():
    begins = home("2026-12-02 15:30")
    wren = booking(starts_at=begins)
    tobin = booking(TEODOR, starts_at=begins + timedelta(minutes=60), minutes=45)
    brought = {
        wren.lesson.id: BroughtAlong(open=3, weeks=2, next_time=()),
        tobin.lesson.id: BroughtAlong(open=2, weeks=1, next_time=("bring the reed case",)),
    }
    review = replace(review_of(reviewed()), tomorrow=(wren, tobin), brought=brought)
    assert [str(option.prompt).rstrip() for option in review_options(review, CLOCK, 77)][-3:] == [
        "TOMORROW, WED, DECEMBER 2 ──────────────────────────────────────── 75 minutes",
        " 3:30 pm ○ Ilse    cello      30  2:30 pm Phoenix  3 open, oldest 2 weeks",
        " 4:30    ○ Teodor  guitar     45  10:30 pm London  » bring the reed case",
    ]
    below = [str(option.prompt) for option in review_options(review, CLOCK, 77, is_beside=True)]
    assert not [row for row in below if "TOMORROW" in row or "┠" in row]
    rows = [
        row.rstrip() for each in tomorrow_beside(review, preferences(), 46, 30) for row in str(each.prompt).split("\n")
    ]
    assert rows == [
        " TOMORROW ───────── Wed, December 2, 75 minutes",
        "  3:30 pm ○ Ilse    cello   30",
        "          ┃ 2:30 pm Phoenix  3 open, oldest…",
        "  4:00    ┊ free 30 min",
        "          ┊",
        "  4:30    ○ Teodor  guitar  45",
        "          ┃ 10:30 pm London",
        "          ┃ » bring the reed case",
        "  5:15 pm ╵",
    ]


@pytest.mark.parametrize(
    ("brought", "said"),
    [
        (BroughtAlong(open=1, weeks=1, next_time=()), "1 open"),
        (BroughtAlong(open=3, weeks=2, next_time=()), "3 open, oldest 2 weeks"),
        (BroughtAlong(open=3, weeks=2, next_time=("the reed", "a pencil")), "» the reed; a pencil"),
    ],
)
def test_what_a_student_brings_is_said_in_a_few_words(brought, said):
    assert brought_words(brought) == said


@pytest.mark.parametrize(
    "size", [(80, 40), *(pytest.param(each, marks=pytest.mark.long) for each in ((44, 20), (150, 45)))]
)
def test_the_cursor_walks_over_what_comes_up_and_enter_opens_what_a_row_is_about(tmp_path, size):
    """A problem opens its lesson, as in Coming up; what is settled there is chosen there."""

    async def steps(opened):
        desk = opened.studio.desk
        desk.arranging.do(desk.arranging.propose(Purpose.BREAK, None, "dec 10: festival"))
        (teodor,) = (
            each.first.booking
            for each in desk.ahead.coming_up().troubles
            if "Teodor" in each.first.booking.student.name
        )
        desk.teaching.mark(ON + timedelta(days=7), teodor.lesson.id, Outcome.CANCELLED)
        await opened.press("f10")

        async def walk_to(words):
            for _ in range(40):
                listing = opened.app.focused
                assert isinstance(listing, OptionList)
                option = listing.highlighted_option
                if option is not None and words in " ".join(str(option.prompt).split()):
                    await opened.done()
                    assert words[:16] in " ".join(opened.drawn().split())
                    return
                await opened.press("down")
            raise AssertionError((words, opened.drawn()))

        await walk_to("╱ Thu, December 10 festival")
        await opened.press("enter")
        assert isinstance(opened.app.screen, AheadScreen)
        assert "festival" in str(opened.app.focused.highlighted_option.prompt)
        await opened.press("delete", "escape")
        assert isinstance(opened.app.screen, DayReviewScreen)
        assert "festival" not in " ".join(
            str(each.prompt) for rows in opened.app.screen.query(OptionList) for each in rows.options
        )
        await walk_to("○ 1 make-up owed Teodor")
        await opened.press("enter")
        assert "Teodor" in str(opened.app.focused.highlighted_option.prompt)
        await opened.press("enter")
        assert isinstance(opened.app.screen, LineScreen), "its enter books the make-up"
        await opened.press("escape", "escape")
        await walk_to("! Tue, December 15 Teodor 3:15 pm")
        await opened.press("enter")
        assert isinstance(opened.app.screen, DayScreen)
        assert (opened.shown, desk.day.on) == ("Teodor", ON + timedelta(days=14))

    on_screen(tmp_path, steps, size=size)


def test_the_cursor_walks_from_the_day_into_tomorrow_beside_it_and_back(tmp_path):
    async def steps(opened):
        await opened.press("f10")
        screen = opened.app.screen
        assert "LESSONS ━" in opened.drawn()
        await opened.press("up")  # off the first row, to the last of tomorrow
        assert screen.focused.id == "tomorrow"
        assert re.findall("([A-Z]+)(?:, 2 WEEKS)? ━", opened.drawn()) == ["UP"], "one heading has the heavy rule"
        await opened.press("down")
        assert screen.focused.id == "review"
        assert re.findall("([A-Z]+)(?:, 2 WEEKS)? ━", opened.drawn()) == ["LESSONS"]
        await opened.press(*["up"] * 5, "a")  # over the two rows of what comes up
        assert opened.said == "Wren is marked absent."
        await opened.press("f4", "enter")
        assert opened.shown == "Wren"
        await opened.press("f10", "up")
        screen = opened.app.screen
        assert screen.focused.id == "tomorrow"
        await opened.pilot.resize_terminal(80, 40)
        await opened.done()
        assert screen.focused.id == "review"
        assert "TOMORROW, THU, DECEMBER 3" in opened.drawn()

    on_screen(tmp_path, steps, size=(150, 45))
