"""What a day of a practice plan says of an assignment, in words."""

from collections.abc import Sequence
from fractions import Fraction

from cockpit.studio.assignment import Assignment, Measures, Tempo
from cockpit.studio.practice_week import DayPlan, PlanItem
from cockpit.studio.words import minutes_of

_BEATS = {
    Fraction(4): "whole",
    Fraction(2): "half",
    Fraction(1): "quarter",
    Fraction(1, 2): "eighth",
    Fraction(1, 4): "sixteenth",
}
_DOTTED = {value * Fraction(3, 2): f"dotted {name}" for value, name in _BEATS.items()}
_LONGEST_NAME = 40


def passage_words(passage: Sequence[Measures]) -> str:
    """Ranges of measures: `measure 5`, `measures 17–24, 30–32`, `measures 32 to the end`; empty where there are none."""
    if not passage:
        return ""
    only = passage[0]
    noun = "measure" if len(passage) == 1 and only.first == only.last else "measures"
    return f"{noun} {', '.join(_range(each) for each in passage)}"


def _range(measures: Measures) -> str:
    if measures.last is None:
        return f"{measures.first} to the end"
    return str(measures.first) if measures.first == measures.last else f"{measures.first}–{measures.last}"


def tempo_words(tempo: Tempo) -> str:
    """A tempo by the name of its beat: `quarter = 72`, `dotted quarter = 60`, `up to quarter = 96`, `quarter = 72 to 88`."""
    beat = _BEATS.get(tempo.beat) or _DOTTED.get(tempo.beat) or f"{tempo.beat} quarters"
    about = "about " if tempo.is_about else ""
    start = f"{tempo.start} to " if tempo.start is not None else ""
    return f"{'up to ' if tempo.is_ceiling and not start else ''}{beat} = {about}{start}{tempo.goal}"


def turns_words(item: PlanItem) -> str | None:
    """How an item is practiced in turns: `in turns with Minuet: 3 + 3 + 3 + 3 minutes`; None where it is not."""
    if not item.turns_with:
        return None
    names = " and ".join(_name(other) for other in item.turns_with)
    if not item.turns:
        return f"in turns with {names}"
    minutes = (
        f"{' + '.join(str(turn) for turn in item.turns)} minutes" if len(item.turns) > 1 else minutes_of(item.turns[0])
    )
    return f"in turns with {names}: {minutes}"


def excess_words(day: DayPlan) -> str | None:
    """By how much a day's typed minutes exceed the daily ones: `5 minutes more than the daily 30`; None if they do not."""
    if not day.exceeds_by:
        return None
    return f"{minutes_of(day.exceeds_by)} more than the daily {day.minutes - day.exceeds_by}"


def _name(assignment: Assignment) -> str:
    """What an assignment is called: its title, its words where they are few, or else its area."""
    return assignment.title or (assignment.text if 0 < len(assignment.text) <= _LONGEST_NAME else assignment.area.value)
