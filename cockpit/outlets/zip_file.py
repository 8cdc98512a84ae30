"""Several documents as one zip file: there whole, or not at all, and never in the place of another file."""

import contextlib
import os
import zipfile
from collections.abc import Mapping
from datetime import datetime
from pathlib import Path

from cockpit.outlets.folder import fresh_file
from cockpit.studio.errors import CockpitError, Refused


def put_zip(target: Path, documents: Mapping[str, bytes], made_at: datetime) -> None:
    """Writes the documents, by their names in the zip, for nobody else to read.

    Raises:
        Refused: there is a file of that name.
        CockpitError: it could not be written; nothing is left of it.
    """
    if os.path.lexists(target):
        raise Refused(f"{target} already exists and was not changed. Choose another name.")
    fresh = target.with_name(f".{target.name}.new")
    try:
        with fresh_file(fresh, 0o600) as file, zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as archive:
            for name, content in documents.items():
                archive.writestr(_entry(name, made_at), content)
        _name_it(fresh, target)
    except OSError as fault:
        raise CockpitError(f"{target} could not be written: {fault.strerror}.") from fault
    finally:
        with contextlib.suppress(OSError):
            fresh.unlink(missing_ok=True)


def _name_it(fresh: Path, target: Path) -> None:
    """Gives the file its name; one that came there meanwhile stays, where the disk can tell."""
    try:
        os.link(fresh, target)
    except FileExistsError as fault:
        raise Refused(f"{target} already exists and was not changed. Choose another name.") from fault
    except OSError:  # a disk without a second name for a file
        fresh.replace(target)


def _entry(name: str, made_at: datetime) -> zipfile.ZipInfo:
    entry = zipfile.ZipInfo(name, date_time=made_at.timetuple()[:6])
    entry.compress_type = zipfile.ZIP_DEFLATED
    entry.external_attr = 0o600 << 16
    return entry
