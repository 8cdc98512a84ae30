"""What became of a student's pieces: when each was opened, what is asked now, and what was done."""

from datetime import date
from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st
from support.pieces import given_line, given_lines

from cockpit.studio.changes.pieces import Piece
from cockpit.studio.notes.notes import Mark
from cockpit.studio.people.people import StudentId
from cockpit.studio.pieces.given import GivenLine
from cockpit.studio.pieces.history import PieceHistory, done_times, histories

TODAY = date(2026, 12, 1)
OLD_MILL = (
    given_line("11-03", "Piece: The Old Mill mm. 1-8, q = 60 to 92", Mark.MORE_WORK, 60),
    given_line("11-10", "Piece: The Old Mill mm. 1-16, q = 66 to 92", Mark.MORE_WORK, 66),
    given_line("11-17", "Piece: Old Mill mm. 9-32, q = 69 to 92", Mark.NOT_YET, 72),
    given_line("11-24", "Piece: The Old Mill mm. 17-40, q = 72 to 92, by heart", Mark.MORE_WORK, 72),
)


def history(*lines: GivenLine, **said: Piece) -> PieceHistory:
    (found,) = histories(lines, said)
    return found


def test_a_piece_is_worked_on_from_the_first_lesson_that_gave_it():
    piece = history(*OLD_MILL)
    assert (piece.key, piece.title, piece.area) == ("old mill", "The Old Mill", "piece")
    assert (piece.now.since, piece.now.last_on, piece.now.weeks(TODAY)) == (date(2026, 11, 3), date(2026, 11, 24), 4)
    assert (piece.now.state, piece.now.is_open, piece.now.is_by_heart) == (Mark.MORE_WORK, True, True)
    assert piece.now.asked == OLD_MILL[-1]
    assert piece.lines == tuple(reversed(OLD_MILL))
    assert piece.earlier == ()


def test_its_goal_is_that_of_the_newest_line_that_has_one():
    piece = history(
        *OLD_MILL, given_line("12-01", "Piece: The Old Mill h = 40"), given_line("12-08", "Piece: Old Mill")
    )
    assert (piece.now.goal, piece.now.beat) == (80, 2)
    assert (history(given_line("12-08", "Piece: Old Mill")).now.goal) is None


def test_weeks_that_have_begun_count_and_the_first_day_has_none():
    piece = history(given_line("11-20", "Piece: Gavotte"))
    assert [piece.now.weeks(date(2026, 11, day)) for day in (19, 20, 21, 27, 28)] == [0, 0, 1, 1, 2]


def test_hearings_are_told_in_quarters_and_of_two_on_one_day_the_later_counts():
    halves = given_line("11-03", "Piece: Gavotte h = 40", None, 30)
    lines = (halves, given_line("11-10", "Piece: Gavotte mm. 1-4 q = 80", None, 66),
             given_line("11-10", "Piece: Gavotte mm. 5-8 q = 80", None, 72))  # fmt: skip
    heard = history(*lines).now.hearings
    assert [(each.on.day, each.tempo, each.quarters) for each in heard] == [(3, 30, 60), (10, 72, 72)]
    assert all(isinstance(each.quarters, Fraction) for each in heard)


def test_a_piece_is_done_with_its_newest_line_and_opens_anew():
    done = given_line("10-06", "Piece: Gavotte q = 60", Mark.DONE, 60)
    first = history(given_line("09-29", "Piece: Gavotte", Mark.NOT_YET), done)
    assert (first.now.is_open, first.now.state, first.now.last_on) == (False, Mark.DONE, date(2026, 10, 6))
    again = history(done, given_line("11-24", "Piece: Gavotte", None))
    assert (again.now.since, again.now.weeks(TODAY), again.now.state) == (date(2026, 11, 24), 1, None)
    assert again.now.hearings == ()
    assert [each.last_on for each in again.earlier] == [date(2026, 10, 6)]
    assert [(each.key, time.last_on) for each, time in done_times([again])] == [("gavotte", date(2026, 10, 6))]


def test_measures_that_are_done_are_not_the_piece_where_others_follow():
    done = given_line("11-03", "Piece: Old Mill mm. 1-16", Mark.DONE)
    assert history(done, given_line("11-10", "Piece: Old Mill mm. 17-32")).now.since == date(2026, 11, 3)
    assert history(done, given_line("11-10", "Piece: Old Mill mm. 1-16")).now.since == date(2026, 11, 10)
    assert history(done, given_line("11-10", "Piece: Old Mill")).now.since == date(2026, 11, 10)


def test_a_piece_is_open_while_one_of_its_passages_of_the_last_lesson_is():
    lines = (given_line("11-24", "Piece: Old Mill mm. 1-8 q = 60"),
             given_line("11-24", "Piece: Old Mill mm. 9-16 q = 80", Mark.DONE))  # fmt: skip
    piece = history(*lines)
    assert (piece.now.is_open, piece.now.asked, piece.now.goal) == (True, lines[0], 80)


def test_open_pieces_go_first_as_given_last_and_then_done_ones():
    lines = [
        given_line("09-01", "Piece: Dropped one", Mark.DROPPED), given_line("09-08", "Piece: Early", Mark.DONE),
        given_line("10-06", "Piece: Late", Mark.DONE), given_line("11-03", "Piece: Waiting"),
        given_line("11-10", "Piece: Older"), *given_lines("11-24", "Piece: Newer\nPiece: Older"),
    ]  # fmt: skip
    assert [each.title for each in histories(lines, {})] == [
        "Older", "Newer", "Waiting", "Late", "Early", "Dropped one",
    ]  # fmt: skip
    assert [each.title for each, _ in done_times(histories(lines, {}))] == ["Late", "Early"]


def test_it_is_called_as_it_was_last_and_what_she_says_of_it_is_with_it():
    said = Piece(student_id=StudentId(1), key="gavotte", measures=96)
    piece = history(given_line("11-03", "Piece: gavotte"), given_line("11-10", "Piece: The Gavotte"), gavotte=said)
    assert (piece.title, piece.said) == ("The Gavotte", said)


def test_a_line_without_a_name_is_told_from_a_piece():
    lines = given_lines(
        "11-24", "Theory: read page 12\nScales: D major\nEtude: no. 7\nPiece: Gavotte\nMethod book: p. 4"
    )
    assert [(each.key, each.is_named) for each in histories(lines, {})] == [
        ("theory: read page 12", False), ("d major scale", True), ("etude no. 7", True), ("gavotte", True),
        ("method book", True),
    ]  # fmt: skip


@given(st.lists(st.tuples(st.integers(0, 3), st.sampled_from([None, *Mark])), min_size=1, max_size=12))
def test_no_line_is_lost_or_told_twice(lessons):
    lines = [given_line(f"11-{day + 1:02d}", f"Piece: Tune {number}", mark)
             for day, (number, mark) in enumerate(lessons)]  # fmt: skip
    found = histories(lines, {})
    assert sorted((each for piece in found for each in piece.lines), key=lambda each: each.on) == lines
    assert all(not earlier.is_open for piece in found for earlier in piece.earlier)
