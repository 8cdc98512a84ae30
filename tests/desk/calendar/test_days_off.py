"""Breaks, and what is arranged on their days, in a real store."""

import pytest
from support.arranged_studio import ROSTER, Arranged, arranged_studio

from cockpit.desk.calendar.proposals import Proposal, Purpose
from cockpit.studio.errors import BadInput


def paused(arranged: Arranged, line: str) -> Proposal:
    proposal = arranged.studio.desk.arranging.propose(Purpose.BREAK, None, line)
    arranged.studio.desk.arranging.do(proposal)
    return proposal


def test_a_lesson_that_is_put_into_a_break_is_told_to_take_place_there(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        paused(arranged, "dec 21 to jan 3 holidays")
        told = (
            "This is during a break for the whole studio, Mon, December 21, through Sun, January 3, 2027, holidays. "
            "The lesson will still take place.",
        )
        assert arranged.proposed(Purpose.MOVE, "2026-12-15", "Ilse", "2026-12-24 16:00").troubles == told
        assert arranged.proposed(Purpose.EXTRA, "2026-12-15", "Teodor", "2026-12-25 14:00").troubles == told
        assert arranged.proposed(Purpose.EXTRA, "2026-12-15", "Teodor", "2026-12-20 14:00").troubles == ()


def test_a_familys_break_is_told_of_its_own_lessons_alone(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        paused(arranged, "family brandvold 24 dec skiing")
        (told,) = arranged.proposed(Purpose.EXTRA, "2026-12-15", "Ilse", "2026-12-24 16:00").troubles
        assert told.startswith("This is during a break for the Brandvold family, Thu, December 24, skiing. ")
        assert arranged.proposed(Purpose.EXTRA, "2026-12-15", "Teodor", "2026-12-24 14:00").troubles == ()


def test_a_standing_time_that_begins_in_a_break_says_when_its_first_lesson_is(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        paused(arranged, "dec 21 to jan 3 holidays")
        proposal = arranged.proposed(Purpose.CHANGE, "2026-12-08", "Ilse", "from 22 december 5 pm")
        assert proposal.troubles == (
            "This is during a break for the whole studio, Mon, December 21, through Sun, January 3, 2027, holidays. "
            "The first lesson is on Tue, January 5, 2027.",
        )
        proposal = arranged.proposed(Purpose.CHANGE, "2026-12-08", "Ilse", "from 15 december 5 pm")
        assert proposal.troubles == ()


def test_a_break_names_the_lessons_that_were_arranged_on_its_days_and_stay(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        arranged.done(Purpose.MOVE, "2026-12-15", "Ilse", "2026-12-24 16:00")
        arranged.done(Purpose.EXTRA, "2026-12-15", "Teodor", "2026-12-23 16:00")
        arranged.done(Purpose.EXTRA, "2026-12-15", "Teodor", "2026-12-28 16:00")
        arranged.done(Purpose.EXTRA, "2026-12-15", "Teodor", "2026-12-22 10:00")
        arranged.booking("2026-12-22", "Teodor")
        arranged.studio.desk.teaching.mark_cancelled()
        proposal = arranged.studio.desk.arranging.propose(Purpose.BREAK, None, "22 dec to 26 dec winter")
        assert proposal.understood.endswith("4 lessons fall in this break.")
        assert proposal.troubles == (
            "Lessons in the break that you arranged yourself will still take place: Teodor, extra, Wed, December 23, 4:00 pm "
            "· 10:00 pm London; Ilse, moved, Thu, December 24, 4:00 pm · 3:00 pm Phoenix.",
        )


def test_a_break_of_a_family_names_no_lesson_of_another(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        arranged.done(Purpose.MOVE, "2026-12-15", "Ilse", "2026-12-24 16:00")
        proposal = arranged.studio.desk.arranging.propose(Purpose.BREAK, None, "family okonjo 22 dec to 26 dec")
        assert proposal.understood.endswith("1 lesson falls in this break.")
        assert proposal.troubles == ()


def test_a_lesson_that_is_moved_back_into_a_break_is_told_to_fall_into_it(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        arranged.done(Purpose.MOVE, "2026-12-22", "Ilse", "2026-12-19 16:00")
        paused(arranged, "21 dec to 3 jan")
        (told,) = arranged.proposed(Purpose.MOVE, "2026-12-19", "Ilse", "2026-12-22 16:00").troubles
        assert told.endswith("Mon, December 21, through Sun, January 3, 2027. The lesson will not take place.")


def test_a_break_in_which_there_is_no_lesson_says_so_in_words(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        proposal = arranged.proposed(Purpose.BREAK, "2026-12-08", "Ilse", "family okonjo dec 24")
        assert proposal.understood.endswith("Thu, December 24. No lesson falls in this break.")


@pytest.mark.parametrize("line", ["24 dec ilse", "only ilse 24 dec", "24 dec for Ilse Brandvold"])
def test_a_student_who_is_the_only_one_of_a_family_can_be_named(tmp_path, line):
    with arranged_studio(tmp_path) as arranged:
        proposal = arranged.proposed(Purpose.BREAK, "2026-12-08", "Ilse", line)
        assert proposal.understood.startswith("No lessons for Ilse of the Brandvold family")
        (edit,) = proposal.edits
        assert edit.after.family_id is not None


def test_a_student_with_a_sibling_has_no_break_alone(tmp_path):
    sibling = "Runa,Friday,15:00,30,Brandvold,viola,America/Phoenix,teacher\n"
    with arranged_studio(tmp_path, ROSTER + sibling) as arranged:
        with pytest.raises(BadInput) as refused:
            arranged.proposed(Purpose.BREAK, "2026-12-08", "Ilse", "ilse dec 24")
        for line in ("family brandvold dec 24", "dec 24"):
            assert f'"{line}"' in str(refused.value)
            assert arranged.proposed(Purpose.BREAK, "2026-12-08", "Ilse", line)
