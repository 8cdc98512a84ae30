"""What a day of a practice plan says of an assignment, in words."""

from collections.abc import Mapping, Sequence
from fractions import Fraction

from cockpit.papers.words.phrases import Phrases
from cockpit.studio.assignments.assignment import Assignment, Measures, Tempo
from cockpit.studio.practice.week import DayPlan, PlanItem, Through

_BEATS = {
    Fraction(4): "whole",
    Fraction(2): "half",
    Fraction(1): "quarter",
    Fraction(1, 2): "eighth",
    Fraction(1, 4): "sixteenth",
}
_NAMES = _BEATS | {value * Fraction(3, 2): f"dotted_{name}" for value, name in _BEATS.items()}


def passage_words(passage: Sequence[Measures], phrases: Phrases) -> str:
    """Ranges of measures: `measure 5`, `measures 17–24, 30–32`, `measures 32 to the end`; empty where there are none."""
    if not passage:
        return ""
    only = passage[0]
    noun = "plan.measure" if len(passage) == 1 and only.first == only.last else "plan.measures"
    return phrases.say(noun, measures=", ".join(_range(each, phrases) for each in passage))


def _range(measures: Measures, phrases: Phrases) -> str:
    if measures.last is None:
        return phrases.say("plan.to_the_end", first=measures.first)
    return str(measures.first) if measures.first == measures.last else f"{measures.first}–{measures.last}"


def tempo_words(tempo: Tempo, phrases: Phrases) -> str:
    """A tempo by the name of its beat: `quarter = 72`, `dotted quarter = 60`, `up to quarter = 96`, `quarter = 72 to 88`."""
    name = _NAMES.get(tempo.beat)
    beat = phrases.say(f"tempo.{name}") if name is not None else phrases.say("tempo.quarters", count=tempo.beat)
    is_range = tempo.start is not None
    said = phrases.say("tempo.range", first=tempo.start, last=tempo.goal) if is_range else str(tempo.goal)
    if tempo.is_about:
        said = phrases.say("tempo.about", tempo=said)
    said = phrases.say("tempo.beat", beat=beat, tempo=said)
    return phrases.say("tempo.up_to", tempo=said) if tempo.is_ceiling and not is_range else said


def through_words(through: Through, phrases: Phrases) -> str:
    """How often measures fit into some minutes, `about five times through`; where 4/4 was assumed, it says so: `(in 4/4)`.

    It is "about" because pauses and second thoughts are not counted.
    """
    said = (
        phrases.say("plan.through", times=phrases.times(through.times))
        if through.times
        else phrases.say("plan.less_than_once")
    )
    return phrases.say("plan.in_common_time", through=said) if through.is_meter_assumed else said


def turns_words(item: PlanItem, names: Mapping[Assignment, str], phrases: Phrases) -> str | None:
    """How an item is practiced in turns: `in turns with Minuet: 3 + 3 + 3 + 3 minutes`; None where it is not.

    `names` are those of the others.
    """
    if not item.turns_with:
        return None
    others = phrases.joined([names[other] for other in item.turns_with])
    if not item.turns:
        return phrases.say("plan.turns", names=others)
    lengths = " + ".join(str(turn) for turn in item.turns)
    is_one = len(item.turns) == 1
    minutes = phrases.minutes(item.turns[0]) if is_one else phrases.say("words.minutes_other", count=lengths)
    return phrases.say("plan.turns_of", names=others, minutes=minutes)


def excess_words(day: DayPlan, phrases: Phrases) -> str | None:
    """By how much a day's typed minutes exceed the daily ones: `5 minutes more than the daily 30`; None if they do not."""
    if not day.exceeds_by:
        return None
    more, daily = phrases.minutes(day.exceeds_by), day.minutes - day.exceeds_by
    return phrases.say("plan.more_than_daily", minutes=more, daily=daily)
