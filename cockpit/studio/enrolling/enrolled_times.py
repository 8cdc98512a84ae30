"""What the rows of a roster make of the standing times of their students."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from datetime import date, datetime
from functools import partial

from cockpit.studio.changes.records import Edit
from cockpit.studio.clocks.moments import Zone, local_time
from cockpit.studio.enrolling.event_times import event_of_row, new_number
from cockpit.studio.enrolling.file_matches import unnamed, words_before
from cockpit.studio.enrolling.file_words import at_time_of, first_words, retold, told_by
from cockpit.studio.enrolling.following_files import Following
from cockpit.studio.enrolling.roster_times import is_followed, is_over
from cockpit.studio.lessons.file_rows import FileRow, made_another, spoken_of
from cockpit.studio.lessons.later_times import Clocks, Reshaped, first_to_come
from cockpit.studio.lessons.weekly_times import KeptIn, StandingTime, StandingTimeId
from cockpit.studio.people.people import Family, Student, StudentId
from cockpit.studio.roster.columns import RosterRow


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
        self._remembered: list[Edit] = []

    def take(
        self,
        rows: Sequence[RosterRow],
        student: Student,
        family: Family,
        known: Sequence[StandingTime],
        remembered: Sequence[FileRow],
    ) -> None:
        """Takes in the rows of a student with these known standing times, and what files said of them before."""
        following = None if self._now is None else Following(known, student, family, self._clocks(family, self._now))
        said_before = words_before(rows, known, remembered, self._columns, self.today)
        for row, before in zip(rows, said_before, strict=True):
            if before is None:
                told = self._new(row, student.id, family, known)
            else:
                told = told_by(row, before, self._columns)
                if following is None:
                    self.meant[row] = self._changed(before, told, known)
                else:
                    self.meant[row] = following.take(before, told, partial(self._number, row))
                self._note_end(row, told, known)
                if following is not None and not told.is_of_roster and told in following.undone:
                    begins = before.from_on if told.every_weeks > 1 else told.from_on
                    told = replace(at_time_of(told, before), from_on=begins)
            self._remember(told, remembered)
        if following is not None:
            for gone in unnamed(rows, said_before, remembered):
                self._remember(following.drop(gone), remembered)
            self.edits += following.edits
            self.reshaped += following.reshaped

    def unsaid(self, known: Iterable[StandingTime]) -> Iterable[StandingTime]:
        """The known standing times that no row means. What a file itself let end is none of them."""
        known = tuple(known)
        named = {standing.id for standing in (*self.meant.values(), *self.left_so)}
        named |= made_another(known)
        named |= {edit.before.id for edit in self.edits if isinstance(edit.before, StandingTime)}
        return (standing for standing in known if standing.id not in named)

    @property
    def remembered(self) -> tuple[Edit, ...]:
        """What the file said, to be kept; these come after the standing times that they speak of."""
        return tuple(self._remembered)

    def _clocks(self, family: Family, now: datetime) -> Clocks:
        return Clocks(home_zone=self._home_zone, family_zone=family.zone, now=now)

    def _changed(self, before: FileRow, told: FileRow, known: Sequence[StandingTime]) -> StandingTime:
        lasting = spoken_of(before, known)[-1]
        self.edits.append(Edit(before=lasting, after=retold(lasting, before, told)))
        return retold(lasting, before, told)

    def _remember(self, told: FileRow, remembered: Iterable[FileRow]) -> None:
        key = (told.standing_time_id, told.event)
        before = next((row for row in remembered if (row.standing_time_id, row.event) == key), None)
        if before != told:
            self._remembered.append(Edit(before=before, after=told))

    def _new(self, row: RosterRow, student_id: StudentId, family: Family, known: Sequence[StandingTime]) -> FileRow:
        """Puts in a standing time that is new. One more for somebody who had lessons before was not there till now."""
        new = StandingTime(
            id=self._number(row),
            student_id=student_id,
            weekday=row.weekday,
            at=row.at,
            minutes=row.minutes,
            kept_in=row.kept_in or KeptIn.TEACHER,
            instrument=row.instrument,
            from_on=row.from_on,
            until_on=row.until_on,
            call_link=row.call_link,
            every_weeks=row.every_weeks or 1,
        )
        if known and self._now is not None and new.from_on is None and not is_over(new, self.today):
            new = replace(new, from_on=first_to_come(new, None, self._clocks(family, self._now)))
        self.meant[row] = new
        self.edits.append(Edit(before=None, after=new))
        return first_words(row, new, event_of_row(row), self.today)

    def _note_end(self, row: RosterRow, told: FileRow, known: Sequence[StandingTime]) -> None:
        """Notes what a row would let go on, and the studio has ended: of what it speaks of, the last that is as it says."""
        meant = self.meant[row]
        pieces = [*(each for each in spoken_of(told, known) if each.id != meant.id), meant]
        ended = next((each for each in pieces[::-1] if (each.weekday, each.at) == (told.weekday, told.at)), meant)
        if ended.until_on is None or ended.until_on == told.until_on:
            return
        if "until" in self._columns or is_over(ended, self.today) or is_followed(ended, known):
            self.left_so.append(ended)

    def _number(self, row: RosterRow) -> StandingTimeId:
        if row.event_uid is None:
            return StandingTimeId(self._new_id())
        number = new_number(row.event_uid, self._numbers)
        self._numbers.add(number)
        return number
