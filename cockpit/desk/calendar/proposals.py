"""The purpose of a typed line, and the proposal that a line or a file becomes."""

from enum import StrEnum

from cockpit.studio.changes.records import Edit
from cockpit.studio.lessons.lesson import Lesson
from cockpit.studio.lessons.scheduled import ScheduledLesson
from cockpit.studio.values import Value


class Purpose(StrEnum):
    """What a typed line is for."""

    MOVE = "move"
    MAKE_UP = "make-up"
    EXTRA = "extra"
    TRIAL = "trial"
    CHANGE = "change"
    BREAK = "break"
    PAUSE = "pause"
    CALL_OFF = "call-off"
    REASON = "reason"
    DUTY = "duty"
    STUDENT = "student"
    DETAILS = "details"
    GUARDIANS = "guardians"
    END = "end"
    INQUIRY = "inquiry"
    WAITING = "waiting list"
    CLOSE = "close"
    PIECE = "piece"
    RECITAL = "recital"
    RECITAL_CHANGE = "recital change"
    RECITAL_TIME = "recital time"
    REHEARSAL = "rehearsal"
    SITTING = "sitting"
    ITEM = "item"
    ITEM_CHANGE = "item change"
    ITEM_LENGTH = "item length"


class Proposal(Value):
    """What a line or a file was understood as, before it is done: in sentences, what would go wrong, the edits.

    A line is understood in a sentence, on both clocks; a file in a line for each thing that changes.

    `shown` is what goes out of it, to be read before. `lesson` is the lesson as it would be, where it is about one; `said` names the step, for her to undo it by. `first`
    is recorded before the edits, and undo leaves it there with the notes that it may have by then. `zone` is the IANA
    zone that a line was read on, and `whom` the name that a break was asked for by. `is_all` says that a file has
    nothing that the studio does not take, or has otherwise.
    """

    understood: str
    edits: tuple[Edit, ...]
    said: str
    troubles: tuple[str, ...] = ()
    shown: tuple[str, ...] = ()
    lesson: ScheduledLesson | None = None
    first: Lesson | None = None
    zone: str | None = None
    whom: str = ""
    is_all: bool = True

    @property
    def lines(self) -> tuple[str, ...]:
        """What was understood, line by line; none where nothing changes."""
        return tuple(self.understood.splitlines())
