"""Details of a student and the family, which the roster has: a line changes them, as "language es, call her Nora"."""

import re
from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from typing import TypeVar

from cockpit.desk.calendar.ahead import LookingAhead
from cockpit.desk.calendar.lines import Lines
from cockpit.desk.calendar.moving import Moving
from cockpit.desk.calendar.proposals import Proposal
from cockpit.desk.lookup import Whose, refuse_taken
from cockpit.desk.ports import Reading
from cockpit.studio.changes.pieces import StrandLeft
from cockpit.studio.changes.records import Edit, Record, edits_between
from cockpit.studio.clocks.words import possessive
from cockpit.studio.errors import BadInput, Refused
from cockpit.studio.lessons.weekly_times import StandingTime
from cockpit.studio.people.people import Family, Student, name_key
from cockpit.studio.people.permissions import PermissionSaid, permissions_after, said_words
from cockpit.studio.pieces.left import read_left
from cockpit.studio.roster.columns import TABLE, Column, with_values
from cockpit.studio.roster.practice_days import read_practice_days
from cockpit.studio.roster.values import read_person
from cockpit.studio.typed_times.days import Days, day_of
from cockpit.studio.typed_times.line_parts import parts_of
from cockpit.studio.typed_times.move_line import MoveLine, read_move, read_place
from cockpit.studio.typed_times.permission_line import read_permissions
from cockpit.studio.typed_times.when import Reference
from cockpit.studio.typed_times.words import read_parts
from cockpit.studio.values import Value

EXAMPLES = '"language es", "clock 24", "zone denver from march 3", "remark likes duets", "call her Nora", "family Bell-Ortiz", "25 a day", "without theory", or "may be named"'
_Known = TypeVar("_Known", Student, Family, StandingTime)
_NOTHING = frozenset({"nothing", "-", "–"})
_NOTHING_SAID = re.compile(r"permissions?:? (?:nothing|none|-|–)", re.IGNORECASE)
_CALL = re.compile(r"(?:call (?:her |him |them )?|(?:first )?name )(?P<value>.+)", re.IGNORECASE)
_FAMILY = re.compile(r"(?:the )?family(?: name)?:? (?P<value>.+)", re.IGNORECASE)
_A_DAY = re.compile(r"(?P<value>\d{1,3}) ?(?:m|min|minutes)? (?:a|per|each) day", re.IGNORECASE)
_LINK = re.compile(r"link:? (?P<value>.+)", re.IGNORECASE)
# Of a weekly time these alone are no time: the others are changed from a date on.
_OF_TIMES = frozenset({"call_link", "instrument"})
_STUDENT_NAME = Column(name="name", field="name", read=read_person, of=Student, if_blank="Write a name")
_FAMILY_NAME = Column(name="family", field="name", read=read_person, of=Family, if_blank="Write a name", words="family")
_ZONE = next(column for column in TABLE if column.field == "zone")
_PRACTICE_DAYS = next(column for column in TABLE if column.field == "practice_days")
_BY_PATTERN = (
    (_CALL, _STUDENT_NAME),
    (_FAMILY, _FAMILY_NAME),
    (_A_DAY, next(column for column in TABLE if column.field == "daily_minutes")),
    (_LINK, next(column for column in TABLE if column.field == "call_link")),
)


class UnknownDetail(BadInput):
    """A part of a line names no detail."""


class _Said(Value):
    """One thing that a line says: a column and its value, None for nothing; `words` say it where the value does not."""

    column: Column
    value: object
    words: str = ""


class Details:
    """Proposes what is otherwise known of somebody."""

    def __init__(self, reading: Reading, ahead: LookingAhead, lines: Lines) -> None:
        self._reading = reading
        self._lines = lines
        self._moving = Moving(ahead, lines)

    def propose(self, whose: Whose, line: str) -> Proposal:
        """A line about a student: it changes that student, the family, and those weekly times that go on.

        Raises:
            UnknownDetail: a part names no detail.
            BadInput: a value cannot be used; the sentence names it.
            Refused: nothing would change.
        """
        parts = parts_of(line)
        shown, others = read_permissions([part for part in parts if not _NOTHING_SAID.fullmatch(part)], self._day)
        clears = any(map(_NOTHING_SAID.fullmatch, parts))
        if clears and shown:
            raise BadInput("The line says what may be, and that nothing is said. Keep one.")
        reference, _ = self._lines.reference(self._lines.today())
        left, others = read_left(others, self._lines.preferences.mix_names)
        said = [self._read(part, whose.family, reference) for part in others]
        twice = next(
            (one for place, one in enumerate(said) if one.column in [other.column for other in said[:place]]), None
        )
        if twice is not None:
            raise BadInput(f"The line says {twice.column.label} twice. Keep one.")
        self._check_names(whose, said)
        today = self._lines.today()
        times = [
            standing for standing in self._reading.standing_times(today) if standing.student_id == whose.student.id
        ]
        student, family = _changed(whose.student, said), _changed(whose.family, said)
        changed: list[tuple[Record, Record]] = [
            (whose.student, student),
            (whose.family, family),
            *((each, _changed(each, said)) for each in times),
        ]
        edits = [Edit(before=before, after=after) for before, after in changed if after != before]
        edits += self._permissions(whose.student, shown, clears=clears)
        edits += self._left(whose.student, left)
        if not edits:
            raise Refused("That is so already.")
        facts = [*map(_words, said), *map(said_words, shown)]
        facts += ["nothing is said of what may be shown, so nothing may"] if clears else []
        facts += [f"{'without' if is_left else 'with'} {name}" for name, is_left in left.items()]
        is_moved = family.zone != whose.family.zone
        told = self._moving.told(whose.family, family) if is_moved else []
        return Proposal(
            understood=" ".join([f"{whose.student.name}, {whose.family.name} family: {'; '.join(facts)}.", *told]),
            edits=tuple(edits),
            said=f"changing {possessive(whose.student.name)} details",
            troubles=tuple(self._moving.troubles(whose.family, family)) if is_moved else (),
        )

    def _read(self, part: str, family: Family, reference: Reference) -> _Said:
        """One thing that a line says; of a place it can say from when on a family lives there."""
        named = _named_in(part)
        if named is None:
            move = read_move(part, reference)
        elif named[0] is _ZONE and named[1]:
            move = self._place(named[1], reference)
        else:
            move = None
        if move is None:
            return _value(*named) if named is not None else _by_pattern(part)
        after = self._moving.clock_after(move, family.zone)
        return _Said(column=_ZONE, value=after, words=self._moving.words(family.zone, after))

    def _place(self, text: str, reference: Reference) -> MoveLine | None:
        if text.casefold() in _NOTHING:
            return None
        try:
            return read_place(text, reference)
        except BadInput as fault:
            raise BadInput(f"{_ZONE.label.capitalize()}: found {text}. {str(fault).removesuffix('.')}.") from fault

    def _permissions(self, student: Student, shown: Sequence[PermissionSaid], *, clears: bool) -> list[Edit]:
        """The edits that keep what a line says of how a student may be shown; with `clears` instead of all said before."""
        before = {each.what: each for each in self._reading.permissions() if each.student_id == student.id}
        known = () if clears else before.values()
        after = {each.what: each for each in permissions_after(student.id, known, shown, self._lines.today())}
        return edits_between(before, after)

    def _left(self, student: Student, said: Mapping[str, bool]) -> list[Edit]:
        """The edits that leave strands of the mix out for good, or take them up again."""
        theirs = (each for each in self._reading.strands_left() if each.student_id == student.id)
        before = {each.strand: each for each in theirs if each.strand in said}
        left = (name for name, is_left in said.items() if is_left)
        return edits_between(before, {name: StrandLeft(student_id=student.id, strand=name) for name in left})

    def _day(self, text: str) -> date:
        """The last day that a part names.

        Raises:
            BadInput: it names none, or one that is past.
        """
        days = Days(
            today=self._lines.today(), around=self._lines.today(), month_first=self._lines.preferences.month_first
        )
        day = day_of(read_parts(text, {}), days)
        if day is None:
            raise BadInput(f'"{text}" is no day. Type one such as jun 30.')
        return day

    def _check_names(self, whose: Whose, said: list[_Said]) -> None:
        people = self._reading.people()
        for one in said:
            if one.column is _STUDENT_NAME:
                refuse_taken(str(one.value), whose.family, people, whose.student.id)
            if one.column is _FAMILY_NAME and any(
                family.id != whose.family.id and name_key(family.name) == name_key(str(one.value))
                for family in people.families.values()
            ):
                raise BadInput(f"Another family is called {one.value}. Type another name.")


def _named_in(part: str) -> tuple[Column, str] | None:
    """The column that a part begins with, and what it says of it; None where it begins with none."""
    said = part.casefold()
    for key, column in _named():
        if said == key or said.startswith((f"{key} ", f"{key}:")):
            return column, part[len(key) :].lstrip(" :")
    return None


def _by_pattern(part: str) -> _Said:
    for pattern, column in _BY_PATTERN:
        if (match := pattern.fullmatch(part)) is not None:
            return _value(column, match["value"])
    if (days := _days_alone(part)) is not None:
        return days
    raise UnknownDetail(f'"{part}" is not understood. Type {EXAMPLES}; `s` changes the weekly time.')


def _days_alone(part: str) -> _Said | None:
    """The days of practice that make up a part: `mon-sat`; None where something else is in it."""
    try:
        return _Said(column=_PRACTICE_DAYS, value=read_practice_days(part))
    except BadInput:
        return None


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


def _changed(record: _Known, said: list[_Said]) -> _Known:
    values = {one.column.field: one.value for one in said if one.column.of is type(record)}
    return with_values(record, values) if values else record


def _words(one: _Said) -> str:
    said = one.words or ("none" if one.value is None else one.column.said(one.value))
    return f"{one.column.label}: {said}"
