"""The columns of a roster, the rows that they make, and what a file of them comes to."""

from collections.abc import Callable, Container, Iterable, Mapping
from datetime import date, time
from typing import TYPE_CHECKING, TypeVar

from cockpit.studio.clocks.home import Home
from cockpit.studio.clocks.moments import WEEKDAYS, Zone
from cockpit.studio.clocks.moves import agreed, clock_text
from cockpit.studio.clocks.words import clock_time
from cockpit.studio.lessons.breaks import Pause
from cockpit.studio.lessons.weekly_times import ROSTER, KeptIn, StandingTime
from cockpit.studio.people.people import Family, Guardian, Level, PlanForm, Student, name_key
from cockpit.studio.people.permissions import Permission
from cockpit.studio.roster import guardian_cells, values
from cockpit.studio.roster.permission_cell import read_permissions_cell
from cockpit.studio.roster.practice_days import practice_days_words, read_practice_days
from cockpit.studio.roster.shared_cell import read_companions
from cockpit.studio.values import Value, field, replace

if TYPE_CHECKING:
    from _typeshed import DataclassInstance

_SHOWN = 60


class Column(Value):
    """A column of a roster: all that the program knows of one.

    `field` names its value in a row, and in the record of the kind `of`; without one it names people. `read` makes
    the value of a cell that is not blank. A blank cell is refused with `if_blank`; without that it stands for
    `default`, or leaves what is known where it `keeps` it. `settle` makes one of what is known and what a cell says, where
    this may say less. `words` name it in a sentence where its name does not.
    """

    name: str
    field: str
    read: Callable[[str], object]
    of: type[Family] | type[Guardian] | type[Student] | type[Permission] | type[StandingTime] | type[Pause] | None = (
        None
    )
    if_blank: str | None = None
    default: object = None
    keeps: bool = False
    settle: Callable[[object, object], object] | None = None
    words: str = ""

    @property
    def label(self) -> str:
        """The name of the column in a sentence."""
        return self.words or self.name.replace("_", " ")

    def told(self, values_of_rows: Iterable[object], known: object, columns: Container[str]) -> object:
        """What a file with some `columns` says for a record: the first value that its rows have, or what blanks stand for."""
        if self.name not in columns and not self.keeps:
            return known
        value = next((value for value in values_of_rows if value is not None), None)
        if value is not None and self.settle is not None:
            return self.settle(known, value)
        return value if value is not None else known if self.keeps else self.default

    def said(self, value: object, hours: int = 24) -> str:
        """A value in words, a time on a clock of 12 or 24 `hours`."""
        match value:
            case time():
                return clock_time(value, hours)
            case Home():
                return clock_text(value)
            case frozenset():
                return practice_days_words(value)
            case int() if self.field == "weekday":
                return WEEKDAYS[value]
            case int() if self.field == "every_weeks":
                return "every week" if value == 1 else "every other week"
            case _:
                return str(value)


def _settled_clock(known: object, said: object) -> object:
    """The clock of a family, where a file says its zone."""
    return agreed(known, said) if isinstance(known, str | Home) and isinstance(said, str | Home) else said


TABLE = (
    Column(name="student", field="student", read=values.read_person, if_blank="Write the student's name"),
    Column(name="weekday", field="weekday", read=values.read_weekday, of=StandingTime, if_blank="Write the weekday, such as Tue"),
    Column(name="time", field="at", read=values.read_time, of=StandingTime, if_blank='Write the time, such as "4:30 pm" or "16:30"'),
    Column(name="minutes", field="minutes", read=values.read_minutes, of=StandingTime, if_blank="Write the length of the lesson in minutes, such as 45"),
    Column(name="family", field="family", read=values.read_person),
    Column(name="email", field="email", read=guardian_cells.read_addresses, of=Guardian),
    Column(name="instrument", field="instrument", read=values.read_name, of=StandingTime),
    Column(name="zone", field="zone", read=values.read_zone, of=Family, keeps=True, settle=_settled_clock),
    Column(name="kept_in", field="kept_in", read=values.read_kept_in, of=StandingTime, default=KeptIn.TEACHER, keeps=True, words="follows the clock of the"),
    Column(name="from", field="from_on", read=values.read_date, of=StandingTime),
    Column(name="until", field="until_on", read=values.read_date, of=StandingTime, words="through"),
    Column(name="daily_minutes", field="daily_minutes", read=values.read_daily_minutes, of=Student),
    Column(name="practice_days", field="practice_days", read=read_practice_days, of=Student),
    Column(name="plan", field="plan", read=values.read_plan, of=Student),
    Column(name="yearly_lessons", field="yearly_lessons", read=values.read_yearly_lessons, of=Student, words="lesson times in the year"),
    Column(name="call_link", field="call_link", read=values.read_call_link, of=StandingTime),
    Column(name="remark", field="remark", read=values.read_remark, of=Student),
    Column(name="level", field="level", read=values.read_level, of=Student),
    Column(name="clock", field="hours", read=values.read_clock, of=Family),
    Column(name="every_weeks", field="every_weeks", read=values.read_every_weeks, of=StandingTime, default=1, words="repeats"),
    Column(name="send_by", field="send_by", read=values.read_send_by, of=Family),
    Column(name="language", field="language", read=values.read_language, of=Family),
    Column(name="guardian", field="guardian", read=guardian_cells.read_names, of=Guardian),
    Column(name="phone", field="phone", read=guardian_cells.read_phones, of=Guardian),
    Column(name="gets", field="gets", read=guardian_cells.read_gets, of=Guardian),
    Column(name="permissions", field="permissions", read=read_permissions_cell, of=Permission),
    Column(name="with", field="shared_with", read=read_companions),
    Column(name="paused_from", field="paused_from", read=values.read_date, of=Pause),
    Column(name="paused_until", field="paused_until", read=values.read_date, of=Pause, words="paused through"),
)  # fmt: skip
"""A new column is a line here, and a field of a row and of the record that keeps it."""
COLUMNS = tuple(column.name for column in TABLE)
NEEDED_COLUMNS = tuple(column.name for column in TABLE if column.if_blank is not None)
OF_FAMILY = tuple(column for column in TABLE if column.of is Family)
OF_GUARDIANS = tuple(column for column in TABLE if column.of is Guardian)
"""Columns with a cell for all the guardians of a family, in their order."""
OF_STUDENT = tuple(column for column in TABLE if column.of is Student)
OF_PERMISSIONS = next(column for column in TABLE if column.of is Permission)
"""A cell for all that was said of how a student may be shown."""
OF_SHARING = next(column for column in TABLE if column.field == "shared_with")
"""A cell for the others who share the lessons of a weekly time."""
PAUSED_FROM, PAUSED_UNTIL = (column for column in TABLE if column.of is Pause)
OF_TIME = tuple(column for column in TABLE if column.of is StandingTime)


class RosterFault(Value):
    """What cannot be used in a roster: on which line, in which column if it is one cell, and what was found.

    `wanted` is what would work, as a sentence without its period (`Write ...`).
    """

    line: int
    column: str | None = None
    found: str
    wanted: str

    def __str__(self) -> str:
        """The fault as one sentence."""
        place = f"Line {self.line}" if self.column is None else f"Line {self.line}, {self.column}"
        return f"{place}: found {self.found}. {self.wanted}."


class RosterRow(Value):
    """A weekly time as the roster has it; None for what the file leaves blank.

    `weekday` is 0 on Monday; `at`, `from_on` and `until_on` are on the clock that `kept_in` names; `zone` is the
    family's clock; `hours` is the family's clock, 12 or 24; `practice_days` are weekdays and `plan` the form of their plan; `yearly_lessons` are the lesson times of a year; `level` is how far the student has come. `send_by` and `language` are the
    family's ways and language, as it keeps them. `email`, `guardian`, `phone` and `gets` are what `guardian_cells` reads of all its
    guardians, `permissions` what `permission_cell` reads, and `shared_with` what `shared_cell` reads: it says nothing where it is blank. `paused_from` and `paused_until` are the days of the student's pause. `event_uid` names the event, in a calendar. `called` is the student's name in the file where
    that and the family's are a name in the studio, as of somebody who came for a trial lesson.
    """

    line: int
    student: str
    weekday: int
    at: time
    minutes: int
    family: str | None = None
    email: str | None = None
    instrument: str | None = None
    zone: Zone | None = None
    kept_in: KeptIn | None = None
    from_on: date | None = None
    until_on: date | None = None
    daily_minutes: int | None = None
    call_link: str | None = None
    remark: str | None = None
    hours: int | None = None
    every_weeks: int | None = None
    practice_days: frozenset[int] | None = None
    send_by: str | None = None
    language: str | None = None
    plan: PlanForm | None = None
    yearly_lessons: int | None = None
    guardian: str | None = None
    phone: str | None = None
    gets: str | None = None
    permissions: str | None = None
    level: Level | None = None
    shared_with: str | None = None
    paused_from: date | None = None
    paused_until: date | None = None
    event_uid: str = ROSTER
    called: str | None = None

    def is_whole_name(self, name: str) -> bool:
        """Whether a name is that of the student and that of the family together."""
        return self.family is not None and name_key(name) == name_key(f"{self.student} {self.family}")

    def named(self, names: Mapping[tuple[str, str], str], *, is_whole: bool) -> "RosterRow":
        """The row with other names; one that `is_whole` only where the row's family is in it, or none is said."""
        student = names.get(("student", self.student), self.student)
        is_called = self.is_whole_name(student)
        return replace(
            self,
            student=student if is_called or not is_whole or self.family is None else self.student,
            called=self.student if is_called else None,
            family=None if self.family is None else names.get(("family", self.family), self.family),
        )


class RosterReading(Value):
    """A roster as it was read: the rows without a fault, the faults, and what was not used.

    `columns` are those that the file has, by our names: a blank cell in one of them says something, a column that is
    not there says nothing. With a fault, nothing of it should be imported. A calendar has all `event_uids` of which it
    says something: by rows, by rows that are `called_off`, or by the last date of those that have `ended`.
    """

    rows: tuple[RosterRow, ...]
    columns: frozenset[str]
    faults: tuple[RosterFault, ...] = ()
    notices: tuple[str, ...] = ()
    event_uids: frozenset[str] = frozenset()
    called_off: tuple[RosterRow, ...] = ()
    ended: Mapping[str, date] = field(default_factory=dict)

    def named(self, names: Mapping[tuple[str, str], str]) -> "RosterReading":
        """The rows with other names, by what they name (`student` or `family`) and the name in the file.

        A name that is a student's and the family's together is that of no student of the name in another family.
        """
        whole = {row.student for row in self.rows if row.is_whole_name(names.get(("student", row.student), ""))}
        rows = tuple(row.named(names, is_whole=row.student in whole) for row in self.rows)
        return replace(self, rows=rows)

    @property
    def uids_called_off(self) -> frozenset[str]:
        """The events that are canceled."""
        return frozenset(row.event_uid for row in self.called_off)


_Values = TypeVar("_Values", bound="DataclassInstance")


def with_values(record: _Values, values_by_field: Mapping[str, object]) -> _Values:
    """A row or a record with other values, by the names of its fields."""
    return replace(record, **values_by_field)


def value_of(record: "DataclassInstance", column: Column) -> object:
    """The value of a column in a row, or in a record of which it speaks."""
    found: object = getattr(record, column.field)
    return found


def quoted(text: str) -> str:
    """A text of the file in quotes, on one line, and cut where it is long."""
    shown = "".join(
        letter if letter.isprintable() else "\N{REPLACEMENT CHARACTER}" for letter in " ".join(text.split())
    )
    return f'"{shown}"' if len(shown) <= _SHOWN else f'"{shown[: _SHOWN - 1]}…"'
