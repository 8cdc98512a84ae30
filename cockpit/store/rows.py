"""Records to rows and back."""

import sqlite3
from collections.abc import Callable, Mapping
from dataclasses import dataclass, fields
from datetime import UTC, date, datetime, time
from enum import Enum

from cockpit.studio.changes.records import Accepted, Export, FollowUp, Heard, MarkSet, Note, Record
from cockpit.studio.lessons.breaks import Break, BreakId
from cockpit.studio.lessons.lesson import Kind, Lesson, LessonId, Outcome
from cockpit.studio.lessons.weekly_times import ImportedTime, KeptIn, StandingTime, StandingTimeId
from cockpit.studio.notes.notes import Mark
from cockpit.studio.people.people import Family, FamilyId, Student, StudentId
from cockpit.studio.post.outgoing import Fate, Outgoing, OutgoingId
from cockpit.studio.post.ways import Way

Cell = str | int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """Where a kind of record lies and what tells one from another."""

    name: str
    keys: tuple[str, ...]


TABLES: Mapping[type[Record], Table] = {
    Family: Table(name="family", keys=("id",)),
    Student: Table(name="student", keys=("id",)),
    StandingTime: Table(name="standing_time", keys=("id",)),
    Lesson: Table(name="lesson", keys=("id",)),
    Note: Table(name="note", keys=("lesson_id",)),
    MarkSet: Table(name="mark", keys=("lesson_id", "line")),
    Heard: Table(name="heard", keys=("lesson_id", "line")),
    FollowUp: Table(name="follow_up", keys=("lesson_id", "body")),
    Export: Table(name="export", keys=("lesson_id",)),
    Break: Table(name="break", keys=("id",)),
    Accepted: Table(name="accepted", keys=("key",)),
    Outgoing: Table(name="outgoing", keys=("id",)),
    ImportedTime: Table(name="imported_time", keys=("standing_time_id", "event_uid")),
}


def row_of(record: Record) -> dict[str, Cell]:
    """The row of a record: moments as UTC text, booleans as 0 and 1."""
    return {field.name: _cell(getattr(record, field.name)) for field in fields(record)}


def text_of(at: datetime) -> str:
    """A moment as text that sorts as moments do."""
    return at.astimezone(UTC).isoformat(timespec="microseconds")


def _cell(value: object) -> Cell:
    match value:
        case str() | None:
            return value
        case datetime():
            return text_of(value)
        case date() | time():
            return value.isoformat()
        case Enum():
            return str(value.value)
        case bool() | int():
            return int(value)
        case frozenset():
            return "".join(str(number) for number in sorted(value))
        case _:
            raise TypeError(f"no column holds {value!r}")


def _maybe(read: Callable[[str], date], cell: str | None) -> date | None:
    return None if cell is None else read(cell)


def maybe_moment(cell: str | None) -> datetime | None:
    """The moment in a cell, which may be empty."""
    return None if cell is None else datetime.fromisoformat(cell)


def family(row: sqlite3.Row) -> Family:
    """A family from its row."""
    return Family(
        id=FamilyId(row["id"]),
        name=row["name"],
        email=row["email"],
        zone=row["zone"],
        hours=row["hours"],
        folder=row["folder"],
        send_by=row["send_by"],
        language=row["language"],
    )


def student(row: sqlite3.Row) -> Student:
    """A student from its row."""
    return Student(
        id=StudentId(row["id"]),
        family_id=FamilyId(row["family_id"]),
        name=row["name"],
        daily_minutes=row["daily_minutes"],
        remark=row["remark"],
        practice_days=None if row["practice_days"] is None else frozenset(map(int, row["practice_days"])),
    )


def standing_time(row: sqlite3.Row) -> StandingTime:
    """A standing time from its row."""
    return StandingTime(
        id=StandingTimeId(row["id"]),
        student_id=StudentId(row["student_id"]),
        weekday=row["weekday"],
        at=time.fromisoformat(row["at"]),
        minutes=row["minutes"],
        kept_in=KeptIn(row["kept_in"]),
        instrument=row["instrument"],
        from_on=_maybe(date.fromisoformat, row["from_on"]),
        until_on=_maybe(date.fromisoformat, row["until_on"]),
        call_link=row["call_link"],
        every_weeks=row["every_weeks"],
        follows=None if row["follows"] is None else StandingTimeId(row["follows"]),
        is_from_file=bool(row["is_from_file"]),
        event_uid=row["event_uid"],
    )


def imported_time(row: sqlite3.Row) -> ImportedTime:
    """What a file said, from its row."""
    return ImportedTime(
        standing_time_id=StandingTimeId(row["standing_time_id"]),
        event_uid=row["event_uid"],
        student_id=StudentId(row["student_id"]),
        weekday=row["weekday"],
        at=time.fromisoformat(row["at"]),
        minutes=row["minutes"],
        kept_in=KeptIn(row["kept_in"]),
        instrument=row["instrument"],
        from_on=_maybe(date.fromisoformat, row["from_on"]),
        until_on=_maybe(date.fromisoformat, row["until_on"]),
        call_link=row["call_link"],
        every_weeks=row["every_weeks"],
    )


def lesson(row: sqlite3.Row) -> Lesson:
    """A lesson from its row."""
    standing_id = row["standing_time_id"]
    return Lesson(
        id=LessonId(row["id"]),
        student_id=StudentId(row["student_id"]),
        standing_time_id=None if standing_id is None else StandingTimeId(standing_id),
        kind=Kind(row["kind"]),
        instrument=row["instrument"],
        starts_at=datetime.fromisoformat(row["starts_at"]),
        minutes=row["minutes"],
        began_at=maybe_moment(row["began_at"]),
        finished_at=maybe_moment(row["finished_at"]),
        outcome=None if row["outcome"] is None else Outcome(row["outcome"]),
        gives_full_length=bool(row["gives_full_length"]),
        is_reopened=bool(row["is_reopened"]),
        is_moved=bool(row["is_moved"]),
        makes_up=None if row["makes_up"] is None else LessonId(row["makes_up"]),
    )


def note(row: sqlite3.Row) -> Note:
    """A note from its row."""
    changed_at = datetime.fromisoformat(row["changed_at"])
    return Note(lesson_id=LessonId(row["lesson_id"]), body=row["body"], changed_at=changed_at)


def mark_set(row: sqlite3.Row) -> MarkSet:
    """A mark from its row."""
    return MarkSet(lesson_id=LessonId(row["lesson_id"]), line=row["line"], mark=Mark(row["mark"]))


def heard(row: sqlite3.Row) -> Heard:
    """What was heard of an assignment, from its row."""
    lesson_id = LessonId(row["lesson_id"])
    return Heard(lesson_id=lesson_id, line=row["line"], tempo=row["tempo"], clean_runs=row["clean_runs"])


def follow_up(row: sqlite3.Row) -> FollowUp:
    """A follow-up from its row."""
    return FollowUp(lesson_id=LessonId(row["lesson_id"]), body=row["body"], ticked_at=maybe_moment(row["ticked_at"]))


def export(row: sqlite3.Row) -> Export:
    """An export from its row."""
    return Export(
        lesson_id=LessonId(row["lesson_id"]),
        path=row["path"],
        is_final=bool(row["is_final"]),
        exported_at=datetime.fromisoformat(row["exported_at"]),
    )


def studio_break(row: sqlite3.Row) -> Break:
    """A break from its row."""
    return Break(
        id=BreakId(row["id"]),
        family_id=None if row["family_id"] is None else FamilyId(row["family_id"]),
        from_on=date.fromisoformat(row["from_on"]),
        until_on=date.fromisoformat(row["until_on"]),
        reason=row["reason"],
    )


def outgoing(row: sqlite3.Row) -> Outgoing:
    """Something that goes out, from its row."""
    return Outgoing(
        id=OutgoingId(row["id"]),
        lesson_id=LessonId(row["lesson_id"]),
        family_id=FamilyId(row["family_id"]),
        version=row["version"],
        way=Way(row["way"]),
        address=row["address"],
        student=row["student"],
        title=row["title"],
        text=row["text"],
        page=row["page"],
        language=row["language"],
        next_lesson=row["next_lesson"],
        is_update=bool(row["is_update"]),
        queued_at=datetime.fromisoformat(row["queued_at"]),
        not_before=datetime.fromisoformat(row["not_before"]),
        fate=Fate(row["fate"]),
        attempts=row["attempts"],
        settled_at=maybe_moment(row["settled_at"]),
        reason=row["reason"],
        message_id=row["message_id"],
    )
