"""The order of a recital: one that is drafted by a fixed rule, and what any order breaks.

A draft is hers to change. It takes, place by place, the first item in rank that is allowed there, and looks ahead for pins
alone: so every pin holds that can hold along with those of items before it in rank, and a draft may end with items of one
student side by side, or of one instrument. What is broken is told, of a draft as of an order of hers.
"""

from collections.abc import Iterable, Mapping, Sequence
from datetime import datetime
from enum import StrEnum
from graphlib import CycleError, TopologicalSorter
from math import inf
from typing import NewType, assert_never

from cockpit.studio.changes.recital import PinnedTo
from cockpit.studio.people.people import Level, StudentId
from cockpit.studio.recital.timing import CHANGEOVER, RecitalFrame, recital_times
from cockpit.studio.values import Value

ItemKey = NewType("ItemKey", int)
_LEVELS = {level: rank for rank, level in enumerate(Level)}


class Pin(Value):
    """Where an item has to be: first, last, somewhere `after` all of some items, or over by a UTC moment (`before`)."""

    kind: PinnedTo
    after: frozenset[ItemKey] = frozenset()
    before: datetime | None = None


class ItemToPlace(Value):
    """What the order of a recital goes by. Where no level is said, an item goes with those of beginners.

    `players` are the students who play it, each with the costume, or nothing.
    """

    key: ItemKey
    players: Mapping[StudentId, str]
    name: str
    instrument: str
    seconds: int
    level: Level | None = None
    pin: Pin | None = None

    @property
    def rank(self) -> tuple[int, int, str, int]:
        """What it goes by: level, seconds, name; and where all are the same, its key."""
        return _LEVELS.get(self.level or Level.BEGINNER, 0), self.seconds, self.name.casefold(), self.key


class OrderRules(Value):
    """The UTC moment at which the first item begins, the seconds between two, and how far another costume is.

    `costume_items` others at least lie between two items of one student in different costumes; common practice, no source.
    """

    begins_at: datetime
    changeover: int = CHANGEOVER
    costume_items: int = 2


class Rule(StrEnum):
    """What an order can break; the first is soft."""

    INSTRUMENT = "the same instrument as before"
    STUDENT = "the same student as before"
    COSTUME = "too little time for another costume"
    PIN = "not where it is pinned"


class BrokenRule(Value):
    """A rule that an order breaks at an item: with the one before, or, for a costume, with an earlier one of the student."""

    rule: Rule
    key: ItemKey


def drafted_order(items: Iterable[ItemToPlace], rules: OrderRules) -> tuple[ItemToPlace, ...]:
    """The items in the order that is drafted; the same items give the same order, however they are handed in."""
    ranked = sorted(items, key=lambda each: each.rank)
    pins = _Pins(ranked, rules)
    placed: list[ItemToPlace] = []
    while ranked:
        allowed = [each for each in ranked if pins.allow(each)]
        taken = (
            next((each for each in allowed if not _broken_at(placed, each, rules)), None)
            or next((each for each in allowed if _broken_at(placed, each, rules) == (Rule.INSTRUMENT,)), None)
            or allowed[0]
        )
        ranked.remove(taken)
        pins.take(taken)
        placed.append(taken)
    return tuple(placed)


def broken_rules(order: Sequence[ItemToPlace], rules: OrderRules) -> tuple[BrokenRule, ...]:
    """What an order breaks, place by place."""
    times = recital_times(
        [each.seconds for each in order], RecitalFrame(starts_at=rules.begins_at, changeover=rules.changeover)
    )
    found = []
    for place, (each, time) in enumerate(zip(order, times.items, strict=True)):
        broken = _broken_at(order[:place], each, rules)
        if each.pin is not None and not _holds(each.pin, place, order, time.ends_at):
            broken = (*broken, Rule.PIN)
        found += [BrokenRule(rule=rule, key=each.key) for rule in broken]
    return tuple(found)


def _broken_at(before: Sequence[ItemToPlace], item: ItemToPlace, rules: OrderRules) -> tuple[Rule, ...]:
    """What an item breaks behind others, pins apart."""
    if not before:
        return ()
    last, near = before[-1], before[-rules.costume_items :] if rules.costume_items else ()
    broken = []
    if item.instrument and item.instrument.casefold() == last.instrument.casefold():
        broken.append(Rule.INSTRUMENT)
    if item.players.keys() & last.players.keys():
        broken.append(Rule.STUDENT)
    if any(
        _costume(other, each) != _costume(item, each)
        for other in near
        for each in item.players
        if each in other.players
    ):
        broken.append(Rule.COSTUME)
    return tuple(broken)


def _costume(item: ItemToPlace, student_id: StudentId) -> str:
    return " ".join(item.players[student_id].casefold().split())


def _holds(pin: Pin, place: int, order: Sequence[ItemToPlace], ends_at: datetime) -> bool:
    match pin.kind:
        case PinnedTo.FIRST:
            return all(_is_pinned(each, PinnedTo.FIRST) for each in order[:place])
        case PinnedTo.LAST:
            return all(_is_pinned(each, PinnedTo.LAST) for each in order[place:])
        case PinnedTo.AFTER:
            return all(each.key not in pin.after for each in order[place:])
        case PinnedTo.BEFORE:
            return pin.before is None or ends_at <= pin.before
        case _:
            assert_never(pin.kind)


def _is_pinned(item: ItemToPlace, kind: PinnedTo) -> bool:
    return item.pin is not None and item.pin.kind is kind


_Node = ItemKey | PinnedTo  # an item; or a gate, behind all that are pinned first, or before all that are pinned last
_Due = tuple[float, ItemKey, int]


class _Pins:
    """Which items the pins allow at the next place, so that those that are left can all keep theirs."""

    def __init__(self, items: Sequence[ItemToPlace], rules: OrderRules) -> None:
        pinned = [each for each in items if each.pin is not None]
        kept = frozenset(each.key for each in pinned)
        if _plan(items, kept, rules) is None:
            kept = frozenset()
            for each in pinned:
                if _plan(items, kept | {each.key}, rules) is not None:
                    kept |= {each.key}
        self._due = _plan(items, kept, rules) or []
        self._changeover = rules.changeover
        self._waiting = TopologicalSorter(_waits(items, kept))
        self._waiting.prepare()
        self._ready: set[_Node] = set()
        self._at = 0
        self._open_gates()

    def allow(self, item: ItemToPlace) -> bool:
        """Whether an item can be next."""
        is_ready = item.key in self._ready
        return is_ready and _is_in_time(self._after(item), self._at + item.seconds + self._changeover)

    def take(self, item: ItemToPlace) -> None:
        """Goes on behind an item."""
        self._due = self._after(item)
        self._at += item.seconds + self._changeover
        self._waiting.done(item.key)
        self._open_gates()

    def _after(self, item: ItemToPlace) -> list[_Due]:
        return [each for each in self._due if each[1] != item.key]

    def _open_gates(self) -> None:
        while fresh := self._waiting.get_ready():
            self._ready.update(fresh)
            self._waiting.done(*(each for each in fresh if isinstance(each, PinnedTo)))


def _waits(items: Sequence[ItemToPlace], kept: frozenset[ItemKey]) -> dict[_Node, set[_Node]]:
    """What each waits for by the pins that are kept."""
    keys = {each.key for each in items}
    waits: dict[_Node, set[_Node]] = {PinnedTo.FIRST: set(), PinnedTo.LAST: set()}
    for each in items:
        pin = each.pin if each.key in kept else None
        waits[each.key] = set() if pin is None else {*(pin.after & keys)}
        for gate, before, behind in (
            (PinnedTo.FIRST, each.key, PinnedTo.FIRST),
            (PinnedTo.LAST, PinnedTo.LAST, each.key),
        ):
            waiting, awaited = (behind, before) if pin is not None and pin.kind is gate else (before, behind)
            waits[waiting].add(awaited)
    return waits


def _plan(items: Sequence[ItemToPlace], kept: frozenset[ItemKey], rules: OrderRules) -> list[_Due] | None:
    """By when each item has to be over, the earliest first, without those that may be last; None where no order keeps the pins.

    In seconds from the first item's beginning, with the changeover behind each. What others wait for is due when they are;
    by such ends, the earliest first, and what waits behind what it waits for, keeps the pins if any order does.
    """
    due: dict[_Node, float] = {
        each.key: (each.pin.before - rules.begins_at).total_seconds() + rules.changeover
        for each in items
        if each.key in kept and each.pin is not None and each.pin.before is not None
    }
    waits = _waits(items, kept)
    try:
        nodes = [*TopologicalSorter(waits).static_order()]
    except CycleError:
        return None
    for node in reversed(nodes):
        for awaited in waits[node] if node in due else ():
            due[awaited] = min(due.get(awaited, inf), due[node])
    found = sorted((due[each.key], each.key, each.seconds + rules.changeover) for each in items if each.key in due)
    return found if _is_in_time(found, 0) else None


def _is_in_time(due: Iterable[_Due], at: int) -> bool:
    """Whether all are over by when they are due, one after the other from a second on."""
    for ends, _, length in due:
        at += length
        if at > ends:
            return False
    return True
