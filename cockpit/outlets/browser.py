"""A call link to the system's browser."""

import subprocess
import sys
from pathlib import Path
from shutil import which

from cockpit.studio.people.web_address import web_address

_OPENERS = {"darwin": ("open",), "win32": ("explorer.exe",)}


def open_link(link: str) -> bool:
    """Hands a web address to the system's opener; whether there was one. Nothing else than http and https is opened."""
    address = web_address(link)
    return address is not None and _open(address)


def open_file(path: Path) -> bool:
    """Hands a file of ours to the system's opener; whether there was one."""
    return _open(path.as_uri())


def _open(address: str) -> bool:
    opener = _OPENERS.get(sys.platform, ("xdg-open",))
    if which(opener[0]) is None:
        return False
    try:
        subprocess.Popen(  # noqa: S603 the system's opener, and an address that was checked
            (*opener, address),
            stdin=subprocess.DEVNULL,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            start_new_session=True,
        )
    except OSError:
        return False
    return True
