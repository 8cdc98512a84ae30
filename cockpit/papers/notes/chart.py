"""A week's practice as a chart, in words: rows are assignments, columns are days, and a cell is what a day asks."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from fractions import Fraction
from functools import lru_cache, partial

from cockpit.papers.notes.names import name_and_how, turn_names
from cockpit.papers.notes.plan import ranges_words, tempo_words
from cockpit.papers.notes.sentences import assignment_name, beginning
from cockpit.papers.notes.theory import answers
from cockpit.papers.words.dates import chart_day, weekday_and_day
from cockpit.papers.words.phrases import Phrases
from cockpit.studio.assignments.assignment import Assignment, Measures, Part, Tempo
from cockpit.studio.assignments.reading import read_assignment
from cockpit.studio.practice.notes import PracticeNotes
from cockpit.studio.practice.sheet import ChartCell, ChartDay, ChartRow, PracticeChart
from cockpit.studio.practice.week import DayPlan, PlanItem, WeekPlan
from cockpit.studio.values import replace

# Signs that every system has a font for; any other note is called by its name.
_SIGNS = {
    Fraction(1): ("♩", "quarter"),
    Fraction(1, 2): ("♪", "eighth"),
    Fraction(3, 2): ("♩.", "dotted_quarter"),
    Fraction(3, 4): ("♪.", "dotted_eighth"),
}
_MOST_TURNS = 4  # more of them have no room in a cell


@lru_cache(maxsize=2)  # a sheet goes out in four forms, each with the same chart; that of a singer has its own phrases
def chart_of(paper: PracticeNotes, phrases: Phrases) -> PracticeChart | None:
    """The chart of some practice notes; None where their plan is none."""
    if paper.charted is None:
        return None
    lines = paper.notes.assignments
    chart = practice_chart(paper.charted, [read_assignment(line) for line in lines], phrases)
    told = [answers(line.text, phrases, paper.theory) for line in lines]
    rows = (replace(row, answers=each) for row, each in zip(chart.rows, told, strict=True))
    return replace(chart, rows=tuple(rows)) if any(told) else chart


def practice_chart(plan: WeekPlan, assignments: Sequence[Assignment], phrases: Phrases) -> PracticeChart:
    """The chart of a plan that was made of some assignments; rest days have no column, every assignment has a row."""
    practice = [day for day in plan.days if day.items]
    names = turn_names([item.assignment for day in practice for item in day.items], phrases)
    of_days = [_by_place(day, assignments) for day in practice]
    rows = tuple(
        _row(assignment, [items.get(place) for items in of_days], names, phrases)
        for place, assignment in enumerate(assignments)
    )
    return PracticeChart(
        heading=phrases.say("chart.heading"),
        minutes=phrases.say("chart.minutes"),
        days=tuple(_days(practice, plan.days[0].on.weekday(), phrases)),
        rows=rows,
        legend=tuple(_legend(plan, phrases)),
    )


def _by_place(day: DayPlan, assignments: Sequence[Assignment]) -> Mapping[int, PlanItem]:
    """The items of a day by the place of their assignment; one that is typed twice has two."""
    left = list(day.items)
    found: dict[int, PlanItem] = {}
    for place, assignment in enumerate(assignments):
        if left and left[0].assignment == assignment:
            found[place] = left.pop(0)
    return found


def _days(practice: Sequence[DayPlan], first_weekday: int, phrases: Phrases) -> Iterator[ChartDay]:
    before = None
    for day in practice:
        weekday, date = chart_day(day.on, phrases, has_month=before is None or before.on.month != day.on.month)
        known = day.minutes if all(item.minutes is not None for item in day.items) else 0
        yield ChartDay(
            number=day.on.day,
            weekday=weekday,
            date=date,
            whole=beginning(weekday_and_day(day.on, phrases, has_month=True, is_listed=False)),
            minutes=str(known or ""),
            begins_week=before is not None and _week(day, first_weekday) != _week(before, first_weekday),
        )
        before = day


def _week(day: DayPlan, first_weekday: int) -> int:
    """The week of a day, counted from the weekday that the practice begins on; a lesson was on the one before."""
    return (day.on.toordinal() - 1 - (first_weekday - 1)) // 7


def _row(
    assignment: Assignment, items: Sequence[PlanItem | None], names: Mapping[Assignment, str], phrases: Phrases
) -> ChartRow:
    due = [item for item in items if item is not None]
    minutes = {item.minutes for item in due}
    is_alike = len(minutes) == 1 and not any(item.turns for item in due)
    is_sure = not assignment.has_other_numbers
    told = _told(assignment, due, is_sure=is_sure)
    name, how = name_and_how(assignment, told, partial(_tempo, phrases=phrases))
    others = due[0].turns_with if due else ()
    turns = phrases.say("plan.turns", names=phrases.joined([names[each] for each in others])) if others else ""
    only = minutes.pop() if is_alike else None
    return ChartRow(
        area=assignment_name(assignment, phrases),
        minutes=phrases.say("words.minutes_short", count=only) if only is not None else "",
        name=name,
        how=", ".join(filter(None, (how, turns))),
        cells=tuple(
            _cell(item, phrases, is_sure=is_sure, has_minutes=not is_alike) if item is not None else None
            for item in items
        ),
    )


def _told(assignment: Assignment, due: Sequence[PlanItem], *, is_sure: bool) -> frozenset[Part]:
    """The parts of a line that its cells and its row say as well as the line: they need not be said again beside them."""
    if not due:
        return frozenset()
    told = {Part.MINUTES, Part.DAYS}
    if due[0].turns_with:
        told.add(Part.IN_TURNS)
    if assignment.times is not None and assignment.times.is_daily:
        told.add(Part.TIMES)
    if is_sure:
        told.add(Part.MEASURES)
        last = due[-1].tempo
        if assignment.tempo is not None and last is not None and last.goal == assignment.tempo.goal:
            told.add(Part.TEMPO)
    return frozenset(told)


def _cell(item: PlanItem, phrases: Phrases, *, is_sure: bool, has_minutes: bool) -> ChartCell:
    tempo = _tempo(item.tempo, phrases) if item.tempo is not None and is_sure else ""
    again = item.again if is_sure else None
    again_tempo = _tempo(again.tempo, phrases) if again is not None and again.tempo is not None else ""
    is_other = again_tempo != tempo
    return ChartCell(
        first=ranges_words(item.measures, phrases) if is_sure else "",
        # One tempo for both sections stands below both.
        tempo=tempo if is_other or again is None else "",
        again=phrases.say("chart.again", measures=ranges_words(again.measures, phrases)) if again is not None else "",
        again_tempo=again_tempo,
        rest=tuple(_rest(item, phrases, has_minutes=has_minutes)),
    )


def _rest(item: PlanItem, phrases: Phrases, *, has_minutes: bool) -> Iterator[str]:
    times = item.assignment.times
    if times is not None and times.is_daily:
        yield phrases.times(1) if times.count == 1 else phrases.say("chart.times", count=times.count)
    if not has_minutes or item.minutes is None:
        return
    lengths = "+".join(map(str, item.turns)) if 1 < len(item.turns) <= _MOST_TURNS else str(item.minutes)
    yield phrases.say("words.minutes_short", count=lengths)


def _tempo(tempo: Tempo, phrases: Phrases) -> str:
    """A tempo with the sign of its beat, where there is one: `♩ = 72`."""
    sign = _SIGNS.get(tempo.beat)
    return tempo_words(tempo, phrases, beat=sign[0] if sign is not None else None)


def _legend(plan: WeekPlan, phrases: Phrases) -> Iterator[str]:
    """What the signs in the chart mean: each of the notes, numbers that are measures, and the plus."""
    every = [item for day in plan.days for item in day.items]
    unsure = {each for each in {item.assignment for item in every} if each.has_other_numbers}
    items = [item for item in every if item.assignment not in unsure]
    tempos = dict.fromkeys((item.tempo.beat, item.tempo.goal) for item in items if item.tempo is not None)
    said = set()
    for beat, goal in tempos:
        if beat in _SIGNS and beat not in said:
            said.add(beat)
            sign, name = _SIGNS[beat]
            yield phrases.say("chart.sign", sign=sign, beat=phrases.say(f"tempo.{name}"), tempo=goal)
    measures = _ranges(items)
    if measures is not None:
        yield phrases.say("chart.measures", measures=ranges_words([measures], phrases))
    if any(item.again is not None for item in items):
        yield phrases.say("chart.plus")


def _ranges(items: Iterable[PlanItem]) -> Measures | None:
    every = [each for item in items for each in item.measures]
    return next((each for each in every if each.last is not None and each.last > each.first), next(iter(every), None))
