"""Recitals as they are: which there are, what is played in each, what is ready, and when each suits all."""

from collections.abc import Callable, Iterable, Mapping
from datetime import date, datetime, timedelta

from cockpit.desk.pieces.pages import StudentPages
from cockpit.desk.ports import Clock, Reading
from cockpit.studio.assignments.assignment import Tempo
from cockpit.studio.changes.recital import (
    NotedThing,
    Recital,
    RecitalId,
    RecitalItem,
    RecitalItemId,
    RecitalNoted,
)
from cockpit.studio.errors import NotFound
from cockpit.studio.notes.areas import Area
from cockpit.studio.notes.notes import Line, NoteLine
from cockpit.studio.people.people import Family, StudentId, first_name, name_key
from cockpit.studio.pieces.history import PieceHistory
from cockpit.studio.pieces.keys import piece_of
from cockpit.studio.pieces.progress_sheet import goal_tempo
from cockpit.studio.preferences import Preferences
from cockpit.studio.recital.durations import computed_length, tempo_to_play
from cockpit.studio.recital.live import RecitalNow, real_seconds, where_it_is
from cockpit.studio.recital.names import is_track
from cockpit.studio.recital.program import (
    RecitalPeople,
    RecitalProgram,
    begins_at,
    numbers_of,
    program_of,
)
from cockpit.studio.recital.readiness import ItemFacts, ItemNeeds, Readiness, Ready, Tick, readiness, weeks_to
from cockpit.studio.recital.sittings import RecitalDay, Sitting, sittings_of
from cockpit.studio.values import Value, replace

_IS_OVER_AFTER = timedelta(hours=12)  # a recital that nobody ended is past then; common practice, no source


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
    """Reads recitals. `pages` tells what is known of a student's pieces; it is made when it is first asked for."""

    def __init__(
        self, asking: tuple[Reading, Clock], preferences: Preferences, pages: Callable[[], StudentPages]
    ) -> None:
        self._reading, self._clock = asking
        self._preferences = preferences
        self._pages = pages

    def view(self) -> RecitalsView:
        """All recitals at this moment."""
        now, today = self._clock.now(), self.today
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
        program = self.program_with(recital, self.items(recital_id))
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
            return readiness(facts, recital.held_on, self.today)

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

    def program_with(self, recital: Recital, items: Iterable[RecitalItem]) -> RecitalProgram:
        """The program that a recital would have with some items."""
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

    @property
    def today(self) -> date:
        """The date on her clock."""
        return self._preferences.home.date_of(self._clock.now())

    def completed(self, item: RecitalItem) -> RecitalItem:
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

    def _history(self, student_id: StudentId, piece: str) -> PieceHistory | None:
        key = _piece_key(piece)
        return self._pages().histories(student_id, {key}).get(key)

    def called(self, item: RecitalItem) -> str:
        """The first name of who plays an item."""
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
        track=is_track(item),
        online=recital.is_online,
        named=item.shown_as is not None,
    )


def item_of(items: Iterable[RecitalItem], item_id: RecitalItemId) -> RecitalItem:
    """One of some items.

    Raises:
        NotFound: it is not there any more.
    """
    found = next((each for each in items if each.id == item_id), None)
    if found is None:
        raise NotFound("This item is not in the recital any more.")
    return found
