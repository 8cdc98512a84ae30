"""One student pauses: lessons fall out and come back, the time is kept or free, and one step takes it back."""

from datetime import date, timedelta

import pytest
from support.arranged_studio import ROSTER, arranged_studio
from support.studio import home

from cockpit.desk.calendar.handing_out import HandingOut
from cockpit.desk.calendar.proposals import Purpose
from cockpit.desk.lookup import bookings_between, next_of
from cockpit.papers.calendar.file import calendar_file
from cockpit.studio.errors import BadInput, Refused
from cockpit.studio.lessons.breaks import Pause

# Both in the evening of one clock, so that nothing else is wrong with a time.
NEAR = ROSTER.replace("Europe/London", "America/Chicago")
SIBLING = "Runa,Tuesday,15:00,30,Brandvold,viola,America/Phoenix,teacher\n"


def pause(arranged, line, student="Ilse", on="2026-12-08"):
    return arranged.done(Purpose.PAUSE, on, student, line)


def pauses(arranged):
    return [each for each in arranged.studio.store.reading.breaks() if isinstance(each, Pause)]


def test_a_line_is_understood_on_both_clocks_before_anything_is_done(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        proposal = arranged.proposed(Purpose.PAUSE, "2026-12-08", "Ilse", "jan 4 to jan 31 trip")
        assert proposal.understood == (
            "Ilse pauses: Mon, January 4, 2027, through Sun, January 31, 2027. Reason, for you alone: trip. "
            "4 lessons fall out. The first lesson after it is Tue, February 2, 2027, 4:00 pm · 3:00 pm Phoenix. "
            "The weekly time is kept."
        )
        assert proposal.troubles == ()
        assert pauses(arranged) == []


def test_one_sibling_pauses_and_the_other_goes_on_and_one_step_takes_it_back(tmp_path):
    with arranged_studio(tmp_path, ROSTER + SIBLING) as arranged:
        span = ("2027-01-01", "2027-02-10")
        before = arranged.lessons("Ilse", *span)
        pause(arranged, "jan 4 to jan 31")
        assert arranged.lessons("Ilse", *span) == ["Tue 2027-02-02 16:00", "Tue 2027-02-09 16:00"]
        assert len(arranged.lessons("Runa", *span)) == len(before) == 6
        assert arranged.undo() == "Undone: pausing Ilse."
        assert arranged.lessons("Ilse", *span) == before
        assert pauses(arranged) == []


def test_a_pause_without_an_end_takes_every_lesson_and_is_asked_about_eight_weeks_later(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        proposal = pause(arranged, "from jan 4, frees the time")
        assert proposal.understood == (
            "Ilse pauses from Mon, January 4, 2027, on. "
            "All lessons from Tue, January 5, 2027, 4:00 pm · 3:00 pm Phoenix, fall out. It has no last day: Coming up asks "
            "you about it from Mon, March 1, 2027, on. The weekly time is free."
        )
        assert arranged.lessons("Ilse", "2027-01-01", "2029-01-01") == []
        (kept,) = pauses(arranged)
        assert (kept.until_on, kept.ask_on, kept.keeps_time) == (None, date(2027, 3, 1), False)
        ahead = arranged.studio.desk.ahead
        for at, asks in (("2027-02-28 23:00", 0), ("2027-03-01 00:00", 1)):
            arranged.clock.at = home(at)
            shifted = sum(bool(change.shifts) for change in ahead.clock_changes(4))
            assert ahead.to_settle() - len(ahead.troubles()[0]) - shifted == asks
            assert ahead.outlook(12).to_settle == ahead.to_settle()


def test_who_pauses_says_later_when_the_pause_ends(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        pause(arranged, "from jan 4, frees the time: moved")
        (kept,) = pauses(arranged)
        booking = arranged.studio.desk.ahead.paused_lesson(kept)
        assert booking is not None
        proposal = arranged.studio.desk.arranging.propose(Purpose.PAUSE, booking, "until jan 31")
        assert "It replaces the pause from Mon, January 4, 2027, on. 4 lessons fall out." in proposal.understood
        arranged.studio.desk.arranging.do(proposal)
        (after,) = pauses(arranged)
        assert (after.from_on, after.until_on) == (kept.from_on, date(2027, 1, 31))
        assert (after.keeps_time, after.reason) == (False, "moved")
        with pytest.raises(Refused, match="already paused"):
            arranged.studio.desk.arranging.propose(Purpose.PAUSE, booking, "until jan 31")
        arranged.undo()
        assert pauses(arranged) == [kept]


def test_single_lessons_in_a_pause_stay_and_are_named_on_both_clocks(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        arranged.done(Purpose.EXTRA, "2026-12-08", "Ilse", "2027-01-08 16:00")
        arranged.done(Purpose.MOVE, "2027-01-12", "Ilse", "2027-01-14 10:00")
        proposal = arranged.proposed(Purpose.PAUSE, "2026-12-08", "Ilse", "jan 4 to jan 31")
        assert "3 lessons fall out" in proposal.understood
        assert proposal.troubles == (
            "Lessons in the pause that you arranged yourself will still take place: "
            "Ilse, extra, Fri, January 8, 2027, 4:00 pm · 3:00 pm Phoenix; "
            "Ilse, moved, Thu, January 14, 2027, 10:00 am · 9:00 am Phoenix.",
        )


def test_a_weekly_time_booked_in_a_freed_time_is_told_what_collides_at_the_return_with_both_dates(tmp_path):
    with arranged_studio(tmp_path, NEAR) as arranged:
        pause(arranged, "jan 4 to jan 31, frees the time")
        (collides, returns) = arranged.proposed(Purpose.CHANGE, "2027-01-05", "Teodor", "from jan 5 4 pm").troubles
        assert collides.startswith("Tue, February 2, 2027 and ")
        both = "Ilse (4:00 pm to 4:30 pm; 3:00 pm Phoenix) and Teodor (4:00 pm to 4:30 pm) overlap"
        assert both in collides
        assert returns == (
            "Ilse is paused through Sun, January 31, 2027, and has this time again from Tue, February 2, 2027, on."
        )


def test_a_time_that_is_kept_is_told_to_be_so_also_where_nobody_knows_until_when(tmp_path):
    with arranged_studio(tmp_path, NEAR) as arranged:
        pause(arranged, "from jan 4")
        (told,) = arranged.proposed(Purpose.CHANGE, "2027-01-05", "Teodor", "from jan 5 4 pm").troubles
        assert told == "This time is kept for Ilse, paused from Mon, January 4, 2027, on."


def test_a_new_student_in_the_time_of_who_pauses_is_told_so_too(tmp_path):
    with arranged_studio(tmp_path, NEAR) as arranged:
        line = "nora bell, cello, tue 4pm 30m from jan 5"
        pause(arranged, "from jan 4")
        (kept,) = arranged.proposed(Purpose.STUDENT, "2026-12-08", "Ilse", line).troubles
        assert kept == "This time is kept for Ilse, paused from Mon, January 4, 2027, on."
        pause(arranged, "jan 4 to jan 31, frees the time")
        troubles = arranged.proposed(Purpose.STUDENT, "2026-12-08", "Ilse", line).troubles
        assert troubles[0].startswith("Tue, February 2, 2027 and ")
        assert troubles[1].endswith("has this time again from Tue, February 2, 2027, on.")


def test_what_collides_when_a_pause_ends_earlier_is_told_before_enter(tmp_path):
    with arranged_studio(tmp_path, NEAR) as arranged:
        pause(arranged, "from jan 4, frees the time")
        arranged.done(Purpose.CHANGE, "2027-01-05", "Teodor", "from jan 5 4 pm")
        booking = arranged.studio.desk.ahead.paused_lesson(pauses(arranged)[0])
        (told,) = arranged.studio.desk.arranging.propose(Purpose.PAUSE, booking, "to jan 31").troubles
        assert told.startswith("Tue, February 2, 2027 and ")
        assert "overlap by 30 minutes" in told


@pytest.mark.parametrize(("line", "is_free"), [("jan 4 to jan 31", False), ("jan 4 to jan 31, frees the time", True)])
def test_the_time_of_who_pauses_is_free_only_where_the_line_frees_it(tmp_path, line, is_free):
    with arranged_studio(tmp_path, NEAR) as arranged:
        pause(arranged, line)
        ahead = arranged.studio.desk.ahead
        found = ahead.free_times(arranged.booking("2027-01-12", "Teodor"), date(2027, 1, 12))
        assert (home("2027-01-12 16:00") in found) is is_free
        (tuesday,) = [day for day in ahead.week(date(2027, 1, 12)) if day.on == date(2027, 1, 12)]
        assert any(begins <= home("2027-01-12 16:10") < ends for begins, ends in tuesday.gaps) is is_free
        assert [each.booking.student.name for each in tuesday.left_out] == ["Ilse"]


def test_the_break_of_the_whole_studio_inside_a_pause_is_named_and_the_pause_goes_on_behind_it(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        pause(arranged, "jan 4 to jan 31")
        arranged.studio.desk.arranging.do(
            arranged.studio.desk.arranging.propose(Purpose.BREAK, None, "jan 11 to jan 17 holidays")
        )
        reading = arranged.studio.store.reading
        _, left_out = bookings_between(
            reading, home("2027-01-01 00:00"), home("2027-02-01 00:00"), arranged.studio.preferences.home
        )
        because = [type(each.because).__name__ for each in left_out if each.booking.student.name == "Ilse"]
        assert because == ["Pause", "Break", "Pause", "Pause"]
        assert arranged.lessons("Ilse", "2027-01-01", "2027-02-03") == ["Tue 2027-02-02 16:00"]


def test_a_pause_over_a_clock_change_ends_on_its_day_whatever_the_clocks_show(tmp_path):
    """Mireille's time is on the clock of St. John's, where clocks change on March 14, 2027."""
    with arranged_studio(tmp_path) as arranged:
        proposal = pause(arranged, "mar 3 to mar 16", "Mireille", "2026-12-09")
        assert "(days in the family's time zone). 2 lessons fall out." in proposal.understood
        assert "The first lesson after it is Wed, March 17, 2027, 2:30 pm · 5:00 pm St. John's." in proposal.understood
        assert arranged.lessons("Mireille", "2027-02-24", "2027-03-18") == [
            "Wed 2027-02-24 14:30",
            "Wed 2027-03-17 14:30",
        ]


def test_the_days_of_a_pause_are_those_of_the_clock_that_the_weekly_time_is_kept_on(tmp_path):
    """Ishaan's Thursday, 8:00 pm in Kolkata, is Thursday morning in Chicago; his Monday, 6:00 am, is her Sunday."""
    monday = ROSTER.replace("Ishaan,Thursday,20:00", "Ishaan,Monday,06:00")
    with arranged_studio(tmp_path, monday) as arranged:
        pause(arranged, "jan 4", "Ishaan", "2026-12-06")
        assert arranged.lessons("Ishaan", "2027-01-01", "2027-01-12") == ["Sun 2027-01-10 18:30"]


def test_an_end_in_the_middle_of_a_pause_leaves_no_lesson_after_it(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        pause(arranged, "jan 4 to jan 31")
        proposal = arranged.done(Purpose.CHANGE, "2026-12-08", "Ilse", "until 15 jan")
        assert "The last lesson is Tuesday, December 29, 2026, 4:00 pm · 3:00 pm Phoenix." in proposal.understood
        assert arranged.lessons("Ilse", "2027-01-01", "2028-01-01") == []
        again = arranged.proposed(Purpose.PAUSE, "2026-12-08", "Ilse", "jan 4 to feb 7")
        assert "No weekly lesson follows in the four months after it." in again.understood


def test_a_pause_of_a_whole_summer_hides_no_next_lesson(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        pause(arranged, "jan 4 to aug 31")
        lesson = arranged.booking("2026-12-29", "Ilse").lesson
        arranged.clock.at = lesson.starts_at
        student_id, own = lesson.student_id, arranged.studio.preferences.home
        following = next_of(arranged.studio.store.reading, student_id, lesson, own)
        assert following is not None
        assert own.date_of(following.lesson.starts_at) == date(2027, 9, 7)
        arranged.studio.desk.teaching.begin()
        arranged.write("2026-12-29", "Ilse", "Scales: D major")
        done = arranged.studio.desk.teaching.finish()
        said = " ".join(done.path.read_text(encoding="utf-8").split())
        assert "(no lesson until Wed, September 1)" in said
        assert "no lesson on" not in said


def test_the_calendar_of_others_has_no_lesson_of_a_pause_and_a_new_number(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        studio = arranged.studio

        def handed_out():
            return HandingOut(studio.store.reading, studio.desk.clock, studio.preferences).calendar(None, "Brandvold")

        before = handed_out()
        pause(arranged, "from jan 4")
        paused = handed_out()
        assert paused.revision > before.revision
        assert [each.last for each in paused.series] == [home("2026-12-29 16:00")]
        assert "UNTIL=20261229T220000Z" in calendar_file(paused)
        arranged.undo()
        assert handed_out().revision > paused.revision
        assert [each.last for each in handed_out().series] == [None]
        pause(arranged, "jan 4 to jan 31")
        (series,) = handed_out().series
        assert series.last is None
        assert [each.date() for each in series.left_out] == [date(2027, 1, 5) + timedelta(weeks=n) for n in range(4)]


@pytest.mark.parametrize(
    ("line", "named"),
    [
        ("jan 4 to jan 31 teodor", '"teodor"'),
        ("jan 4 4pm", '"4pm"'),
        ("jan 4 to jan 31, frees the tme", '"frees"'),
        ("nov 1 to nov 15", "would end on"),
        ("frees the time", "no day"),
        ("to jan 31", "no first day"),
    ],
)
def test_a_line_that_is_not_understood_is_refused_with_the_part_named_and_lines_that_work(tmp_path, line, named):
    with arranged_studio(tmp_path) as arranged, pytest.raises(BadInput) as refused:
        arranged.proposed(Purpose.PAUSE, "2026-12-08", "Ilse", line)
    assert named in str(refused.value)
