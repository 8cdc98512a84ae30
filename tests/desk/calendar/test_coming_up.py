"""What comes up in the next two weeks: the beginning of what Coming up shows of the year."""

from datetime import date

from support.arranged_studio import HEADER, arranged_studio
from support.studio import CLOCK, home

from cockpit.desk.calendar.proposals import Purpose
from cockpit.screens.day.day_review_rows import coming_up_options
from cockpit.studio.lessons.lesson import Outcome

ILSE = "Ilse,Tuesday,16:00,30,Brandvold,cello,America/Phoenix,teacher\n"
NEARLY = "Nora,Tuesday,16:28,30,Bell,flute,America/Chicago,teacher\n"


def told(arranged):
    coming = arranged.studio.desk.ahead.coming_up()
    return [" ".join(str(option.prompt).split()) for option in coming_up_options(coming, CLOCK, 120)]


def test_it_is_what_goes_wrong_and_the_breaks_of_two_weeks(tmp_path):
    with arranged_studio(tmp_path, HEADER + ILSE + NEARLY, now="2026-12-01 10:00") as arranged:
        desk = arranged.studio.desk
        for line in ("dec 10: recital", "dec 21 to jan 3: holidays"):
            desk.arranging.do(desk.arranging.propose(Purpose.BREAK, None, line))
        title, trouble, off = told(arranged)
        assert title.startswith("COMING UP, 2 WEEKS")
        assert trouble.startswith("! Tue, December 1 Nora 4:28 pm overlaps Ilse")
        assert "and 1 more time through Tue, December 8" in trouble
        assert off == "╱ Thu, December 10 recital"
        assert len(desk.ahead.outlook(12).breaks) == 2


def test_clocks_that_change_are_told_where_they_shift_lessons(tmp_path):
    with arranged_studio(tmp_path, HEADER + ILSE, now="2027-03-05 10:00") as arranged:
        (change,) = arranged.studio.desk.ahead.coming_up().changes
        assert change.changed_on == date(2027, 3, 14)
        assert told(arranged)[1:] == ["± Sun, March 14 Chicago 1 lesson at another time"]


def test_make_ups_that_are_owed_are_one_row_behind_what_needs_her(tmp_path):
    with arranged_studio(tmp_path, HEADER + ILSE + NEARLY, now="2026-12-02 10:00") as arranged:
        teaching = arranged.studio.desk.teaching
        for on, student in (("2026-12-08", "Ilse"), ("2026-12-15", "Nora"), ("2026-12-15", "Ilse")):
            teaching.mark(date.fromisoformat(on), arranged.booking(on, student).lesson.id, Outcome.CANCELLED)
        assert told(arranged)[1:] == ["○ 3 make-ups owed Ilse, Nora"]


def test_two_quiet_weeks_have_no_group(tmp_path):
    with arranged_studio(tmp_path, HEADER + ILSE, now="2026-12-02 10:00") as arranged:
        assert told(arranged) == []


def test_the_weekly_time_of_a_lesson_that_was_moved_is_where_it_would_be(tmp_path):
    with arranged_studio(tmp_path, HEADER + ILSE, now="2026-12-02 10:00") as arranged:
        desk = arranged.studio.desk
        booking = arranged.booking("2026-12-08", "Ilse")
        desk.arranging.do(desk.arranging.propose(Purpose.MOVE, booking, "dec 10 5:30 pm"))
        moved = arranged.booking("2026-12-10", "Ilse")
        _, meets = desk.ahead.weekly_time(moved)
        assert meets == home("2026-12-08 16:00")
        desk.arranging.do(desk.arranging.propose(Purpose.EXTRA, moved, "dec 11 5 pm"))
        assert desk.ahead.weekly_time(arranged.booking("2026-12-11", "Ilse")) is None
