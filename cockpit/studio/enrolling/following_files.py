"""Standing times that follow what a file says otherwise than before."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from datetime import date, timedelta

from cockpit.studio.changes.records import Edit
from cockpit.studio.clocks.moments import WEEK, day_bounds
from cockpit.studio.enrolling.file_words import at_time_of, retold
from cockpit.studio.enrolling.roster_times import is_over
from cockpit.studio.lessons.booking import Enrollment
from cockpit.studio.lessons.file_rows import FileRow, spoken_of
from cockpit.studio.lessons.later_times import (
    Clocks,
    Reshaped,
    ended_now,
    first_to_come,
    from_now_on,
    has_begun,
    has_met_since,
    is_another_time,
)
from cockpit.studio.lessons.weekly_times import StandingTime, StandingTimeId, turn_of
from cockpit.studio.people.people import Family, Student

_DAY = timedelta(days=1)


class Following:
    """Has the standing times of one student follow a file, and gathers what changes.

    `edits` are of standing times, and `reshaped` are those whose lessons move. What was is left as it was. `undone` is
    what a file said too late: of standing times that have no lesson any more.
    """

    def __init__(self, known: Iterable[StandingTime], student: Student, family: Family, clocks: Clocks) -> None:
        self._known = tuple(known)
        self._student = student
        self._family = family
        self._clocks = clocks
        self.edits: list[Edit] = []
        self.reshaped: list[Reshaped] = []
        self.undone: set[FileRow] = set()

    def take(self, before: FileRow, told: FileRow, number: Callable[[], StandingTimeId]) -> StandingTime:
        """Takes in what is told, and returns the standing time that it speaks of now; `number` is for a new one."""
        pieces = spoken_of(before, self._known)
        lasting = pieces[-1]
        wanted = _after_others(pieces, retold(lasting, before, told), self._clocks.today)
        if told.every_weeks > 1 and _beginning(before) != _beginning(told):
            wanted = _in_turn_of(wanted, told)
        if is_over(lasting, self._clocks.today):
            return self._again(lasting, wanted, before, told, number)
        if not has_begun(lasting, self._clocks):
            return self._to_come(pieces, wanted, before, told)
        if is_another_time(lasting, wanted):
            return self._from_now_on(lasting, wanted, told, number)
        if told.from_on is not None and before.from_on != told.from_on > self._clocks.today:
            return self._pause(lasting, wanted, number)
        if turn_of(lasting) != turn_of(wanted):
            return self._from_now_on(lasting, wanted, told, number)
        return self._put(lasting, replace(wanted, from_on=lasting.from_on))  # what was is as it was

    def drop(self, row: FileRow) -> FileRow:
        """Ends what an event does not name any more, and returns what is remembered of it."""
        pieces, at = spoken_of(row, self._known), self._clocks
        ended = [each if is_over(each, at.today) else self._put(each, ended_now(each, at)) for each in pieces]
        return row if ended[-1] == pieces[-1] else replace(row, until_on=ended[-1].until_on)

    def _to_come(
        self, pieces: Sequence[StandingTime], wanted: StandingTime, before: FileRow, told: FileRow
    ) -> StandingTime:
        """What has not met is changed itself; where a file had planned it, from what was before on."""
        moves = is_another_time(lasting := pieces[-1], wanted)
        if moves or told.from_on != before.from_on:
            ended = next((each for each in pieces if lasting.is_from_file and each.id == lasting.follows), None)
            if ended is not None and (planned := self._planned_anew(ended, lasting, wanted, told)) is not None:
                return planned
        if before.until_on != told.until_on:
            self.edits += _ends(pieces[:-1], told.until_on)
        if moves:
            wanted = self._in_its_week(pieces, wanted)
        if moves or wanted.from_on != lasting.from_on:
            # All its lessons are still to come.
            wanted = replace(wanted, from_on=first_to_come(wanted, wanted.from_on, self._clocks))
            self._moves(lasting, (wanted,))
        return self._put(lasting, wanted)

    def _in_its_week(self, pieces: Sequence[StandingTime], wanted: StandingTime) -> StandingTime:
        """What is wanted of the last, beginning so that the week of its first lesson keeps one."""
        lasting = pieces[-1]
        if len(pieces) == 1 or lasting.from_on is None or wanted.from_on != lasting.from_on:
            return wanted
        first = lasting.from_on + (lasting.weekday - lasting.from_on.weekday()) % 7 * _DAY
        monday, zone = first - first.weekday() * _DAY, self._clocks.zone_of(lasting)
        begins, ends = day_bounds(monday, zone)[0], day_bounds(monday + WEEK, zone)[0]
        if any(next(self._clocks.meetings(each, begins, ends), None) for each in pieces[:-1]):
            return wanted
        since = max(monday, self._clocks.today)
        self.edits += _ends(pieces[:-1], since - _DAY)
        return replace(wanted, from_on=since)

    def _put(self, before: StandingTime, after: StandingTime) -> StandingTime:
        if before != after:
            self.edits.append(Edit(before=before, after=after))
        return after

    def _moves(self, before: StandingTime, after: Iterable[StandingTime], since: StandingTime | None = None) -> None:
        """Has the lessons of a standing time go along, from the end of `since` on; or all of them."""
        enrollments = tuple(Enrollment(standing=each, student=self._student, family=self._family) for each in after)
        self.reshaped.append(Reshaped(before=before, after=enrollments, since=_first_day(before, since)))

    def _again(
        self,
        over: StandingTime,
        wanted: StandingTime,
        before: FileRow,
        told: FileRow,
        number: Callable[[], StandingTimeId],
    ) -> StandingTime:
        """What has ended is history: where a file has lessons go on, they do by another standing time."""
        if not _goes_on(over, wanted, before, told, self._clocks.today):
            self.undone.add(told)
            return self._put(over, replace(over, instrument=wanted.instrument, call_link=wanted.call_link))
        if told.is_of_roster and (over.follows is None or over.is_from_file):
            wanted = at_time_of(wanted, told)  # it was not changed here
        begins = first_to_come(wanted, told.from_on, self._clocks)
        again = replace(
            wanted, id=number(), from_on=begins, until_on=told.until_on, follows=over.id, is_from_file=False
        )
        self.edits.append(Edit(before=None, after=again))
        return again

    def _from_now_on(
        self, before: StandingTime, wanted: StandingTime, told: FileRow, number: Callable[[], StandingTimeId]
    ) -> StandingTime:
        ended, later = from_now_on(before, wanted, self._clocks)
        if later is None:
            self.undone.add(told)
            return self._put(before, _ends_with(ended, wanted, self._clocks.today))
        self._put(before, ended)
        later = replace(later, id=number(), follows=before.id, is_from_file=True)
        self.edits.append(Edit(before=None, after=later))
        self._moves(before, (later,), ended)
        return later

    def _pause(self, before: StandingTime, wanted: StandingTime, number: Callable[[], StandingTimeId]) -> StandingTime:
        """What is to begin only on a date to come, and has met: till now it stays, and there is nothing between."""
        ended = self._put(before, ended_now(before, self._clocks))
        later = replace(wanted, id=number(), follows=before.id, is_from_file=False)
        self.edits.append(Edit(before=None, after=later))
        self._moves(before, (later,), ended)
        return later

    def _planned_anew(
        self, ended: StandingTime, planned: StandingTime, wanted: StandingTime, told: FileRow
    ) -> StandingTime | None:
        """What a file had planned before, and plans otherwise now: the change from `ended` on begins anew.

        None where nothing would come of it, or where what was before would have had lessons since.
        """
        restored = replace(ended, until_on=planned.until_on)
        if ended.until_on is not None and has_met_since(restored, ended.until_on + _DAY, self._clocks):
            return None
        now_ended, later = from_now_on(restored, replace(wanted, from_on=told.from_on or ended.from_on), self._clocks)
        if later is None:
            return None
        later = replace(later, id=planned.id, follows=planned.follows, is_from_file=True)
        self._put(ended, now_ended)
        self._put(planned, later)
        self._moves(planned, (now_ended, later))
        if now_ended.until_on is not None and ended.until_on is not None and now_ended.until_on < ended.until_on:
            self._moves(ended, (later,), now_ended)
        return later


def _ends(pieces: Iterable[StandingTime], until: date | None) -> list[Edit]:
    """What has nothing go on after a date; None takes nothing."""
    longer = [each for each in pieces if until is not None and (each.until_on is None or each.until_on > until)]
    return [Edit(before=each, after=replace(each, until_on=until)) for each in longer]


def _ends_with(ended: StandingTime, wanted: StandingTime, today: date) -> StandingTime:
    """What has ended, no later than what is wanted does, and not before today."""
    ends = [each for each in (ended.until_on, wanted.until_on) if each is not None]
    return replace(ended, until_on=max(min(ends), today - _DAY)) if ends else ended


def _first_day(standing: StandingTime, since: StandingTime | None) -> date:
    """The day after the end of `since`, or else the first one of a standing time."""
    if since is not None and since.until_on is not None:
        return since.until_on + _DAY
    return standing.from_on or date.min + _DAY


def _after_others(pieces: Sequence[StandingTime], wanted: StandingTime, today: date) -> StandingTime:
    """What is wanted of the last, beginning after the end of those before it."""
    ends = [each.until_on for each in pieces[:-1] if each.until_on is not None]
    if not ends or wanted.from_on == pieces[-1].from_on:
        return wanted
    return replace(wanted, from_on=max(wanted.from_on or today, max(ends) + _DAY))


def _beginning(row: FileRow) -> tuple[object, ...]:
    return row.from_on, row.weekday, row.every_weeks


def _in_turn_of(wanted: StandingTime, told: FileRow) -> StandingTime:
    """What is wanted, beginning so that its every second week is the one of a file."""
    if told.from_on is None or wanted.from_on is None or wanted.every_weeks != told.every_weeks:
        return wanted
    as_told = replace(wanted, weekday=told.weekday, from_on=told.from_on)
    return wanted if turn_of(wanted) == turn_of(as_told) else replace(wanted, from_on=wanted.from_on + WEEK)


def _goes_on(over: StandingTime, wanted: StandingTime, before: FileRow, told: FileRow, today: date) -> bool:
    """Whether a file has lessons go on that are over.

    It does where it names another end, or a roster another time or a later beginning. A program that keeps calendars
    writes a beginning of its own accord.
    """
    if told.until_on is not None and told.until_on < today:
        return False
    if told.until_on != before.until_on:
        return True
    begins = told.from_on if told.from_on != before.from_on else None
    is_later = begins is not None and over.until_on is not None and begins > over.until_on
    return told.is_of_roster and (is_another_time(over, wanted) or is_later)
