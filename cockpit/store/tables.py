"""The register of tables: which record each holds, what tells its rows apart, and which of them belong to a family.

Reading, writing, exporting, forgetting and restoring all go by it. A record and its row have the same fields.
"""

import json
import re
import sqlite3
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from datetime import UTC, date, datetime, time
from enum import Enum
from functools import cache
from importlib import import_module
from types import NoneType
from typing import TypeVar, get_args, get_origin

from cockpit.studio.changes.records import Record
from cockpit.studio.clocks.home import Home
from cockpit.studio.clocks.moments import Zone
from cockpit.studio.clocks.moves import clock_in, clock_text
from cockpit.studio.values import Value

Cell = str | int | None
_HALF_A_PAIR = re.compile("[\ud800-\udfff]")
R = TypeVar("R", bound=Record)

_OF_STUDENTS = "student_id IN (SELECT id FROM student WHERE family_id = :family_id)"
_OF_GUARDIANS = "guardian_id IN (SELECT id FROM guardian WHERE family_id = :family_id)"
_OF_LESSONS = f"lesson_id IN (SELECT id FROM lesson WHERE {_OF_STUDENTS})"  # noqa: S608 a constant
# Those that they play in, with the rehearsals.
_OF_RECITALS = " OR ".join(
    f"{each} IN (SELECT recital_id FROM recital_item WHERE {_OF_STUDENTS})"  # noqa: S608 a constant
    for each in ("id", "parent_id")
)
_OF_ITEMS = f"item_id IN (SELECT id FROM recital_item WHERE {_OF_STUDENTS})"  # noqa: S608 a constant
# Those of a student or a trial lesson of theirs, and of those that are nobody's yet whatever came from an address of theirs.
_OF_INQUIRERS = (
    f"{_OF_STUDENTS} OR trial_lesson_id IN (SELECT id FROM lesson WHERE {_OF_STUDENTS}) OR "  # noqa: S608 a constant
    "(student_id IS NULL AND EXISTS (SELECT 1 FROM guardian WHERE family_id = :family_id AND "
    "lower(guardian.email) = lower(inquiry.email)))"
)
_OF_INQUIRIES = f"inquiry_id IN (SELECT id FROM inquiry WHERE {_OF_INQUIRERS})"  # noqa: S608 a constant
_OF_NOBODY = ":family_id IS NOT NULL"


class RecordTable(Value):
    """A table by its name, and the class of its record as `module:class`, which is loaded when it is first asked for.

    `of_family` is the condition for the rows that belong to the family whose id is `:family_id`. Rows that belong to no family
    (`_OF_NOBODY`) are all put back with any family: deleting it may have taken some.
    """

    record: str
    name: str
    keys: tuple[str, ...]
    of_family: str


def table_of(record: type[object]) -> RecordTable:
    """The table that holds a kind of record."""
    return _BY_RECORD[f"{record.__module__}:{record.__qualname__}"]


@cache
def _columns(table: RecordTable) -> Mapping[str, Callable[[str], object]]:
    """What reads each column of a table."""
    module, _, name = table.record.partition(":")
    kinds = getattr(import_module(module), name).__annotations__
    return {column: _reader(kind) for column, kind in kinds.items()}


def _reader(kind: object) -> Callable[[str], object]:
    """What makes of a column's cell the value of a field of a type; an id is what it is made of."""
    kinds = get_args(kind)
    if NoneType in kinds:
        (only,) = (each for each in kinds if each is not NoneType)
        return _or_none(_reader(only))
    known = getattr(kind, "__supertype__", kind)
    if known in _READERS:
        return _READERS[known]
    if get_origin(known) is frozenset:
        read = _reader(*kinds)
        return lambda cell: frozenset(read(word) for word in cell.split(",") if word)
    if isinstance(known, type) and issubclass(known, (date, time)):
        return known.fromisoformat
    if isinstance(known, type) and issubclass(known, (bool, Enum)):
        return known
    raise TypeError(f"no column holds {kind!r}")


def _or_none(read: Callable[[str], object]) -> Callable[[str], object]:
    def read_or_none(cell: str | None) -> object:
        return None if cell is None else read(cell)

    return read if read is _as_it_is else read_or_none


def _as_it_is(cell: str) -> str:
    return cell


_READERS: Mapping[object, Callable[[str], object]] = {
    str: _as_it_is,
    int: _as_it_is,
    frozenset[int]: lambda cell: frozenset(map(int, cell)),
    Zone: clock_in,
}

_PEOPLE, _WITHDRAWN = "cockpit.studio.people.people", "cockpit.studio.lessons.withdrawn"
_TIMES, _BREAKS = "cockpit.studio.lessons.weekly_times", "cockpit.studio.lessons.breaks"
_LETTERS = "cockpit.studio.post.family_letter"
_PIECES, _RECITAL = "cockpit.studio.changes.pieces", "cockpit.studio.changes.recital"
_RECORDS, _INQUIRIES = "cockpit.studio.changes.records", "cockpit.studio.inquiries.inquiry"


def _table(record: str, name: str, *keys: str, of_family: str) -> RecordTable:
    return RecordTable(record=record, name=name, keys=keys or ("id",), of_family=of_family)


# In this order each row finds what it refers to.
TABLES = (
    _table(f"{_PEOPLE}:Family", "family", of_family="id = :family_id"),
    _table(f"{_PEOPLE}:Guardian", "guardian", of_family="family_id = :family_id"),
    _table(f"{_PEOPLE}:Student", "student", of_family="family_id = :family_id"),
    _table("cockpit.studio.people.permissions:Permission", "permission", "student_id", "what", of_family=_OF_STUDENTS),
    _table(f"{_TIMES}:StandingTime", "standing_time", of_family=_OF_STUDENTS),
    _table(f"{_TIMES}:ImportedTime", "imported_time", "standing_time_id", "event_uid", of_family=_OF_STUDENTS),
    _table("cockpit.studio.lessons.lesson:Lesson", "lesson", of_family=_OF_STUDENTS),
    _table("cockpit.studio.lessons.calls:CallLoss", "call_loss", "lesson_id", "lost_at", of_family=_OF_LESSONS),
    _table(f"{_RECORDS}:Note", "note", "lesson_id", of_family=_OF_LESSONS),
    _table(f"{_RECORDS}:MarkSet", "mark", "lesson_id", "line", of_family=_OF_LESSONS),
    _table(f"{_RECORDS}:Heard", "heard", "lesson_id", "line", of_family=_OF_LESSONS),
    _table(f"{_RECORDS}:FollowUp", "follow_up", "lesson_id", "body", of_family=_OF_LESSONS),
    _table(f"{_RECORDS}:Export", "export", "lesson_id", of_family=_OF_LESSONS),
    _table(f"{_RECORDS}:BoardLine", "board_line", "lesson_id", "words", of_family=_OF_LESSONS),
    _table(f"{_PIECES}:Piece", "piece", "student_id", "key", of_family=_OF_STUDENTS),
    _table(f"{_PIECES}:PieceAlias", "piece_alias", "student_id", "key", "piece", of_family=_OF_STUDENTS),
    _table(f"{_PIECES}:StrandLeft", "strand_left", "student_id", "strand", of_family=_OF_STUDENTS),
    _table(f"{_RECITAL}:Recital", "recital", of_family=_OF_RECITALS),
    _table(f"{_RECITAL}:RecitalItem", "recital_item", of_family=_OF_STUDENTS),
    _table(f"{_RECITAL}:RecitalNoted", "recital_noted", "item_id", "recital_id", "what", of_family=_OF_ITEMS),
    _table(f"{_BREAKS}:Break", "break", of_family="family_id = :family_id"),
    _table(f"{_BREAKS}:Pause", "pause", of_family=_OF_STUDENTS),
    _table(f"{_WITHDRAWN}:WithdrawnLesson", "withdrawn_lesson", "lesson_id", of_family=_OF_STUDENTS),
    _table(f"{_WITHDRAWN}:WithdrawnTime", "withdrawn_time", "standing_time_id", of_family=_OF_STUDENTS),
    _table(f"{_WITHDRAWN}:WithdrawnClock", "withdrawn_clock", "family_id", of_family="family_id = :family_id"),
    _table("cockpit.studio.changes.duties:Duty", "duty", of_family=_OF_NOBODY),
    _table(f"{_INQUIRIES}:Inquiry", "inquiry", of_family=_OF_INQUIRERS),
    _table(f"{_INQUIRIES}:InquiryStep", "inquiry_step", of_family=_OF_INQUIRIES),
    _table(
        "cockpit.studio.post.outgoing:Outgoing",
        "outgoing",
        of_family=f"family_id = :family_id OR {_OF_LESSONS} OR {_OF_INQUIRIES}",
    ),
    _table(f"{_LETTERS}:FamilyLetter", "family_letter", of_family=_OF_NOBODY),
    _table(f"{_LETTERS}:LetterGuardian", "letter_guardian", "letter_id", "guardian_id", of_family=_OF_GUARDIANS),
    _table(f"{_RECORDS}:CalendarTitle", "calendar_title", "title", of_family=_OF_NOBODY),
    _table(f"{_RECORDS}:Accepted", "accepted", "key", of_family=_OF_NOBODY),
)
_BY_RECORD = {table.record: table for table in TABLES}


def row_of(record: Record) -> dict[str, Cell]:
    """The row of a record: moments as UTC text, booleans as 0 and 1."""
    return {column: _cell(getattr(record, column)) for column in record.__struct_fields__}


def key_of(record: Record) -> tuple[Cell, ...]:
    """What tells a record's row from the others of its table."""
    return tuple(_cell(getattr(record, name)) for name in table_of(type(record)).keys)


def text_of(at: datetime) -> str:
    """A moment as text that sorts as moments do."""
    return at.astimezone(UTC).isoformat(timespec="microseconds")


def records_of(record: type[R], rows: Sequence[sqlite3.Row]) -> Iterator[R]:
    """The records of rows that have its columns, and maybe others; an error of Python's where a cell holds what cannot be in it."""
    names = rows[0].keys() if rows else []
    columns = _columns(table_of(record))
    # By place: SQLite's rows look for a name from the first column on.
    plain = [(name, names.index(name)) for name, read in columns.items() if rows and read is _as_it_is]
    others = [(name, names.index(name), read) for name, read in columns.items() if rows and read is not _as_it_is]
    make: Callable[..., R] = record
    for row in rows:
        cells = {name: row[place] for name, place in plain}
        for name, place, read in others:
            cells[name] = read(row[place])
        yield make(**cells)


def moment_in(cell: str | None) -> datetime | None:
    """The moment in a cell, which may be empty."""
    return None if cell is None else datetime.fromisoformat(cell)


def has_table(connection: sqlite3.Connection, name: str) -> bool:
    """Whether a database, maybe of an earlier form, has a table."""
    query = "SELECT 1 FROM sqlite_master WHERE type = 'table' AND name = ?"
    return connection.execute(query, (name,)).fetchone() is not None


LISTED = "(SELECT value FROM json_each(?))"
"""The place in a query for values that are `listed`: SQLite takes no more than 32,766 single ones."""


def listed(values: Iterable[Cell]) -> str:
    """Any number of values as the one value that `LISTED` takes."""
    return json.dumps(list(values))


def text_cell(text: str) -> str:
    """Makes a text storable in SQLite: each lone surrogate, which UTF-8 cannot encode, becomes U+FFFD."""
    return text if text.isascii() else _HALF_A_PAIR.sub("\ufffd", text)


def _cell(value: object) -> Cell:
    match value:
        case str() | None:
            return value and text_cell(value)
        case date() | time():
            return text_of(value) if isinstance(value, datetime) else value.isoformat()
        case Enum():
            return str(value.value)
        case bool() | int():
            return int(value)
        case Home():
            return clock_text(value)
        case frozenset():
            between = "," if any(isinstance(each, str) for each in value) else ""
            return between.join(str(each) for each in sorted(value))
        case _:
            raise TypeError(f"no column holds {value!r}")
