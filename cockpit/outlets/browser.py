"""A call link to the system's browser."""

import subprocess
import sys
from shutil import which

_OPENERS = {"darwin": ("open",), "win32": ("explorer.exe",)}


def open_link(link: str) -> bool:
    """Hands a web address to the system's opener; whether there was one. Nothing else than http and https is opened."""
    if not link.startswith(("https://", "http://")):
        return False
    opener = _OPENERS.get(sys.platform, ("xdg-open",))
    if which(opener[0]) is None:
        return False
    try:
        subprocess.Popen(  # noqa: S603 the system's opener, and an address that was checked
            (*opener, link),
            stdin=subprocess.DEVNULL,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            start_new_session=True,
        )
    except OSError:
        return False
    return True
