"""Steps with recitals and their items: each is one change, and undo takes it back."""

from collections.abc import Iterable

from cockpit.desk.ports import Reading
from cockpit.desk.recital.recitals import Recitals, item_of
from cockpit.desk.steps import Steps
from cockpit.studio.changes.recital import (
    NotedThing,
    Recital,
    RecitalId,
    RecitalItem,
    RecitalItemId,
    RecitalNoted,
)
from cockpit.studio.changes.records import Edit
from cockpit.studio.clocks.words import counted, possessive
from cockpit.studio.errors import Refused
from cockpit.studio.preferences import Preferences
from cockpit.studio.recital.program import (
    AgainstRecital,
    begins_at,
    drafted,
    numbers_of,
)
from cockpit.studio.values import replace
from cockpit.wording.recital import trouble_words


class RecitalSteps:
    """Removes, moves, and orders, and notes what is ready."""

    def __init__(self, reading: Reading, steps: Steps, preferences: Preferences, recitals: Recitals) -> None:
        self._reading = reading
        self._steps = steps
        self._preferences = preferences
        self._recitals = recitals

    def remove(self, recital_id: RecitalId) -> str:
        """Removes a recital with its items, and with its rehearsals and sittings; returns a sentence."""
        recital = self._recitals.recital(recital_id)
        gone = [recital, *(each for each in self._reading.recitals() if each.parent_id == recital_id)]
        items = [item for each in gone for item in self._reading.recital_items(each.id)]
        # An item that was moved into another sitting keeps what was noted of it in a rehearsal that goes.
        ids, item_ids = {each.id for each in gone}, {each.id for each in items}
        noted = [
            said
            for each in self._reading.recitals()
            for said in self._reading.recital_noted(each.id)
            if said.recital_id in ids or said.item_id in item_ids
        ]
        self._steps.take(f"removing {recital.name}", *_without(*noted, *items, *gone), durable=True)
        return f"{recital.name} is removed."

    def remove_item(self, recital_id: RecitalId, item_id: RecitalItemId) -> str:
        """Removes an item, as of a student who withdraws; the others move up. Returns a sentence."""
        item = item_of(self._recitals.items(recital_id), item_id)
        noted = [each for each in self._reading.recital_noted(item.recital_id) if each.item_id == item_id]
        called = self._recitals.called(item)
        self._steps.take(f"removing {possessive(called)} {item.piece}", *_without(*noted, item))
        return f"{possessive(called)} {item.piece} is removed."

    def move(self, recital_id: RecitalId, item_id: RecitalItemId, by: int) -> str:
        """Moves an item, with all who play it, so many places on, or back where `by` is negative; returns a sentence.

        Raises:
            Refused: it is at the end already.
        """
        items = self._recitals.items(recital_id)
        item, groups = item_of(items, item_id), numbers_of(items)
        place = next(number for number, group in enumerate(groups) if item in group)
        to = min(max(place + by, 0), len(groups) - 1)
        if to == place:
            raise Refused("It is the first item already." if by < 0 else "It is the last item already.")
        groups.insert(to, groups.pop(place))
        self._steps.take(f"moving {item.piece}", *_in_order(groups))
        return f"{item.piece} is number {to + 1}."

    def move_to_sitting(self, item: RecitalItem, to: RecitalId) -> str:
        """Moves an item, with all who play it and what was noted of them, into another sitting; returns a sentence.

        Raises:
            Refused: it is there already.
        """
        sitting = self._recitals.recital(to)
        if to == item.recital_id:
            raise Refused(f"{item.piece} is in this sitting already.")
        items = self._recitals.items(item.recital_id)
        moving = [each for each in items if each.position == item.position]
        last = max((each.position for each in self._recitals.items(to)), default=0) + 1
        ids = {each.id for each in moving}
        noted = [each for each in self._reading.recital_noted(item.recital_id) if each.item_id in ids]
        own = [each for each in noted if each.recital_id == item.recital_id]
        edits = [Edit(before=each, after=replace(each, recital_id=to, position=last)) for each in moving]
        edits += [Edit(before=each, after=None) for each in own]
        edits += [Edit(before=None, after=replace(each, recital_id=to)) for each in own]
        self._steps.take(f"moving {item.piece}", *edits)
        home = self._preferences.home
        return f"{item.piece} is in the sitting of {home.date_and_time(begins_at(sitting))}."

    def draft_order(self, recital_id: RecitalId) -> str:
        """Puts the items in the order that is drafted by level, length, instrument, costume, and pins; returns a sentence.

        What the draft could not keep is told.

        Raises:
            Refused: they are in that order already.
        """
        edits = _in_order([row.items for row in drafted(self._recitals.program(recital_id))])
        if not edits:
            raise Refused("The items are in that order already.")
        self._steps.take("drafting an order", *edits)
        broken = [each for each in self._recitals.program(recital_id).troubles if each.kind is AgainstRecital.ORDER]
        dropped = [trouble_words(each, self._preferences.home) for each in broken]
        return " ".join(["The items are in a drafted order. Move them as you like.", *dropped])

    def compute_lengths(self, recital_id: RecitalId) -> str:
        """Works out the lengths anew that nobody typed; returns a sentence.

        Raises:
            Refused: none changes.
        """
        items = [each for each in self._recitals.items(recital_id) if each.seconds is None or each.is_computed]
        fresh = [self._recitals.completed(replace(each, seconds=None, is_computed=False)) for each in items]
        edits = [
            Edit(before=was, after=is_) for was, is_ in zip(items, fresh, strict=True) if is_.seconds and was != is_
        ]
        if not edits:
            raise Refused("No length can be worked out anew. It needs the measures of a piece, and a tempo.")
        self._steps.take("working out lengths", *edits)
        return f"{counted(len(edits), 'length')} worked out."

    def note(self, item: RecitalItem, what: NotedThing, of: RecitalId, *, is_yes: bool | None) -> str:
        """Notes of an item, or of a rehearsal `of` its recital, that something is so, is not, or that nobody said; returns a sentence."""
        before = next(
            (
                each
                for each in self._reading.recital_noted(item.recital_id)
                if (each.item_id, each.recital_id, each.what) == (item.id, of, what)
            ),
            None,
        )
        after = (
            None
            if is_yes is None
            else RecitalNoted(item_id=item.id, recital_id=of, what=what, is_yes=is_yes, said_on=self._recitals.today)
        )
        called = self._recitals.called(item)
        if before != after:
            self._steps.take(f"noting {what} of {called}", Edit(before=before, after=after))
        answer = {True: "yes", False: "no", None: "not said"}[is_yes]
        return f"{called}, {what}: {answer}."


def _in_order(groups: Iterable[Iterable[RecitalItem]]) -> tuple[Edit, ...]:
    """What gives items the positions of an order; what has its position is no edit."""
    return tuple(
        Edit(before=each, after=replace(each, position=position))
        for position, group in enumerate(groups, start=1)
        for each in group
        if each.position != position
    )


def _without(*records: Recital | RecitalItem | RecitalNoted) -> tuple[Edit, ...]:
    return tuple(Edit(before=each, after=None) for each in records)
