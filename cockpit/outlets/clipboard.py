"""Text onto the system's clipboard, by the system's own tool."""

import os
import shutil
import subprocess
import sys

_TOOLS = (
    ("pbcopy",),
    ("wl-copy",),
    ("xclip", "-selection", "clipboard"),
    ("xsel", "--clipboard", "--input"),
    ("clip.exe",),
)
_PATIENCE = 2.0  # seconds


def system_tool() -> tuple[str, ...] | None:
    """The tool that reaches this person's clipboard; None over a remote line, where it would reach another's."""
    if os.environ.get("SSH_TTY") or os.environ.get("SSH_CONNECTION"):
        return None
    for tool in _TOOLS:
        if shutil.which(tool[0]) and _has_screen(tool[0]):
            return tool
    return None


def copy_by_tool(text: str, tool: tuple[str, ...]) -> bool:
    """Hands the text to the tool; whether it took it. May wait up to two seconds: not for the screen's thread."""
    try:
        # Some tools stay in the background to serve the clipboard: they must not hold our terminal.
        done = subprocess.run(  # noqa: S603 a tool of the list above
            tool,
            input=text.encode(),
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            timeout=_PATIENCE,
            check=False,
        )
    except (OSError, subprocess.TimeoutExpired):
        return False
    return done.returncode == 0


def _has_screen(name: str) -> bool:
    if name == "wl-copy":
        return bool(os.environ.get("WAYLAND_DISPLAY"))
    if name in {"xclip", "xsel"}:
        return bool(os.environ.get("DISPLAY"))
    return name != "pbcopy" or sys.platform == "darwin"
