"""What the rows of a roster make of the standing times of their students."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from datetime import date
from typing import TypeVar

from cockpit.studio.calendar import StandingTime, StandingTimeId
from cockpit.studio.event_times import match_events, new_number
from cockpit.studio.people import StudentId
from cockpit.studio.records import Edit
from cockpit.studio.roster_rows import RosterRow
from cockpit.studio.roster_times import is_over, kept_dates, match_times

Value = TypeVar("Value")


class EnrolledTimes:
    """Takes in the rows of one student after the other.

    `edits` are what changes, `meant` is what each row became, and `left_so` are the standing times that a row would
    let go on, and that the studio has ended. Those that ended before `today` are history.
    """

    def __init__(
        self, columns: frozenset[str], known: Iterable[StandingTime], today: date, new_id: Callable[[], int]
    ) -> None:
        self._columns = columns
        self._numbers = {standing.id for standing in known}
        self._today = today
        self._new_id = new_id
        self.edits: list[Edit] = []
        self.meant: dict[RosterRow, StandingTime] = {}
        self.left_so: list[StandingTime] = []

    def take(self, rows: Sequence[RosterRow], student_id: StudentId, known: Sequence[StandingTime]) -> None:
        """Takes in the rows of a student with these known standing times."""
        for row, before in zip(rows, self._matches(rows, known), strict=True):
            if before is None:
                after = self._new(row, student_id)
            else:
                after = self._changed(row, before, [each for each in known if each.id != before.id])
            self.meant[row] = after
            self.edits.append(Edit(before=before, after=after))

    def unsaid(self, known: Iterable[StandingTime]) -> Iterable[StandingTime]:
        """The known standing times that no row means."""
        named = {standing.id for standing in self.meant.values()}
        return (standing for standing in known if standing.id not in named)

    def _matches(self, rows: Sequence[RosterRow], known: Sequence[StandingTime]) -> tuple[StandingTime | None, ...]:
        if any(row.event_uid is not None for row in rows):
            return match_events(rows, known, self._columns)
        return match_times(rows, known, self._columns, self._today)

    def _new(self, row: RosterRow, student_id: StudentId) -> StandingTime:
        number = self._number(row)
        known = StandingTime(id=number, student_id=student_id, weekday=row.weekday, at=row.at, minutes=row.minutes)
        return replace(self._as_told(row, known), from_on=row.from_on, until_on=row.until_on)

    def _changed(self, row: RosterRow, before: StandingTime, others: Sequence[StandingTime]) -> StandingTime:
        begins, ends = kept_dates(row, before, others)
        is_ended_here = "until" in self._columns and ends != row.until_on
        is_history = is_over(before, self._today) and ends == before.until_on
        if is_ended_here or (is_history and "until" not in self._columns):
            self.left_so.append(before)
        told = self._as_told(row, before)
        if is_history:
            return replace(before, instrument=told.instrument, call_link=told.call_link)
        return replace(told, from_on=begins, until_on=ends)

    def _as_told(self, row: RosterRow, known: StandingTime) -> StandingTime:
        """The standing time as a row has it, but for its dates."""
        return replace(
            known,
            weekday=row.weekday,
            at=row.at,
            minutes=row.minutes,
            kept_in=row.kept_in or known.kept_in,
            instrument=self._told("instrument", row.instrument, known.instrument),
            call_link=self._told("call_link", row.call_link, known.call_link),
            every_weeks=self._told("every_weeks", row.every_weeks, known.every_weeks) or 1,
        )

    def _told(self, column: str, value: Value | None, known: Value | None) -> Value | None:
        """What the file says: its value, or nothing where its cell is blank, or what is known without the column."""
        return value if value is not None or column in self._columns else known

    def _number(self, row: RosterRow) -> StandingTimeId:
        if row.event_uid is None:
            return StandingTimeId(self._new_id())
        number = new_number(row.event_uid, self._numbers)
        self._numbers.add(number)
        return number
