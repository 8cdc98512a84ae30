"""The papers of a recital at the desk: who gets them, what each gets, how they go out, and what she prints for herself."""

from collections.abc import Iterable
from datetime import timedelta
from enum import StrEnum
from pathlib import Path

from cockpit.desk.lookup import addresses_for
from cockpit.desk.ports import Clock, Folder, PostPrinter, Reading
from cockpit.desk.post.previewing import Preview, Previewing
from cockpit.desk.recital.recitals import Recitals
from cockpit.desk.steps import Steps
from cockpit.studio.changes.recital import RecitalId
from cockpit.studio.changes.records import Edit
from cockpit.studio.clocks.words import counted, listed
from cockpit.studio.day.posting import (
    Letter,
    as_next_version,
    destinations,
    is_same,
    last_there,
    letter_out,
    posted,
    ways_of,
)
from cockpit.studio.errors import NotFound, Refused
from cockpit.studio.people.people import Family, FamilyId, first_name, name_key
from cockpit.studio.post.channels import TO_AN_ADDRESS
from cockpit.studio.post.outgoing import DeliveryStatus, Outgoing
from cockpit.studio.practice.notes import safe_name
from cockpit.studio.preferences import Preferences
from cockpit.studio.recital.papers import calendar_days, family_program, public_program
from cockpit.studio.recital.program import RecitalProgram
from cockpit.studio.recital.running_sheet import RunningSheet
from cockpit.studio.values import Value, replace


class Standing(StrEnum):
    """What putting the papers out would do at an address: they go, they are there already, or an earlier version is there."""

    GOES = "goes"
    THERE = "there"
    CHANGED = "changed"


class PaperAt(Value):
    """The papers of a recital for one address of a family; without an address she is to copy them, or they are refused.

    `fate` is what became of what is there; None where nothing is.
    """

    item: Outgoing
    standing: Standing
    fate: DeliveryStatus | None


class PapersFor(Value):
    """What one family of a recital gets: for whom, and what there is to do at each of its addresses."""

    family: Family
    students: str
    letter: Letter
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
        program = self._program(recital_id)
        return PapersView(program=program, families=tuple(self._papers_for(program, each) for each in program.families))

    def preview(self, recital_id: RecitalId, family_id: FamilyId) -> Preview:
        """What a family gets, as it will read it.

        Raises:
            NotFound: the family has nobody in the recital any more.
        """
        program = self._program(recital_id)
        family = next((each for each in program.families if each.id == family_id), None)
        if family is None:
            raise NotFound("This family has nobody in the recital any more.")
        return self._previewing.of_letter(self._papers_for(program, family).at[0].item)

    def put_out(self, recital_id: RecitalId, again: Iterable[FamilyId] = ()) -> str:
        """Puts the papers out where they were not yet, as one step that can be undone; where they have changed, to those `again`.

        Returns a sentence.

        Raises:
            NotSaved: nothing is in the outbox.
            Refused: there is nobody to whom they would go, or this is a rehearsal.
        """
        view = self.view(recital_id)
        made = [(each, self._edits(view, each, frozenset(again))) for each in view.families]
        going = [each for each, edits in made if edits]
        if not going:
            raise Refused(_why_none(view))
        if self._clock.is_rehearsal:  # or they would go when this copy of the studio is opened without --at
            raise Refused("A rehearsal sends nothing. F11 shows what each family would get.")
        edits = [edit for _, each in made for edit in each]
        self._steps.take(f"the papers of {view.program.recital.name}", *edits, durable=True)
        to_copy = [at for each in going for at in each.at if at.item.way not in TO_AN_ADDRESS]
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
        program = self._program(recital_id)
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

    def _edits(self, view: PapersView, whose: PapersFor, again: frozenset[FamilyId]) -> tuple[Edit, ...]:
        going = [
            at.item
            for at in whose.at
            if at.standing is Standing.GOES or (at.standing is Standing.CHANGED and whose.family.id in again)
        ]
        earlier = self._earlier(view.program, whose.family)
        return posted(going, earlier, self._clock.now(), self._steps.writing.new_id)

    def _program(self, recital_id: RecitalId) -> RecitalProgram:
        program = self._recitals.program(recital_id)
        if program.recital.is_rehearsal:
            raise Refused("A rehearsal has the papers of its recital. Open that one.")
        return program

    def _papers_for(self, program: RecitalProgram, family: Family) -> PapersFor:
        people, now = self._reading.people(), self._clock.now()
        strangers = {
            name
            for each in people.students.values()
            if each.family_id != family.id
            for name in (first_name(each, people.families[each.family_id]), people.families[each.family_id].name)
            if name_key(name) != name_key(family.name)
        }
        goals = self._recitals.goals(program, family)
        papers = family_program(program, family, goals, strangers)
        letter = self._printer.recital_program(papers)
        earlier = self._earlier(program, family)
        uid, _ = self._reading.calendar_edition()
        rules = self._preferences.sending
        times = now, now + timedelta(seconds=rules.wait_seconds)
        places = destinations(ways_of(family, rules), addresses_for(self._reading, family.id))
        fresh = letter_out(letter, places, times, lambda: 0, _about(program, family))
        items = tuple(as_next_version(each, earlier) for each in fresh)
        days = calendar_days(program)
        return PapersFor(
            family=family,
            students=letter.about,
            letter=letter,
            at=tuple(
                _paper_at(
                    replace(
                        each, next_lesson=self._printer.recital_calendar(papers, days, (uid, each.version - 1), now)
                    ),
                    earlier,
                )
                for each in items
            ),
        )

    def _earlier(self, program: RecitalProgram, family: Family) -> tuple[Outgoing, ...]:
        return self._reading.outgoing_about([_about(program, family)])


def _why_none(view: PapersView) -> str:
    if not view.families:
        return "Nobody plays in this recital yet."
    changed = [each.students for each in view.families if each.is_changed]
    if not changed:
        return "Everybody has these papers already."
    return f"Everybody has papers. They have changed since for {listed(changed)}. Choose whom they go to again."


def _about(program: RecitalProgram, family: Family) -> str:
    """What all versions of a family's papers are about: two families can have one address."""
    return f"recital-{program.recital.id}-{family.id}"


def _paper_at(item: Outgoing, earlier: tuple[Outgoing, ...]) -> PaperAt:
    there = last_there(item, earlier)
    if there is None:
        return PaperAt(item=item, standing=Standing.GOES, fate=None)
    return PaperAt(item=item, standing=Standing.THERE if is_same(there, item) else Standing.CHANGED, fate=there.fate)
