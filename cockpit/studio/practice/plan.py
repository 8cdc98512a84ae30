"""A week's practice by day, made from the assignments of a lesson.

It is arithmetic for planning: sums, shares, cuts and ladders. The same notes always give the same plan. Nothing here
knows how anyone learns, and nothing promises more than that the numbers are right.

Sections of a long passage are laid out by a rule of planning. Two studies point the way, and neither tried this rule.
Simmons (Journal of Research in Music Education 59(4), 2012): 29 musicians learned nine notes on a keyboard in three
sessions; in the second, only those who came back after 24 hours were more accurate than before. So a section comes back
on the day after. Stambaugh (the same journal, 58(4), 2011): 41 beginners on the clarinet played three exercises in mixed
order or each in a block; after the practice there was no difference, and a day later the mixed ones were faster, not more
accurate. So the section that comes back is beside a new one. Neither is to be read as more: Wiseheart, D'Souza and Chae
(PLOS ONE 12(8), 2017, e0182986) found no effect of pauses of up to 15 minutes on how beginners kept 17 notes for five
minutes. How many sections, which tempos, and when they are joined: common practice, no source. Only the summaries of
these three papers were read.

Turns are laid out as by Carter and Grahn (Frontiers in Psychology 7:1251, 2016), who had ten clarinetists play turns of 3
minutes up to 12 minutes for each piece. They rated it better where ratings differed; a study of 19 beginners found no
main effect of the order. It is made because a teacher asks for it. Review pieces come round by a rule of widening gaps,
which is our own: widening gaps are a choice and not proven better than equal ones, for both led to the same recall in the
end (Kang, Lindsey, Mozer and Pashler, Psychonomic Bulletin & Review, 2014, on facts, not on playing).
"""

from collections.abc import Iterator, Mapping, Sequence
from datetime import date, timedelta
from functools import partial
from itertools import chain
from types import MappingProxyType

from cockpit.studio.assignments.assignment import Assignment, Tempo
from cockpit.studio.notes.notes import Area
from cockpit.studio.practice.metronome import ladder
from cockpit.studio.practice.passages import Passage, counted_measures, meter_in, sections, times_through
from cockpit.studio.practice.rules import EVERY_DAY, PlanRules
from cockpit.studio.practice.week import (
    DayPlan,
    OutOfReach,
    PlanItem,
    PracticeWeek,
    Returning,
    Through,
    Turn,
    WeekPlan,
)
from cockpit.studio.values import replace

_DAY = timedelta(days=1)
_WITHOUT_NEXT = timedelta(days=6)
_LONGEST = timedelta(days=27)
_NOTHING: Mapping[str, int] = MappingProxyType({})
_MOST_TIMES = 12  # "about 38 times through" tells nobody anything; our own choice
_MOST_MEASURES = 9999  # more than any piece has: a slip of the finger, which is not cut into a million spans
_MOST_ROUNDS = 40  # two hours of turns of three minutes: more is a slip of the finger


def week_between(
    lesson_on: date,
    next_on: date | None,
    weekdays: frozenset[int] = EVERY_DAY,
    daily_minutes: int | None = None,
) -> PracticeWeek:
    """The days between two lessons, without either lesson's day; none where the next one is on the day after.

    Without a next lesson they are the six days after this one; before a long break they are the first 27.
    """
    last = next_on - _DAY if next_on is not None else lesson_on + _WITHOUT_NEXT
    return PracticeWeek(
        first=lesson_on + _DAY,
        last=min(last, lesson_on + _LONGEST),
        weekdays=weekdays,
        daily_minutes=daily_minutes,
    )


def week_plan(
    assignments: Sequence[Assignment],
    week: PracticeWeek,
    rules: PlanRules,
    heard: Mapping[str, int] = _NOTHING,
    passed: Mapping[str, int] = _NOTHING,
) -> WeekPlan:
    """The plan of a week.

    `heard` are the tempos heard, in beats a minute, and `passed` the practice days since a review piece was first asked
    for, both by the assignment's line as typed; what is not in them was not heard, or is new.

    - An assignment with days of its own comes on those of them that are practice days, a review piece when its turn
      comes round, any other on every practice day. Rest days stay empty, also where a line names one: what is left
      without a day is told in `never_due`.
    - Typed minutes are kept. What they leave of the daily minutes is shared among the day's others by weight.
    - A long passage is cut into sections over the assignment's own days, where it is sure to be all of its measures. Each
      has a course of its own: it begins at the start, comes back a step faster on the next day beside the new one, and
      the last days join them, as fast as the section that came last.
    - A tempo climbs over an assignment's own days from the tempo heard, or else from the one typed, to its goal; with
      neither it is the same every day, as it was typed.
    """
    practice = tuple(on for on in week.days if on.weekday() in week.weekdays)
    due = tuple(_due_days(assignments, practice, rules, passed))
    courses = [
        dict(zip(days, _course(assignment, len(days), rules, heard.get(assignment.typed)), strict=True))
        for assignment, days in zip(assignments, due, strict=True)
    ]
    return WeekPlan(
        days=tuple(
            _day(on, [course[on] for course in courses if on in course], week.daily_minutes, rules)
            if on in practice
            else DayPlan(on=on)
            for on in week.days
        ),
        daily_minutes=week.daily_minutes,
        never_due=tuple(assignment for assignment, days in zip(assignments, due, strict=True) if not days),
        out_of_reach=tuple(filter(None, map(_out_of_reach, courses))),
    )


def _out_of_reach(course: Mapping[date, PlanItem]) -> OutOfReach | None:
    if not course:
        return None
    last_on = max(course)
    item = course[last_on]
    asked = item.assignment.tempo
    if asked is None or item.tempo is None or item.tempo.goal >= asked.goal:
        return None
    return OutOfReach(assignment=item.assignment, reached=item.tempo.goal, goal=asked.goal, last_on=last_on)


def _due_days(
    assignments: Sequence[Assignment], practice: Sequence[date], rules: PlanRules, passed: Mapping[str, int]
) -> Iterator[tuple[date, ...]]:
    reviews = 0
    for assignment in assignments:
        if _comes_round(assignment):
            before = passed.get(assignment.typed, 0)
            yield tuple(practice[day] for day in review_days(len(practice), reviews, rules.review_gaps, before))
            reviews += 1
        else:
            yield tuple(on for on in practice if assignment.is_due_on(on.weekday()))


def _comes_round(assignment: Assignment) -> bool:
    is_daily = assignment.times is not None and assignment.times.is_daily
    return assignment.area is Area.REVIEW and assignment.days is None and not is_daily


def _course(assignment: Assignment, days: int, rules: PlanRules, heard: int | None) -> list[PlanItem]:
    """An assignment over the days on which it is due, without the minutes that are shared."""
    parts = _sections(assignment, days, rules)
    joined = days - len(parts)
    rungs = _tempos(assignment.tempo, max(2, joined + 1) if parts else days, heard, rules.largest_step)
    item = partial(PlanItem, assignment=assignment, minutes=assignment.minutes)
    apart = [
        item(
            measures=part,
            tempo=rungs[0],
            again=Returning(measures=parts[number - 1], tempo=rungs[1]) if number else None,
        )
        for number, part in enumerate(parts)
    ]
    whole = rungs[1 : joined + 1] if parts else rungs
    return [*apart, *(item(measures=assignment.measures, tempo=tempo) for tempo in whole)]


def _sections(assignment: Assignment, days: int, rules: PlanRules) -> Sequence[Passage]:
    """The sections that the passage of an assignment is cut into; none where it stays whole.

    At least a third of three or more days is left to join them.
    """
    passage = assignment.measures
    known = sum(each.count or 0 for each in passage)
    if not rules.longest_passage < known <= _MOST_MEASURES or assignment.has_other_numbers:
        return ()
    most = days - max(1, days // 3) if days > 2 else days
    parts = sections(passage, rules.span_measures, rules.overlap, most) if most > 1 else ()
    return parts if len(parts) > 1 else ()


def _tempos(tempo: Tempo | None, days: int, heard: int | None, largest_step: int) -> Sequence[Tempo | None]:
    start = heard if heard is not None or tempo is None else tempo.start
    if tempo is None or start is None:
        return [tempo] * days
    return [_climbing(tempo, now) for now in ladder(start, tempo.goal, days, largest_step)]


def _climbing(tempo: Tempo, now: int) -> Tempo:
    if now == tempo.goal:
        return replace(tempo, start=None)
    return Tempo(beat=tempo.beat, goal=now)


def _day(on: date, items: Sequence[PlanItem], daily: int | None, rules: PlanRules) -> DayPlan:
    typed = sum(item.minutes or 0 for item in items)
    left = daily - typed if daily is not None else 0
    timed = _in_turns(_timed(items, left, rules), rules.turn_minutes)
    is_shared = any(item.minutes is None for item in items)
    return DayPlan(
        on=on,
        items=tuple(replace(item, through=_through(item)) for item in timed),
        exceeds_by=max(0, -left),
        spare=0 if is_shared else max(0, left),
        turns=_turns(timed),
    )


def _timed(items: Sequence[PlanItem], left: int, rules: PlanRules) -> list[PlanItem]:
    """The items, those without typed minutes with their share of what is left, where it comes to a minute."""
    areas = [item.assignment.area for item in items if item.minutes is None]
    shared = iter(shares(left, [rules.weights.get(area, 1) for area in areas]))
    return [item if item.minutes is not None else replace(item, minutes=next(shared) or None) for item in items]


def _in_turns(items: Sequence[PlanItem], longest: int) -> list[PlanItem]:
    """The items, those that are asked for in turns with each other's names and, where all have minutes, their turns."""
    together = [each for each, item in enumerate(items) if item.assignment.in_turns]
    if len(together) < 2:
        return list(items)
    minutes = [items[each].minutes or 0 for each in together]
    lengths = turn_lengths(minutes, longest) if min(minutes) else ((),) * len(together)
    taking = dict(zip(together, lengths, strict=True))
    return [
        item
        if each not in taking
        else replace(
            item,
            turns=taking[each],
            turns_with=tuple(items[other].assignment for other in together if other != each),
        )
        for each, item in enumerate(items)
    ]


def _turns(items: Sequence[PlanItem]) -> tuple[Turn, ...]:
    taking = [item for item in items if item.turns]
    order = interleaved([item.turns for item in taking])
    return tuple(Turn(assignment=taking[each].assignment, minutes=minutes) for each, minutes in order)


def _through(item: PlanItem) -> Through | None:
    count = counted_measures(item.measures)
    if count is None or item.minutes is None or item.tempo is None or item.again is not None:
        return None
    meter = meter_in(item.assignment.text)
    times = times_through(item.minutes, count, item.tempo, meter)
    return Through(times=times, is_meter_assumed=meter is None) if times is not None and times <= _MOST_TIMES else None


def shares(total: int, weights: Sequence[int]) -> tuple[int, ...]:
    """What each weight gets of a total, in whole numbers that add up to it: by the method of largest remainders.

    Of equal remainders the earlier one is rounded up. Where all weights are 0, everyone weighs the same. A total below
    0 shares nothing.
    """
    if not weights or total <= 0:
        return (0,) * len(weights)
    counted = list(weights) if sum(weights) else [1] * len(weights)
    exact = [divmod(total * weight, sum(counted)) for weight in counted]
    by_remainder = sorted(range(len(exact)), key=lambda each: (-exact[each][1], each))
    rounded_up = frozenset(by_remainder[: total - sum(whole for whole, _ in exact)])
    return tuple(whole + (each in rounded_up) for each, (whole, _) in enumerate(exact))


def turn_lengths(minutes: Sequence[int], longest: int) -> tuple[tuple[int, ...], ...]:
    """The turns of each piece, in minutes: as many for one as for the other, so that no piece follows itself.

    There are as many rounds as keep every turn within `longest` minutes, but never more than the shortest piece has
    minutes, and never more than 40: then turns are longer. A piece's turns differ by a minute at the most, the longer ones first.
    `minutes` are at least 1 each, and so is `longest`.
    """
    if not minutes:
        return ()
    rounds = min(-(-max(minutes) // longest), min(minutes), _MOST_ROUNDS)
    return tuple(shares(each, [1] * rounds) for each in minutes)


def interleaved(lengths: Sequence[Sequence[int]]) -> tuple[tuple[int, int], ...]:
    """The turns in the order they are played, A B A B: which piece, counted from 0, and for how many minutes."""
    return tuple(chain.from_iterable(enumerate(turn) for turn in zip(*lengths, strict=True)))


def review_days(days: int, turn: int, gaps: Sequence[int], passed: int = 0) -> tuple[int, ...]:
    """The practice days, counted from 0, on which a review piece comes: with gaps of 1, 2, 3 on days 0, 1, 3, 6.

    `turn` is which of the review pieces it is, counted from 0: each begins a day after the one before, from the first
    day again when there are no more, so that every one of them comes. `passed` are the practice days since it was first
    asked for: the gaps go on from there. The last gap is used again as long as there are days. Gaps are at least 1;
    without any, or where the next visit lies beyond these days, a piece comes once, on the day of its turn: it was
    asked for.
    """
    if days < 1:
        return ()
    begins = turn % days
    return tuple(day - passed for day in _visits(begins, gaps, passed + days) if day >= passed) or (begins,)


def _visits(day: int, gaps: Sequence[int], end: int) -> Iterator[int]:
    left = list(gaps)
    while day < end:
        yield day
        if not left:
            return
        day += left[0]
        left = left[1:] or left
