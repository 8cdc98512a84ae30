"""Typed lines about recitals and their items: read, shown with what they would change, and done."""

from collections.abc import Iterable
from datetime import date, time

from cockpit.desk.calendar.proposals import Proposal
from cockpit.desk.ports import Clock, Reading
from cockpit.desk.recital.recitals import Recitals, item_of
from cockpit.desk.steps import ReservedNumbers, Steps
from cockpit.studio.changes.recital import (
    NotedThing,
    Recital,
    RecitalId,
    RecitalItem,
    RecitalItemId,
    RecitalNoted,
)
from cockpit.studio.changes.records import Edit, added
from cockpit.studio.clocks.moments import zone_on
from cockpit.studio.clocks.words import listed, possessive
from cockpit.studio.errors import BadInput, Refused
from cockpit.studio.people.people import Student, StudentId, first_name, name_key
from cockpit.studio.preferences import Preferences
from cockpit.studio.recital.item_line import ItemReader, ItemSaid
from cockpit.studio.recital.lengths import length_words
from cockpit.studio.recital.line_again import bare_item, bare_recital, item_again, recital_again
from cockpit.studio.recital.performers import ItemTyped, StudentNames, item_typed
from cockpit.studio.recital.program import AgainstRecital, begins_at
from cockpit.studio.recital.readiness import NotedAnswer, Ready
from cockpit.studio.recital.recital_line import RecitalReader
from cockpit.studio.typed_times.when import Reference
from cockpit.studio.values import replace
from cockpit.wording.readiness import answer_words
from cockpit.wording.recital import trouble_words

# What all who play one number have in common. Who is in the room with one of them, and a note on one, are of that one alone: the
# families of a number need not know of each other, and one that leaves takes its words along.
_IN_COMMON = ("piece", "composer", "seconds", "is_computed", "story", "pin", "pinned_after", "pinned_before")

_OF_THE_DAY = frozenset({AgainstRecital.CLOCK, AgainstRecital.CLOSED})


class RecitalLines:
    """Reads lines, and carries out what they propose."""

    def __init__(
        self, asking: tuple[Reading, Clock], steps: Steps, preferences: Preferences, recitals: Recitals
    ) -> None:
        self._reading, self._clock = asking
        self._steps = steps
        self._preferences = preferences
        self._recitals = recitals
        self._numbers = ReservedNumbers(lambda: self._steps.writing.new_id())

    def propose_new(self, line: str) -> Proposal:
        """Reads a line that is a new recital.

        Raises:
            BadInput: a part is not understood, or there is no name, day, or time.
        """
        home = self._preferences.home
        recital_id = RecitalId(self._numbers.at(0))
        fresh = Recital(
            id=recital_id,
            name="",
            held_on=self._recitals.today,
            at=time(),
            zone=zone_on(home.zone, self._recitals.today),
        )
        recital, words = self._reader().read_new(line, fresh)
        proposal = self._proposal(
            f"{recital.name}: {'; '.join(words)}.", added(recital), f"adding {recital.name}", recital
        )
        return replace(proposal, troubles=(*proposal.troubles, *self._troubles(recital, (), AgainstRecital)))

    def propose_child(self, recital_id: RecitalId, line: str, *, is_rehearsal: bool) -> Proposal:
        """Reads a line that says when a rehearsal of a recital is, or a further sitting, and what differs: "sat dec 12 11am".

        Raises:
            BadInput: a part is not understood.
            Refused: it is a rehearsal or a sitting itself.
        """
        parent = self._recitals.recital(recital_id)
        if parent.parent_id is not None:
            raise Refused(f"{parent.name} belongs to another recital. Open that one first.")
        fresh = replace(
            parent,
            id=RecitalId(self._numbers.at(0)),
            parent_id=parent.id,
            is_rehearsal=is_rehearsal,
            began_at=None,
            ended_at=None,
        )
        recital, words = self._reader().read_change(line, fresh)
        what = "rehearsal" if is_rehearsal else "sitting"
        understood = f"A {what} of {parent.name}: {'; '.join(words)}."
        proposal = self._proposal(understood, added(recital), f"adding a {what} of {parent.name}", recital)
        return self._with_new(proposal, (parent, recital), self._recitals.items(parent.id), _OF_THE_DAY)

    def propose_change(self, recital_id: RecitalId, line: str, *, is_whole: bool = False) -> Proposal:
        """Reads a line that changes a recital, or that says all of it: then it has nothing else.

        Raises:
            BadInput: a part is not understood.
            Refused: nothing would change.
        """
        recital = self._recitals.recital(recital_id)
        after, words = self._reader().read_change(line, bare_recital(recital) if is_whole else recital)
        if after == recital:
            raise Refused("That is so already.")
        edits = (Edit(before=recital, after=after),)
        proposal = self._proposal(f"{recital.name}: {'; '.join(words)}.", edits, f"changing {recital.name}", after)
        return self._with_new(proposal, (recital, after), self._recitals.items(recital.id), AgainstRecital)

    def line_of(self, recital_id: RecitalId) -> str:
        """The line that says all of a recital."""
        return recital_again(self._recitals.recital(recital_id), self._preferences.home.hours)

    def line_of_item(self, recital_id: RecitalId, item_id: RecitalItemId) -> str:
        """The line that says all of an item."""
        items = self._recitals.items(recital_id)
        item = item_of(items, item_id)
        behind = next((each for each in items if each.id == item.pinned_after), None)
        called = None
        if behind is not None:
            # A name means the last item of that student, which may be this one.
            last = [each for each in items if each.student_id == behind.student_id][-1]
            called = self._student(behind.student_id).name if last == behind else behind.piece
        return item_again(item, called, self._preferences.home.hours)

    def propose_item(self, recital_id: RecitalId, student_id: StudentId, line: str) -> Proposal:
        """Reads a line that is an item of a student; a length that it does not say is worked out, where that can be.

        Raises:
            BadInput: a part is not understood, or there is no piece.
            Refused: the recital is a rehearsal.
        """
        recital, student = self._recitals.recital(recital_id), self._student(student_id)
        if recital.is_rehearsal:
            raise Refused("A rehearsal has the items of its recital. Add the item there.")
        items = self._recitals.items(recital_id)
        fresh = RecitalItem(
            id=RecitalItemId(self._numbers.at(0)),
            recital_id=recital_id,
            position=max((each.position for each in items), default=0) + 1,
            student_id=student_id,
            piece="",
            instrument=self._instrument(student_id, recital.held_on),
        )
        said = self._item_reader(items, student_id).read_new(line, fresh)
        item = self._recitals.completed(said.item)
        made = [item, *self._joined(said, item, items)]
        called = first_name(student, self._reading.people().families[student.family_id])
        edits = (*added(*made), *self._noted_edits(said, item, recital))
        proposal = self._proposal(
            _item_words(called, item, said), edits, f"adding {possessive(called)} {item.piece}", recital
        )
        return replace(proposal, troubles=(*proposal.troubles, *self._unnamed(called, item)))

    def propose_typed_item(self, recital_id: RecitalId, line: str) -> Proposal:
        """Reads a line that is an item with its student before it: `ilse the old mill 3:00, by heart`.

        Raises:
            BadInput: no student of the studio is named first, or a part is not understood.
            Refused: the recital is a rehearsal.
        """
        typed = self.item_typed(line)
        return self.propose_item(recital_id, typed.student.id, typed.rest)

    def item_typed(self, line: str) -> ItemTyped:
        """The student whom a line of an item names first, and what stands behind the name.

        Raises:
            BadInput: none is named there, or two are called so.
        """
        people = self._reading.people()
        return item_typed(line, people.students.values(), people.families)

    def propose_item_change(
        self, recital_id: RecitalId, item_id: RecitalItemId, line: str, *, is_whole: bool = False
    ) -> Proposal:
        """Reads a line that changes an item, or that says all of it; what is common to all who play it changes for all.

        Raises:
            BadInput: a part is not understood.
            NotFound: the item is not there any more.
            Refused: nothing would change.
        """
        recital, items = self._recitals.recital(recital_id), self._recitals.items(recital_id)
        item = item_of(items, item_id)
        said = self._item_reader(items, item.student_id).read_change(line, bare_item(item) if is_whole else item)
        after = self._recitals.completed(said.item) if said.item.seconds is None else said.item
        if after.pinned_after == item.id:
            raise BadInput("An item cannot be after itself. Name another one.")
        edits = [Edit(before=item, after=after)] if after != item else []
        edits += [
            Edit(before=each, after=fresh)
            for each in items
            if each.position == item.position
            and each.id != item.id
            and (fresh := _as_common(each, item, after)) != each
        ]
        edits += [*added(*self._joined(said, after, items)), *self._noted_edits(said, item, recital)]
        if not edits:
            raise Refused("That is so already.")
        called = self._recitals.called(item)
        proposal = self._proposal(
            _item_words(called, after, said), tuple(edits), f"changing {called}: {item.piece}", recital
        )
        return replace(proposal, troubles=(*proposal.troubles, *self._unnamed(called, after)))

    def do(self, proposal: Proposal) -> str:
        """Carries out a proposal, as a step that can be undone; returns a sentence.

        Raises:
            NotSaved: nothing was changed.
        """
        self._steps.take(proposal.said, *proposal.edits)
        self._numbers.use()
        return proposal.understood

    def _with_new(
        self,
        proposal: Proposal,
        change: tuple[Recital, Recital],
        items: Iterable[RecitalItem],
        kinds: Iterable[AgainstRecital],
    ) -> Proposal:
        """Adds to a proposal the troubles of some kinds that a change of a recital would bring."""
        before, after = (self._troubles(each, items, kinds) for each in change)
        return replace(proposal, troubles=(*proposal.troubles, *(each for each in after if each not in before)))

    def _troubles(
        self, recital: Recital, items: Iterable[RecitalItem], kinds: Iterable[AgainstRecital]
    ) -> tuple[str, ...]:
        """Says the troubles of some kinds that a recital with these items has, each in a sentence."""
        told, home = {*kinds}, self._preferences.home
        found = [each for each in self._recitals.program_with(recital, items).troubles if each.kind in told]
        return tuple(dict.fromkeys(trouble_words(each, home) for each in found))

    def _unnamed(self, called: str, item: RecitalItem) -> Iterable[str]:
        """Tells the teacher that nobody has permitted the name she shows. She may show it all the same."""
        noted = self._recitals.readiness(item).noted if item.shown_as is not None else ()
        for each in noted:
            if each.what is Ready.NAMED and each.answer is not NotedAnswer.YES:
                yield (
                    f'{called} is shown as "{item.shown_as}"; {each.what}: {answer_words(each, self._recitals.today)}.'
                )

    def _reader(self) -> RecitalReader:
        home = self._preferences.home
        reference = Reference(
            now=self._clock.now(),
            around=self._recitals.today,
            home_zone=home.zone,
            month_first=self._preferences.month_first,
        )
        return RecitalReader(reference, home.hours)

    def _item_reader(self, items: Iterable[RecitalItem], own: StudentId) -> ItemReader:
        students = self._reading.people().students
        known = tuple(items)

        others = StudentNames((each for each in students.values() if each.id != own), self._reading.people().families)

        def item_of(name: str) -> RecitalItemId:
            found = [
                each
                for each in known
                if name_key(name) in {name_key(students[each.student_id].name), name_key(each.piece)}
            ]
            if not found:
                playing = dict.fromkeys(students[each.student_id].name for each in known)
                raise BadInput(
                    f'No item of this recital is by "{name}". Type one of: {listed([*playing]) or "nobody yet"}.'
                )
            return found[-1].id

        return ItemReader(item_of, others.whom, self._preferences.home.hours)

    def _proposal(self, understood: str, edits: tuple[Edit, ...], said: str, recital: Recital) -> Proposal:
        there = self._preferences.home.there(begins_at(recital), recital.zone)
        troubles = (
            (f"That is {self._preferences.home.date_and_time(begins_at(recital))} on your clock.",) if there else ()
        )
        return Proposal(understood=understood, edits=edits, said=said, troubles=troubles)

    def _joined(self, said: ItemSaid, item: RecitalItem, items: Iterable[RecitalItem]) -> list[RecitalItem]:
        """Makes the items of students who join a number. Those who are in it already get none."""
        recital = self._recitals.recital(item.recital_id)
        there = {each.student_id for each in items if each.position == item.position}
        fresh = [
            RecitalItem(
                id=RecitalItemId(self._numbers.at(place)),
                recital_id=item.recital_id,
                position=item.position,
                student_id=partner,
                piece=item.piece,
                instrument=self._instrument(partner, recital.held_on),
            )
            for place, partner in enumerate(said.partners, start=1)
            if partner not in there
        ]
        return [_as_common(each, each, item) for each in fresh]

    def _noted_edits(self, said: ItemSaid, item: RecitalItem, recital: Recital) -> tuple[Edit, ...]:
        if said.by_heart is None:
            return ()
        known = self._reading.recital_noted(recital.id)
        before = next((each for each in known if (each.item_id, each.what) == (item.id, NotedThing.BY_HEART)), None)
        after = RecitalNoted(
            item_id=item.id,
            recital_id=recital.id,
            what=NotedThing.BY_HEART,
            is_yes=said.by_heart,
            said_on=self._recitals.today,
        )
        return (Edit(before=before, after=after),) if before is None or before.is_yes != said.by_heart else ()

    def _instrument(self, student_id: StudentId, on: date) -> str | None:
        """The instrument of a student's weekly times on a date, where there is one only."""
        times = [each for each in self._reading.standing_times(on) if each.student_id == student_id]
        found = {each.instrument for each in times if each.instrument}
        return found.pop() if len(found) == 1 else None

    def _student(self, student_id: StudentId) -> Student:
        return self._reading.people().students[student_id]


def _as_common(other: RecitalItem, before: RecitalItem, after: RecitalItem) -> RecitalItem:
    """An item of somebody who plays along, with what changed of what all have in common."""
    changed = {name: getattr(after, name) for name in _IN_COMMON if getattr(before, name) != getattr(after, name)}
    return replace(other, **changed)


def _item_words(called: str, item: RecitalItem, said: ItemSaid) -> str:
    words = list(said.words)
    if item.is_computed and item.seconds is not None:
        words.append(f"length: {length_words(item.seconds)}, computed")
    elif item.seconds is None:
        words.append("no length yet")
    return f"{called}, {item.piece}: {'; '.join(words).rstrip('.')}."
