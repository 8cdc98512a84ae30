"""Pieces that are kept alive: when each is due. The gaps are common practice, no source; the dates were computed by hand."""

from datetime import date

from support.pieces import given_line

from cockpit.studio.changes.pieces import Piece, PieceState
from cockpit.studio.notes.notes import Mark
from cockpit.studio.notes.vocabulary import BUILT_IN
from cockpit.studio.people.people import StudentId
from cockpit.studio.pieces.history import histories
from cockpit.studio.pieces.kept_alive import due_pieces, kept_alive, review_line
from cockpit.studio.pieces.rules import PieceRules
from cockpit.studio.values import replace
from cockpit.wording.pieces import due_words, kept_alive_words, repertoire_words

GAPS = PieceRules().gaps
POLISHED = given_line("10-06", "Piece: Little Canoe", Mark.DONE)


def due(*lines, since=date(2026, 10, 6), gaps=GAPS):
    said = Piece(student_id=StudentId(1), key="little canoe", state=PieceState.KEPT_ALIVE, state_since=since)
    (piece,) = histories((POLISHED, *lines), {"little canoe": said})
    return kept_alive(piece, gaps)


def played(on, mark=Mark.DONE):
    return given_line(on, "Review: Little Canoe", mark)


def test_each_time_it_is_heard_leads_to_the_next_gap():
    assert due().due_on == date(2026, 10, 20)
    assert due(played("10-20")).due_on == date(2026, 11, 17)
    assert due(played("10-20"), played("11-24")).due_on == date(2027, 1, 19)
    assert due(played("10-20"), played("11-24", Mark.MORE_WORK)).due_on == date(2027, 1, 19)


def test_not_yet_leads_back_to_the_first_gap():
    assert due(played("10-20"), played("11-24", Mark.NOT_YET)).due_on == date(2026, 12, 8)
    assert due(played("10-20", Mark.NOT_YET), played("11-03")).due_on == date(2026, 12, 1)


def test_the_last_gap_repeats_and_gaps_are_hers():
    assert due(*(played(f"{month}-20") for month in (10, 11, 12)), gaps=(2, 3)).due_on == date(2027, 1, 10)


def test_what_was_given_and_not_heard_does_not_count_and_neither_does_what_was_before():
    assert due(played("10-20", None), played("10-27", Mark.DROPPED)).due_on == date(2026, 10, 20)
    assert due(played("10-05"), since=date(2026, 10, 6)).due_on == date(2026, 10, 20)
    assert due(since=None) is None


def test_it_is_told_in_weeks_and_once_due_since_when():
    kept = due()
    assert kept_alive_words(kept, date(2026, 10, 6)) == "due in 2 weeks"
    assert kept_alive_words(kept, date(2026, 10, 19)) == "due in 1 week"
    assert kept_alive_words(kept, date(2026, 10, 20)) == "due today"
    assert kept_alive_words(kept, date(2026, 10, 21)) == "due since October 20"
    assert [kept.is_due(date(2026, 10, day)) for day in (19, 20)] == [False, True]


def told_on(on, *lines, since=date(2026, 10, 6)):
    said = Piece(student_id=StudentId(1), key="little canoe", state=PieceState.KEPT_ALIVE, state_since=since)
    return [due_words(each, on) for each in due_pieces(histories((POLISHED, *lines), {"little canoe": said}), GAPS, on)]


def test_a_piece_is_told_at_the_lesson_from_the_day_on_which_it_is_due():
    assert told_on(date(2026, 11, 16), played("10-20")) == []
    assert told_on(date(2026, 11, 17), played("10-20")) == ["Keep alive: Little Canoe, due today"]
    assert told_on(date(2026, 12, 1), played("10-20")) == ["Keep alive: Little Canoe, due since November 17"]
    assert told_on(date(2026, 12, 7), played("10-20"), played("11-24", Mark.NOT_YET)) == []
    assert told_on(date(2026, 12, 8), played("10-20"), played("11-24", Mark.NOT_YET)) == [
        "Keep alive: Little Canoe, due today"
    ]
    assert told_on(date(2027, 1, 18), played("10-20"), played("11-24")) == []


def test_one_that_was_given_again_and_is_not_marked_yet_is_among_the_assignments_already():
    assert told_on(date(2026, 12, 1), played("10-20"), played("11-24", None)) == []
    assert told_on(date(2026, 12, 1), played("10-20"), played("11-24", Mark.DROPPED)) != []
    unmarked = given_line("10-06", "Piece: Little Canoe")
    said = Piece(student_id=StudentId(1), key="little canoe", state=PieceState.KEPT_ALIVE, state_since=unmarked.on)
    (due,) = due_pieces(histories((unmarked,), {"little canoe": said}), GAPS, date(2026, 10, 20))
    assert due.title == "Little Canoe"


def test_it_is_given_again_as_a_review_of_the_same_piece():
    line = review_line("Little Canoe", BUILT_IN)
    assert (line.typed, line.area) == ("Review: Little Canoe", "review")
    assert given_line("11-24", line.typed).read.piece == POLISHED.read.piece


def test_other_states_have_their_date_and_one_that_is_learned_has_none():
    piece = Piece(student_id=StudentId(1), key="little canoe", state=PieceState.POLISHED, state_since=date(2026, 10, 6))
    assert repertoire_words(piece, None, date(2026, 12, 1)) == "polished since October 6"
    assert (
        repertoire_words(replace(piece, state=PieceState.RESTING), None, date(2026, 12, 1)) == "resting since October 6"
    )
    assert repertoire_words(None, None, date(2026, 12, 1)) == ""
    assert repertoire_words(piece, due(), date(2026, 12, 1)) == "kept alive, due since October 20"
