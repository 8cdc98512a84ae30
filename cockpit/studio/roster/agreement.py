"""Whether the rows of a roster agree with each other about a family, a student and a standing time."""

from collections.abc import Callable, Iterable
from datetime import date

from cockpit.studio.clocks.moments import WEEKDAYS
from cockpit.studio.clocks.words import clock_time
from cockpit.studio.people.people import name_key
from cockpit.studio.roster.practice_days import practice_days_words
from cockpit.studio.roster.rows import RosterFault, RosterRow, quoted

FamilyOf = Callable[[RosterRow], str]
_OF_FAMILY: dict[str, Callable[[RosterRow], str | int | None]] = {
    "email": lambda row: row.email,
    "zone": lambda row: row.zone,
    "clock": lambda row: row.hours,
    "send_by": lambda row: row.send_by,
    "language": lambda row: row.language,
}
_OF_STUDENT: dict[str, Callable[[RosterRow], str | int | None]] = {
    "daily_minutes": lambda row: row.daily_minutes,
    "remark": lambda row: row.remark,
    "practice_days": lambda row: practice_days_words(row.practice_days) if row.practice_days is not None else None,
}


def disagreements(rows: Iterable[RosterRow], family_of: FamilyOf) -> list[RosterFault]:
    """The rows that say of a family or a student something else than an earlier row; `family_of` names a row's family.

    A blank says nothing. But where one row names a student's family and another of that name does not, it could be
    another child: that is a fault too, since the notes of one would go to the family of the other.
    """
    rows = list(rows)
    faults = _unnamed_families(rows)
    said: dict[tuple[str, ...], RosterRow] = {}
    for row in rows:
        family, student = name_key(family_of(row)), name_key(row.student)
        for column, value_of in _OF_FAMILY.items():
            faults += _against(said, (column, family), row, value_of, f"the family {family_of(row)}")
        for column, value_of in _OF_STUDENT.items():
            faults += _against(said, (column, family, student), row, value_of, row.student)
    return faults


def repetitions(rows: Iterable[RosterRow], family_of: FamilyOf) -> list[RosterFault]:
    """The rows with a student's weekday and time that an earlier row has for the same dates."""
    faults = []
    earlier: dict[tuple[object, ...], list[RosterRow]] = {}
    for row in rows:
        same = earlier.setdefault((name_key(family_of(row)), name_key(row.student), row.weekday, row.at), [])
        twin = next((other for other in same if _overlap(row, other)), None)
        if twin is not None:
            faults.append(_repeated(row, twin.line))
        same.append(row)
    return faults


def _against(
    said: dict[tuple[str, ...], RosterRow],
    key: tuple[str, ...],
    row: RosterRow,
    value_of: Callable[[RosterRow], str | int | None],
    whose: str,
) -> list[RosterFault]:
    value = value_of(row)
    if value is None:
        return []
    earlier = said.setdefault(key, row)
    if value_of(earlier) == value:
        return []
    wanted = (
        f"line {earlier.line} has {quoted(str(value_of(earlier)))} for {whose}: write the same in both, or in one alone"
    )
    return [RosterFault(line=row.line, column=key[0], found=quoted(str(value)), wanted=wanted)]


def _unnamed_families(rows: list[RosterRow]) -> list[RosterFault]:
    named: dict[str, RosterRow] = {}
    for row in rows:
        if row.family is not None and name_key(row.family) != name_key(row.student):
            named.setdefault(name_key(row.student), row)
    faults = []
    for row in rows:
        other = named.get(name_key(row.student))
        if row.family is None and other is not None:
            wanted = (
                f"write {quoted(other.family or '')} as in line {other.line}, or, if this is another {row.student}, "
                f"{quoted(row.student)}"
            )
            faults.append(RosterFault(line=row.line, column="family", found="nothing", wanted=wanted))
    return faults


def _overlap(one: RosterRow, other: RosterRow) -> bool:
    def begins(row: RosterRow) -> date:
        return row.from_on or date.min

    def ends(row: RosterRow) -> date:
        return row.until_on or date.max

    return begins(one) <= ends(other) and begins(other) <= ends(one)


def _repeated(row: RosterRow, line: int) -> RosterFault:
    found = f"{WEEKDAYS[row.weekday]} {clock_time(row.at, 24)} for {row.student} again"
    wanted = f"line {line} has it already: take one out, or give them dates (from, until) that do not meet"
    return RosterFault(line=row.line, column="time", found=found, wanted=wanted)
