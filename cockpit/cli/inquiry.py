"""What the command `inquiry` does with a saved email."""

from collections.abc import Callable
from pathlib import Path

from cockpit.clock import SystemClock
from cockpit.studio.errors import BadInput, CockpitError
from cockpit.wiring import studio_at

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
