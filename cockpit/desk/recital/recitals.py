"""Recitals at the desk: made and changed by lines, put in order, what was noted of their items."""

from collections.abc import Callable, Iterable, Mapping
from datetime import date, datetime, time, timedelta

from cockpit.desk.calendar.proposals import Proposal
from cockpit.desk.pieces.pages import StudentPages
from cockpit.desk.ports import Clock, Reading
from cockpit.desk.steps import ReservedNumbers, Steps
from cockpit.studio.assignments.assignment import Tempo
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
from cockpit.studio.clocks.words import counted, listed, possessive
from cockpit.studio.errors import BadInput, NotFound, Refused
from cockpit.studio.notes.areas import Area
from cockpit.studio.notes.notes import Line, NoteLine
from cockpit.studio.people.people import Family, Student, StudentId, first_name, name_key
from cockpit.studio.pieces.history import PieceHistory
from cockpit.studio.pieces.keys import piece_of
from cockpit.studio.pieces.progress_sheet import goal_tempo
from cockpit.studio.preferences import Preferences
from cockpit.studio.recital.durations import computed_length, tempo_to_play
from cockpit.studio.recital.item_line import ItemReader, ItemSaid
from cockpit.studio.recital.lengths import length_words
from cockpit.studio.recital.line_again import bare_item, bare_recital, item_again, recital_again
from cockpit.studio.recital.live import RecitalNow, move_to_end, real_seconds, skip, step_back, step_on, where_it_is
from cockpit.studio.recital.performers import ItemTyped, item_typed
from cockpit.studio.recital.program import (
    AgainstRecital,
    RecitalPeople,
    RecitalProgram,
    begins_at,
    drafted,
    numbers_of,
    program_of,
)
from cockpit.studio.recital.readiness import ItemFacts, ItemNeeds, Readiness, Ready, Tick, readiness, weeks_to
from cockpit.studio.recital.recital_line import RecitalReader
from cockpit.studio.recital.sittings import RecitalDay, Sitting, sittings_of
from cockpit.studio.typed_times.when import Reference
from cockpit.studio.values import Value, replace
from cockpit.wording.recital import trouble_words

_A_TRACK = "track"
_IS_OVER_AFTER = timedelta(hours=12)  # a recital that nobody ended is past then; common practice, no source
# What all who play one number have in common.
_IN_COMMON = (
    "piece", "composer", "seconds", "is_computed", "with_whom", "story", "note", "pin", "pinned_after", "pinned_before",
)  # fmt: skip


class ListedRecital(Value):
    """A recital in the list: when it begins (UTC), how many numbers it has, and the weeks up to its day."""

    recital: Recital
    starts_at: datetime
    numbers: int
    weeks: int


class RecitalsView(Value):
    """All recitals with their sittings and rehearsals: those to come, the next one first, and those past, the latest first."""

    coming: tuple[ListedRecital, ...]
    past: tuple[ListedRecital, ...]


class Recitals:
    """Keeps recitals. `pages` tells what is known of a student's pieces; it is made when it is first asked for."""

    def __init__(
        self,
        asking: tuple[Reading, Clock],
        steps: Steps,
        preferences: Preferences,
        pages: Callable[[], StudentPages],
    ) -> None:
        self._reading, self._clock = asking
        self._steps = steps
        self._preferences = preferences
        self._pages = pages
        self._numbers = ReservedNumbers(lambda: self._steps.writing.new_id())

    # What there is

    def view(self) -> RecitalsView:
        """All recitals at this moment."""
        now, today = self._clock.now(), self._today
        found = [
            ListedRecital(
                recital=each,
                starts_at=begins_at(each),
                numbers=len(numbers_of(self.items(each.id))),
                weeks=weeks_to(each.held_on, today),
            )
            for each in self._reading.recitals()
        ]
        found.sort(key=lambda each: (each.starts_at, each.recital.id))
        coming = [each for each in found if each.recital.ended_at is None and each.starts_at + _IS_OVER_AFTER > now]
        return RecitalsView(coming=tuple(coming), past=tuple(each for each in reversed(found) if each not in coming))

    def recital(self, recital_id: RecitalId) -> Recital:
        """One recital.

        Raises:
            NotFound: it is not there any more.
        """
        found = next((each for each in self._reading.recitals() if each.id == recital_id), None)
        if found is None:
            raise NotFound("This recital is not there any more.")
        return found

    def items(self, recital_id: RecitalId) -> tuple[RecitalItem, ...]:
        """What is played in a recital; a rehearsal plays what its recital has."""
        recital = self.recital(recital_id)
        whose = recital.parent_id if recital.is_rehearsal else None
        return self._reading.recital_items(whose or recital_id)

    def program(self, recital_id: RecitalId) -> RecitalProgram:
        """A recital with its items, in order, and what stands against it."""
        recital = self.recital(recital_id)
        program = self._program_of(recital, self.items(recital_id))
        others = [each for each in self._reading.recitals() if each.parent_id == recital_id]
        return replace(
            program,
            rehearsals=tuple(each for each in others if each.is_rehearsal),
            sittings=tuple(each for each in others if not each.is_rehearsal),
        )

    def readiness(self, item: RecitalItem) -> Readiness:
        """What was noted of an item up to today, with dates; what is asked about is what the item has."""
        return self.readiness_of([item])[item.id]

    def readiness_of(self, items: Iterable[RecitalItem]) -> Mapping[RecitalItemId, Readiness]:
        """The same of items of one recital."""
        items = [*items]
        if not items:
            return {}
        recital, permissions = self.recital(items[0].recital_id), self._reading.permissions()
        noted = self._reading.recital_noted(recital.id)
        held = {each.id: each.held_on for each in self._reading.recitals()}
        keys = {each.id: _piece_key(each.piece) for each in items}
        pieces = {
            student_id: self._pages().histories(
                student_id, {keys[each.id] for each in items if each.student_id == student_id}
            )
            for student_id in dict.fromkeys(each.student_id for each in items)
        }

        def ready(item: RecitalItem) -> Readiness:
            own = [each for each in noted if each.item_id == item.id]
            rehearsals = [held[each.recital_id] for each in own if each.what is NotedThing.REHEARSED and each.is_yes]
            facts = ItemFacts(
                needs=_needs(item, recital),
                piece=pieces[item.student_id].get(keys[item.id]),
                ticks={
                    Ready(each.what): Tick(is_yes=each.is_yes, on=each.said_on)
                    for each in own
                    if each.what is not NotedThing.REHEARSED
                },
                permissions=tuple(each for each in permissions if each.student_id == item.student_id),
                rehearsals=tuple(rehearsals),
            )
            return readiness(facts, recital.held_on, self._today)

        return {each.id: ready(each) for each in items}

    def rehearsed(self, item: RecitalItem) -> Mapping[RecitalId, RecitalNoted]:
        """What was said of an item's rehearsals: attended or not."""
        noted = self._reading.recital_noted(item.recital_id)
        return {
            each.recital_id: each for each in noted if each.item_id == item.id and each.what is NotedThing.REHEARSED
        }

    def live(self) -> RecitalId | None:
        """The recital that goes on at this moment; one that nobody ended is none after half a day."""
        now = self._clock.now()
        found = [
            each
            for each in self._reading.recitals()
            if each.began_at is not None and each.ended_at is None and each.began_at + _IS_OVER_AFTER > now
        ]
        return max(found, key=lambda each: each.began_at or now).id if found else None

    def live_program(self) -> tuple[RecitalProgram, RecitalNow] | None:
        """The recital that goes on at this moment, and where it is."""
        live = self.live()
        if live is None:
            return None
        program = self.program(live)
        return program, where_it_is(program, self._clock.now())

    def to_come_of(self, student_id: StudentId) -> tuple[tuple[ListedRecital, RecitalItem], ...]:
        """What a student plays in recitals to come, the next one first."""
        coming = {each.recital.id: each for each in self.view().coming if not each.recital.is_rehearsal}
        items = [each for each in self._reading.recital_items_of(student_id) if each.recital_id in coming]
        return tuple(sorted(((coming[each.recital_id], each) for each in items), key=lambda pair: pair[0].starts_at))

    def goals(self, program: RecitalProgram, family: Family) -> Mapping[RecitalItemId, Tempo]:
        """The tempos that the items of a family in a recital are to reach, where one was asked for."""
        items = [each.item for row in program.rows for each in row.performers if each.family.id == family.id]
        known = ((each.id, self._history(each.student_id, each.piece)) for each in items)
        return {
            item_id: goal
            for item_id, history in known
            if history is not None and (goal := goal_tempo(history.now)) is not None
        }

    def now(self, recital_id: RecitalId) -> RecitalNow:
        """Where a recital is at this moment, on its day."""
        return where_it_is(self.program(recital_id), self._clock.now())

    def suiting(self, recital_id: RecitalId, on: date | None = None) -> tuple[Sitting, ...]:
        """At which times of a day a recital lies in the day of which families: of its own day, or of another one of hers."""
        program = self.program(recital_id)
        day = RecitalDay(
            on=on or self._preferences.home.date_of(program.starts_at),
            seconds=program.times.total,
            zones={each.id: each.zone for each in program.families},
            preferences=self._preferences,
        )
        return sittings_of(day)

    def lengths_played(self, student_id: StudentId, piece: str) -> tuple[tuple[date, int], ...]:
        """How long a piece of a student took in recitals: the day and the seconds, the latest first."""
        held = {each.id: each.held_on for each in self._reading.recitals()}
        found = [
            (held[each.recital_id], seconds)
            for each in self._reading.recital_items_of(student_id)
            if name_key(each.piece) == name_key(piece) and (seconds := real_seconds(each)) is not None
        ]
        return tuple(sorted(found, reverse=True))

    # Lines

    def propose_new(self, line: str) -> Proposal:
        """Reads a line that is a new recital.

        Raises:
            BadInput: a part is not understood, or there is no name, day, or time.
        """
        home = self._preferences.home
        recital_id = RecitalId(self._numbers.at(0))
        fresh = Recital(id=recital_id, name="", held_on=self._today, at=time(), zone=zone_on(home.zone, self._today))
        recital, words = self._reader().read_new(line, fresh)
        return self._proposal(f"{recital.name}: {'; '.join(words)}.", added(recital), f"adding {recital.name}", recital)

    def propose_child(self, recital_id: RecitalId, line: str, *, is_rehearsal: bool) -> Proposal:
        """Reads a line that says when a rehearsal of a recital is, or a further sitting, and what differs: "sat dec 12 11am".

        Raises:
            BadInput: a part is not understood.
            Refused: it is a rehearsal or a sitting itself.
        """
        parent = self.recital(recital_id)
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
        return self._proposal(understood, added(recital), f"adding a {what} of {parent.name}", recital)

    def line_of(self, recital_id: RecitalId) -> str:
        """The line that says all of a recital."""
        return recital_again(self.recital(recital_id), self._preferences.home.hours)

    def line_of_item(self, recital_id: RecitalId, item_id: RecitalItemId) -> str:
        """The line that says all of an item."""
        items = self.items(recital_id)
        item = _item(items, item_id)
        behind = next((each for each in items if each.id == item.pinned_after), None)
        called = None
        if behind is not None:
            # A name means the last item of that student, which may be this one.
            last = [each for each in items if each.student_id == behind.student_id][-1]
            called = self._student(behind.student_id).name if last == behind else behind.piece
        return item_again(item, called, self._preferences.home.hours)

    def propose_change(self, recital_id: RecitalId, line: str, *, is_whole: bool = False) -> Proposal:
        """Reads a line that changes a recital, or that says all of it: then it has nothing else.

        Raises:
            BadInput: a part is not understood.
            Refused: nothing would change.
        """
        recital = self.recital(recital_id)
        after, words = self._reader().read_change(line, bare_recital(recital) if is_whole else recital)
        if after == recital:
            raise Refused("That is so already.")
        edits = (Edit(before=recital, after=after),)
        proposal = self._proposal(f"{recital.name}: {'; '.join(words)}.", edits, f"changing {recital.name}", after)
        return replace(proposal, troubles=(*proposal.troubles, *self._new_troubles(recital, after)))

    def propose_item(self, recital_id: RecitalId, student_id: StudentId, line: str) -> Proposal:
        """Reads a line that is an item of a student; a length that it does not say is worked out, where that can be.

        Raises:
            BadInput: a part is not understood, or there is no piece.
            Refused: the recital is a rehearsal.
        """
        recital, student = self.recital(recital_id), self._student(student_id)
        if recital.is_rehearsal:
            raise Refused("A rehearsal has the items of its recital. Add the item there.")
        items = self.items(recital_id)
        fresh = RecitalItem(
            id=RecitalItemId(self._numbers.at(0)),
            recital_id=recital_id,
            position=max((each.position for each in items), default=0) + 1,
            student_id=student_id,
            piece="",
            instrument=self._instrument(student_id, recital.held_on),
        )
        said = self._item_reader(items, student_id).read_new(line, fresh)
        item = self._completed(said.item)
        made = [item, *self._joined(said, item, items)]
        called = first_name(student, self._reading.people().families[student.family_id])
        edits = (*added(*made), *self._noted_edits(said, item, recital))
        return self._proposal(
            _item_words(called, item, said), edits, f"adding {possessive(called)} {item.piece}", recital
        )

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
        recital, items = self.recital(recital_id), self.items(recital_id)
        item = _item(items, item_id)
        said = self._item_reader(items, item.student_id).read_change(line, bare_item(item) if is_whole else item)
        after = self._completed(said.item) if said.item.seconds is None else said.item
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
        called = self._called(item)
        return self._proposal(
            _item_words(called, after, said), tuple(edits), f"changing {called}: {item.piece}", recital
        )

    def do(self, proposal: Proposal) -> str:
        """Carries out a proposal, as a step that can be undone; returns a sentence.

        Raises:
            NotSaved: nothing was changed.
        """
        self._steps.take(proposal.said, *proposal.edits)
        self._numbers.use()
        return proposal.understood

    # Steps

    def remove(self, recital_id: RecitalId) -> str:
        """Removes a recital with its items, and with its rehearsals and sittings; returns a sentence."""
        recital = self.recital(recital_id)
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
        item = _item(self.items(recital_id), item_id)
        noted = [each for each in self._reading.recital_noted(item.recital_id) if each.item_id == item_id]
        called = self._called(item)
        self._steps.take(f"removing {possessive(called)} {item.piece}", *_without(*noted, item))
        return f"{possessive(called)} {item.piece} is removed."

    def move(self, recital_id: RecitalId, item_id: RecitalItemId, by: int) -> str:
        """Moves an item, with all who play it, so many places on, or back where `by` is negative; returns a sentence.

        Raises:
            Refused: it is at the end already.
        """
        items = self.items(recital_id)
        item, groups = _item(items, item_id), numbers_of(items)
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
        sitting = self.recital(to)
        if to == item.recital_id:
            raise Refused(f"{item.piece} is in this sitting already.")
        items = self.items(item.recital_id)
        moving = [each for each in items if each.position == item.position]
        last = max((each.position for each in self.items(to)), default=0) + 1
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
        edits = _in_order([row.items for row in drafted(self.program(recital_id))])
        if not edits:
            raise Refused("The items are in that order already.")
        self._steps.take("drafting an order", *edits)
        broken = [each for each in self.program(recital_id).troubles if each.kind is AgainstRecital.ORDER]
        dropped = [trouble_words(each, self._preferences.home) for each in broken]
        return " ".join(["The items are in a drafted order. Move them as you like.", *dropped])

    def compute_lengths(self, recital_id: RecitalId) -> str:
        """Works out the lengths anew that nobody typed; returns a sentence.

        Raises:
            Refused: none changes.
        """
        items = [each for each in self.items(recital_id) if each.seconds is None or each.is_computed]
        fresh = [self._completed(replace(each, seconds=None, is_computed=False)) for each in items]
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
            else RecitalNoted(item_id=item.id, recital_id=of, what=what, is_yes=is_yes, said_on=self._today)
        )
        called = self._called(item)
        if before != after:
            self._steps.take(f"noting {what} of {called}", Edit(before=before, after=after))
        answer = {True: "yes", False: "no", None: "not said"}[is_yes]
        return f"{called}, {what}: {answer}."

    # The day itself

    def go_on(self, recital_id: RecitalId) -> RecitalNow:
        """Begins the recital, begins the next item, ends what is played, or ends the recital: whichever comes next."""
        return self._live(recital_id, "a step of the recital", step_on)

    def go_back(self, recital_id: RecitalId) -> RecitalNow:
        """Takes the last step of a recital back."""
        return self._live(recital_id, "a step back in the recital", lambda recital, items, _: step_back(recital, items))

    def skip(self, recital_id: RecitalId) -> RecitalNow:
        """Passes over the next item."""
        return self._live(recital_id, "skipping an item", lambda recital, items, _: skip(recital, items))

    def move_to_end(self, recital_id: RecitalId) -> RecitalNow:
        """Moves the next item behind all others."""
        return self._live(
            recital_id, "moving an item to the end", lambda recital, items, _: move_to_end(recital, items)
        )

    def _live(
        self,
        recital_id: RecitalId,
        said: str,
        step: Callable[[Recital, tuple[RecitalItem, ...], datetime], tuple[Edit, ...]],
    ) -> RecitalNow:
        recital = self.recital(recital_id)
        if recital.is_rehearsal:
            raise Refused("A rehearsal is not run here. Note who attended.")
        edits = step(recital, self.items(recital_id), self._clock.now())
        self._steps.take(said, *edits, durable=True)
        return self.now(recital_id)

    # Parts

    def _program_of(self, recital: Recital, items: Iterable[RecitalItem]) -> RecitalProgram:
        reading = self._reading
        found = reading.people()
        people = RecitalPeople(
            students=found.students,
            families=found.families,
            permissions=reading.permissions(),
            time_off=reading.breaks(recital.held_on - timedelta(days=1)),
            times=reading.standing_times(),
        )
        return program_of(recital, items, people, self._preferences)

    def _new_troubles(self, before: Recital, after: Recital) -> Iterable[str]:
        """What would stand against a recital after a change, and does not before it."""
        items, home = self.items(before.id), self._preferences.home
        known = {trouble_words(each, home) for each in self._program_of(before, items).troubles}
        words = [trouble_words(each, home) for each in self._program_of(after, items).troubles]
        return [each for each in dict.fromkeys(words) if each not in known]

    @property
    def _today(self) -> date:
        return self._preferences.home.date_of(self._clock.now())

    def _reader(self) -> RecitalReader:
        home = self._preferences.home
        reference = Reference(
            now=self._clock.now(), around=self._today, home_zone=home.zone, month_first=self._preferences.month_first
        )
        return RecitalReader(reference, home.hours)

    def _item_reader(self, items: Iterable[RecitalItem], own: StudentId) -> ItemReader:
        students = self._reading.people().students
        known = tuple(items)

        def student_of(name: str) -> StudentId | None:
            found = [each.id for each in students.values() if name_key(each.name) == name_key(name) and each.id != own]
            return found[0] if len(found) == 1 else None

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

        return ItemReader(item_of, student_of, self._preferences.home.hours)

    def _proposal(self, understood: str, edits: tuple[Edit, ...], said: str, recital: Recital) -> Proposal:
        there = self._preferences.home.there(begins_at(recital), recital.zone)
        troubles = (
            (f"That is {self._preferences.home.date_and_time(begins_at(recital))} on your clock.",) if there else ()
        )
        return Proposal(understood=understood, edits=edits, said=said, troubles=troubles)

    def _completed(self, item: RecitalItem) -> RecitalItem:
        """An item with the length, the composer, and the spelling of its title that are known of its piece."""
        history = self._history(item.student_id, item.piece)
        if history is not None:
            title = history.title if name_key(history.title) == name_key(item.piece) else item.piece
            composer = history.said.composer if history.said is not None else None
            item = replace(item, piece=title, composer=item.composer or composer)
        seconds = self._known_seconds(item, history) if item.seconds is None else None
        return item if seconds is None else replace(item, seconds=seconds, is_computed=True)

    def _known_seconds(self, item: RecitalItem, history: PieceHistory | None) -> int | None:
        """How long a piece took in the last recital that it was played in; else what its measures and its tempo come to."""
        played = self.lengths_played(item.student_id, item.piece)
        if played:
            return played[0][1]
        measures = history.said.measures if history is not None and history.said is not None else None
        tempo = tempo_to_play(history.now) if history is not None else None
        length = computed_length(measures, tempo, None) if measures is not None and tempo is not None else None
        return length.seconds if length is not None else None

    def _joined(self, said: ItemSaid, item: RecitalItem, items: Iterable[RecitalItem]) -> list[RecitalItem]:
        """The item of another student who plays along; none where that one does already."""
        partner = said.partner
        if partner is None or any(each.position == item.position and each.student_id == partner for each in items):
            return []
        recital = self.recital(item.recital_id)
        other = RecitalItem(
            id=RecitalItemId(self._numbers.at(1)),
            recital_id=item.recital_id,
            position=item.position,
            student_id=partner,
            piece=item.piece,
            instrument=self._instrument(partner, recital.held_on),
        )
        return [_as_common(other, other, item)]

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
            said_on=self._today,
        )
        return (Edit(before=before, after=after),) if before is None or before.is_yes != said.by_heart else ()

    def _history(self, student_id: StudentId, piece: str) -> PieceHistory | None:
        key = _piece_key(piece)
        return self._pages().histories(student_id, {key}).get(key)

    def _instrument(self, student_id: StudentId, on: date) -> str | None:
        """The instrument of a student's weekly times on a date, where there is one only."""
        times = [each for each in self._reading.standing_times(on) if each.student_id == student_id]
        found = {each.instrument for each in times if each.instrument}
        return found.pop() if len(found) == 1 else None

    def _student(self, student_id: StudentId) -> Student:
        return self._reading.people().students[student_id]

    def _called(self, item: RecitalItem) -> str:
        people = self._reading.people()
        student = people.students[item.student_id]
        return first_name(student, people.families[student.family_id])


def _piece_key(piece: str) -> str:
    """What tells a piece from others in notes, by its title."""
    return str(piece_of(NoteLine(line=Line.ASSIGNMENT, text=piece, typed=f"Piece: {piece}", area=Area.PIECE)))


def _needs(item: RecitalItem, recital: Recital) -> ItemNeeds:
    return ItemNeeds(
        costume=item.costume is not None,
        props=item.props is not None,
        story=item.story is not None,
        track=_A_TRACK in (item.with_whom or "").casefold(),
        online=recital.is_online,
    )


def _item(items: Iterable[RecitalItem], item_id: RecitalItemId) -> RecitalItem:
    found = next((each for each in items if each.id == item_id), None)
    if found is None:
        raise NotFound("This item is not in the recital any more.")
    return found


def _in_order(groups: Iterable[Iterable[RecitalItem]]) -> tuple[Edit, ...]:
    """What gives items the positions of an order; what has its position is no edit."""
    return tuple(
        Edit(before=each, after=replace(each, position=position))
        for position, group in enumerate(groups, start=1)
        for each in group
        if each.position != position
    )


def _as_common(other: RecitalItem, before: RecitalItem, after: RecitalItem) -> RecitalItem:
    """An item of somebody who plays along, with what changed of what all have in common."""
    changed = {name: getattr(after, name) for name in _IN_COMMON if getattr(before, name) != getattr(after, name)}
    return replace(other, **changed)


def _without(*records: Recital | RecitalItem | RecitalNoted) -> tuple[Edit, ...]:
    return tuple(Edit(before=each, after=None) for each in records)


def _item_words(called: str, item: RecitalItem, said: ItemSaid) -> str:
    words = list(said.words)
    if item.is_computed and item.seconds is not None:
        words.append(f"length: {length_words(item.seconds)}, computed")
    elif item.seconds is None:
        words.append("no length yet")
    return f"{called}, {item.piece}: {'; '.join(words)}."
