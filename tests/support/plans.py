"""Assignments and weeks for plans of practice, with defaults to vary.

Unless told otherwise the lesson was on Tuesday 1 December 2026 and the next is a week later, so that the week has six
practice days, Wednesday 2 to Monday 7 December.
"""

from datetime import date
from fractions import Fraction
from typing import Any

from hypothesis import strategies as st

from cockpit.studio.assignments.assignment import Assignment, Measures, Tempo, Times
from cockpit.studio.notes.notes import Area
from cockpit.studio.practice.plan import week_between
from cockpit.studio.practice.rules import EVERY_DAY, PlanRules
from cockpit.studio.practice.week import PracticeWeek

LESSON_ON, NEXT_ON = date(2026, 12, 1), date(2026, 12, 8)
MONDAY, TUESDAY, WEDNESDAY, THURSDAY, FRIDAY, SATURDAY, SUNDAY = range(7)


def assigned(text: str = "Gavotte", area: Area = Area.PIECE, **values: Any) -> Assignment:
    """An assignment, a piece unless told otherwise."""
    return Assignment(**{"area": area, "text": text, "typed": f"{area.value.capitalize()}: {text}"} | values)


def mm(first: int, last: int | None) -> Measures:
    """Measures `first` to `last`."""
    return Measures(first=first, last=last)


def quarter(goal: int, start: int | None = None, **values: Any) -> Tempo:
    """A tempo in quarters."""
    return Tempo(beat=Fraction(1), goal=goal, start=start, **values)


def week(
    daily: int | None = None, weekdays: frozenset[int] = EVERY_DAY, next_on: date | None = NEXT_ON
) -> PracticeWeek:
    """The six days until the next lesson, or what is said of them."""
    return week_between(LESSON_ON, next_on, weekdays, daily)


BEYOND = 999  # a measure after all that are drawn
WEEKDAY_SETS = st.frozensets(st.integers(0, 6))
MEASURES = st.tuples(st.integers(1, 300), st.integers(0, 150), st.booleans()).map(
    lambda drawn: mm(drawn[0], None if drawn[2] and drawn[1] > 140 else drawn[0] + drawn[1])
)
TEMPOS = st.builds(
    Tempo,
    beat=st.sampled_from([Fraction(1), Fraction(2), Fraction(3, 2), Fraction(1, 2)]),
    goal=st.integers(20, 260),
    start=st.none() | st.integers(20, 260),
    is_about=st.booleans(),
    is_ceiling=st.booleans(),
)
ASSIGNMENTS = st.builds(
    Assignment,
    area=st.sampled_from(Area),
    text=st.sampled_from(["Gavotte", "Minuet in 3/4", "D major", "no. 5"]),
    typed=st.sampled_from(["Piece: a", "Piece: b", "Review: c"]),
    measures=st.lists(MEASURES, max_size=3).map(tuple),
    tempo=st.none() | TEMPOS,
    times=st.none() | st.builds(Times, count=st.integers(1, 5), is_daily=st.booleans()),
    minutes=st.none() | st.integers(1, 30),
    days=st.none() | WEEKDAY_SETS,
    in_turns=st.booleans(),
)
LINES = st.lists(ASSIGNMENTS, max_size=8).map(tuple)
WEEKS = st.builds(
    lambda length, weekdays, daily: week(daily, weekdays, date.fromordinal(LESSON_ON.toordinal() + length)),
    st.integers(1, 15),
    st.just(EVERY_DAY) | WEEKDAY_SETS,
    st.none() | st.integers(0, 120),
)
RULES = st.builds(
    PlanRules,
    weights=st.dictionaries(st.sampled_from(Area), st.integers(0, 12)),
    largest_step=st.integers(1, 5),
    longest_passage=st.integers(4, 32),
    span_measures=st.integers(1, 16),
    overlap=st.integers(0, 3),
    turn_minutes=st.integers(1, 6),
    review_gaps=st.lists(st.integers(1, 5), max_size=5).map(tuple),
)
HEARD = st.dictionaries(st.sampled_from(["Piece: a", "Piece: b", "Review: c"]), st.integers(20, 260))
