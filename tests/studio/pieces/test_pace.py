"""The pace of a piece, so far and needed: sums of what was heard."""

from datetime import date, timedelta
from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st
from support.pieces import given_line

from cockpit.studio.pieces.history import PieceTime
from cockpit.studio.pieces.pace import measures_progress, tempo_progress
from cockpit.wording.pieces import one_decimal

TODAY, RECITAL = date(2026, 12, 1), date(2026, 12, 19)


def heard(*hearings, line="Piece: The Old Mill q = 92") -> PieceTime:
    return PieceTime(lines=tuple(given_line(on, line, None, tempo) for on, tempo in hearings))


OLD_MILL = heard(("11-03", 60), ("11-10", 66), ("11-17", 72), ("11-24", 72))


def test_the_pace_so_far_and_the_pace_needed():  # computed by hand
    progress = tempo_progress(OLD_MILL, TODAY, RECITAL)
    assert (progress.first.quarters, progress.last.quarters, progress.goal) == (60, 72, 92)
    assert (progress.so_far.beats, progress.so_far.marks) == (4, Fraction(4, 3))
    assert (progress.needed.beats, progress.needed.marks) == (Fraction(70, 9), Fraction(35, 18))
    assert [one_decimal(pace) for pace in (progress.so_far.beats, progress.so_far.marks)] == ["4.0", "1.3"]
    assert [one_decimal(pace) for pace in (progress.needed.beats, progress.needed.marks)] == ["7.8", "1.9"]
    assert (progress.is_past, progress.at_goal_since) == (False, None)


def test_what_was_heard_in_halves_is_told_in_quarters():
    halves = given_line("11-03", "Piece: The Old Mill h = 46", None, 30)
    quarters = given_line("11-24", "Piece: The Old Mill q = 92", None, 72)
    progress = tempo_progress(PieceTime(lines=(halves, quarters)), TODAY, RECITAL)
    assert (progress.first.quarters, progress.last.quarters, progress.so_far.beats) == (60, 72, 4)
    in_halves = tempo_progress(
        PieceTime(lines=(quarters, given_line("12-01", "Piece: Old Mill h = 46", None, 40))), TODAY
    )
    assert (in_halves.beat, in_halves.so_far.beats, in_halves.goal) == (2, 4, 92)


def test_a_pace_has_a_week_at_least():
    assert tempo_progress(heard(("11-03", 60)), TODAY).so_far is None
    assert tempo_progress(heard(("11-03", 60), ("11-09", 70)), TODAY).so_far is None
    assert tempo_progress(heard(("11-03", 60), ("11-10", 70)), TODAY).so_far.beats == 10


def test_a_tempo_that_fell_has_a_pace_below_zero():
    progress = tempo_progress(heard(("11-03", 66), ("11-10", 60)), TODAY)
    assert (progress.so_far.beats, progress.so_far.marks) == (-6, -2)


def test_at_the_goal_it_needs_nothing_and_says_since_when():
    progress = tempo_progress(heard(("11-03", 92), ("11-10", 88), ("11-17", 92), ("11-24", 96)), TODAY, RECITAL)
    assert (progress.at_goal_since, progress.needed) == (date(2026, 11, 17), None)
    assert tempo_progress(heard(("11-24", 92)), TODAY).at_goal_since == date(2026, 11, 24)


def test_a_goal_that_was_lowered_later_counts():
    lines = (*heard(("11-03", 60), ("11-10", 72)).lines, given_line("11-17", "Piece: Old Mill q = 72"))
    assert tempo_progress(PieceTime(lines=lines), TODAY, RECITAL).at_goal_since == date(2026, 11, 10)


def test_nothing_is_needed_without_a_goal_a_hearing_or_a_date_to_come():
    never = PieceTime(lines=(given_line("11-03", "Piece: The Old Mill q = 92"),))
    assert tempo_progress(never, TODAY, RECITAL).needed is None
    assert tempo_progress(heard(("11-03", 60), line="Piece: The Old Mill"), TODAY, RECITAL).needed is None
    assert tempo_progress(OLD_MILL, TODAY).needed is None
    on_the_day, after = (tempo_progress(OLD_MILL, RECITAL + timedelta(days=day), RECITAL) for day in (0, 1))
    assert [(each.needed, each.is_past) for each in (on_the_day, after)] == [(None, False), (None, True)]


def test_measures_are_counted_once_and_told_a_week():  # computed by hand
    lines = ["Piece: The Old Mill mm. 1-16", "Piece: The Old Mill mm. 9-32", "Piece: The Old Mill mm. 17-40"]
    time = PieceTime(
        lines=tuple(given_line(on, line) for on, line in zip(("11-03", "11-10", "11-24"), lines, strict=True))
    )
    progress = measures_progress(time, 96, TODAY, RECITAL)
    assert (progress.covered, progress.so_far, progress.needed) == (40, 10, Fraction(196, 9))
    assert one_decimal(progress.needed) == "21.8"


def test_measures_beyond_the_end_do_not_count_and_the_end_may_be_open():
    def covered(line, count):
        return measures_progress(PieceTime(lines=(given_line("11-03", line),)), count, TODAY).covered

    assert covered("Piece: The Old Mill mm. 81-120", 96) == 16
    assert covered("Piece: The Old Mill m. 81 to end", 96) in {1, 16}
    assert covered("Piece: The Old Mill", 96) == 0


def test_measures_have_no_pace_in_the_first_week_and_none_is_needed_after_the_date():
    time = PieceTime(lines=(given_line("11-24", "Piece: The Old Mill mm. 1-96"),))
    early = measures_progress(time, 96, date(2026, 11, 30), RECITAL)
    assert (early.so_far, early.needed) == (None, 0)
    assert measures_progress(time, 96, TODAY, TODAY).needed is None


@given(st.lists(st.integers(20, 240), min_size=2, max_size=8), st.integers(20, 240))
def test_the_pace_needed_leads_from_the_last_tempo_to_the_goal(tempos, goal):
    line = f"Piece: The Old Mill q = {goal}"
    time = heard(*((f"{10 + n // 4:02d}-{1 + 7 * (n % 4):02d}", each) for n, each in enumerate(tempos)), line=line)
    progress = tempo_progress(time, TODAY, RECITAL)
    if tempos[-1] >= goal:
        assert progress.needed is None
        assert progress.at_goal_since is not None
    else:
        assert tempos[-1] + progress.needed.beats * Fraction(18, 7) == goal
        assert progress.needed.marks >= 0
