"""Series of a calendar that a student has no more: they ended before the file was read again, or are another's now."""

from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from dataclasses import replace
from datetime import date

from cockpit.studio.calendar.events import EndedSeries
from cockpit.studio.changes.records import Edit
from cockpit.studio.enrolling.event_times import event_number
from cockpit.studio.enrolling.following_files import Following
from cockpit.studio.lessons.file_rows import FileRow, spoken_of
from cockpit.studio.lessons.weekly_times import StandingTime, StandingTimeId
from cockpit.studio.people.people import StudentId


class SeriesOver:
    """Ends them, in `edits`, and gathers in `told` what is remembered of the events.

    What another event of the file has `meant` goes on, and is that one's. What was till now stays, whatever date the
    file has.
    """

    def __init__(
        self,
        remembered: Sequence[FileRow],
        known: Sequence[StandingTime],
        meant: Collection[StandingTimeId],
        following: Callable[[StandingTime], Following],
    ) -> None:
        self._remembered = remembered
        self._known = known
        self._meant = frozenset(meant)
        self._following = following
        self.edits: list[Edit] = []
        self.told: list[Edit] = []

    def take_ended(self, ended: Iterable[EndedSeries]) -> None:
        """Takes in the series that are over; an end that was read before is none that is new."""
        ends = {event_number(each.uid): each.until_on for each in ended}
        for row in self._remembered:
            until_on = ends.get(row.event)
            if until_on is not None and until_on != row.until_on:
                self._end(row, until_on)

    def take_renamed(self, students: Mapping[int, Collection[StudentId]]) -> None:
        """Takes in whose the events of the file are: what another student had of one ends."""
        for row in self._remembered:
            if row.event in students and row.student_id not in students[row.event]:
                self._end(row)

    def _end(self, row: FileRow, until_on: date | None = None) -> None:
        """Ends what a row spoke of, and keeps the end that the file has, or else the one that it has here."""
        pieces = spoken_of(row, self._known)
        if self._meant.intersection(piece.id for piece in pieces):
            self.told.append(Edit(before=row, after=None))
        elif pieces:
            follower = self._following(pieces[-1])
            told = follower.drop(row)
            self.edits += follower.edits
            self.told.append(Edit(before=row, after=replace(told, until_on=until_on or told.until_on)))
