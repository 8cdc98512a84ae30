"""How a piece comes along: the pace so far, and the pace that is needed. Numbers of what was heard, no forecast.

How much is practiced and at which tempos does not tell how it will be played (Duke, Simmons, Cash, Journal of Research in
Music Education, 2009; Henley, the same, 2001), so nothing is promised by them.
"""

from collections.abc import Iterable
from datetime import date
from fractions import Fraction

from cockpit.studio.assignments.assignment import Measures
from cockpit.studio.pieces.history import PieceHearing, PieceTime
from cockpit.studio.practice.metronome import MARKS
from cockpit.studio.values import Value

_WEEK = 7


class Pace(Value):
    """How much a tempo rises in a week, in beats a minute and in marks of a metronome; below zero it falls."""

    beats: Fraction
    marks: Fraction


class PieceProgress(Value):
    """How the tempo of a piece comes along by a date, told in its own `beat` (in quarters).

    `first` and `last` are the hearings of this time, and `goal` is in quarters a minute. `at_goal_since` is when it was heard
    at the goal and was not below it since. `needed` is the pace to the goal up to `by_on`; there is none at the goal, on
    that day, and after it.
    """

    beat: Fraction
    first: PieceHearing | None = None
    last: PieceHearing | None = None
    goal: Fraction | None = None
    so_far: Pace | None = None
    at_goal_since: date | None = None
    by_on: date | None = None
    is_past: bool = False
    needed: Pace | None = None


class MeasuresProgress(Value):
    """How many measures of a piece were given, of all that it has, and how many a week: so far, and needed up to the date."""

    covered: int
    all: int
    so_far: Fraction | None = None
    needed: Fraction | None = None


def tempo_progress(time: PieceTime, on: date, by_on: date | None = None) -> PieceProgress:
    """How the tempo of a piece comes along by a date of the teacher's clock, and what is needed up to another one."""
    hearings, goal, beat = time.hearings, time.goal, time.beat
    last = hearings[-1] if hearings else None
    since = _at_goal_since(hearings, goal)
    days_left = (by_on - on).days if by_on is not None else 0
    needed = None
    if goal is not None and last is not None and since is None and days_left > 0:
        needed = _pace(last.quarters / beat, goal / beat, days_left)
    return PieceProgress(
        beat=beat,
        first=hearings[0] if hearings else None,
        last=last,
        goal=goal,
        so_far=_so_far(hearings, beat),
        at_goal_since=since,
        by_on=by_on,
        is_past=days_left < 0,
        needed=needed,
    )


def measures_progress(time: PieceTime, count: int, on: date, by_on: date | None = None) -> MeasuresProgress:
    """How many of a piece's measures were given by a date of the teacher's clock; `count` are all that it has."""
    covered = len(_covered(time.measures, count))
    days, days_left = (on - time.since).days, (by_on - on).days if by_on is not None else 0
    return MeasuresProgress(
        covered=covered,
        all=count,
        so_far=Fraction(covered * _WEEK, days) if days >= _WEEK else None,
        needed=Fraction((count - covered) * _WEEK, days_left) if days_left > 0 else None,
    )


def _covered(given: Iterable[Measures], count: int) -> set[int]:
    """The numbers of the measures that were given; those up to the end go up to the last."""
    return {
        number for measures in given for number in range(max(1, measures.first), min(count, measures.last or count) + 1)
    }


def _so_far(hearings: tuple[PieceHearing, ...], beat: Fraction) -> Pace | None:
    """The pace from the first hearing to the last, which is at least a week later."""
    if not hearings or (days := (hearings[-1].on - hearings[0].on).days) < _WEEK:
        return None
    return _pace(hearings[0].quarters / beat, hearings[-1].quarters / beat, days)


def _pace(first: Fraction, last: Fraction, days: int) -> Pace:
    low, high = sorted((first, last))
    risen, fallen = (sum(low < mark <= high for mark in MARKS), sum(low <= mark < high for mark in MARKS))
    marks = risen if first <= last else -fallen
    return Pace(beats=(last - first) * _WEEK / days, marks=Fraction(marks * _WEEK, days))


def _at_goal_since(hearings: tuple[PieceHearing, ...], goal: Fraction | None) -> date | None:
    since = None
    for each in reversed(hearings if goal is not None else ()):
        if goal is None or each.quarters < goal:
            break
        since = each.on
    return since
