"""What the rows of a roster make of the standing times of their students."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from datetime import date, datetime, timedelta
from typing import TypeVar

from cockpit.studio.booking import Enrollment
from cockpit.studio.calendar import StandingTime, StandingTimeId, Zone, local_time
from cockpit.studio.event_times import match_events, new_number
from cockpit.studio.later_times import Clocks, Reshaped, from_now_on, has_begun, is_another_time
from cockpit.studio.people import Family, Student, StudentId
from cockpit.studio.records import Edit
from cockpit.studio.roster_rows import RosterRow
from cockpit.studio.roster_times import is_followed, is_over, kept_dates, match_times

Value = TypeVar("Value")
_DAY = timedelta(days=1)


class EnrolledTimes:
    """Takes in the rows of one student after the other.

    `edits` are what changes, `meant` is what each row became, `reshaped` are the standing times whose lessons move,
    and `left_so` are those that a row would let go on, and that the studio has ended. What ended before `now` is
    history, and so are the lessons before it; without `now`, everything is still to come.
    """

    def __init__(
        self,
        columns: frozenset[str],
        known: Iterable[StandingTime],
        home_zone: Zone,
        now: datetime | None,
        new_id: Callable[[], int],
    ) -> None:
        self._columns = columns
        self._numbers = {standing.id for standing in known}
        self._home_zone = home_zone
        self._now = now
        self._new_id = new_id
        self.today = date.min if now is None else local_time(now, home_zone).date()
        self.edits: list[Edit] = []
        self.meant: dict[RosterRow, StandingTime] = {}
        self.reshaped: list[Reshaped] = []
        self.left_so: list[StandingTime] = []

    def take(self, rows: Sequence[RosterRow], student: Student, family: Family, known: Sequence[StandingTime]) -> None:
        """Takes in the rows of a student with these known standing times."""
        for row, before in zip(rows, self._matches(rows, known), strict=True):
            if before is None:
                # One more for somebody who had lessons before: they were not at this time.
                since = self.today if known and self._now is not None else None
                self.meant[row] = new = self._new(row, student.id, since)
                self.edits.append(Edit(before=None, after=new))
                continue
            wanted = self._changed(row, before, [each for each in known if each.id != before.id])
            if self._now is None or not is_another_time(before, wanted):
                self.meant[row] = wanted
                self.edits.append(Edit(before=before, after=wanted))
            else:
                clocks = Clocks(home_zone=self._home_zone, family_zone=family.zone, now=self._now)
                self._reshape(row, before, Enrollment(standing=wanted, student=student, family=family), clocks)

    def _reshape(self, row: RosterRow, before: StandingTime, wanted: Enrollment, clocks: Clocks) -> None:
        """Makes a standing time another one: all of it where it has not begun, else from now on."""
        after, since = wanted.standing, before.from_on or date.min
        if has_begun(before, clocks):
            ended, later = from_now_on(before, wanted.standing, clocks)
            self.edits.append(Edit(before=before, after=ended))
            if later is None:
                self.meant[row] = ended
                return
            by_file = row.event_uid is None
            later = replace(later, follows=before.id, is_from_file=by_file)
            after, since = replace(later, id=self._number(row)), (ended.until_on or date.max - _DAY) + _DAY
            self.edits.append(Edit(before=None, after=after))
        else:
            self.edits.append(Edit(before=before, after=after))
        self.meant[row] = after
        self.reshaped.append(Reshaped(before=before, after=replace(wanted, standing=after), since=since))

    def unsaid(self, known: Iterable[StandingTime]) -> Iterable[StandingTime]:
        """The known standing times that no row means."""
        named = {standing.id for standing in self.meant.values()} | {each.before.id for each in self.reshaped}
        return (standing for standing in known if standing.id not in named)

    def _matches(self, rows: Sequence[RosterRow], known: Sequence[StandingTime]) -> tuple[StandingTime | None, ...]:
        if any(row.event_uid is not None for row in rows):
            return match_events(rows, known, self._columns)
        return match_times(rows, known, self._columns, self.today)

    def _new(self, row: RosterRow, student_id: StudentId, since: date | None) -> StandingTime:
        if since is not None and row.until_on is not None and row.until_on < since:
            since = None
        number = self._number(row)
        known = StandingTime(id=number, student_id=student_id, weekday=row.weekday, at=row.at, minutes=row.minutes)
        return replace(self._as_told(row, known), from_on=row.from_on or since, until_on=row.until_on)

    def _changed(self, row: RosterRow, before: StandingTime, others: Sequence[StandingTime]) -> StandingTime:
        begins, ends = kept_dates(row, before, others)
        is_ended_here = "until" in self._columns and ends != row.until_on
        is_history = is_over(before, self.today) and ends == before.until_on
        is_stale = is_history or is_followed(before, others)
        if is_ended_here or (is_stale and "until" not in self._columns):
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
