"""A goal stays on the family's sheet, lesson after lesson, until it is met, changed, or dropped."""

from datetime import date, timedelta
from functools import partial
from threading import Event

import pytest
from support.outbox import MORNING, posting_studio

from cockpit.screens.pieces.page_rows import page_options
from cockpit.studio.errors import Refused
from cockpit.studio.notes.notes import Mark
from cockpit.studio.pieces.rules import MixRules

WEEK = timedelta(weeks=1)
MILL = "play The Old Mill at the recital, by 19 dec"


@pytest.fixture
def posted(tmp_path):
    """A studio in which each week is a Tuesday; the first is December 1."""
    with posting_studio(tmp_path / "studio", way="folder") as posted:
        yield posted


def to_week(posted, number):
    posted.clock.at = MORNING + number * WEEK


def sheet(posted, lesson_id, ending=".md"):
    export = posted.studio.store.reading.exports([lesson_id])[lesson_id]
    return (posted.studio.desk.folder / export.path).with_suffix(ending).read_text(encoding="utf-8")


def goals(posted, lesson_id):
    """What stands on a lesson's sheet below the heading; nothing where the heading does not."""
    _, heading, behind = sheet(posted, lesson_id).partition("## Goals\n\n")
    return [line.removeprefix("- ") for line in behind.split("\n\n")[0].split("\n")] if heading else []


def ilse(posted):
    desk = posted.studio.desk
    desk.day.open()
    return next(b for b in desk.day.bookings if (b.student.name, b.family.name) == ("Ilse", "Brandvold"))


def open_goals(posted):
    """What the pane of last assignments has of Ilse, by its words."""
    return {each.line.text: each for each in posted.studio.desk.notes.sheet(ilse(posted)).last.lasting}


def index(posted):
    done = Event()
    posted.studio.desk.index_notes(done.set)
    assert done.wait(20)


def on_page(posted):
    return posted.studio.desk.pages().page(ilse(posted).student.id)


def page_text(posted):
    options = page_options(on_page(posted), MixRules(), 80)
    return "\n".join(str(option.prompt) for option in options)


def test_a_goal_stays_until_it_is_met_and_stands_behind_what_is_to_get(posted):
    teach = partial(posted.finish, "Ilse", "Brandvold")
    first = teach(f"Goal: {MILL}\nGet: wax\nScales: D major, q=72, 5 min")
    assert goals(posted, first) == [MILL]
    assert "<h2>Goals</h2>" in sheet(posted, first, ".html")
    to_week(posted, 1)
    assert goals(posted, teach("Lovely tone")) == [MILL]
    to_week(posted, 2)
    assert list(open_goals(posted)) == ["wax", MILL]
    desk = posted.studio.desk
    assert desk.hearing.mark(open_goals(posted)[MILL], Mark.DONE) == f"Goal: {MILL}: met."
    assert goals(posted, teach("You did it")) == []
    assert "GOALS" not in page_text(posted)


def test_a_goal_that_is_typed_again_with_another_day_is_changed_and_not_another_one(posted):
    posted.finish("Ilse", "Brandvold", f"Goal: {MILL}\nGoal: a duet with Wren")
    to_week(posted, 1)
    later = "play The Old Mill at the recital, by jan 9"
    assert goals(posted, posted.finish("Ilse", "Brandvold", f"Goal: {later}")) == [later, "a duet with Wren"]
    to_week(posted, 2)
    posted.studio.desk.hearing.mark(open_goals(posted)[later], Mark.DROPPED)
    assert [each.given.line.text for each in on_page(posted).goals] == ["a duet with Wren"]
    assert posted.studio.desk.teaching.undo() == f'Undone: "Goal: {later}" marked dropped.'
    shown = on_page(posted).goals
    assert [(each.given.line.text, each.by_on, each.given.since) for each in shown] == [
        (later, date(2027, 1, 9), date(2026, 12, 1)),
        ("a duet with Wren", None, date(2026, 12, 1)),
    ]


def test_a_goal_whose_day_has_passed_stays_and_only_the_teacher_is_told(posted):
    posted.finish("Ilse", "Brandvold", f"Goal: {MILL}")
    assert "since December 1" in page_text(posted)
    assert "has passed" not in page_text(posted)
    to_week(posted, 3)
    assert "since December 1, its day, December 19, has passed" in page_text(posted)
    lesson = posted.finish("Ilse", "Brandvold", "Lovely")
    assert goals(posted, lesson) == [MILL]
    assert "passed" not in sheet(posted, lesson) + sheet(posted, lesson, ".html")


def test_a_goal_is_not_planned_and_takes_no_other_marks_and_no_tempo(posted):
    with_goal = posted.finish("Ilse", "Brandvold", "Scales: D major, q=72, 5 min\nGoal: Etude no. 5 at q=88, 20 min")
    text = sheet(posted, with_goal)
    assert text.count("Etude no. 5") == 1
    assert "25 min" not in text
    to_week(posted, 1)
    (_, goal), hearing = open_goals(posted).popitem(), posted.studio.desk.hearing
    for refused in (
        lambda: hearing.mark(goal, Mark.MORE_WORK),
        lambda: hearing.keep_tempo(goal, 72),
        lambda: hearing.count_clean_run(goal),
    ):
        with pytest.raises(Refused, match=r"is a goal\. Mark it done when it is met, or drop it"):
            refused()


def test_a_line_made_private_afterwards_is_no_goal_any_more_and_find_finds_a_goal(posted):
    first = posted.finish("Ilse", "Brandvold", f"Goal: {MILL}")
    desk = posted.studio.desk
    index(posted)
    found = desk.pages().searching.search("recital", 5, 5)
    assert [each.line for each in found.lines] == [f"Goal: {MILL}"]
    desk.day.open(MORNING.date(), first)
    desk.teaching.begin()
    desk.notes.write(first, f"Private: Goal: {MILL}")
    desk.teaching.finish()
    to_week(posted, 1)
    assert goals(posted, posted.finish("Ilse", "Brandvold", "Lovely")) == []
    assert on_page(posted).goals == ()
