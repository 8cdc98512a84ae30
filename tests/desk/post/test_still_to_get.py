"""What a family is to get stays on its sheet, lesson after lesson, until the teacher marks it."""

from datetime import timedelta
from functools import partial

import pytest
from support.outbox import MORNING, posting_studio

from cockpit.studio.errors import Refused
from cockpit.studio.notes.notes import Mark

HEADING = "Still to get"
WEEK = timedelta(weeks=1)


@pytest.fixture
def posted(tmp_path):
    """A studio in which each week is a Tuesday."""
    with posting_studio(tmp_path / "studio", way="folder") as posted:
        yield posted


def to_week(posted, number):
    posted.clock.at = MORNING + number * WEEK


def sheet(posted, lesson_id):
    """What stands on a lesson's sheet below the heading; None where the heading does not."""
    export = posted.studio.store.reading.exports([lesson_id])[lesson_id]
    text = (posted.studio.desk.folder / export.path).read_text(encoding="utf-8")
    if HEADING not in text:
        return None
    return [line.removeprefix("- ") for line in text.split(f"## {HEADING}\n\n")[1].split("\n\n")[0].split("\n")]


def open_things(posted, student="Ilse", family="Brandvold"):
    """What the pane of last assignments has of a student today, by its words."""
    desk = posted.studio.desk
    desk.day.open()
    booking = next(b for b in desk.day.bookings if (b.student.name, b.family.name) == (student, family))
    return {each.line.text: each for each in desk.notes.sheet(booking).last.lasting}


def test_things_stay_on_the_sheet_until_each_is_marked(posted):
    teach = partial(posted.finish, "Ilse", "Brandvold")
    first = teach("Get: size 3/4 strings, book 2\nScales: D major")
    assert sheet(posted, first) == ["size 3/4 strings", "book 2"]
    to_week(posted, 1)
    assert sheet(posted, teach("Scales: G major\nGet: a pencil")) == ["a pencil", "size 3/4 strings", "book 2"]
    to_week(posted, 2)
    things = open_things(posted)
    assert list(things) == ["a pencil", "size 3/4 strings", "book 2"]
    hearing, undo = posted.studio.desk.hearing, posted.studio.desk.teaching.undo
    assert hearing.mark(things["book 2"], Mark.DONE) == "Get: book 2: got."
    assert hearing.mark(things["a pencil"], Mark.DROPPED) == "Get: a pencil: not needed."
    assert undo() == 'Undone: "Get: a pencil" marked not needed.'
    assert list(open_things(posted)) == ["a pencil", "size 3/4 strings"]
    third = teach("Lovely tone")
    assert sheet(posted, third) == ["a pencil", "size 3/4 strings"]
    undo()
    posted.studio.desk.hearing.mark(open_things(posted)["a pencil"], Mark.DROPPED)
    assert open_things(posted)["a pencil"].mark is Mark.DROPPED, "one of last week's own stays in the pane, crossed out"
    to_week(posted, 3)
    assert sheet(posted, teach("Well done")) == ["size 3/4 strings"]


def test_what_was_got_is_not_on_the_sheet_of_a_lesson_that_is_sent_again_and_nothing_newer_is(posted):
    first = posted.finish("Ilse", "Brandvold", "Get: strings, book 2")
    to_week(posted, 1)
    second = posted.finish("Ilse", "Brandvold", "Get: Book 2 (blue), BOOK 2, wax")
    assert sheet(posted, second) == ["Book 2 (blue)", "BOOK 2", "wax", "strings"]
    to_week(posted, 2)
    posted.studio.desk.hearing.mark(open_things(posted)["BOOK 2"], Mark.DONE)
    posted.finish("Ilse", "Brandvold", "Lovely")
    desk = posted.studio.desk
    desk.day.open(MORNING.date(), first)
    desk.teaching.begin()
    desk.teaching.finish()
    assert sheet(posted, first) == ["strings"]


def test_what_was_got_is_gone_from_a_sheet_that_is_sent_again_before_the_next_lesson_has_notes(posted):
    first = posted.finish("Ilse", "Brandvold", "Get: strings, book 2")
    to_week(posted, 1)
    posted.studio.desk.hearing.mark(open_things(posted)["strings"], Mark.DONE)
    desk = posted.studio.desk
    desk.day.open(MORNING.date(), first)
    desk.teaching.begin()
    desk.teaching.finish()
    assert sheet(posted, first) == ["book 2"]


def test_a_lesson_called_off_or_a_line_made_private_afterwards_changes_what_follows(posted):
    first = posted.finish("Ilse", "Brandvold", "Get: strings, wax")
    to_week(posted, 1)
    desk = posted.studio.desk
    desk.day.open()
    booking = next(b for b in desk.day.bookings if b.student.name == "Ilse")
    desk.day.go_to(booking.lesson.id)
    desk.notes.write(booking.lesson.id, "Get: never asked for")
    desk.teaching.mark_cancelled()
    to_week(posted, 2)
    assert sheet(posted, posted.finish("Ilse", "Brandvold", "Lovely")) == ["strings", "wax"]
    desk.day.open(MORNING.date(), first)
    desk.teaching.begin()
    desk.notes.write(first, "Private: Get: strings, wax")
    desk.teaching.finish()
    to_week(posted, 3)
    assert sheet(posted, posted.finish("Ilse", "Brandvold", "Lovely")) is None


def test_siblings_have_a_sheet_each_and_two_lessons_a_week_have_one_list(posted):
    rows = "Ilse,Tuesday,16:00,30,Brandvold\nIlse,Thursday,16:00,30,Brandvold\nTor,Tuesday,17:00,30,Brandvold\n"
    posted.studio.enrolling.take_in(f"student,weekday,time,minutes,family\n{rows}")
    posted.finish("Ilse", "Brandvold", "Get: strings")
    assert sheet(posted, posted.finish("Tor", "Brandvold", "Get: a stool")) == ["a stool"]
    posted.clock.at = MORNING + timedelta(days=2)
    assert list(open_things(posted)) == ["strings"]
    assert sheet(posted, posted.finish("Ilse", "Brandvold", "Get: wax")) == ["wax", "strings"]


def test_a_thing_to_get_has_no_tempo_and_no_other_marks(posted):
    posted.finish("Ilse", "Brandvold", "Get: strings")
    to_week(posted, 1)
    thing, hearing = open_things(posted)["strings"], posted.studio.desk.hearing
    for refused in (
        lambda: hearing.mark(thing, Mark.MORE_WORK),
        lambda: hearing.keep_tempo(thing, 72),
        lambda: hearing.count_clean_run(thing),
    ):
        with pytest.raises(Refused, match="strings is a thing to get"):
            refused()
    assert open_things(posted)["strings"] == thing
