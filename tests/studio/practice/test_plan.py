"""A week's practice by day, made from assignments."""

from collections import Counter
from datetime import date, timedelta
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from support.plans import (
    BEYOND,
    FRIDAY,
    HEARD,
    LESSON_ON,
    LINES,
    MONDAY,
    NEXT_ON,
    RULES,
    SATURDAY,
    SUNDAY,
    THURSDAY,
    WEDNESDAY,
    WEEKS,
    assigned,
    mm,
    quarter,
    week,
)

from cockpit.studio.assignments.assignment import Tempo, Times
from cockpit.studio.notes.notes import Area
from cockpit.studio.practice.metronome import MARKS, is_mark
from cockpit.studio.practice.plan import week_between, week_plan
from cockpit.studio.practice.rules import WEIGHTS, PlanRules
from cockpit.studio.practice.week import Through
from cockpit.studio.values import replace

DEFAULTS = PlanRules()
WEEKEND = frozenset({SATURDAY, SUNDAY})


def minutes_by_day(plan):
    return [[item.minutes for item in day.items] for day in plan.days]


def tempos_of(plan):
    return [day.items[0].tempo.goal for day in plan.days if day.items]


def visits(plan, assignment):
    """Which days of the plan, counted from 0, an assignment comes on."""
    return [n for n, day in enumerate(plan.days) if any(item.assignment is assignment for item in day.items)]


# Which days


def test_a_week_goes_from_the_day_after_the_lesson_to_the_day_before_the_next():
    assert week().days == tuple(date(2026, 12, day) for day in range(2, 8))


def test_a_lesson_on_the_next_day_or_the_same_leaves_no_day_to_practice():
    assert week(next_on=LESSON_ON + timedelta(days=1)).days == ()
    assert week(next_on=LESSON_ON).days == ()


def test_without_a_next_lesson_six_days_are_planned_and_before_a_long_break_27():
    assert len(week(next_on=None).days) == 6
    assert len(week_between(LESSON_ON, date(2027, 9, 1)).days) == 27


def test_a_rest_day_stays_empty():
    plan = week_plan([assigned(minutes=10)], week(30, frozenset({THURSDAY, MONDAY})), DEFAULTS)
    assert [len(day.items) for day in plan.days] == [0, 1, 0, 0, 0, 1]
    assert [day.spare for day in plan.days] == [0, 20, 0, 0, 0, 20]


def test_an_assignment_with_days_of_its_own_comes_only_on_those():
    plan = week_plan([assigned(days=frozenset({WEDNESDAY, FRIDAY}))], week(20), DEFAULTS)
    assert minutes_by_day(plan) == [[20], [], [20], [], [], []]


def test_an_assignment_that_no_practice_day_is_named_for_is_told():
    lost, kept = assigned(days=WEEKEND), assigned("Minuet")
    plan = week_plan([lost, kept], week(20, frozenset({MONDAY})), DEFAULTS)
    assert plan.never_due == (lost,)
    assert minutes_by_day(plan)[-1] == [20]


def test_the_items_of_a_day_stand_in_the_order_they_were_typed():
    lines = [assigned(), assigned("D major", Area.SCALES), assigned("Minuet", Area.REVIEW)]
    assert [item.assignment for item in week_plan(lines, week(30), DEFAULTS).days[0].items] == lines


# Minutes


def test_typed_minutes_are_kept_and_the_rest_is_shared_by_weight():
    lines = [
        assigned("D major", Area.SCALES, minutes=5),
        assigned(),
        assigned("no. 5", Area.ETUDE),
        assigned("", Area.EAR),
    ]
    plan = week_plan(lines, week(30), DEFAULTS)
    # 25 minutes by 10, 6 and 2: 13.9, 8.3 and 2.8.
    assert minutes_by_day(plan) == [[5, 14, 8, 3]] * 6
    assert plan.exceeds_by == 0
    assert plan.fullest == 30


def test_the_rest_is_shared_among_those_of_the_day():
    lines = [assigned(), assigned("Minuet", days=frozenset({WEDNESDAY}))]
    assert minutes_by_day(week_plan(lines, week(15), DEFAULTS))[:2] == [[8, 7], [15]]


def test_typed_minutes_that_exceed_the_daily_ones_are_kept_and_told_by_how_much():
    lines = [assigned(minutes=20), assigned("Minuet", minutes=15), assigned("no. 5", Area.ETUDE)]
    plan = week_plan(lines, week(30), DEFAULTS)
    assert minutes_by_day(plan)[0] == [20, 15, None]
    assert (plan.exceeds_by, plan.fullest) == (5, 35)


def test_the_excess_of_the_week_is_that_of_the_day_where_it_is_most():
    lines = [assigned(minutes=20), assigned("Minuet", minutes=15, days=frozenset({FRIDAY}))]
    plan = week_plan(lines, week(18), DEFAULTS)
    assert [day.exceeds_by for day in plan.days] == [2, 2, 17, 2, 2, 2]
    assert plan.exceeds_by == 17


def test_typed_minutes_below_the_daily_ones_leave_some_to_spare():
    assert [day.spare for day in week_plan([assigned(minutes=20)], week(30), DEFAULTS).days] == [10] * 6


def test_without_daily_minutes_only_typed_ones_are_shown():
    plan = week_plan([assigned(minutes=20), assigned("Minuet")], week(), DEFAULTS)
    assert minutes_by_day(plan) == [[20, None]] * 6


def test_a_share_that_does_not_come_to_a_minute_is_not_shown():
    lines = [assigned(minutes=9), assigned("Minuet"), assigned("", Area.EAR)]
    assert minutes_by_day(week_plan(lines, week(10), DEFAULTS))[0] == [9, 1, None]


def test_every_area_has_a_weight():
    assert set(WEIGHTS) == set(Area)


# Tempos


def test_a_tempo_climbs_from_the_tempo_heard_to_the_goal():
    line = assigned(tempo=quarter(88))
    plan = week_plan([line], week(), DEFAULTS, {line.typed: 60})
    assert tempos_of(plan) == [60, 63, 69, 72, 80, 88]


def test_a_tempo_climbs_from_the_typed_start_unless_another_was_heard():
    line = assigned(tempo=quarter(88, 72))
    assert tempos_of(week_plan([line], week(), DEFAULTS)) == [72, 72, 76, 80, 84, 88]
    assert tempos_of(week_plan([line], week(), DEFAULTS, {line.typed: 84})) == [84, 84, 84, 84, 84, 88]


def test_a_tempo_climbs_over_the_days_of_its_own_assignment():
    line = assigned(tempo=quarter(72, 63), days=frozenset({WEDNESDAY, FRIDAY, MONDAY}))
    assert tempos_of(week_plan([line], week(), DEFAULTS)) == [63, 66, 72]


def test_without_a_start_the_tempo_is_the_same_every_day_as_it_was_typed():
    tempo = quarter(96, is_ceiling=True)
    plan = week_plan([assigned(tempo=tempo)], week(), DEFAULTS)
    assert [day.items[0].tempo for day in plan.days] == [tempo] * 6


def test_a_climbing_tempo_keeps_its_beat_and_is_about_or_a_ceiling_at_the_goal_alone():
    tempo = Tempo(beat=Fraction(3, 2), goal=60, start=56, is_about=True, is_ceiling=True)
    plan = week_plan([assigned(tempo=tempo)], week(), DEFAULTS)
    assert plan.days[0].items[0].tempo == Tempo(beat=Fraction(3, 2), goal=56)
    assert plan.days[-1].items[0].tempo == replace(tempo, start=None)


# Measures


def course(plan):
    """Each day's measures and tempo, and those of the section that comes back."""
    items = [item for day in plan.days for item in day.items]
    return [
        (item.measures, item.tempo and item.tempo.goal, item.again and (item.again.measures, item.again.tempo.goal))
        for item in items
    ]


def test_each_section_begins_at_the_start_comes_back_faster_and_the_last_days_join_them():
    line = assigned(measures=(mm(1, 24),), tempo=quarter(96, 72))
    assert course(week_plan([line], week(), DEFAULTS)) == [
        ((mm(1, 6),), 72, None),
        ((mm(6, 12),), 72, ((mm(1, 6),), 80)),
        ((mm(12, 18),), 72, ((mm(6, 12),), 80)),
        ((mm(18, 24),), 72, ((mm(12, 18),), 80)),
        ((mm(1, 24),), 80, None),
        ((mm(1, 24),), 88, None),
    ]


def test_two_days_have_a_half_each_and_a_single_day_the_whole():
    line = assigned(measures=(mm(1, 32),), tempo=quarter(96, 72))
    assert course(week_plan([line], week(next_on=date(2026, 12, 4)), DEFAULTS)) == [
        ((mm(1, 16),), 72, None),
        ((mm(16, 32),), 72, ((mm(1, 16),), 80)),
    ]
    assert course(week_plan([line], week(next_on=date(2026, 12, 3)), DEFAULTS)) == [((mm(1, 32),), 80, None)]


def test_sections_without_a_start_keep_the_tempo_as_it_was_typed():
    tempo = quarter(96, is_ceiling=True)
    plan = week_plan([assigned(measures=(mm(1, 24),), tempo=tempo)], week(), DEFAULTS)
    items = [day.items[0] for day in plan.days]
    assert {item.tempo for item in items} == {item.again.tempo for item in items if item.again} == {tempo}


def test_a_passage_that_is_not_sure_to_be_all_is_not_cut():
    line = assigned("Gavotte, then 45-60", measures=(mm(1, 32),))
    assert {day.items[0].measures for day in week_plan([line], week(), DEFAULTS).days} == {(mm(1, 32),)}


def test_16_measures_stay_whole():
    passage = (mm(17, 24), mm(40, 47))
    plan = week_plan([assigned(measures=passage)], week(), DEFAULTS)
    assert {day.items[0].measures for day in plan.days} == {passage}


def test_a_slip_of_the_finger_is_not_cut_into_a_million_spans():
    passage = (mm(1, 10**9),)
    assert week_plan([assigned(measures=passage)], week(), DEFAULTS).days[0].items[0].measures == passage


def test_a_day_tells_how_often_its_measures_fit_into_its_minutes():
    lines = [assigned("Gavotte mm. 17-32 q = 72", measures=(mm(17, 32),), tempo=quarter(72), minutes=5)]
    item = week_plan(lines, week(), DEFAULTS).days[0].items[0]
    assert item.through == Through(times=5, is_meter_assumed=True)
    in_three = replace(lines[0], text="Waltz in 3/4 mm. 17-32 q = 72")
    assert week_plan([in_three], week(), DEFAULTS).days[0].items[0].through == Through(times=7, is_meter_assumed=False)


@pytest.mark.parametrize(("minutes", "times"), [(10, 11), (11, 12), (12, None)])  # 16 measures at 72: 53.3 seconds
def test_more_than_twelve_times_through_is_no_use_to_anyone_and_is_not_told(minutes, times):
    line = assigned(measures=(mm(17, 32),), tempo=quarter(72), minutes=minutes)
    through = week_plan([line], week(), DEFAULTS).days[0].items[0].through
    assert (through.times if through is not None else None) == times


def test_how_often_is_not_told_without_minutes_measures_or_tempo():
    line = assigned(measures=(mm(17, 32),), tempo=quarter(72), minutes=5)
    for less in ({"minutes": None}, {"measures": ()}, {"measures": (mm(17, None),)}, {"tempo": None}):
        assert week_plan([replace(line, **less)], week(), DEFAULTS).days[0].items[0].through is None


# Turns and review pieces


def test_pieces_in_turns_alternate():
    one, other = assigned(minutes=6, in_turns=True), assigned("Minuet", minutes=6, in_turns=True)
    day = week_plan([one, assigned("no. 5", Area.ETUDE), other], week(), DEFAULTS).days[0]
    assert [(turn.assignment.text, turn.minutes) for turn in day.turns] == [("Gavotte", 3), ("Minuet", 3)] * 2
    assert [item.turns for item in day.items] == [(3, 3), (), (3, 3)]
    assert [item.turns_with for item in day.items] == [(other,), (), (one,)]


def test_a_piece_alone_has_nothing_to_take_turns_with():
    day = week_plan([assigned(minutes=6, in_turns=True), assigned("Minuet", minutes=6)], week(), DEFAULTS).days[0]
    assert day.turns == ()
    assert all(item.turns == item.turns_with == () for item in day.items)


def test_pieces_in_turns_without_minutes_name_each_other_only():
    one, other = assigned(minutes=6, in_turns=True), assigned("Minuet", in_turns=True)
    day = week_plan([one, other], week(), DEFAULTS).days[0]
    assert day.turns == ()
    assert [item.turns_with for item in day.items] == [(other,), (one,)]


def test_review_pieces_come_round_with_widening_gaps_one_after_the_other():
    lines = [assigned(name, Area.REVIEW) for name in ("Minuet", "Bourrée", "Lullaby")]
    plan = week_plan(lines, week(), DEFAULTS)
    assert [visits(plan, line) for line in lines] == [[0, 1, 3], [1, 2, 4], [2, 3, 5]]


def test_a_review_piece_of_earlier_weeks_comes_round_more_rarely():
    old, new = assigned("Minuet", Area.REVIEW), assigned("Bourrée", Area.REVIEW)
    plan = week_plan([old, new], week(), DEFAULTS, passed={old.typed: 6})
    assert [visits(plan, line) for line in (old, new)] == [[0, 4], [1, 2, 4]]


def test_a_review_piece_with_days_of_its_own_or_every_day_does_not_come_round():
    on_days = assigned("Minuet", Area.REVIEW, days=frozenset({FRIDAY}))
    daily = assigned("Bourrée", Area.REVIEW, times=Times(count=2, is_daily=True))
    rounds = assigned("Lullaby", Area.REVIEW, times=Times(count=2))
    plan = week_plan([on_days, daily, rounds], week(), DEFAULTS)
    assert [visits(plan, line) for line in (on_days, daily, rounds)] == [[2], [0, 1, 2, 3, 4, 5], [0, 1, 3]]


# Of every plan


def measures_of(passage):
    return {n for each in passage for n in range(each.first, (each.last or BEYOND) + 1)}


def items_of(plan, lines):
    """The items of each line; equal lines have theirs together."""
    return {line: [item for day in plan.days for item in day.items if item.assignment == line] for line in lines}


@given(LINES, WEEKS, RULES, HEARD)
def test_the_same_notes_give_the_same_plan(lines, days, rules, heard):
    again = week_plan(
        list(lines), replace(days), replace(rules, weights=dict(reversed(rules.weights.items()))), dict(heard)
    )
    assert week_plan(lines, days, rules, heard) == again


@given(LINES, WEEKS, RULES, HEARD)
def test_minutes_add_up_exactly_or_the_typed_ones_exceed(lines, days, rules, heard):
    for day in week_plan(lines, days, rules, heard).days:
        typed = sum(item.assignment.minutes or 0 for item in day.items)
        if days.daily_minutes is None or day.on.weekday() not in days.weekdays:
            assert (day.minutes, day.exceeds_by, day.spare) == (typed, 0, 0)
            continue
        assert day.minutes + day.spare - day.exceeds_by == days.daily_minutes
        assert day.exceeds_by == max(0, typed - days.daily_minutes)
        if any(item.assignment.minutes is None for item in day.items):
            assert day.spare == 0


@given(LINES, WEEKS, RULES, HEARD)
def test_typed_minutes_are_kept(lines, days, rules, heard):
    items = [item for day in week_plan(lines, days, rules, heard).days for item in day.items]
    assert all(item.minutes == item.assignment.minutes for item in items if item.assignment.minutes is not None)


@given(LINES, WEEKS, RULES, HEARD)
def test_rest_days_are_empty_and_every_day_is_there_once(lines, days, rules, heard):
    plan = week_plan(lines, days, rules, heard)
    assert tuple(day.on for day in plan.days) == days.days
    assert all(day.items == day.turns == () for day in plan.days if day.on.weekday() not in days.weekdays)
    assert LESSON_ON not in {day.on for day in plan.days}


@given(LINES, WEEKS, RULES, HEARD)
def test_every_assignment_comes_on_its_days_or_is_told_to_have_none(lines, days, rules, heard):
    plan = week_plan(lines, days, rules, heard)
    planned = Counter(item.assignment for day in plan.days for item in day.items)
    assert set(planned) | set(plan.never_due) == set(lines)
    assert not set(planned) & set(plan.never_due)
    for day in plan.days:
        assert all(item.assignment.days is None or day.on.weekday() in item.assignment.days for item in day.items)
        if day.on.weekday() in days.weekdays:
            due = {
                line
                for line in lines
                if line.area is not Area.REVIEW and (line.days is None or day.on.weekday() in line.days)
            }
            assert due <= {item.assignment for item in day.items}


@given(LINES, WEEKS, RULES, HEARD)
def test_every_measure_is_covered_and_no_other(lines, days, rules, heard):
    for line, items in items_of(week_plan(lines, days, rules, heard), lines).items():
        if items:
            assert measures_of(part for item in items for part in item.measures) == measures_of(line.measures)


def heard_of(items):
    """The tempos of each measure in the order of its days."""
    tempos = {}
    for item in items:
        again = (item.again,) if item.again else ()
        for each in (item, *again):
            for measure in measures_of(each.measures) if each.tempo else ():
                tempos.setdefault(measure, []).append(each.tempo.goal)
    return tempos


def steps_between(one, other):
    return sum(one < mark <= other for mark in MARKS) + (other > one and not is_mark(other))


@given(LINES.map(lambda lines: tuple(dict.fromkeys(lines))), WEEKS, RULES, HEARD)
def test_every_measure_begins_at_the_start_and_climbs_by_no_more_than_the_largest_step(lines, days, rules, heard):
    for items in items_of(week_plan(lines, days, rules, heard), lines).values():
        firsts = set()
        for tempos in heard_of(items).values():
            # A measure that two sections share is played with each of them on the day when one comes back.
            assert all(steps_between(one, other) <= rules.largest_step for one, other in pairwise(tempos))
            firsts.add(tempos[0])
        assert len(firsts) <= 1


@given(LINES, WEEKS, RULES, HEARD)
def test_a_goal_that_is_not_reached_is_told_and_never_planned(lines, days, rules, heard):
    plan = week_plan(lines, days, rules, heard)
    told = {each.assignment: each for each in plan.out_of_reach}
    for line, items in items_of(plan, lines).items():
        last = items[-1].tempo.goal if items and items[-1].tempo else None
        is_below = last is not None and last < line.tempo.goal
        assert (line in told) == is_below
        if is_below:
            assert told[line].goal == line.tempo.goal
            assert told[line].reached == last


@given(LINES.map(lambda lines: tuple(dict.fromkeys(lines))), WEEKS, RULES, HEARD)
def test_tempos_climb_on_marks_and_end_at_the_goal_or_below(lines, days, rules, heard):
    for line, items in items_of(week_plan(lines, days, rules, heard), lines).items():
        tempos = [item.tempo.goal for item in items if item.tempo is not None]
        assert len(tempos) == (len(items) if line.tempo else 0)
        assert all(one <= other <= line.tempo.goal for one, other in pairwise(tempos))
        assert all(is_mark(tempo) or tempo == line.tempo.goal for tempo in tempos)


@given(LINES, WEEKS, RULES, HEARD)
def test_turns_add_up_to_the_minutes_of_each_item(lines, days, rules, heard):
    for day in week_plan(lines, days, rules, heard).days:
        taking = [item for item in day.items if item.turns]
        assert all(sum(item.turns) == item.minutes for item in taking)
        assert sum(turn.minutes for turn in day.turns) == sum(item.minutes for item in taking)


def test_the_next_lesson_day_is_the_familys_to_keep_free():
    assert NEXT_ON not in {day.on for day in week_plan([assigned()], week(), DEFAULTS).days}
