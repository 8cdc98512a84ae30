"""A mail that was saved as a file: read as far as it may go, and no other kind of file."""

import stat
from pathlib import Path

from cockpit.studio.errors import BadInput
from cockpit.studio.inquiries.received import MOST_BYTES


def mail_file(path: Path) -> bytes:
    """The content of a file, one byte more than is read of a mail at most.

    Raises:
        BadInput: there is none, it is no file, or it cannot be read.
    """
    try:
        if not stat.S_ISREG(path.stat().st_mode):  # a pipe or a device may never end
            raise BadInput(f"{path} is not a file. Save the email as a file ending in .eml, and type its path.")
        with path.open("rb") as file:
            return file.read(MOST_BYTES + 1)
    except (OSError, ValueError) as fault:
        why = fault.strerror if isinstance(fault, OSError) else "it is no path"
        raise BadInput(f"{path} could not be read ({why}).") from fault
