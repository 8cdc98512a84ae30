"""What a command is, and where its keys are heard."""

from dataclasses import dataclass
from enum import StrEnum


class Where(StrEnum):
    """Where a command's keys are heard."""

    EVERYWHERE = "everywhere"
    DAY = "the lesson day"
    NOTES = "the notes"
    LAST = "last assignments"
    QUEUE = "the queue"
    REVIEW = "the review"
    AHEAD = "what lies ahead"
    WEEK = "the week"
    YEAR = "the year"
    OUTBOX = "the outbox"
    WAYS = "ways to send"
    PREVIEW = "the preview"

    def is_heard_with(self, other: "Where") -> bool:
        """Whether there is a moment at which keys of both are heard: the lesson day hears its own in each of its panes."""
        places = {self, other}
        return (
            len(places) == 1 or Where.EVERYWHERE in places or (Where.DAY in places and places <= {*DAY_AND_ITS_PANES})
        )


DAY_AND_ITS_PANES = (Where.DAY, Where.NOTES, Where.LAST, Where.QUEUE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Command:
    """One thing that a key does. `keys` are alternatives; `short` is its word in the key strip.

    `is_of_app` tells that the program as a whole carries it out, and not the screen.
    """

    id: str
    keys: tuple[str, ...]
    label: str
    help: str
    where: Where = Where.DAY
    short: str = ""
    is_of_app: bool = False


def key_name(key: str) -> str:
    """A key as it is printed: `F9`, `ctrl+s`."""
    return (
        key.upper()
        if key[:1] == "f" and key[1:].isdigit()
        else {"escape": "esc", "ctrl+backslash": "ctrl+\\"}.get(key, key)
    )
