"""The sample studio as `cockpit demo` opens it: something of everything that a teacher should see."""

from datetime import date

import pytest
from support.sample import sample_studio

from cockpit.clock import SetClock
from cockpit.sample import history
from cockpit.screens.roster.roster_rows import detail_rows
from cockpit.studio.lessons.breaks import Pause
from cockpit.studio.lessons.lesson import Kind
from cockpit.studio.people.permissions import Shown, allowed
from cockpit.studio.recital.program import AgainstRecital
from cockpit.studio.recital.readiness import NotedAnswer
from cockpit.wiring import studio_at


@pytest.fixture(scope="module")
def studio(tmp_path_factory):
    with sample_studio(tmp_path_factory.mktemp("sample")) as (studio, clock):
        history.ask_for_permissions(studio.desk)
        history.begin_letter(studio.desk)
        history.ask_about_lessons(studio.desk, clock, history.MOMENT)
        history.plan_recital(studio.desk, clock, history.MOMENT)
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
    assert [each.line.text for each in studio.desk.notes.sheet(mireille).last.lasting] == ["reeds (number 2)", "book 3"]


def test_the_roster_tells_how_a_student_may_be_shown_an_adult_by_her_own_word(studio):
    roster = studio.desk.roster()
    view = roster.view()
    for name, words in (
        ("Marguerite", ["▒ may be named", "▒ may be seen in a recital"]),
        (
            "Ilse",
            [
                "▒ may be named",
                "▒ may be recorded through Friday, December 18, 2026 (for her cousins)",
                "▒ may be seen in a recital",
            ],
        ),
        ("Ishaan", ["▒ may be seen in a recital", "▒ may not be in pictures"]),
        ("Soraya", []),
    ):
        entry = next(each for each in view.entries if each.student.name == name)
        rows = [str(row) for row in detail_rows(roster.detail(view, entry), studio.preferences.home, 120)]
        assert [row[row.index("▒") :] for row in rows if "▒ may" in row] == words, name


def test_the_recital_is_in_three_weeks_with_one_at_night_one_unnamed_and_two_not_ready(studio):
    recitals = studio.desk.recitals()
    rehearsal, listed = recitals.reading.view().coming
    assert (rehearsal.recital.is_rehearsal, listed.recital.name, listed.weeks) == (True, "Winter tales", 3)
    program = recitals.reading.program(listed.recital.id)
    starts = [f"{studio.preferences.home.local(row.time.starts_at):%H:%M:%S}" for row in program.rows]
    assert starts == ["12:03:00", "12:05:30", "12:08:30", "12:11:45", "12:14:45", "12:18:45", "12:23:15", "12:29:15"]
    assert [row.performers[0].called for row in program.rows] == [
        "Ishaan", "Teodor", "Wren", "Tobin", "Ilse", "Eilidh", "Nalani", "Mireille",
    ]  # fmt: skip
    assert [each.shown_as for row in program.rows for each in row.performers].count("a student") == 1
    assert [(each.kind, each.family.name) for each in program.troubles] == [(AgainstRecital.NIGHT, "Banerjee")]
    by_heart = [recitals.reading.readiness(row.shared).noted[0].answer for row in program.rows]
    assert by_heart.count(NotedAnswer.NO) == 2


@pytest.fixture(scope="module")
def long_studio(tmp_path_factory):
    """The sample as the demo opens it, with the weeks that one looks back on."""
    folder = tmp_path_factory.mktemp("weeks")
    (folder / "settings.toml").write_text(history.SETTINGS, encoding="utf-8")
    clock = SetClock(history.MOMENT)
    with studio_at(folder, clock, to_write=True) as studio:
        history.enroll(studio.enrolling)
        history.teach_weeks(studio.desk, clock, history.MOMENT)
        history.teach_history(studio.desk, clock, history.MOMENT)
        history.tell_more(studio.desk)
        yield studio


def page_of(studio, name):
    return studio.desk.pages().page(studio.desk.finding.student(name).student.id)


def test_eleven_weeks_behind_them_have_a_piece_on_its_way_one_stuck_one_kept_alive_and_theory_long_ago(long_studio):
    reel = next(each for each in page_of(long_studio, "Mireille").open if each.key == "winter reel")
    assert (reel.tempo.first.tempo, reel.tempo.last.tempo, reel.tempo.goal) == (60, 88, 104)
    assert reel.tempo.needed is not None
    rain = next(each for each in page_of(long_studio, "Nalani").open if each.key == "rain on tin")
    assert {each.tempo for each in rain.history.now.hearings} == {58, 60}
    canoe = page_of(long_studio, "Teodor").piece("little canoe")
    assert canoe.said.kept_since == date(2026, 10, 6)
    ferry = next(each for each in page_of(long_studio, "Eilidh").done if each.history.key == "morning ferry")
    assert ferry.due.due_on == date(2026, 11, 10)
    ilse = page_of(long_studio, "Ilse")
    assert ilse.mix.line("theory").weeks_since == 11
    assert (ilse.attended.planned, ilse.attended.attended, ilse.attended.absent) == (11, 10, 1)
    assert "Gavotte" in [each.history.title for each in ilse.done]


def test_a_letter_to_the_families_of_cellists_is_begun_and_not_sent(studio):
    families = studio.desk.families()
    (letter,) = families.letters()
    view = families.view(letter, families.candidates())
    families.check(view)
    assert view.whom == "cello students"
    assert [each.family.name for each in view.recipients] == [
        "Aldersgate",
        "Banerjee",
        "Brandvold",
        "Lindqvast",
        "Marguerite",
    ]
    assert not view.went
