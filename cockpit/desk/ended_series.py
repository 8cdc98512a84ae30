"""Series of a calendar file that ended before it was read again, against what the studio has of them."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace

from cockpit.studio.calendar import StandingTime, StandingTimeId
from cockpit.studio.calendar_events import EndedSeries
from cockpit.studio.event_times import event_number
from cockpit.studio.file_rows import FileRow, spoken_of
from cockpit.studio.following_files import Following
from cockpit.studio.records import Edit


def series_ended(
    ended: Iterable[EndedSeries],
    remembered: Iterable[FileRow],
    known: Sequence[StandingTime],
    meant: set[StandingTimeId],
    following: Callable[[StandingTime], Following],
) -> tuple[list[Edit], list[Edit]]:
    """The ends of standing times, and the edits of what is remembered of the events.

    An end that was read before is none that is new. What another event of the file has `meant` goes on and is that one's. What was till
    now stays, whatever date the file has.
    """
    ends = {event_number(each.uid): each.until_on for each in ended}
    edits: list[Edit] = []
    told: list[Edit] = []
    for row in remembered:
        until_on = ends.get(row.event)
        pieces = spoken_of(row, known)
        if until_on is None or until_on == row.until_on or not pieces:
            continue
        if meant.intersection(piece.id for piece in pieces):
            told.append(Edit(before=row, after=None))
            continue
        follower = following(pieces[-1])
        follower.drop(row)
        edits += follower.edits
        told.append(Edit(before=row, after=replace(row, until_on=until_on)))
    return edits, told
