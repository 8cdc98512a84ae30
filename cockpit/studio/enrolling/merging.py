"""What a file says of weekly times, merged into what the studio has of them.

There is one rule for all that a file says otherwise than when it was read last. What has met changes from now on, and
its past stays. What has not met is replaced. What was changed in the studio since stays in all that the file does not
say otherwise.
"""

from collections.abc import Callable, Iterable, Sequence
from datetime import date, timedelta
from typing import TypeVar

from cockpit.studio.changes.records import Edit
from cockpit.studio.clocks.moments import WEEK, day_bounds
from cockpit.studio.enrolling.matching import as_imported, baselines, first_said, is_followed, is_over, meet
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
from cockpit.studio.lessons.lineage import origin_of, pieces_of
from cockpit.studio.lessons.scheduled import Enrollment
from cockpit.studio.lessons.weekly_times import ROSTER, ImportedTime, StandingTime, StandingTimeId, turn_of
from cockpit.studio.people.people import Family, Student, name_key
from cockpit.studio.roster.columns import OF_TIME, RosterReading, RosterRow, value_of, with_values
from cockpit.studio.values import replace

_DAY = timedelta(days=1)
Slot = TypeVar("Slot", ImportedTime, StandingTime)


def incoming(row: RosterRow, baseline: ImportedTime, columns: frozenset[str]) -> ImportedTime:
    """What a file says now in the place of what it said before; what it has no column for is as it was."""
    said = {c.field: c.told([value_of(row, c)], value_of(baseline, c), columns) for c in OF_TIME}
    return with_values(baseline, said)


def merged(standing: StandingTime, baseline: ImportedTime, said: ImportedTime) -> StandingTime:
    """A weekly time with all that a file says otherwise than before."""
    return with_values(
        standing, {c.field: value_of(said, c) for c in OF_TIME if value_of(said, c) != value_of(baseline, c)}
    )


class Merging:
    """Merges what a file says of the weekly times of one student.

    `edits` are what changes in them, and `added` those that no file and nobody here had; `meant` is what each row
    became, `reshaped` are those whose lessons move, and `imported` is what the file said, to be kept. `left_ended` are
    those that a row would let go on, and that the studio has ended; `left_going` those that a canceled event does not
    end, and `called_off` the canceled events of which the student had something.
    """

    def __init__(
        self,
        enrolled: tuple[Student, Family],
        known: Sequence[StandingTime],
        imported: Sequence[ImportedTime],
        clocks: Clocks,
        new_id: Callable[[], int],
        *,
        all_to_come: bool,
    ) -> None:
        self._student, self._family = enrolled
        self._known = known
        self._imported = imported
        self._clocks = clocks
        self._new_id = new_id
        self._all_to_come = all_to_come
        self.added: list[Edit] = []
        self.edits: list[Edit] = []
        self.imported: list[Edit] = []
        self.meant: dict[RosterRow, StandingTime] = {}
        self.reshaped: list[Reshaped] = []
        self.left_ended: list[StandingTime] = []
        self.left_going: dict[StandingTime, None] = {}
        self.called_off: set[str] = set()

    def take(self, file: RosterReading, rows: Sequence[RosterRow]) -> None:
        """Takes in the student's `rows` of a file, and ends what its events do not name any more."""
        settled = self._settle(file, rows)
        rows = [row for row in rows if row not in self.meant]
        known = [each for each in self._known if each.id not in settled]
        imported = [each for each in self._imported if each.standing_time_id not in settled]
        found = baselines(rows, known, imported, file.columns, self._clocks.today)
        for row, baseline in zip(rows, found, strict=True):
            if baseline is None:
                said = self._new(row)
            else:
                said = incoming(row, baseline, file.columns)
                self.meant[row], is_late = self._merge(baseline, said)
                self._note_end(row, said, file.columns)
                if is_late and said.event_uid != ROSTER:  # its time counts where the series goes on
                    begins = baseline.from_on if said.every_weeks > 1 else said.from_on
                    said = replace(_at_time_of(said, baseline), from_on=begins)
            before = baseline if baseline in self._imported else None
            self._keep(before, said)
        for each in self._imported:
            if each.event_uid in file.event_uids and each not in found:
                self._let_go(each, file)
        for row in file.called_off:
            if name_key(row.student) == name_key(self._student.name):
                self._leave_what_is_at(row)

    def _settle(self, file: RosterReading, rows: Sequence[RosterRow]) -> set[StandingTimeId]:
        """Settles the rows of a whole roster that say all that a weekly time is: they change nothing.

        So a table that the studio wrote is read as nothing new, also where it has a row for what a weekly time was
        and one for what it becomes. Returns all weekly times of which nothing more is to be said.
        """
        settled: set[StandingTimeId] = set()
        if not file.columns.issuperset(column.name for column in OF_TIME):
            return settled
        for row in rows:
            words = {c.field: value_of(row, c) for c in OF_TIME}
            alike = (each for each in self._known if {c.field: value_of(each, c) for c in OF_TIME} == words)
            meant = next((each for each in alike if each not in self.meant.values()), None)
            if row.event_uid != ROSTER or meant is None:
                continue
            self.meant[row] = meant
            pieces = pieces_of(origin_of(meant.id, self._before), self._known)
            if meant == pieces[-1]:
                self._say_again(meant, {each.id for each in pieces})
                settled |= {each.id for each in pieces}
        return settled

    def _say_again(self, standing: StandingTime, pieces: set[StandingTimeId]) -> None:
        """Keeps that a roster says of a weekly time what it is."""
        said = as_imported(standing)
        before = [each for each in self._imported if each.standing_time_id in pieces and each.event_uid == ROSTER]
        for each in before:
            self._keep(each, replace(said, standing_time_id=each.standing_time_id))
        if not before:
            self._keep(None, said)

    def _before(self, standing_id: StandingTimeId) -> StandingTimeId | None:
        return next((each.follows for each in self._known if each.id == standing_id), None)

    def _new(self, row: RosterRow) -> ImportedTime:
        """Puts in a weekly time that is new. One more for somebody who had lessons before was not there till now."""
        cells = {c.field: c.default if (cell := value_of(row, c)) is None else cell for c in OF_TIME}
        new = StandingTime(
            id=StandingTimeId(self._new_id()),
            student_id=self._student.id,
            weekday=row.weekday,
            at=row.at,
            minutes=row.minutes,
            event_uid=row.event_uid or None,
        )
        new = with_values(new, cells)
        if self._known and not self._all_to_come and new.from_on is None and not is_over(new, self._clocks.today):
            new = replace(new, from_on=first_to_come(new, None, self._clocks))
        self.meant[row] = new
        self.added.append(Edit(before=None, after=new))
        return first_said(row, as_imported(new), self._clocks.today)

    def _merge(self, baseline: ImportedTime, said: ImportedTime) -> tuple[StandingTime, bool]:
        """What the weekly time becomes of which a file speaks, and whether that has no lesson to come any more."""
        pieces, today = pieces_of(baseline.standing_time_id, self._known), self._clocks.today
        last = pieces[-1]
        wanted = merged(last, baseline, said)
        if self._all_to_come:
            return self._put(last, wanted), False
        wanted = _in_turn_of(_after_others(pieces, wanted, today), baseline, said)
        if is_over(last, today):
            return self._taken_up(last, wanted, baseline, said)
        if not has_begun(last, self._clocks):
            return self._replaced(pieces, wanted, baseline, said), False
        moves = is_another_time(last, wanted)
        pauses = not moves and said.from_on is not None and baseline.from_on != said.from_on > today
        later: StandingTime | None = wanted
        if pauses:
            ended = ended_now(last, self._clocks)  # and there is nothing until it begins
        elif moves or turn_of(last) != turn_of(wanted):
            ended, later = from_now_on(last, wanted, self._clocks)
        else:
            return self._put(last, replace(wanted, from_on=last.from_on)), False
        if later is None:
            return self._put(last, _ends_with(ended, wanted, today)), True
        later = self._followed(last, ended, later, said, is_from_file=not pauses)
        self._moves(last, (later,), _first_day(last, ended))
        return later, False

    def _taken_up(
        self, over: StandingTime, wanted: StandingTime, baseline: ImportedTime, said: ImportedTime
    ) -> tuple[StandingTime, bool]:
        """What has ended is history: where a file has lessons go on, they do by another weekly time."""
        if not _goes_on(over, wanted, baseline, said, self._clocks.today):
            return self._put(over, replace(over, instrument=wanted.instrument, call_link=wanted.call_link)), True
        if said.event_uid == ROSTER and (over.follows is None or over.is_from_file):
            wanted = _at_time_of(wanted, said)  # it was not changed here
        begins = first_to_come(wanted, said.from_on, self._clocks)
        again = replace(wanted, from_on=begins, until_on=said.until_on)
        return self._followed(over, over, again, said, is_from_file=False), False

    def _replaced(
        self, pieces: Sequence[StandingTime], wanted: StandingTime, baseline: ImportedTime, said: ImportedTime
    ) -> StandingTime:
        """What has not met is replaced; where a file had planned it, by what was before it and a change anew."""
        last = pieces[-1]
        moves = is_another_time(last, wanted)
        if moves or said.from_on != baseline.from_on:
            planned_from = next((each for each in pieces if last.is_from_file and each.id == last.follows), None)
            if planned_from is not None and (anew := self._planned_anew(planned_from, last, wanted, said)) is not None:
                return anew
        if baseline.until_on != said.until_on:
            self._end_by(pieces[:-1], said.until_on)
        if moves:
            wanted = self._in_its_week(pieces, wanted)
        if moves or wanted.from_on != last.from_on:
            # All its lessons are still to come.
            wanted = replace(wanted, from_on=first_to_come(wanted, wanted.from_on, self._clocks))
            self._moves(last, (wanted,), last.from_on)
        return self._put(last, wanted)

    def _planned_anew(
        self, ended: StandingTime, planned: StandingTime, wanted: StandingTime, said: ImportedTime
    ) -> StandingTime | None:
        """What a file had planned before, and plans otherwise now: the change from `ended` on begins anew.

        None where nothing would come of it, or where what was before would have had lessons since.
        """
        restored = replace(ended, until_on=planned.until_on)
        if ended.until_on is not None and has_met_since(restored, ended.until_on + _DAY, self._clocks):
            return None
        begins = said.from_on or ended.from_on
        now_ended, later = from_now_on(restored, replace(wanted, from_on=begins), self._clocks)
        if later is None:
            return None
        later = replace(later, id=planned.id, follows=planned.follows, is_from_file=True)
        self._put(ended, now_ended)
        self._put(planned, later)
        self._moves(planned, (now_ended, later), planned.from_on)
        if now_ended.until_on is not None and ended.until_on is not None and now_ended.until_on < ended.until_on:
            self._moves(ended, (later,), _first_day(ended, now_ended))
        return later

    def _in_its_week(self, pieces: Sequence[StandingTime], wanted: StandingTime) -> StandingTime:
        """What is wanted of the last, beginning so that the week of its first lesson keeps one."""
        last = pieces[-1]
        if len(pieces) == 1 or last.from_on is None or wanted.from_on != last.from_on:
            return wanted
        first = last.from_on + (last.weekday - last.from_on.weekday()) % 7 * _DAY
        monday, zone = first - first.weekday() * _DAY, self._clocks.zone_of(last)
        begins, ends = day_bounds(monday, zone)[0], day_bounds(monday + WEEK, zone)[0]
        if any(next(self._clocks.meetings(each, begins, ends), None) for each in pieces[:-1]):
            return wanted
        since = max(monday, self._clocks.today)
        self._end_by(pieces[:-1], since - _DAY)
        return replace(wanted, from_on=since)

    def _let_go(self, row: ImportedTime, file: RosterReading) -> None:
        """Ends from now on what an event of a file does not name any more, and keeps its end, that of the file first.

        What another row means goes on, and is that one's. What was changed here does not end by a canceled event.
        """
        ends, is_called_off = file.ended.get(row.event_uid), row.event_uid in file.uids_called_off
        if ends is not None and ends == row.until_on:
            return  # read before
        pieces = pieces_of(row.standing_time_id, self._known)
        if {each.id for each in pieces} & {each.id for each in self.meant.values()}:
            self._keep(row, None)
            return
        self.called_off |= {row.event_uid} if is_called_off else set()
        for each in pieces:
            if is_over(each, self._clocks.today):
                continue
            if is_called_off and each.event_uid is None:
                self.left_going[each] = None
            else:
                ended = self._put(each, ended_now(each, self._clocks))
                if each == pieces[-1] and ended != each:
                    ends = ends or ended.until_on
        self._keep(row, replace(row, until_on=ends or row.until_on))

    def _leave_what_is_at(self, row: RosterRow) -> None:
        """Notes what a canceled event does not end: what has its weekday and time, and did not come from a calendar."""
        meant = {each.id for each in self.meant.values()}
        at = (each for each in self._known if (each.weekday, each.at) == (row.weekday, row.at) and meet(row, each))
        for each in at:
            if each.event_uid is None and each.id not in meant and not is_over(each, self._clocks.today):
                self.left_going[each] = None
                self.called_off.add(row.event_uid)

    def _note_end(self, row: RosterRow, said: ImportedTime, columns: frozenset[str]) -> None:
        """Notes what a row would let go on, and the studio has ended: of what it speaks of, the last that is as it says."""
        meant, known = self.meant[row], self._known
        pieces = [*(each for each in pieces_of(said.standing_time_id, known) if each.id != meant.id), meant]
        ended = next((each for each in pieces[::-1] if (each.weekday, each.at) == (said.weekday, said.at)), meant)
        if ended.until_on is None or ended.until_on == said.until_on:
            return
        if "until" in columns or is_over(ended, self._clocks.today) or is_followed(ended, known):
            self.left_ended.append(ended)

    def _keep(self, before: ImportedTime | None, said: ImportedTime | None) -> None:
        if before != said:
            self.imported.append(Edit(before=before, after=said))

    def _put(self, before: StandingTime, after: StandingTime) -> StandingTime:
        if before != after:
            self.edits.append(Edit(before=before, after=after))
        return after

    def _followed(
        self, before: StandingTime, ended: StandingTime, later: StandingTime, said: ImportedTime, *, is_from_file: bool
    ) -> StandingTime:
        """Ends a weekly time, and has another one take its place by what a file says."""
        self._put(before, ended)
        new_id, uid = StandingTimeId(self._new_id()), said.event_uid or None
        later = replace(later, id=new_id, follows=before.id, is_from_file=is_from_file, event_uid=uid)
        self.edits.append(Edit(before=None, after=later))
        return later

    def _end_by(self, pieces: Iterable[StandingTime], until: date | None) -> None:
        """Has nothing of these go on after a date; None takes nothing."""
        for each in pieces:
            if until is not None and (each.until_on is None or each.until_on > until):
                self._put(each, replace(each, until_on=until))

    def _moves(self, before: StandingTime, after: Iterable[StandingTime], since: date | None) -> None:
        """Has the lessons of a weekly time go along from a date of its clock on; or all of them."""
        enrollments = tuple(Enrollment(standing=each, student=self._student, family=self._family) for each in after)
        self.reshaped.append(Reshaped(before=before, after=enrollments, since=since or date.min + _DAY))


def _at_time_of(slot: Slot, words: ImportedTime) -> Slot:
    """A weekly time, or what a file says of one, at the time that other words of a file have; the dates stay."""
    return replace(
        slot,
        weekday=words.weekday,
        at=words.at,
        minutes=words.minutes,
        kept_in=words.kept_in,
        every_weeks=words.every_weeks,
    )


def _ends_with(ended: StandingTime, wanted: StandingTime, today: date) -> StandingTime:
    """What has ended, no later than what is wanted does, and not before today."""
    ends = [each for each in (ended.until_on, wanted.until_on) if each is not None]
    return replace(ended, until_on=max(min(ends), today - _DAY)) if ends else ended


def _first_day(standing: StandingTime, ended: StandingTime) -> date | None:
    """The day after the end of what was ended, or else the first one of a weekly time."""
    return ended.until_on + _DAY if ended.until_on is not None else standing.from_on


def _after_others(pieces: Sequence[StandingTime], wanted: StandingTime, today: date) -> StandingTime:
    """What is wanted of the last, beginning after the end of those before it."""
    ends = [each.until_on for each in pieces[:-1] if each.until_on is not None]
    if not ends or wanted.from_on == pieces[-1].from_on:
        return wanted
    return replace(wanted, from_on=max(wanted.from_on or today, max(ends) + _DAY))


def _in_turn_of(wanted: StandingTime, baseline: ImportedTime, said: ImportedTime) -> StandingTime:
    """What is wanted, beginning so that its every second week is the one of a file that says another."""
    before, now = ((each.from_on, each.weekday, each.every_weeks) for each in (baseline, said))
    if before == now or said.every_weeks == 1 or wanted.every_weeks != said.every_weeks:
        return wanted
    if said.from_on is None or wanted.from_on is None:
        return wanted
    as_said = replace(wanted, weekday=said.weekday, from_on=said.from_on)
    return wanted if turn_of(wanted) == turn_of(as_said) else replace(wanted, from_on=wanted.from_on + WEEK)


def _goes_on(over: StandingTime, wanted: StandingTime, baseline: ImportedTime, said: ImportedTime, today: date) -> bool:
    """Whether a file has lessons go on that are over.

    It does where it names another end, or a roster another time or a later beginning. A program that keeps calendars
    writes a beginning of its own accord.
    """
    if is_over(said, today):
        return False
    if said.until_on != baseline.until_on:
        return True
    begins = said.from_on if said.from_on != baseline.from_on else None
    is_later = begins is not None and over.until_on is not None and begins > over.until_on
    return said.event_uid == ROSTER and (is_another_time(over, wanted) or is_later)
