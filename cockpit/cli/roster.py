"""What the command `roster` does with a table of students."""

import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path

from cockpit.clock import SystemClock
from cockpit.desk.calendar.proposals import Proposal
from cockpit.studio.errors import BadInput, CockpitError, NotSaved
from cockpit.studio.roster.roster import read_roster
from cockpit.wiring import Studio, has_studio, studio_at

_MOST_TOLD = 100  # collisions; a longer list is read by nobody


def roster(folder: Path, file: Path, *, dry_run: bool) -> str:
    """Brings students in from a file, or shows what that would change."""
    try:
        text = file.read_bytes().decode("utf-8-sig")
    except UnicodeDecodeError as fault:
        raise BadInput(
            f"{file} is not UTF-8 (line {_line_of(fault)}, byte {fault.start + 1} is {fault.object[fault.start]:#04x}). "
            'Save it as "CSV UTF-8" and try again. Nothing was imported.'
        ) from fault
    try:
        with for_roster(folder, dry_run=dry_run) as studio:
            if studio.store.writing is None and not dry_run:
                raise CockpitError(f"{studio.store.why_read_only} Nothing was imported.")
            table = read_roster(text)
            proposal = studio.enrolling.look_at(table) if dry_run else studio.enrolling.take_in(table)
            notices = [*studio.opening_notices, *table.notices]
            troubles = [] if dry_run or not proposal.lines else troubles_of(studio)
    except BadInput as faults:
        raise BadInput(f"{faults}\nNothing was imported from {file}.") from faults
    return "\n".join([*notices, *in_lines(proposal, "", dry_run=dry_run), *troubles])


def in_lines(proposal: Proposal, left: str, *, dry_run: bool) -> list[str]:
    """What a file changes, or would, and what it leaves, each of that behind the words of `left`."""
    done = "This would change:" if dry_run else "Changed:"
    changed = [f"  {line}" for line in proposal.lines]
    head = done if changed else "Already up to date."
    return [head, *changed, *(f"  {left}{line}" for line in proposal.troubles)]


def _line_of(fault: UnicodeDecodeError) -> int:
    return len(fault.object[: fault.start].splitlines()) + fault.object[: fault.start].endswith((b"\n", b"\r")) or 1


def troubles_of(studio: Studio) -> list[str]:
    """The scheduling problems of the time ahead, in sentences; nothing where there are none."""
    from cockpit.wording.problems import days_ahead, group_sentence

    groups, _ = studio.desk.ahead.troubles()
    ahead = days_ahead(studio.desk.ahead.days())
    home, hours = studio.settings.home, studio.settings.hours
    sentences = [f"  {group_sentence(group, home, hours)}" for group in groups[:_MOST_TOLD]]
    if len(groups) > _MOST_TOLD:
        sentences.append(f"  and {len(groups) - _MOST_TOLD} more. Coming up in the cockpit lists the nearest ones.")
    return [f"Scheduling problems in {ahead}:", *sentences] if sentences else []


@contextmanager
def for_roster(folder: Path, *, dry_run: bool) -> Iterator[Studio]:
    """The studio that a file is brought into; for a look at it, an empty one where there is none.

    Raises:
        NotSaved: nothing was imported; the sentence says why.
    """
    if not dry_run or has_studio(folder):
        try:
            with studio_at(folder, SystemClock(), to_write=not dry_run) as studio:
                yield studio
        except NotSaved as fault:  # its own sentence speaks of words on the screen
            why = fault.__cause__ or fault
            raise NotSaved(f"Nothing was imported: {folder} could not be written to ({why}).") from fault
        return
    # A look at a roster makes no studio: it is held against an empty one that is gone afterwards.
    with tempfile.TemporaryDirectory() as empty, studio_at(Path(empty), SystemClock(), to_write=True) as studio:
        yield replace(studio, opening_notices=())
