"""Everything kept about a family as files in open formats: what it is (README.txt), JSON, and tables as CSV."""

from collections.abc import Iterable, Mapping
from datetime import UTC, date, datetime, time
from enum import Enum

from cockpit.papers.family.csv_text import Cell, csv_text
from cockpit.papers.json_text import json_text
from cockpit.studio.changes.records import Record
from cockpit.studio.clocks.home import Home
from cockpit.studio.clocks.moments import WEEKDAYS, local_time, zone_at
from cockpit.studio.clocks.moves import clock_text
from cockpit.studio.leaving.family_record import FamilyRecord
from cockpit.studio.lessons.lesson import Lesson, LessonId
from cockpit.studio.lessons.weekly_times import StandingTime
from cockpit.studio.notes.notes import for_family
from cockpit.studio.people.people import Student

VERSION = 1
_NAMES = {"imported_times": "file_rows"}  # as this form of the file has them, whatever we call them
Json = str | int | None | list["Json"] | dict[str, "Json"]

_PRIVATE = """This contains the teacher's own records: private lines, follow-ups, reminders for next time,
remarks on students and their pieces, what may be shown of them, what was noted for recitals, lost calls,
the board of a lesson that runs, and inquiries. It is for the teacher only. `cockpit family NAME --export FILE.zip --without-private` leaves that out."""
_NO_PRIVATE = """The teacher's private lines, follow-ups, reminders, remarks on students and their pieces, what may be shown of them, what was noted for recitals, with whom a
student plays there, lost calls, the board of a lesson that runs, and inquiries are left out,
and so are the addresses and phone numbers of guardians. The notes are as the family sees them."""
_FILES = """family.json          everything, in every column. Moments are UTC (ISO 8601); a weekly time is a local time on the
                     clock it follows, the teacher's or the family's. A family that moved has all its time zones in
                     `zone`, each with its first day. `version` counts the formats of this file.
students.csv         the students.
standing-times.csv   the weekly times.
lessons.csv          the lessons with a record, in the family's time zone and in UTC.
assignments.csv      what was assigned, and how it went.
practice-notes/      the practice notes, each as Markdown and as a web page.
drafts/, messages/   emails and messages written to the family, if there are any.
calendar.ics         the lessons from the beginning of this studio year on, as iCalendar.

The tables are CSV (RFC 4180, UTF-8). In them an apostrophe comes before words that a spreadsheet would take for a
formula; family.json has those words without it."""


def family_files(record: FamilyRecord, made_at: datetime, program: str) -> Mapping[str, str]:
    """The files by name. `made_at` is UTC; `program` is the version of the program that made them."""
    return {
        "README.txt": _readme(record, made_at, program),
        "family.json": family_json(record, made_at),
        "students.csv": _students(record),
        "standing-times.csv": _standing_times(record),
        "lessons.csv": _lessons(record),
        "assignments.csv": _assignments(record),
    }


def family_json(record: FamilyRecord, made_at: datetime) -> str:
    """Everything as JSON: one list for each kind of record, each record with all that is kept of it."""
    whole: dict[str, Json] = {
        "form": "lesson-day cockpit, one family",
        "version": VERSION,
        "made_at": _json(made_at),
        "has_private": _json(record.has_private),
        "family": _object(record.family),
    }
    for name in record.__struct_fields__:
        records = getattr(record, name)
        if isinstance(records, tuple):
            whole[_NAMES.get(name, name)] = [_object(each) for each in records]
    whole["calendar_titles"] = dict(record.titles)
    return json_text(whole) + "\n"


def _object(record: Record) -> dict[str, Json]:
    return {name: _json(getattr(record, name)) for name in record.__struct_fields__}


def _json(value: object) -> Json:
    match value:
        case Enum():
            return str(value.value)
        case None | bool() | int() | str():
            return value
        case datetime():
            return value.astimezone(UTC).isoformat()
        case date() | time():
            return value.isoformat()
        case Home():
            return clock_text(value)
        case frozenset():
            return [_json(each) for each in sorted(value)]
        case _:
            raise TypeError(f"JSON has no {value!r}")


def _readme(record: FamilyRecord, made_at: datetime, program: str) -> str:
    made = made_at.astimezone(UTC).isoformat(timespec="minutes")
    said = (
        f"Everything kept about the {record.family.name} family",
        f"Made on {made} (UTC) by cockpit {program}.",
        _PRIVATE if record.has_private else _NO_PRIVATE,
        _FILES,
    )
    return "\n\n".join(said) + "\n"


def _students(record: FamilyRecord) -> str:
    header = [
        "student",
        "daily_minutes",
        "practice_days",
        "plan",
        "yearly_lessons",
        *(["level", "remark"] if record.has_private else []),
    ]
    rows = (
        [
            s.name,
            s.daily_minutes,
            _days(s),
            s.plan,
            s.yearly_lessons,
            *([s.level, s.remark] if record.has_private else []),
        ]
        for s in record.students
    )
    return csv_text(header, rows)


def _days(student: Student) -> str | None:
    if student.practice_days is None:
        return None
    return " ".join(WEEKDAYS[day][:3] for day in sorted(student.practice_days))


def _standing_times(record: FamilyRecord) -> str:
    names = _names(record)

    def row(standing: StandingTime) -> list[Cell]:
        return [
            names[standing.student_id], WEEKDAYS[standing.weekday], standing.at, standing.minutes, standing.kept_in,
            standing.every_weeks, standing.instrument, standing.from_on, standing.until_on, standing.call_link,
        ]  # fmt: skip

    header = (
        "student", "weekday", "time", "minutes", "kept_in", "every_weeks", "instrument", "from", "until", "call_link",
    )  # fmt: skip
    return csv_text(header, map(row, record.standing_times))


def _lessons(record: FamilyRecord) -> str:
    names, zone = _names(record), record.family.zone

    def row(lesson: Lesson) -> list[Cell]:
        local = local_time(lesson.starts_at, zone)
        return [
            names[lesson.student_id], local.date(), local.time(), zone_at(zone, lesson.starts_at), lesson.starts_at, lesson.minutes,
            lesson.instrument, lesson.kind, lesson.outcome, lesson.began_at, lesson.finished_at,
        ]  # fmt: skip

    header = (
        "student", "date", "time", "zone", "starts_at", "minutes", "instrument", "kind", "outcome", "began_at",
        "finished_at",
    )  # fmt: skip
    return csv_text(header, map(row, record.lessons))


def _assignments(record: FamilyRecord) -> str:
    names, lessons = _names(record), {lesson.id: lesson for lesson in record.lessons}
    marks = {(each.lesson_id, each.line): each.mark for each in record.marks}
    heard = {(each.lesson_id, each.line): each for each in record.heard}

    def rows(lesson_id: LessonId, body: str) -> Iterable[list[Cell]]:
        lesson = lessons[lesson_id]
        on = local_time(lesson.starts_at, record.family.zone).date()
        seen = for_family(body, record.labels)
        for line in seen.marked:
            place = (lesson_id, line.typed)
            played = heard.get(place)
            yield [
                on, names[lesson.student_id], str(line.area or line.line), line.text, marks.get(place),
                played.tempo if played else None, played.clean_runs if played else None,
            ]  # fmt: skip

    header = ("date", "student", "area", "assignment", "mark", "tempo_heard", "clean_runs")
    return csv_text(header, (row for note in record.notes for row in rows(note.lesson_id, note.body)))


def _names(record: FamilyRecord) -> Mapping[int, str]:
    return {student.id: student.name for student in record.students}
