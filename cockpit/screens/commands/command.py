"""What a command is, where its keys are heard, and what a key of it does."""

from dataclasses import dataclass
from enum import StrEnum


class Place(StrEnum):
    """Where a command's keys are heard: everywhere, on a screen, or in a pane of the lesson day."""

    EVERYWHERE = "everywhere"
    DAY = "the lesson day"
    NOTES = "the notes"
    LAST = "last assignments"
    QUEUE = "the queue"
    REVIEW = "the end of the day"
    AHEAD = "coming up"
    WEEK = "the week"
    YEAR = "the year"
    OUTBOX = "the outbox"
    WAYS = "how notes are sent"
    PREVIEW = "the preview"

    @property
    def screen(self) -> "Place":
        """The screen that a place is on: its own, but for the panes of the lesson day."""
        return Place.DAY if self in {Place.NOTES, Place.LAST, Place.QUEUE} else self

    @property
    def is_typed_in(self) -> bool:
        """Whether a letter is text there, and cannot be the key of a command."""
        return self in {Place.EVERYWHERE, Place.DAY, Place.NOTES}

    def is_heard_with(self, other: "Place") -> bool:
        """Whether there is a moment at which keys of both are heard: a screen hears its own in each of its panes."""
        return Place.EVERYWHERE in {self, other} or self is other or self is other.screen or self.screen is other


@dataclass(frozen=True, slots=True, kw_only=True)
class Command:
    """One thing that a key does. `keys` are alternatives; `short` is its word in the key strip, if it has a place in it.

    `opens` is the screen that the command opens, as `module:class`: it is imported when it is first opened. Any other
    command is an action of what hears it.
    """

    id: str
    keys: tuple[str, ...]
    label: str
    help: str
    place: Place = Place.DAY
    short: str = ""
    opens: str = ""

    @property
    def action(self) -> str:
        """The action that carries the command out, for what hears it: its id without the place."""
        if self.opens:
            return f"app.open_screen('{self.opens}')"
        name = self.id.split(".", 1)[1]
        return f"app.{name}" if self.place is Place.EVERYWHERE else name


def key_name(key: str) -> str:
    """A key as it is printed: `F9`, `ctrl+s`."""
    return (
        key.upper()
        if key[:1] == "f" and key[1:].isdigit()
        else {"escape": "esc", "ctrl+backslash": "ctrl+\\"}.get(key, key)
    )


def keys_of(command: Command) -> str:
    """All keys of a command as they are printed: `F9 or ctrl+s`; empty if it has none."""
    return " or ".join(map(key_name, command.keys))
