"""A week's practice by day, in words: what comes every day is said once, and days that are alike stand together."""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import groupby

from cockpit.papers.plan_names import Called, names_of
from cockpit.studio.assignment import Assignment, Part
from cockpit.studio.calendar import WEEKDAYS
from cockpit.studio.plan_words import excess_words, passage_words, tempo_words, turns_words
from cockpit.studio.practice_week import DayPlan, PlanItem, WeekPlan
from cockpit.studio.words import MONTHS, minutes_of

PLAN = "Practice plan"
WHAT_IT_IS = "Sums for planning, not a promise; how to practice each one stands above."
_EVERY_DAY = "Every practice day"
_NEVER = "On no practice day of this week"
_A_RUN = 3  # from so many days in a row on they are told as "Wednesday 2 to Friday 4"


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """Some days and what they have: a heading and items, all in plain words with typed ones among them."""

    heading: str
    items: tuple[str, ...]


def plan_lead(plan: WeekPlan) -> str:
    """What the plan is, after the minutes of a day where they are the same on every practice day."""
    practice = [day for day in plan.days if day.items]
    if not practice or not _is_said_once(practice) or not (amount := _amount(practice[0])):
        return WHAT_IT_IS
    return f"{amount} each practice day{_beyond(practice[0])}. {WHAT_IT_IS}"


def plan_blocks(plan: WeekPlan) -> tuple[Block, ...]:
    """A plan by day; rest days are not in it.

    Where the days differ, what they have in common comes first, once; then each practice day, or days in a row that are
    alike, with what is theirs. What no practice day is named for comes last.
    """
    days = [day for day in plan.days if day.items]
    names = names_of([*(item.assignment for day in days for item in day.items), *plan.never_due])
    return (*_blocks(days, names), *_never(plan.never_due))


def _blocks(days: Sequence[DayPlan], names: Mapping[Assignment, Called]) -> Iterator[Block]:
    alike = [list(group) for _, group in groupby(days, key=lambda day: (day.items, _amount(day)))]
    common = _in_common(days) if len(alike) > 1 else Counter[PlanItem]()
    if common:
        yield Block(heading=_EVERY_DAY, items=_words(_only(days[0].items, common), names))
    is_said_once = _is_said_once(days)
    for group in alike:
        first = group[0]
        whole = "in all" if len(group) == 1 else "each day"
        minutes = "" if is_said_once or not (amount := _amount(first)) else f", {amount} {whole}{_beyond(first)}"
        items = _words(_without(first.items, common), names)
        yield Block(heading=f"{days_words([day.on for day in group])}{minutes}", items=items)


def _in_common(days: Sequence[DayPlan]) -> Counter[PlanItem]:
    common = Counter(days[0].items) if days else Counter()
    for day in days[1:]:
        common &= Counter(day.items)
    return common


def _only(items: Iterable[PlanItem], wanted: Counter[PlanItem]) -> Iterator[PlanItem]:
    left = wanted.copy()
    for item in items:
        if left[item]:
            left[item] -= 1
            yield item


def _without(items: Iterable[PlanItem], taken: Counter[PlanItem]) -> Iterator[PlanItem]:
    left = taken.copy()
    for item in items:
        if left[item]:
            left[item] -= 1
        else:
            yield item


def _never(assignments: Sequence[Assignment]) -> Iterator[Block]:
    if assignments:
        yield Block(heading=_NEVER, items=tuple(f"{each.area.capitalize()}: {each.text}" for each in assignments))


def _is_said_once(days: Sequence[DayPlan]) -> bool:
    return len({(_amount(day), _beyond(day)) for day in days}) == 1


def _amount(day: DayPlan) -> str:
    """The minutes of a day; nothing where an item has none of its own and nobody said how many a day has."""
    if day.spare:
        return f"{day.minutes} of the daily {minutes_of(day.minutes + day.spare)}"
    is_shared = any(item.minutes is not None and item.assignment.minutes is None for item in day.items)
    is_whole = day.exceeds_by or is_shared or all(item.minutes is not None for item in day.items)
    return minutes_of(day.minutes) if is_whole else ""


def _beyond(day: DayPlan) -> str:
    excess = excess_words(day)
    return f", {excess}" if excess is not None else ""


def days_words(days: Sequence[date]) -> str:
    """Days in order: `Wednesday 2 to Saturday 5 December`, `Monday 30 November, Wednesday 2 and Friday 4 December`."""
    spans = list(_spans(days))
    words: list[str] = []
    for place, (first, last) in enumerate(spans):
        after = spans[place + 1][0] if place + 1 < len(spans) else None
        end = _day(last, has_month=after is None or after.month != last.month)
        words.append(end if first == last else f"{_day(first, has_month=first.month != last.month)} to {end}")
    *before, final = words
    return f"{', '.join(before)} and {final}" if before else final


def _spans(days: Sequence[date]) -> Iterator[tuple[date, date]]:
    for _, numbered in groupby(enumerate(days), key=lambda each: each[1] - timedelta(days=each[0])):
        run = [on for _, on in numbered]
        if len(run) >= _A_RUN:
            yield run[0], run[-1]
        else:
            yield from ((on, on) for on in run)


def _day(on: date, *, has_month: bool) -> str:
    return f"{WEEKDAYS[on.weekday()]} {on.day}{f' {MONTHS[on.month - 1]}' if has_month else ''}"


def _words(items: Iterable[PlanItem], names: Mapping[Assignment, Called]) -> tuple[str, ...]:
    return tuple(_item(item, names[item.assignment]) for item in items)


def _item(item: PlanItem, called: Called) -> str:
    """An item of a day: `Piece: Bourrée, measures 1–8, quarter = 76, 5 min, about three times through`."""
    told = ", ".join(filter(None, [called.words, *_told(item, called)]))
    label = item.assignment.area.capitalize()
    return f"{label}: {told}" if told else label


def _told(item: PlanItem, called: Called) -> Iterator[str | None]:
    """What the plan tells of the day beside the name, and does not stand in the name already."""
    asked, says, is_all = item.assignment, called.says, not called.has_other_numbers
    if is_all and (Part.MEASURES not in says or item.measures != asked.measures):
        yield passage_words(item.measures)
    if item.tempo is not None and (item.tempo != asked.tempo or (is_all and Part.TEMPO not in says)):
        yield tempo_words(item.tempo)
    if item.minutes is not None and (Part.MINUTES not in says or item.minutes != asked.minutes):
        yield f"{item.minutes} min"
    yield item.through if is_all else None
    yield turns_words(item)
