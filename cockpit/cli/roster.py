"""What the command `roster` does with a table of students."""

import os
import tempfile
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import ExitStack, contextmanager
from pathlib import Path

from cockpit.cli.commands import asked
from cockpit.cli.progress import stoppable
from cockpit.clock import SystemClock
from cockpit.desk.bringing_in.enrolling import File
from cockpit.desk.calendar.proposals import Proposal
from cockpit.outlets.folder import place
from cockpit.studio.clocks.words import counted
from cockpit.studio.enrolling.people import NearMiss
from cockpit.studio.errors import BadInput, CockpitError, Interrupted, NotSaved, Refused
from cockpit.studio.progress import Report
from cockpit.studio.roster.columns import COLUMNS
from cockpit.studio.roster.encoding import decoded
from cockpit.studio.roster.roster import read_roster
from cockpit.studio.values import replace
from cockpit.wiring import Studio, copy_studio, has_studio, studio_at

Ask = Callable[[str], str | None]
NOTHING = "Nothing was imported."
_MOST_TOLD = 100  # collisions; a longer list is read by nobody


def roster(folder: Path, file: Path, ask: Ask, *, dry_run: bool) -> str:
    """Brings students in from a file, or shows what that would change; `ask` puts a question to her: None where nobody answers."""
    try:
        text, assumed = decoded(file.read_bytes())
    except BadInput as fault:
        raise BadInput(f"{file} {fault} {NOTHING}") from fault
    try:
        with for_roster(folder, dry_run=dry_run) as studio:
            if studio.store.writing is None:
                raise CockpitError(f"{studio.store.why_read_only} {NOTHING}")
            with stoppable("Reading the table: {} rows", NOTHING) as report:
                table = read_roster(text, report)
            named = table.named(_names(studio.enrolling.near_misses(table), ask))
            proposal, troubles = taken_in(studio, named)
            notices = [*studio.opening_notices, *assumed, *table.notices]
    except BadInput as faults:
        raise BadInput(f"{faults}\nNothing was imported from {file}.") from faults
    return "\n".join([*notices, *in_lines(proposal, "", dry_run=dry_run), *troubles])


def export(folder: Path, out: Path) -> str:
    """Saves the students as a table that can be edited and imported again; returns a sentence.

    Raises:
        Refused: there is a file of that name.
    """
    from cockpit.papers.family.csv_text import csv_text

    if os.path.lexists(out):
        raise Refused(f"{out} already exists and was not changed. Choose another name.")

    def ask(studio: Studio) -> str:
        roster = studio.enrolling.written()
        # The mark has a spreadsheet read the letters as they are (UTF-8).
        text = "\ufeff" + csv_text(COLUMNS, roster.rows)
        try:
            place(out, text.encode(), mode=0o600)
        except OSError as fault:
            raise CockpitError(f"{out} could not be written: {fault.strerror}.") from fault
        saved = f"Saved {counted(len(roster.rows), 'weekly time')} in {out}. It has remarks and phone numbers that are for you alone."
        left = ["Not in the table:", *(f"  {line}" for line in roster.left_out)] if roster.left_out else []
        return "\n".join([saved, *left])

    return asked(folder, ask)


def _names(misses: Iterable[NearMiss], ask: Ask) -> dict[tuple[str, str], str]:
    """The names that she says are meant, by what the file has."""
    names: dict[tuple[str, str], str] = {}
    unsaid = []
    for miss in misses:
        name = name_for(miss.kind, miss.name, "table", miss.near, ask)
        if name is None:
            unsaid.append(
                f'The {miss.kind} "{miss.name}" in the table is not in the studio, but {miss.near[0]} is. Write that name, or '
                f"import the file where you can answer whether this is a new {miss.kind}."
            )
        else:
            names[miss.kind, miss.name] = name
    if unsaid:
        raise BadInput("\n".join(unsaid))
    return names


def name_for(kind: str, name: str, file: str, near: tuple[str, ...], ask: Ask) -> str | None:
    """Whom a name in a file stands for, the likeliest first; None where nobody answers: nothing is changed on a guess."""
    said = ask(
        f'Which {kind} is "{name}" in the {file}? Press enter for {near[0]}, type another name, or type = for a new {kind}: '
    )
    if said is None:
        return None
    return name if said.strip() == "=" else said.strip() or near[0]


def in_lines(proposal: Proposal, left: str, *, dry_run: bool) -> list[str]:
    """What a file changes, or would, and what it leaves, each of that behind the words of `left`."""
    done = "This would change:" if dry_run else "Changed:"
    changed = [f"  {line}" for line in proposal.lines]
    head = done if changed else "Already up to date." if proposal.is_all else "Nothing changed."
    return [head, *changed, *(f"  {left}{line}" for line in proposal.troubles)]


def taken_in(studio: Studio, file: File, names: Mapping[str, str | None] | None = None) -> tuple[Proposal, list[str]]:
    """Takes a file in; returns what that changed, and the scheduling problems of the time ahead in sentences.

    Raises:
        Interrupted: nothing was imported.
    """
    proposal = None
    try:
        with stoppable("Comparing with the studio: {} students", NOTHING) as report:
            proposal = studio.enrolling.take_in(file, names or {}, report)
        with stoppable("Looking for scheduling problems: {} lessons", "") as report:
            return proposal, _troubles_of(studio, report) if proposal.lines else []
    except Interrupted:
        if proposal is None:
            raise
        return proposal, ["Stopped before all scheduling problems were found. Coming up in the cockpit lists them."]


def _troubles_of(studio: Studio, report: Report) -> list[str]:
    """The scheduling problems of the time ahead; nothing where there are none."""
    from cockpit.wording.problems import days_ahead, group_sentence

    groups, _ = studio.desk.ahead.troubles(report)
    ahead = days_ahead(studio.desk.ahead.days())
    home = studio.preferences.home
    today = home.date_of(studio.desk.clock.now())
    sentences = [f"  {group_sentence(group, home, today)}" for group in groups[:_MOST_TOLD]]
    if len(groups) > _MOST_TOLD:
        sentences.append(f"  and {len(groups) - _MOST_TOLD} more. Coming up in the cockpit lists the nearest ones.")
    return [f"Scheduling problems in {ahead}:", *sentences] if sentences else []


@contextmanager
def for_roster(folder: Path, *, dry_run: bool) -> Iterator[Studio]:
    """The studio that a file is brought into; for a dry run a copy of it, which is gone afterwards.

    So what would change, and what would clash then, is what would be said of the deed. A dry run makes no studio: where
    there is none, the copy is an empty one.

    Raises:
        NotSaved: nothing was imported; the sentence says why.
    """
    try:
        with tempfile.TemporaryDirectory() as copy, ExitStack() as opened:
            if not dry_run:
                yield opened.enter_context(studio_at(folder, SystemClock(), to_write=True))
                return
            notices: tuple[str, ...] = ()
            if has_studio(folder):
                real = opened.enter_context(studio_at(folder, SystemClock(), to_write=False))
                notices = real.opening_notices
                copy_studio(folder, Path(copy))
            studio = opened.enter_context(studio_at(Path(copy), SystemClock(), to_write=True))
            yield replace(studio, opening_notices=notices)
    except NotSaved as fault:  # its own sentence speaks of words on the screen
        why = fault.__cause__ or fault
        raise NotSaved(f"Nothing was imported: {folder} could not be written to ({why}).") from fault
