"""The papers of a recital at the desk: who gets them, what each gets, how they go out, and what she prints for herself."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from datetime import timedelta
from enum import StrEnum
from functools import cache
from pathlib import Path

from cockpit.desk.lookup import addresses_for
from cockpit.desk.ports import Clock, Folder, PostPrinter, Reading
from cockpit.desk.post.previewing import Preview, Previewing
from cockpit.desk.recital.recitals import Recitals
from cockpit.desk.steps import Steps
from cockpit.studio.changes.recital import RecitalId, papers_of
from cockpit.studio.changes.records import Edit
from cockpit.studio.clocks.words import counted, listed
from cockpit.studio.day.posting import (
    Destination,
    Letter,
    as_next_version,
    destinations,
    last_there,
    letter_out,
    posted,
    ways_of,
)
from cockpit.studio.errors import NotFound, Refused
from cockpit.studio.people.people import Family, FamilyId
from cockpit.studio.post.channels import TO_AN_ADDRESS, Channel
from cockpit.studio.post.outgoing import DeliveryStatus, Outgoing
from cockpit.studio.practice.notes import safe_name
from cockpit.studio.preferences import Preferences
from cockpit.studio.recital.names import names_by_family, strangers_to
from cockpit.studio.recital.papers import FamilyProgram, calendar_days, family_program, public_program
from cockpit.studio.recital.program import RecitalProgram
from cockpit.studio.recital.running_sheet import RunningSheet
from cockpit.studio.values import Value, replace


class Standing(StrEnum):
    """What putting the papers out would do at an address: they go, they are there already, or an earlier version is there."""

    GOES = "goes"
    THERE = "there"
    CHANGED = "changed"


class PaperAt(Value):
    """Whether a recital's papers are at one place of a family. Without an address, the teacher copies them or the outbox refuses them.

    `fate` is what became of what is there; None where nothing is.
    """

    way: Channel
    address: str
    standing: Standing
    fate: DeliveryStatus | None


class PapersFor(Value):
    """What one family of a recital gets: for whom, and what there is to do at each of its addresses."""

    family: Family
    students: str
    at: tuple[PaperAt, ...]

    @property
    def is_changed(self) -> bool:
        """Whether an earlier version is at one of its addresses."""
        return any(each.standing is Standing.CHANGED for each in self.at)

    @property
    def goes(self) -> bool:
        """Whether it goes to one of its addresses for the first time."""
        return any(each.standing is Standing.GOES for each in self.at)


class PapersView(Value):
    """The papers of a recital: its program, with what stands against it, and each family that plays."""

    program: RecitalProgram
    families: tuple[PapersFor, ...]


class RecitalPapers:
    """Makes the papers of a recital. None is on its way before it is put out."""

    def __init__(
        self,
        sources: tuple[Reading, Clock],
        steps: Steps,
        making: tuple[PostPrinter, Folder, Previewing],
        preferences: Preferences,
        recitals: Recitals,
    ) -> None:
        self._reading, self._clock = sources
        self._steps = steps
        self._printer, self._folder, self._previewing = making
        self._preferences = preferences
        self._recitals = recitals

    def view(self, recital_id: RecitalId) -> PapersView:
        """The papers as they would go now.

        Raises:
            NotFound: the recital is not there any more.
            Refused: it is a rehearsal.
        """
        return self._view(self._making(recital_id))

    def made(self, recital_id: RecitalId, family_id: FamilyId) -> tuple[Outgoing, ...]:
        """Makes a family's papers, one for each place, each as the next version of what is there.

        Raises:
            NotFound: the family has nobody in the recital any more.
        """
        making = self._making(recital_id)
        family = next((each for each in making.program.families if each.id == family_id), None)
        if family is None:
            raise NotFound("This family has nobody in the recital any more.")
        return self._made(making, family)

    def preview(self, recital_id: RecitalId, family_id: FamilyId) -> Preview:
        """What a family gets, as it will read it.

        Raises:
            NotFound: the family has nobody in the recital any more.
        """
        return self._previewing.of_letter(self.made(recital_id, family_id)[0])

    def put_out(self, recital_id: RecitalId, again: Iterable[FamilyId] = ()) -> str:
        """Puts the papers out where they were not yet, as one step that can be undone; where they have changed, to those `again`.

        Returns a sentence.

        Raises:
            NotSaved: nothing is in the outbox.
            Refused: there is nobody to whom they would go, or this is a rehearsal.
        """
        making = self._making(recital_id)
        view = self._view(making)
        made = [(each, self._edits(making, each, frozenset(again))) for each in view.families]
        going = [each for each, edits in made if edits]
        if not going:
            raise Refused(_why_none(view))
        if self._clock.is_rehearsal:  # or they would go when this copy of the studio is opened without --at
            raise Refused("A rehearsal sends nothing. F11 shows what each family would get.")
        edits = [edit for _, each in made for edit in each]
        self._steps.take(f"the papers of {view.program.recital.name}", *edits, durable=True)
        to_copy = [at for each in going for at in each.at if at.way not in TO_AN_ADDRESS]
        how = f"They go in {self._preferences.sending.wait_seconds} seconds."
        if to_copy:
            alone = len(to_copy) == sum(len(each.at) for each in going)
            how = "They wait there for you to copy." if alone else f"{how} Some wait there for you to copy."
        return f"The papers for {counted(len(going), 'family', 'families')} are in the outbox. {how}"

    def keep_files(self, recital_id: RecitalId) -> tuple[Path, ...]:
        """Puts the program, as Markdown and as a page to be folded, and her running sheet into the studio folder; returns their paths.

        Raises:
            NotSaved: the folder refused.
        """
        program = self.program(recital_id)
        recital = program.recital
        folder = f"recitals/{recital.held_on.isoformat()} {safe_name(recital.name)} ({recital.id})"
        markdown, page = self._printer.program_files(public_program(program, self._preferences.home.zone))
        documents = {
            "program.md": markdown,
            "program.html": page,
            "running sheet, yours.md": self._printer.running_sheet(self.running_sheet(program)),
        }
        return tuple(self._folder.put(f"{folder}/{name}", text) for name, text in documents.items())

    def running_sheet(self, program: RecitalProgram) -> RunningSheet:
        """A recital with what was noted of each item."""
        items = [item for row in program.rows for item in row.items]
        return RunningSheet(program=program, readiness=self._recitals.readiness_of(items))

    def _edits(self, making: "_Making", whose: PapersFor, again: frozenset[FamilyId]) -> tuple[Edit, ...]:
        goes = {
            (at.way, at.address)
            for at in whose.at
            if at.standing is Standing.GOES or (at.standing is Standing.CHANGED and whose.family.id in again)
        }
        if not goes:
            return ()
        going = [each for each in self._made(making, whose.family) if (each.way, each.address) in goes]
        return posted(going, making.earlier_of(whose.family), self._clock.now(), self._steps.writing.new_id)

    def program(self, recital_id: RecitalId) -> RecitalProgram:
        """The program that the papers are about.

        Raises:
            NotFound: the recital is not there any more.
            Refused: it is a rehearsal.
        """
        program = self._recitals.program(recital_id)
        if program.recital.is_rehearsal:
            raise Refused("A rehearsal has the papers of its recital. Open that one.")
        return program

    def _making(self, recital_id: RecitalId) -> "_Making":
        program, people = self.program(recital_id), self._reading.people()
        names = names_by_family(people.students.values(), people.families)
        earlier: dict[str, list[Outgoing]] = {}
        for each in self._reading.outgoing_about([_about(program, family) for family in program.families]):
            earlier.setdefault(each.about, []).append(each)
        return _Making(program=program, names=names, earlier=earlier)

    def _view(self, making: "_Making") -> PapersView:
        families = tuple(self._papers_for(making, each) for each in making.program.families)
        return PapersView(program=making.program, families=families)

    def _papers_for(self, making: "_Making", family: Family) -> PapersFor:
        """Says what a family still needs. Makes its papers only to compare them with earlier ones."""
        letter = cache(lambda: self._letter(making, family))
        earlier = making.earlier_of(family)
        students = dict.fromkeys(
            each.called for row in making.program.rows for each in row.performers if each.family.id == family.id
        )
        return PapersFor(
            family=family,
            students=listed([*students]),
            at=tuple(_paper_at(each, earlier, letter) for each in self._places(family)),
        )

    def _letter(self, making: "_Making", family: Family) -> Letter:
        return self._printer.recital_program(self._sheet(making, family))

    def _sheet(self, making: "_Making", family: Family) -> FamilyProgram:
        goals = self._recitals.goals(making.program, family)
        return family_program(making.program, family, goals, strangers_to(family, making.names))

    def _places(self, family: Family) -> Sequence[Destination]:
        """Lists the places where a family's papers go. The teacher copies them where the family has no way to an address."""
        places = destinations(ways_of(family, self._preferences.sending), addresses_for(self._reading, family.id))
        return places or [(Channel.CLIPBOARD, "")]

    def _made(self, making: "_Making", family: Family) -> tuple[Outgoing, ...]:
        sheet, now = self._sheet(making, family), self._clock.now()
        letter, days = self._printer.recital_program(sheet), calendar_days(making.program)
        times = now, now + timedelta(seconds=self._preferences.sending.wait_seconds)
        fresh = letter_out(letter, self._places(family), times, lambda: 0, _about(making.program, family))
        uid, _ = self._reading.calendar_edition()
        items = (as_next_version(each, making.earlier_of(family)) for each in fresh)
        return tuple(
            replace(each, next_lesson=self._printer.recital_calendar(sheet, days, (uid, each.version - 1), now))
            for each in items
        )


class _Making(Value):
    """What all families' papers are made from, read once: the program, everybody's names, and earlier papers."""

    program: RecitalProgram
    names: Mapping[FamilyId, frozenset[str]]
    earlier: Mapping[str, Sequence[Outgoing]]

    def earlier_of(self, family: Family) -> Sequence[Outgoing]:
        """What went to a family before, or is to."""
        return self.earlier.get(_about(self.program, family), ())


def _why_none(view: PapersView) -> str:
    if not view.families:
        return "Nobody plays in this recital yet."
    changed = [each.students for each in view.families if each.is_changed]
    if not changed:
        return "Everybody has these papers already."
    return f"Everybody has papers. They have changed since for {listed(changed)}. Choose whom they go to again."


def _about(program: RecitalProgram, family: Family) -> str:
    """What all versions of a family's papers are about: two families can have one address."""
    return f"{papers_of(program.recital.id)}{family.id}"


def _paper_at(place: Destination, earlier: Sequence[Outgoing], letter: Callable[[], Letter]) -> PaperAt:
    way, address = place
    there = last_there(place, earlier)
    if there is None:
        return PaperAt(way=way, address=address, standing=Standing.GOES, fate=None)
    has_it = (there.text, there.page) == (letter().text, letter().page)
    standing = Standing.THERE if has_it else Standing.CHANGED
    return PaperAt(way=way, address=address, standing=standing, fate=there.fate)
