"""What the command `inquiry` does: it takes a saved email in, or counts inquiries."""

from collections.abc import Callable
from datetime import date
from pathlib import Path

from cockpit.clock import SystemClock
from cockpit.studio.errors import BadInput, CockpitError
from cockpit.wiring import Studio, studio_at

Ask = Callable[[str], str | None]


def inquiry(folder: Path, file: Path, came: str | None, ask: Ask) -> str:
    """Takes a saved email in as an inquiry; when it came is asked where neither it nor `came` says so.

    Raises:
        BadInput: it is no email, or nobody says when it came.
    """
    from cockpit.cli.commands import want_studio

    want_studio(folder)
    with studio_at(folder, SystemClock(), to_write=True) as studio:
        if studio.store.writing is None:
            raise CockpitError(f"{studio.store.why_read_only} Nothing was added.")
        inquiring = studio.desk.inquiring()
        mail = inquiring.mail(file)
        if came is None and mail.came_at is not None:
            return inquiring.take_mail(mail, mail.came_at)
        when = came or ask(f"{file} does not say when it came. When did it? ")
        if when is None or not when.strip():
            raise BadInput(f'{file} does not say when it came. Add --came "2026-11-28 10:00".')
        return inquiring.take_mail(mail, inquiring.came(when))


def counts(folder: Path, first_on: date, last_on: date) -> str:
    """Count the inquiries that came from one date through another, on the teacher's clock, and what became of them.

    Raises:
        BadInput: the dates are the wrong way round.
    """
    from cockpit.cli.commands import asked
    from cockpit.wording.inquiries import counts_lines, counts_title

    if last_on < first_on:
        raise BadInput(f"{last_on.isoformat()} is before {first_on.isoformat()}. Write the first date first.")

    def ask(studio: Studio) -> str:
        found = studio.desk.inquiring().counts(first_on, last_on)
        title = counts_title(found, studio.preferences.inquiry.reply_hours)
        return "\n".join([title, *counts_lines(found)]) if found.came else "No inquiries came on these days."

    return asked(folder, ask)
