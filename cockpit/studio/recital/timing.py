"""When each item of a recital begins and ends, how long the music is, and what is left of the time that she set."""

from collections.abc import Sequence
from datetime import datetime, timedelta

from cockpit.studio.values import Value

CHANGEOVER = 60  # seconds; 30 to 90 are common practice, no source


class RecitalFrame(Value):
    """What lies around the items: it starts at a UTC moment, with a welcome, and ends with thanks. Lengths are in seconds.

    A `changeover` lies between two items. `minutes_limit` is how long all of it may take; None without a limit.
    """

    starts_at: datetime
    changeover: int = CHANGEOVER
    opening: int = 0
    closing: int = 0
    minutes_limit: int | None = None


class ItemTime(Value):
    """The UTC moments between which an item is played."""

    starts_at: datetime
    ends_at: datetime


class RecitalTimes(Value):
    """When each item is played, when the closing begins, and when all of it is over (UTC).

    `music` are the seconds of the items alone, `total` those from the start to the end. `left` are those up to the limit:
    below 0 they are over it; None without a limit.
    """

    items: tuple[ItemTime, ...]
    closing_at: datetime
    ends_at: datetime
    music: int
    total: int
    left: int | None


def recital_times(seconds: Sequence[int], frame: RecitalFrame) -> RecitalTimes:
    """The times of items that last so many seconds each, in their order."""
    at = frame.starts_at + timedelta(seconds=frame.opening)
    items = []
    for number, each in enumerate(seconds):
        begins = at + timedelta(seconds=frame.changeover if number else 0)
        at = begins + timedelta(seconds=each)
        items.append(ItemTime(starts_at=begins, ends_at=at))
    ends_at = at + timedelta(seconds=frame.closing)
    total = (ends_at - frame.starts_at) // timedelta(seconds=1)
    return RecitalTimes(
        items=tuple(items),
        closing_at=at,
        ends_at=ends_at,
        music=sum(seconds),
        total=total,
        left=frame.minutes_limit * 60 - total if frame.minutes_limit is not None else None,
    )
