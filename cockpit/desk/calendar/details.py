"""Details of a student and the family, which the roster has: a line changes them, as "language es, call her Nora"."""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from cockpit.desk.calendar.lines import Lines
from cockpit.desk.calendar.proposals import Proposal
from cockpit.desk.lookup import refuse_taken
from cockpit.desk.ports import Reading
from cockpit.studio.changes.records import Edit
from cockpit.studio.clocks.words import possessive
from cockpit.studio.errors import BadInput, Refused
from cockpit.studio.lessons.scheduled import ScheduledLesson
from cockpit.studio.lessons.weekly_times import StandingTime
from cockpit.studio.people.people import Family, Student, name_key
from cockpit.studio.roster.columns import TABLE, Column, with_values
from cockpit.studio.roster.values import read_person
from cockpit.studio.typed_times.line_parts import parts_of

EXAMPLES = '"language es", "clock 24", "remark likes duets", "call her Nora", "family Bell-Ortiz", or "25 a day"'
_NOTHING = frozenset({"nothing", "-", "–"})
_CALL = re.compile(r"(?:call (?:her |him |them )?|(?:first )?name )(?P<value>.+)", re.IGNORECASE)
_FAMILY = re.compile(r"(?:the )?family(?: name)?:? (?P<value>.+)", re.IGNORECASE)
_A_DAY = re.compile(r"(?P<value>\d{1,3}) ?(?:m|min|minutes)? (?:a|per|each) day", re.IGNORECASE)
# Of a weekly time these alone are no time: the others are changed from a date on.
_OF_TIMES = frozenset({"call_link", "instrument"})
_STUDENT_NAME = Column(name="name", field="name", read=read_person, of=Student, if_blank="Write a name")
_FAMILY_NAME = Column(name="family", field="name", read=read_person, of=Family, if_blank="Write a name", words="family")
_BY_PATTERN = (
    (_CALL, _STUDENT_NAME),
    (_FAMILY, _FAMILY_NAME),
    (_A_DAY, next(column for column in TABLE if column.field == "daily_minutes")),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Said:
    """One thing that a line says: a column and its value, None for nothing."""

    column: Column
    value: object


class Details:
    """Proposes what is otherwise known of somebody."""

    def __init__(self, reading: Reading, lines: Lines) -> None:
        self._reading = reading
        self._lines = lines

    def propose(self, booking: ScheduledLesson, line: str) -> Proposal:
        """A line about the student of a lesson: it changes that student, the family, and those weekly times that go on.

        Raises:
            BadInput: a part names no detail, or its value cannot be used; the sentence names it.
            Refused: nothing would change.
        """
        said = [_read(part) for part in parts_of(line)]
        twice = next(
            (one for place, one in enumerate(said) if one.column in [other.column for other in said[:place]]), None
        )
        if twice is not None:
            raise BadInput(f"The line says {twice.column.label} twice. Keep one.")
        self._check_names(booking, said)
        today = self._lines.today()
        times = [
            standing for standing in self._reading.standing_times(today) if standing.student_id == booking.student.id
        ]
        records: list[Student | Family | StandingTime] = [booking.student, booking.family, *times]
        changed = [(record, _changed(record, said)) for record in records]
        edits = [Edit(before=before, after=after) for before, after in changed if after != before]
        if not edits:
            raise Refused("That is so already.")
        facts = [_words(one) for one in said]
        return Proposal(
            understood=f"{booking.student.name}, {booking.family.name} family: {'; '.join(facts)}.",
            edits=tuple(edits),
            said=f"changing {possessive(booking.student.name)} details",
        )

    def _check_names(self, booking: ScheduledLesson, said: list[_Said]) -> None:
        people = self._reading.people()
        for one in said:
            if one.column is _STUDENT_NAME:
                refuse_taken(str(one.value), booking.family, people, booking.student.id)
            if one.column is _FAMILY_NAME and any(
                family.id != booking.family.id and name_key(family.name) == name_key(str(one.value))
                for family in people.families.values()
            ):
                raise BadInput(f"Another family is called {one.value}. Type another name.")


def _read(part: str) -> _Said:
    said = part.casefold()
    for key, column in _named():
        if said == key or said.startswith((f"{key} ", f"{key}:")):
            return _value(column, part[len(key) :].lstrip(" :"))
    for pattern, column in _BY_PATTERN:
        if (match := pattern.fullmatch(part)) is not None:
            return _value(column, match["value"])
    raise BadInput(f'"{part}" is not understood. Type {EXAMPLES}; `s` changes the weekly time.')


def _named() -> Iterator[tuple[str, Column]]:
    """The names by which a line can mean a column, the longest first."""
    found = [
        (name.casefold(), column)
        for column in TABLE
        if column.of in {Family, Student} or column.field in _OF_TIMES
        for name in dict.fromkeys((column.name, column.label))
    ]
    yield from sorted(found, key=lambda each: -len(each[0]))


def _value(column: Column, text: str) -> _Said:
    text = text.strip().removeprefix('"').removesuffix('"').strip()
    if not text or text.casefold() in _NOTHING:
        if column.if_blank is not None or column.keeps or not text:
            raise BadInput(f"{column.label.capitalize()} of what? Type {EXAMPLES}.")
        return _Said(column=column, value=column.default)
    try:
        return _Said(column=column, value=column.read(text))
    except BadInput as fault:
        raise BadInput(f"{column.label.capitalize()}: found {text}. {fault}.") from fault


def _changed(record: Student | Family | StandingTime, said: list[_Said]) -> Student | Family | StandingTime:
    values = {one.column.field: one.value for one in said if one.column.of is type(record)}
    return with_values(record, values) if values else record


def _words(one: _Said) -> str:
    said = "none" if one.value is None else one.column.said(one.value)
    return f"{one.column.label}: {said}"
