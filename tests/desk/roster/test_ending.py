"""A student ends: the last lesson on both clocks, what is left is told before, and one step takes all of it back."""

from datetime import date

import pytest
from support.arranged_studio import ROSTER, arranged_studio
from support.studio import home

from cockpit.desk.calendar.proposals import Purpose
from cockpit.studio.errors import BadInput, Refused
from cockpit.studio.lessons.status import Status
from cockpit.studio.roster.entries import EntryGroup

TWO_TIMES = ROSTER + "Ilse,Thursday,18:00,30,Brandvold,viola,America/Phoenix,teacher\n"


def entry(arranged, name):
    return next(each for each in arranged.studio.desk.roster().view().entries if each.student.name == name)


def end(arranged, line, name="Ilse"):
    proposal = arranged.studio.desk.roster().propose(Purpose.END, entry(arranged, name), line)
    arranged.studio.desk.arranging.do(proposal)
    arranged.studio.desk.day.reload()
    return proposal


def everything(arranged):
    reading = arranged.studio.store.reading
    began, ends = home("2020-01-01 00:00"), home("2040-01-01 00:00")
    return reading.people(), reading.standing_times(), reading.lessons_between(began, ends), reading.breaks()


def test_what_is_left_is_told_in_one_sentence_and_one_undo_takes_all_back(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        arranged.booking("2026-12-01", "Ilse")
        arranged.studio.desk.teaching.mark_cancelled()
        arranged.done(Purpose.EXTRA, "2026-12-15", "Ilse", "sat dec 19 10am")
        arranged.done(Purpose.MOVE, "2026-12-22", "Ilse", "wed dec 23 10am")
        before = everything(arranged)
        proposal = end(arranged, "after dec 18, moved away")
        assert proposal.understood == (
            "Ilse ends. The last lesson is Tuesday, December 15, 2026, 4:00 pm · 3:00 pm Phoenix. "
            "There is none after it through December 18. "
            "Canceled with it: extra, Sat, December 19, 10:00 am · 9:00 am Phoenix; "
            "moved, Wed, December 23, 10:00 am · 9:00 am Phoenix. "
            "1 make-up is still owed, for Tue, December 1, 4:00 pm · 3:00 pm Phoenix. "
            "All notes and open assignments stay. Reason, for you alone: moved away."
        )
        assert proposal.troubles == ()
        assert arranged.lessons("Ilse", "2026-12-02", "2027-12-01") == ["Tue 2026-12-08 16:00", "Tue 2026-12-15 16:00"]
        assert entry(arranged, "Ilse").status is Status.ACTIVE  # until then
        assert entry(arranged, "Ilse").student.ended_because == "moved away"
        assert arranged.undo() == "Undone: ending Ilse."
        assert everything(arranged) == before
        end(arranged, "after dec 18")
        arranged.clock.at = home("2026-12-19 00:00")
        assert (entry(arranged, "Ilse").status, entry(arranged, "Ilse").ended_on) == (Status.ENDED, date(2026, 12, 18))
        arranged.clock.at = home("2026-12-18 23:00")
        assert entry(arranged, "Ilse").status is Status.ACTIVE


def test_single_lessons_are_kept_where_the_line_says_so_or_something_hangs_on_them(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        arranged.done(Purpose.EXTRA, "2026-12-15", "Ilse", "sat dec 19 10am")
        said = end(arranged, "after dec 18, keep lessons").understood
        assert "Still taking place after it: extra, Sat, December 19" in said
        assert arranged.lessons("Ilse", "2026-12-16", "2027-12-01") == ["Sat 2026-12-19 10:00"]
        arranged.undo()
        arranged.write("2026-12-19", "Ilse", "Piece: duet")
        said = end(arranged, "after dec 18").understood
        assert "Still taking place after it: extra, Sat, December 19" in said
        arranged.undo()
        # Moved beyond the end, it is still the lesson of its week.
        arranged.done(Purpose.MOVE, "2026-12-15", "Ilse", "mon dec 21 10am")
        said = end(arranged, "after dec 18").understood
        assert "moved, Mon, December 21, 10:00 am" in said.partition("Still taking place")[2]
        assert "Mon 2026-12-21 10:00" in arranged.lessons("Ilse", "2026-12-16", "2027-12-01")


def test_all_weekly_times_end_each_on_its_own_clock_and_so_does_one_that_is_to_come(tmp_path):
    with arranged_studio(tmp_path, TWO_TIMES) as arranged:
        arranged.done(Purpose.CHANGE, "2026-12-08", "Ilse", "from jan 12 5 pm")
        end(arranged, "after dec 18")
        assert arranged.lessons("Ilse", "2026-12-11", "2029-01-01") == ["Tue 2026-12-15 16:00", "Thu 2026-12-17 18:00"]
        arranged.undo()
        # On Thursday at 8:30 am in Kolkata it is Wednesday here: the last lesson counts by her day.
        said = end(arranged, "after dec 10", "Ishaan").understood
        assert "The last lesson is" in said
        last = arranged.lessons("Ishaan", "2026-12-01", "2027-12-01")[-1]
        assert last.split()[1] == "2026-12-10"
        assert "There is none after it" not in said


def test_an_end_in_the_middle_of_a_pause_and_one_of_today(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        arranged.done(Purpose.PAUSE, "2026-12-08", "Ilse", "dec 7 to jan 31")
        said = end(arranged, "after dec 18").understood
        assert "The last lesson is Tuesday, December 1, 2026, 4:00 pm · 3:00 pm Phoenix." in said
        arranged.clock.at = home("2026-12-10 09:00")
        assert entry(arranged, "Ilse").status is Status.PAUSED
        arranged.clock.at = home("2027-01-10 09:00")
        assert (entry(arranged, "Ilse").status, entry(arranged, "Ilse").group) == (Status.ENDED, EntryGroup.OVER)
        arranged.clock.at = home("2026-12-09 10:00")
        said = end(arranged, "today, moved away", "Mireille").understood
        assert "The last lesson is Wednesday, December 9, 2026" in said


def test_an_end_that_says_nothing_new_or_comes_before_the_beginning_is_refused(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        end(arranged, "after dec 18")
        with pytest.raises(Refused, match="Ilse has ended already"):
            end(arranged, "after dec 18")
        arranged.studio.desk.arranging.do(
            arranged.studio.desk.arranging.propose(Purpose.STUDENT, None, "arlo, guitar, sat 10am from jan 9")
        )
        with pytest.raises(BadInput, match=r"Arlo begins on Saturday, January 9, 2027\."):
            end(arranged, "after jan 8", "Arlo")
        arranged.studio.desk.arranging.do(
            arranged.studio.desk.arranging.propose(Purpose.TRIAL, None, "nora bell thu 11am, cello")
        )
        with pytest.raises(Refused, match="Nora Bell has no weekly time that could end"):
            end(arranged, "today", "Nora Bell")


def test_minutes_of_lost_calls_are_told_at_the_end_of_a_student_and_of_a_weekly_time(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        desk = arranged.studio.desk
        arranged.booking("2026-12-01", "Ilse")
        arranged.clock.at = home("2026-12-01 16:00")
        desk.teaching.begin()
        desk.calls.note_lost()
        arranged.clock.wind(minutes=7)
        desk.calls.note_back()
        arranged.clock.at = home("2026-12-01 16:30")
        desk.teaching.finish()
        said = "7 minutes of lost calls are still owed, for Tue, December 1."
        ending = arranged.proposed(Purpose.CHANGE, "2026-12-08", "Ilse", "until dec 18")
        assert said in ending.troubles
        assert said in end(arranged, "after dec 18").understood
        arranged.undo()
        assert "still owed" not in end(arranged, "after dec 18", "Teodor").understood


def test_notes_typed_ahead_are_told_and_stay(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        arranged.write("2026-12-22", "Ilse", "Bring the duet")
        (trouble,) = end(arranged, "after dec 18").troubles
        assert trouble.startswith("You have already typed notes for Tue, December 22.")


def test_a_sibling_of_a_family_that_ended_makes_it_live_again(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        end(arranged, "after dec 18")
        arranged.clock.at = home("2027-02-01 09:00")
        arranging = arranged.studio.desk.arranging
        arranging.do(arranging.propose(Purpose.STUDENT, None, "runa, viola, tue 3pm 30m, with ilse"))
        runa = entry(arranged, "Runa")
        assert (runa.status, runa.family) == (Status.BEGINS, entry(arranged, "Ilse").family)
        assert entry(arranged, "Ilse").status is Status.ENDED
