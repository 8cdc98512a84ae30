"""What is kept about a lesson beside the lesson itself, and a change to the studio as a value.

A change is data: what each record was before and is after. It can be applied, shown, and turned around.
"""

from collections.abc import Mapping
from datetime import datetime
from typing import TYPE_CHECKING, TypeVar, Union

from cockpit.studio.lessons.lesson import LessonId
from cockpit.studio.notes.notes import Mark
from cockpit.studio.values import Value

if TYPE_CHECKING:
    from cockpit.studio.changes.duties import Duty
    from cockpit.studio.changes.pieces import Piece, PieceAlias, StrandLeft
    from cockpit.studio.changes.recital import Recital, RecitalItem, RecitalNoted
    from cockpit.studio.inquiries.inquiry import Inquiry, InquiryStep
    from cockpit.studio.lessons.breaks import Break, Pause
    from cockpit.studio.lessons.calls import CallLoss
    from cockpit.studio.lessons.lesson import Lesson
    from cockpit.studio.lessons.weekly_times import ImportedTime, StandingTime
    from cockpit.studio.lessons.withdrawn import WithdrawnClock, WithdrawnLesson, WithdrawnTime
    from cockpit.studio.people.people import Family, Guardian, Student
    from cockpit.studio.people.permissions import Permission
    from cockpit.studio.post.family_letter import FamilyLetter, LetterGuardian
    from cockpit.studio.post.outgoing import Outgoing


class Note(Value):
    """The text of a lesson's notes, exactly as typed."""

    lesson_id: LessonId
    body: str
    changed_at: datetime


class MarkSet(Value):
    """How an assignment went: `line` is the whole line as it was typed in the lesson that gave it."""

    lesson_id: LessonId
    line: str
    mark: Mark


class Heard(Value):
    """What was heard of an assignment: the tempo it was played at last, in its own beat a minute, and clean run-throughs.

    `line` is the whole line as it was typed in the lesson that gave it.
    """

    lesson_id: LessonId
    line: str
    tempo: int | None = None
    clean_runs: int = 0


class FollowUp(Value):
    """Something the teacher owes, noted in a lesson; open until it is ticked."""

    lesson_id: LessonId
    body: str
    ticked_at: datetime | None = None


class Export(Value):
    """Practice notes that lie in the folder: `path` is that of the Markdown file, relative to the studio folder."""

    lesson_id: LessonId
    path: str
    is_final: bool
    exported_at: datetime


class Accepted(Value):
    """Something that she was told of and leaves as it is; `key` names it, and behind a colon the weekly times or lessons."""

    key: str


class CalendarTitle(Value):
    """The student's name that a title of somebody's calendar was said to stand for."""

    title: str
    name: str


class BoardLine(Value):
    """A piece of theory that she put on the board of a lesson, or took off it: `words` are those between the braces."""

    lesson_id: LessonId
    words: str
    put_at: datetime
    is_off: bool = False


# Quoted, since no screen needs all of them: the module of each is loaded where it is used.
Record = Union[
    "Family",
    "Guardian",
    "Student",
    "Permission",
    "StandingTime",
    "Lesson",
    "CallLoss",
    "Note",
    "MarkSet",
    "Heard",
    "FollowUp",
    "Export",
    "Break",
    "Pause",
    "Accepted",
    "CalendarTitle",
    "BoardLine",
    "Outgoing",
    "ImportedTime",
    "WithdrawnLesson",
    "WithdrawnTime",
    "WithdrawnClock",
    "Piece",
    "PieceAlias",
    "StrandLeft",
    "Recital",
    "RecitalItem",
    "RecitalNoted",
    "Duty",
    "Inquiry",
    "InquiryStep",
    "FamilyLetter",
    "LetterGuardian",
]


class Edit(Value):
    """One record before and after; None stands for a record that is not there."""

    before: Record | None
    after: Record | None


class Change(Value):
    """Edits that belong together: all of them happen, or none. `said` names the step, for her to undo it by."""

    said: str
    edits: tuple[Edit, ...]

    def turned_around(self) -> "Change":
        """The change that takes this one back."""
        edits = tuple(Edit(before=edit.after, after=edit.before) for edit in reversed(self.edits))
        return Change(said=self.said, edits=edits)


_Key = TypeVar("_Key")


def edits_between(before: Mapping[_Key, Record], after: Mapping[_Key, Record]) -> list[Edit]:
    """The edits that make some records of others, each by its key; what stays is none."""
    found = (Edit(before=before.get(key), after=after.get(key)) for key in dict.fromkeys((*before, *after)))
    return [edit for edit in found if edit.before != edit.after]


def added(*records: Record) -> tuple[Edit, ...]:
    """The edits that put new records in."""
    return tuple(Edit(before=None, after=record) for record in records)
