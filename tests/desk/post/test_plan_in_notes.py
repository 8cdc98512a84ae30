"""The practice plan in the notes that go out, made through the desk."""

from datetime import date, timedelta

import pytest
from support.sample import sample_studio

from cockpit.desk.post.paper_making import PaperMaking, earlier_lessons
from cockpit.desk.steps import Steps
from cockpit.outlets.folder import StudioFolder
from cockpit.studio.changes.records import Change, Edit
from cockpit.studio.clocks.moments import local_time
from cockpit.studio.notes.notes import Mark
from cockpit.studio.people.people import PlanForm
from cockpit.studio.practice.rules import HealthLine, PlanRules, PracticeRules
from cockpit.studio.values import replace

DAY = date(2026, 12, 1)
ECHO = "Piece: Evening Echo, q = 72"


@pytest.fixture
def studio(tmp_path):
    with sample_studio(tmp_path) as (studio, _clock):
        yield studio


def paper_making_by(studio, rules):
    """What makes the notes, by other rules for the practice."""
    preferences = replace(studio.preferences, practice=rules)
    reading, steps = studio.store.reading, Steps(studio.store.writing, None)
    return PaperMaking(reading, steps, studio.desk.clock, studio.printer, StudioFolder(studio.desk.folder), preferences)


def plan_after(studio, body, rules=None):
    """The plan of the running lesson with these notes."""
    running = studio.desk.day.shown
    studio.desk.notes.write(running.lesson.id, body)
    return paper_making_by(studio, rules or PracticeRules()).paper(running, body).plan


def tempos(plan, number=0):
    return [day.items[number].tempo.goal for day in plan.days if day.items]


def test_the_plan_goes_from_the_lesson_to_the_next_one_on_the_familys_clock(studio):
    plan = plan_after(studio, "Piece: Evening Echo, 5 min")
    assert [day.on.day for day in plan.days] == [2, 3, 4, 5, 6, 7]


def test_finishing_writes_the_plan_into_both_papers(studio):
    studio.desk.notes.write(studio.desk.day.shown.lesson.id, f"{ECHO}, 5 min\nPrivate: Scales: Z, 7 min")
    path = studio.desk.teaching.finish().path
    for paper in (path, path.with_suffix(".html")):
        text = paper.read_text(encoding="utf-8")
        assert "Day by day" in text
        assert "Dec 2" in text
        assert "Scales" not in text


def test_the_form_of_the_plan_is_the_students_or_that_of_the_settings(studio):
    running = studio.desk.day.shown
    paper_making = paper_making_by(studio, PracticeRules(form=PlanForm.LIST, health_line=HealthLine.NEVER))
    paper = paper_making.paper(running, ECHO)
    assert (paper.form, paper.charted, paper.has_health_line) == (PlanForm.LIST, None, False)
    own = replace(running, student=replace(running.student, plan=PlanForm.CHART))
    paper = paper_making.paper(own, ECHO)
    assert paper.charted == paper.plan is not None
    none = replace(running, student=replace(running.student, plan=PlanForm.NONE))
    assert paper_making.paper(none, ECHO).plan is None


def test_the_health_line_is_on_the_first_sheet_of_the_month_alone(studio):
    running = studio.desk.day.shown
    assert studio.paper_making.paper(running, ECHO).has_health_line  # the first of December
    taught = studio.store.reading.last_taught(running.student.id, studio.desk.clock.now(), None, 2)[1]
    booking, _ = studio.desk.finding.noted_lesson(
        student_named(studio), local_time(taught.starts_at, "America/Phoenix").date()
    )
    assert not studio.paper_making.paper(booking, ECHO).has_health_line  # the last of November


def test_a_ladder_begins_at_the_tempo_heard_at_the_last_lesson(studio):
    sheet = studio.desk.notes.sheet(studio.desk.day.shown)
    given = next(each for each in sheet.last.assignments if "Old Mill" in each.line.text)
    asked = given.line.typed
    studio.desk.hearing.keep_tempo(given, 60)
    heard = earlier_lessons(
        studio.store.reading, studio.desk.day.shown.lesson, "America/Phoenix", studio.preferences.labels
    ).heard
    assert heard[given.place].tempo == 60
    plan = plan_after(studio, asked)
    assert tempos(plan)[0] == 60
    assert tempos(plan)[-1] > 60


def test_a_ladder_begins_at_the_start_that_is_typed_now_though_more_was_heard_of_what_is_done(studio):
    sheet = studio.desk.notes.sheet(studio.desk.day.shown)
    given = next(each for each in sheet.last.assignments if each.line.text == "D major 2 oct, q=72 to 88, 5 min")
    studio.desk.hearing.keep_tempo(given, 100)
    studio.desk.hearing.mark(given, Mark.DONE)
    assert tempos(plan_after(studio, "Scales: D major 2 oct, q=60 to 92, 5 min")) == [60, 63, 69, 76, 84, 92]
    assert tempos(plan_after(studio, "Scales: D major 2 oct, q=60 to 112, 5 min"))[0] == 60


def test_her_rules_and_the_students_days_make_the_plan(studio):
    running = studio.desk.day.shown
    body = "Piece: Evening Echo, q = 60 to 96, 5 min"
    slow = plan_after(studio, body, PracticeRules(plan=PlanRules(largest_step=1), days=frozenset({2, 3, 4})))
    assert [day.on.day for day in slow.days if day.items] == [2, 3, 4]
    assert tempos(slow) == [60, 63, 66]
    who = replace(running.student, practice_days=frozenset({5, 6}))
    studio.store.writing.apply(Change(said="days", edits=(Edit(before=running.student, after=who),)))
    studio.desk.day.open(DAY)
    own = plan_after(studio, body, PracticeRules(days=frozenset({2, 3, 4})))
    assert [day.on.day for day in own.days if day.items] == [5, 6]


def test_without_a_next_lesson_within_four_weeks_there_is_no_plan(studio):
    running = studio.desk.day.shown
    times = [each for each in studio.store.reading.standing_times() if each.student_id == running.student.id]
    ended = tuple(Edit(before=each, after=replace(each, until_on=DAY)) for each in times)
    studio.store.writing.apply(Change(said="an end", edits=ended))
    assert plan_after(studio, "Piece: Evening Echo, 5 min") is None


def test_an_old_lesson_keeps_its_plan_up_to_the_lesson_that_followed(studio):
    who = studio.desk.day.shown.student.id
    taught = studio.store.reading.last_taught(who, studio.desk.clock.now(), None, 3)
    after, old = taught[1].starts_at, taught[2].starts_at
    booking, _ = studio.desk.finding.noted_lesson(student_named(studio), local_time(old, "America/Phoenix").date())
    plan = studio.paper_making.paper(booking, "Piece: Evening Echo, 5 min").plan
    first, last = (local_time(at, "America/Phoenix").date() for at in (old, after))
    assert (plan.days[0].on, plan.days[-1].on) == (first + timedelta(days=1), last - timedelta(days=1))
    reopened = replace(booking, lesson=replace(booking.lesson, finished_at=None))
    assert studio.paper_making.paper(reopened, "Piece: Evening Echo, 5 min").plan == plan


def student_named(studio):
    return studio.desk.finding.student(studio.desk.day.shown.student.name)


def test_days_that_were_over_when_the_lesson_was_finished_are_not_in_its_plan(studio):
    running = studio.desk.day.shown
    body = "Piece: Evening Echo, q = 60 to 96, 5 min"
    whole = plan_after(studio, body)
    late = replace(running, lesson=replace(running.lesson, finished_at=running.lesson.starts_at + timedelta(days=3)))
    plan = studio.paper_making.paper(late, body).plan
    assert [day.on.day for day in plan.days] == [4, 5, 6, 7]
    assert plan.days == whole.days[2:]  # what each day asks for stays
