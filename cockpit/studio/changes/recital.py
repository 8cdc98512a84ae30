"""A recital and who plays what in it, what was noted of that beforehand, and what happened on the day."""

from datetime import date, datetime, time
from enum import StrEnum
from typing import NewType

from cockpit.studio.people.people import StudentId
from cockpit.studio.values import Value

RecitalId = NewType("RecitalId", int)
RecitalItemId = NewType("RecitalItemId", int)
# Common practice, no source: 30 to 90 seconds between two items.
_CHANGEOVER = 60


def papers_of(recital_id: RecitalId) -> str:
    """Returns how the `about` of all papers of a recital begins in the outbox. The id of the family follows."""
    return f"recital-{recital_id}-"


class PinnedTo(StrEnum):
    """Where an item of a recital has to be, whatever the order."""

    FIRST = "first"
    LAST = "last"
    AFTER = "after"
    BEFORE = "before"


class NotedThing(StrEnum):
    """What she notes of an item before a recital."""

    BY_HEART = "by heart"
    COSTUME = "costume"
    PROPS = "props"
    STORY = "story walked through"
    SOUND = "sound checked"
    TRACK = "track at the student's end"
    REHEARSED = "rehearsal attended"


class Recital(Value):
    """One recital, a rehearsal of one, or a further sitting of one, which both have a `parent_id`.

    It begins `at` a local time of a named zone, with a welcome and ends with thanks (`opening_seconds`, `closing_seconds`); a
    `changeover`, in seconds, lies between two items. A rehearsal has the items of its parent, a sitting has its own.
    `began_at` and `ended_at` are the UTC moments of the day itself.
    """

    id: RecitalId
    name: str
    theme: str | None = None
    held_on: date
    at: time
    zone: str
    minutes_limit: int | None = None
    changeover: int = _CHANGEOVER
    is_online: bool = False
    link: str | None = None
    place: str | None = None
    opening_seconds: int = 0
    closing_seconds: int = 0
    parent_id: RecitalId | None = None
    is_rehearsal: bool = False
    began_at: datetime | None = None
    ended_at: datetime | None = None


class RecitalItem(Value):
    """What one student plays in a recital. Items of one `position` are played together; a missing position is no gap.

    `seconds` are None where nobody knows them, and `is_computed` says that they were worked out. `with_whom` is somebody in
    the same room, or a track. A pin to `AFTER` names an item, which may be gone, and one to `BEFORE` a time of the recital's
    zone. Without `shown_as` the permissions decide how the student is called on papers. `costume`, `props`, and `enters` are
    for the own family, `note` and the pin for the teacher alone. `began_at` and `ended_at` are UTC.
    """

    id: RecitalItemId
    recital_id: RecitalId
    position: int
    student_id: StudentId
    piece: str
    composer: str | None = None
    instrument: str | None = None
    seconds: int | None = None
    is_computed: bool = False
    with_whom: str | None = None
    costume: str | None = None
    props: str | None = None
    story: str | None = None
    enters: str | None = None
    note: str | None = None
    pin: PinnedTo | None = None
    pinned_after: RecitalItemId | None = None
    pinned_before: time | None = None
    shown_as: str | None = None
    began_at: datetime | None = None
    ended_at: datetime | None = None
    is_skipped: bool = False


class RecitalNoted(Value):
    """What she said of one thing of an item, on a date of hers; nothing is kept of what was not said.

    `recital_id` is that of the item's recital, or of the rehearsal that was attended or missed.
    """

    item_id: RecitalItemId
    recital_id: RecitalId
    what: NotedThing
    is_yes: bool
    said_on: date
