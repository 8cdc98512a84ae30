"""The order that is drafted for a recital, and what an order breaks. The rule is ours; common practice, no source."""

from datetime import timedelta
from itertools import permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.examples import examples
from support.studio import home

from cockpit.studio.changes.recital import PinnedTo
from cockpit.studio.people.people import Level, StudentId
from cockpit.studio.recital.order import (
    BrokenRule,
    ItemKey,
    ItemToPlace,
    OrderRules,
    Pin,
    Rule,
    broken_rules,
    drafted_order,
)
from cockpit.studio.values import replace

NOON = home("2026-12-19 12:00")
RULES = OrderRules(begins_at=NOON, changeover=60)
EIGHT = (
    ("Ishaan", "cello"), ("Teodor", "guitar"), ("Tobin", "guitar"), ("Wren", "cello"),
    ("Ilse", "cello"), ("Eilidh", "clarinet"), ("Mireille", "clarinet"), ("Nalani", "guitar"),
)  # fmt: skip


def item(key, name="", instrument="", *, seconds=60, student=None, costume="", pin=None, level=None):
    return ItemToPlace(
        key=ItemKey(key), players={StudentId(key if student is None else student): costume}, name=name or f"{key:03}",
        instrument=instrument, seconds=seconds, level=level, pin=pin,
    )  # fmt: skip


def named(order):
    return [each.name for each in order]


def keys(order):
    return [each.key for each in order]


def after(*others):
    return Pin(kind=PinnedTo.AFTER, after=frozenset(map(ItemKey, others)))


def before(minutes):
    return Pin(kind=PinnedTo.BEFORE, before=NOON + timedelta(minutes=minutes))


FIRST, LAST = Pin(kind=PinnedTo.FIRST), Pin(kind=PinnedTo.LAST)


def eight(**pins):
    return [
        item(number, name, instrument, seconds=60 + number, pin=pins.get(name))
        for number, (name, instrument) in enumerate(EIGHT)
    ]


def test_eight_students_in_rank_change_instruments_from_one_to_the_next():
    order = drafted_order(eight(), RULES)
    assert named(order) == ["Ishaan", "Teodor", "Wren", "Tobin", "Ilse", "Eilidh", "Nalani", "Mireille"]
    assert broken_rules(order, RULES) == ()


def test_the_rank_is_the_level_then_the_length_then_the_name():
    items = [
        item(1, "Wren", seconds=60, level=Level.ADVANCED),
        item(2, "Tobin", seconds=90, level=Level.BEGINNER),
        item(3, "Ilse", seconds=60, level=Level.ELEMENTARY),
        item(4, "Nalani", seconds=120),
        item(5, "eilidh", seconds=90, level=Level.BEGINNER),
    ]
    assert named(drafted_order(items, RULES)) == ["eilidh", "Tobin", "Nalani", "Ilse", "Wren"]


def test_pins_are_held_first_last_after_others_and_before_a_time():
    order = drafted_order(eight(Nalani=FIRST, Ishaan=LAST, Teodor=after(6), Eilidh=before(6)), RULES)
    assert named(order) == ["Nalani", "Wren", "Eilidh", "Tobin", "Ilse", "Mireille", "Teodor", "Ishaan"]
    assert broken_rules(order, RULES) == ()


def test_one_who_has_to_be_over_by_a_time_is_not_taken_before_it_presses():
    order = drafted_order([*(item(each, seconds=60) for each in range(4)), item(4, seconds=60, pin=before(9))], RULES)
    assert keys(order) == [0, 1, 2, 3, 4]
    order = drafted_order([*(item(each, seconds=60) for each in range(4)), item(4, seconds=60, pin=before(8))], RULES)
    assert keys(order) == [0, 1, 2, 4, 3]


def test_what_an_item_has_to_come_after_is_in_time_for_it():
    items = [*(item(each) for each in range(3)), item(3), item(4, pin=Pin(kind=PinnedTo.AFTER, after=frozenset({3})))]
    early = [*items[:4], item(5, pin=before(3)), items[4]]
    assert keys(drafted_order(early, RULES))[0] in {0, 5}
    assert broken_rules(drafted_order(early, RULES), RULES) == ()


def test_pins_that_cannot_hold_together_are_dropped_from_the_higher_rank_and_told():
    order = drafted_order([item(1, pin=after(2)), item(2, pin=after(1)), item(3, pin=LAST)], RULES)
    assert keys(order) == [2, 1, 3]
    assert broken_rules(order, RULES) == (BrokenRule(rule=Rule.PIN, key=ItemKey(2)),)
    late = drafted_order([item(1, seconds=600), item(2, seconds=600, pin=before(5))], RULES)
    assert keys(late) == [1, 2]
    assert broken_rules(late, RULES) == (BrokenRule(rule=Rule.PIN, key=ItemKey(2)),)


def test_two_items_of_a_student_have_two_others_between_for_another_costume_and_one_for_the_same():
    items = [item(1, student=1), item(2, student=1, costume="apron"), item(3), item(4), item(5)]
    assert keys(drafted_order(items, RULES)) == [1, 3, 4, 2, 5]
    items[0] = item(1, student=1, costume="Apron ")
    assert keys(drafted_order(items, RULES)) == [1, 3, 2, 4, 5]


def test_a_duet_keeps_away_from_the_items_of_both_who_play_it():
    both = replace(item(2), players={StudentId(1): "", StudentId(4): "cape"})
    order = drafted_order([item(1, student=1), both, item(3), item(4, student=4), item(5), item(6)], RULES)
    assert keys(order) == [1, 3, 2, 5, 6, 4]


def test_the_instrument_is_dropped_before_the_student_and_both_are_told():
    guitars = [item(1, instrument="guitar"), item(2, instrument="guitar")]
    order = drafted_order(guitars, RULES)
    assert broken_rules(order, RULES) == (BrokenRule(rule=Rule.INSTRUMENT, key=ItemKey(2)),)
    one = [item(1, student=1, instrument="cello"), item(2, student=1, instrument="flute"), item(3, instrument="cello")]
    assert keys(drafted_order(one, RULES)) == [1, 3, 2]
    alone = drafted_order([item(1, student=1), item(2, student=1, costume="cape")], RULES)
    assert [each.rule for each in broken_rules(alone, RULES)] == [Rule.STUDENT, Rule.COSTUME]


def test_an_order_of_hers_is_told_what_it_breaks_too():
    order = eight(Wren=FIRST, Ilse=before(2))
    assert [(each.rule, order[each.key].name) for each in broken_rules(order, RULES)] == [
        (Rule.INSTRUMENT, "Tobin"), (Rule.PIN, "Wren"), (Rule.INSTRUMENT, "Ilse"), (Rule.PIN, "Ilse"), (Rule.INSTRUMENT, "Mireille"),
    ]  # fmt: skip


def test_nothing_and_one_are_in_order():
    assert drafted_order([], RULES) == ()
    assert keys(drafted_order([item(1, pin=after(1))], RULES)) == [1]


pins = st.one_of(
    st.none(),
    st.sampled_from([FIRST, LAST]),
    st.frozensets(st.integers(0, 5), min_size=1, max_size=2).map(lambda each: after(*each)),
    st.integers(1, 12).map(before),
)
small = st.lists(
    st.builds(
        lambda seconds, student, instrument, costume, pin: (seconds, student, instrument, costume, pin),
        st.sampled_from([0, 60, 90, 150]), st.integers(0, 2), st.sampled_from(["", "cello", "guitar"]),
        st.sampled_from(["", "cape"]), pins,
    ),
    max_size=5,
).map(
    lambda rows: [
        item(key, instrument=instrument, seconds=seconds, student=student, costume=costume, pin=pin)
        for key, (seconds, student, instrument, costume, pin) in enumerate(rows)
    ]
)  # fmt: skip


def held_pins(order):
    """By its definition, each pin by itself: the keys of those that hold."""
    ends_at, held = NOON, set()
    for place, each in enumerate(order):
        ends_at += timedelta(seconds=each.seconds + (60 if place else 0))
        is_held = (
            each.pin is not None
            and {
                PinnedTo.FIRST: {other.pin for other in order[:place]} <= {FIRST},
                PinnedTo.LAST: {other.pin for other in order[place:]} <= {LAST},
                PinnedTo.AFTER: not {*keys(order[place:])} & each.pin.after,
                PinnedTo.BEFORE: each.pin.before is None or ends_at <= each.pin.before,
            }[each.pin.kind]
        )
        if is_held:
            held.add(each.key)
    return held


def unpinned_costs(placed, each):
    """What an item breaks behind others: nothing 0, the instrument alone 1, anything hard 2."""
    near = [other for other in placed[-2:] if {*other.players} & {*each.players}]
    is_hard = any(other is placed[-1] or other.players != each.players for other in near)
    return 2 if is_hard else int(bool(placed) and bool(each.instrument) and placed[-1].instrument == each.instrument)


def reference(items):
    """The rule by trying every order: which pins are kept, and whether an order is left that keeps them."""
    ranked = sorted(items, key=lambda each: each.rank)
    orders = [*permutations(ranked)]
    for each in ranked:
        if each.pin is not None and (kept := [order for order in orders if each.key in held_pins(order)]):
            orders = kept
    placed = []
    while len(placed) < len(ranked):
        orders = [order for order in orders if [*order[: len(placed)]] == placed]
        allowed = [each for each in ranked if any(order[len(placed)] is each for order in orders)]
        placed.append(min(allowed, key=lambda each: (unpinned_costs(placed, each), ranked.index(each))))
    return placed


@examples(200, long=800)
@given(small, st.randoms(use_true_random=False))
def test_each_item_taken_is_the_first_in_rank_that_leaves_every_pin_its_place_as_by_trying_every_order(items, shuffler):
    expected = reference(items)
    shuffler.shuffle(items)
    assert keys(drafted_order(items, RULES)) == keys(expected)


@examples(200, long=800)
@given(small)
def test_every_pin_holds_where_any_order_holds_them_all(items):
    pinned = {each.key for each in items if each.pin is not None}
    is_possible = any(held_pins(order) == pinned for order in permutations(items))
    assert (held_pins(drafted_order(items, RULES)) == pinned) is is_possible


@examples(200, long=800)
@given(small)
def test_what_is_told_is_what_is_broken(items):
    told = broken_rules(items, RULES)
    assert {each.key for each in told if each.rule is Rule.PIN} == {
        each.key for each in items if each.pin is not None
    } - held_pins(items)
    others = [each for each in told if each.rule is not Rule.PIN]
    for place, each in enumerate(items):
        of_it = {found.rule for found in others if found.key == each.key}
        cost = unpinned_costs(items[:place], each)
        assert (cost == 2) is bool(of_it - {Rule.INSTRUMENT})
        if cost < 2:
            assert (cost == 1) is (Rule.INSTRUMENT in of_it)


@pytest.mark.parametrize("pin", [None, FIRST, LAST, before(20), before(600), after(0)])
def test_of_sixty_items_none_is_lost(pin):
    items = [
        item(each, instrument=f"{each % 3}", student=each % 40, costume=f"{each % 2}", pin=pin if each % 2 else None)
        for each in range(60)
    ]
    assert sorted(keys(drafted_order(items, RULES))) == sorted(keys(items))
