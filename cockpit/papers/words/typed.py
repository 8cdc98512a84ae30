"""Typed text as lines that are safe in every document."""

from cockpit.studio.shown import shown


def typed_lines(text: str) -> list[str]:
    """The lines of typed text, split at every break that an editor shows as one."""
    return [shown(line) for line in text.splitlines()]


def one_line(text: str) -> str:
    """Typed text on a single line; a break in it becomes a blank."""
    return " ".join(typed_lines(text))
