"""What the calendar's commands of the command line do."""

import contextlib
import os
from pathlib import Path

from cockpit.clock import zone_data_version
from cockpit.commands import asked
from cockpit.desk.handing_out import HandingOut
from cockpit.studio.errors import CockpitError
from cockpit.studio.words import counted
from cockpit.wiring import Studio


def clock_changes(folder: Path, weeks: int) -> str:
    """The clock changes of the next weeks, and what they shift for whom."""
    from cockpit.papers.clock_changes import clock_changes_text

    def ask(studio: Studio) -> str:
        return clock_changes_text(studio.desk.ahead.clock_changes(weeks), studio.settings.hours, zone_data_version())

    return asked(folder, ask).rstrip("\n")


def calendar(folder: Path, weeks: int | None, family: str | None, out: Path | None) -> str:
    """The lessons as an iCalendar file; a sentence where that was written, else its text."""
    from cockpit.papers.calendar_file import calendar_file

    def ask(studio: Studio) -> str:
        handing_out = HandingOut(studio.store.reading, studio.desk.clock, studio.desk.ahead.practice)
        shared = handing_out.calendar(weeks, family)
        text = calendar_file(shared)
        if out is None:
            return text.removesuffix("\n")  # the last one is printed
        _write(out, text)
        weekly, single = counted(len(shared.series), "weekly lesson"), counted(len(shared.lessons), "single one")
        return f"{weekly} and {single} are in {out}."

    return asked(folder, ask)


def _write(out: Path, text: str) -> None:
    """Writes the file whole or not at all, readable by her alone: names of children are in it."""
    fresh = out.with_name(f".{out.name}.new")
    try:
        with os.fdopen(os.open(fresh, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600), "wb") as file:
            file.write(text.encode())
        fresh.replace(out)
    except OSError as fault:
        with contextlib.suppress(OSError):
            fresh.unlink(missing_ok=True)
        raise CockpitError(f"{out} could not be written: {fault.strerror}.") from fault
