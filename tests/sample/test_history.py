"""The sample studio as `cockpit demo` opens it: something of everything that a teacher should see."""

import pytest
from support.sample import sample_studio

from cockpit.sample import history
from cockpit.screens.roster.roster_rows import detail_rows
from cockpit.studio.lessons.breaks import Pause
from cockpit.studio.lessons.lesson import Kind
from cockpit.studio.people.permissions import Shown, allowed


@pytest.fixture(scope="module")
def studio(tmp_path_factory):
    with sample_studio(tmp_path_factory.mktemp("sample")) as (studio, clock):
        history.ask_for_permissions(studio.desk)
        history.ask_about_lessons(studio.desk, clock, history.MOMENT)
        yield studio


def test_an_inquiry_waits_and_one_has_a_trial_on_thursday(studio):
    view = studio.desk.inquiring().view()
    assert [each.course.inquiry.name for each in view.due] == ["Ana Bell", "Jo Amsel"]
    (tied,) = [each.course.inquiry for each in view.open if each.course.inquiry.trial_lesson_id is not None]
    (trial,) = [
        booking.lesson
        for day in studio.desk.ahead.week(history.DAY)
        for booking in day.bookings
        if booking.lesson.kind is Kind.TRIAL
    ]
    assert trial.id == tied.trial_lesson_id
    assert f"{studio.preferences.home.local(trial.starts_at):%A %H:%M}" == "Thursday 18:00"


def test_one_student_pauses_one_has_something_to_get_and_a_permission_ends_soon(studio):
    outlook, people = studio.desk.ahead.outlook(12), studio.store.reading.people().students
    pauses = [each for each in outlook.breaks if isinstance(each, Pause)]
    assert [people[each.student_id].name for each in pauses] == ["Wren"]
    assert [(people[each.student_id].name, each.what) for each in outlook.permissions] == [("Ilse", Shown.RECORDED)]
    ishaan = next(each.id for each in people.values() if each.name == "Ishaan")
    said = [each for each in studio.store.reading.permissions() if each.student_id == ishaan]
    assert [allowed(said, what, history.DAY) for what in (Shown.RECITAL, Shown.PICTURED, Shown.NAMED)] == [
        True,
        False,
        False,
    ]
    mireille = next(each for each in studio.desk.day.bookings if each.student.name == "Mireille")
    assert [each.line.text for each in studio.desk.notes.sheet(mireille).last.to_get] == ["reeds (number 2)", "book 3"]


def test_the_roster_tells_how_a_student_may_be_shown_an_adult_by_her_own_word(studio):
    roster = studio.desk.roster()
    view = roster.view()
    for name, words in (
        ("Marguerite", ["▒ may be named", "▒ may be seen in a recital"]),
        ("Ilse", ["▒ may be named", "▒ may be recorded through Friday, December 18, 2026 (for her cousins)"]),
        ("Ishaan", ["▒ may be seen in a recital", "▒ may not be in pictures"]),
        ("Soraya", []),
    ):
        entry = next(each for each in view.entries if each.student.name == name)
        rows = [str(row) for row in detail_rows(roster.detail(view, entry), studio.preferences.home, 120)]
        assert [row[row.index("▒") :] for row in rows if "▒ may" in row] == words, name
