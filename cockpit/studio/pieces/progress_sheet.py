"""The progress sheet of a student for the family: lessons, what is worked on, and what is done, in numbers and dates alone."""

from collections.abc import Iterable, Sequence
from datetime import date

from cockpit.studio.assignments.assignment import Tempo
from cockpit.studio.notes.notes import Mark
from cockpit.studio.pieces.history import PieceHearing, PieceHistory, PieceTime
from cockpit.studio.values import Value


class SheetPiece(Value):
    """A piece that is worked on, since a date, with the tempos that it was heard at, the oldest first, and its goal."""

    title: str
    composer: str | None = None
    origin: str | None = None
    since: date
    hearings: tuple[PieceHearing, ...] = ()
    goal: Tempo | None = None
    needs_more_work: bool = False


class SheetDone(Value):
    """A piece that was done, and when."""

    title: str
    composer: str | None = None
    origin: str | None = None
    on: date


class ProgressSheet(Value):
    """What a family is told of a student from a day up to another, on its own clock; `words` are the teacher's own, if any.

    Of so many lessons `planned` so many were `attended`, `made_up` ones among them.
    It has nothing that the family did not get in practice notes, but for dates, and for tempos heard.
    """

    student: str
    from_on: date
    until_on: date
    planned: int
    attended: int
    made_up: int = 0
    pieces: tuple[SheetPiece, ...] = ()
    done: tuple[SheetDone, ...] = ()
    words: str = ""


def sheet_pieces(pieces: Iterable[PieceHistory], *, has_marks: bool) -> tuple[SheetPiece, ...]:
    """The pieces with a name that are worked on; with `has_marks`, whether one needs more work."""
    return tuple(
        SheetPiece(
            title=each.title,
            composer=each.said.composer if each.said is not None else None,
            origin=each.said.origin if each.said is not None else None,
            since=each.now.since,
            hearings=each.now.hearings,
            goal=goal_tempo(each.now),
            needs_more_work=has_marks and each.now.state is Mark.MORE_WORK,
        )
        for each in pieces
        if each.is_named and each.now.is_open
    )


def sheet_done(pieces: Iterable[tuple[PieceHistory, PieceTime]], from_on: date) -> tuple[SheetDone, ...]:
    """The pieces with a name that were done since a day, the newest first."""
    return tuple(
        SheetDone(
            title=each.title,
            composer=each.said.composer if each.said is not None else None,
            origin=each.said.origin if each.said is not None else None,
            on=time.last_on,
        )
        for each, time in pieces
        if each.is_named and time.last_on >= from_on
    )


def goal_tempo(time: PieceTime) -> Tempo | None:
    """The tempo that a piece is to reach, as it was asked for last; None where it never was."""
    tempos: Sequence[Tempo] = [each.read.tempo for each in time.lines if each.read.tempo is not None]
    return Tempo(beat=tempos[-1].beat, goal=tempos[-1].goal) if tempos else None
