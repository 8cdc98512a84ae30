"""Make-ups by her policy: why a lesson was not taught, which make-up is one too many, and one that is let go."""

from datetime import UTC, datetime, timedelta

import pytest
from support.sample import sample_studio
from support.studio import CLOCK

from cockpit.clock import SetClock
from cockpit.desk.calendar.proposals import Purpose
from cockpit.screens.calendar.ahead_rows import ahead_options
from cockpit.studio.errors import BadInput, Refused
from cockpit.studio.lessons.lesson import Outcome
from cockpit.wiring import studio_at

TEN = datetime(2026, 12, 1, 16, tzinfo=UTC)  # 10:00 in Chicago: Ilse's lesson of 4:00 pm can only be canceled late
A_DAY_BEFORE = TEN - timedelta(days=1)


@pytest.fixture
def studio(tmp_path):
    with sample_studio(tmp_path, TEN) as (studio, _clock):
        yield studio


def lesson_of(studio, name):
    return next(each for each in studio.desk.day.bookings if each.student.name == name)


def say_why(studio, name, line):
    proposal = studio.desk.arranging.propose(Purpose.REASON, lesson_of(studio, name), line)
    studio.desk.arranging.do(proposal)
    studio.desk.day.reload()
    return proposal.understood


def cancel(studio, name):
    lesson = lesson_of(studio, name).lesson
    studio.desk.teaching.mark(studio.desk.day.on, lesson.id, Outcome.CANCELLED)


def rows(studio):
    options = ahead_options(studio.desk.ahead.outlook(12), CLOCK, 80)
    return {option.id: str(option.prompt) for option in options if option.id}


def with_policy(folder, at, *lines):
    with sample_studio(folder, at):
        pass
    with (folder / "settings.toml").open("a", encoding="utf-8") as settings:
        settings.write("\n".join(["", "[policy]", *lines, ""]))
    return studio_at(folder, SetClock(at), to_write=True)


def test_a_reason_stays_with_the_lesson_and_goes_with_one_undo(studio):
    cancel(studio, "Ilse")
    said = say_why(studio, "Ilse", "  sick,  fever ")
    assert said == "Ilse, canceled late: sick, fever. The reason is for you alone."
    assert lesson_of(studio, "Ilse").lesson.reason == "sick, fever"
    assert studio.desk.teaching.undo() == "Undone: saying why Ilse's lesson was not taught."
    assert lesson_of(studio, "Ilse").lesson.reason is None
    assert lesson_of(studio, "Ilse").lesson.outcome is Outcome.CANCELLED_LATE
    say_why(studio, "Ilse", "trip")
    assert say_why(studio, "Ilse", "-") == "Ilse, canceled late, without a reason."
    assert lesson_of(studio, "Ilse").lesson.reason is None


def test_a_reason_is_for_lessons_that_were_not_taught(studio):
    with pytest.raises(Refused, match=r"is not marked\. Mark it absent \(a\) or canceled \(c\)"):
        say_why(studio, "Ilse", "sick")
    cancel(studio, "Ilse")
    with pytest.raises(BadInput, match="invisible character"):
        say_why(studio, "Ilse", "si\x1bck")


def test_a_late_cancellation_of_somebody_sick_is_owed_where_her_policy_forgives_it(tmp_path):
    with with_policy(tmp_path, TEN, "forgive_sick = true") as studio:
        studio.desk.day.open()
        cancel(studio, "Ilse")
        assert studio.desk.ahead.make_ups_owed() == {}
        assert say_why(studio, "Ilse", "sick").endswith("By your policy a make-up is owed.")
        assert [len(owed) for owed in studio.desk.ahead.make_ups_owed().values()] == [1]
        assert say_why(studio, "Ilse", "-").endswith("By your policy no make-up is owed then.")


def test_a_reason_and_a_make_up_that_was_let_go_are_kept_when_the_weekly_time_changes(studio):
    studio.desk.day.open(datetime(2026, 12, 8, tzinfo=UTC).date())
    cancel(studio, "Ilse")
    say_why(studio, "Ilse", "trip")
    studio.desk.arranging.let_go(lesson_of(studio, "Ilse").lesson.id, is_let_go=True)
    studio.desk.day.reload()
    change = studio.desk.arranging.propose(Purpose.CHANGE, lesson_of(studio, "Ilse"), "from dec 8 6:30 pm")
    studio.desk.arranging.do(change)
    studio.desk.day.reload()
    lesson = lesson_of(studio, "Ilse").lesson
    assert (lesson.reason, lesson.is_let_go, lesson.outcome) == ("trip", True, Outcome.CANCELLED)
    assert studio.desk.ahead.make_ups_owed() == {}


def test_a_make_up_is_let_go_and_owed_again_and_each_is_a_step(studio):
    studio.desk.day.open(datetime(2026, 12, 8, tzinfo=UTC).date())
    cancel(studio, "Ilse")
    lesson = lesson_of(studio, "Ilse").lesson
    assert studio.desk.arranging.let_go(lesson.id, is_let_go=True) == "Ilse's make-up is let go."
    assert studio.desk.ahead.make_ups_owed() == {}
    assert "let_go:0" in rows(studio)
    studio.desk.teaching.undo()
    assert "owed:0" in rows(studio)
    studio.desk.arranging.let_go(lesson.id, is_let_go=True)
    assert studio.desk.arranging.let_go(lesson.id, is_let_go=False) == "Ilse's make-up is owed again."
    assert "owed:0" in rows(studio)
    with pytest.raises(Refused, match="Look again"):
        studio.desk.arranging.let_go("w0-2026-12-01", is_let_go=True)


# 40 days after Friday, December 11 is January 20, which is 50 days after December 1.
def test_the_list_says_until_when_a_make_up_is_promised_and_which_is_more_than_her_policy_has(tmp_path):
    with with_policy(tmp_path, A_DAY_BEFORE, "make_up_within_days = 40", "make_ups_a_term = 2") as studio:
        for day in (8, 15, 1):
            studio.desk.day.open(datetime(2026, 12, day, tzinfo=UTC).date())
            cancel(studio, "Ilse")
        shown = rows(studio)
        assert shown["owed:0"] == "○ Ilse  45 min for Tue, December 1  expires Sun, January 10, 2027, in 41 days"
        assert "your policy" not in shown["owed:1"]
        assert shown["owed:2"].endswith("\n  ! third this term: your policy has two")
        assert len(studio.desk.ahead.make_ups_owed()[lesson_of(studio, "Ilse").student.id]) == 3, "none is dropped"


def test_the_list_says_when_the_term_ends_a_make_up_and_which_absence_is_more_than_one_a_term(tmp_path):
    with with_policy(
        tmp_path,
        datetime(2026, 12, 15, 23, tzinfo=UTC),
        'absent = "make-up once a term"',
        'make_up_within_days = "term"',
    ) as studio:
        for day in (8, 15):
            studio.desk.day.open(datetime(2026, 12, day, tzinfo=UTC).date())
            studio.desk.day.go_to(lesson_of(studio, "Ilse").lesson.id)
            studio.desk.teaching.mark_absent()
        shown = rows(studio)
        assert shown["owed:0"] == "○ Ilse  45 min for Tue, December 8  expires Thu, December 31, in 16 days"
        assert shown["owed:1"].endswith("\n  ! second absence this term: your policy has one")
