"""What became of a student's pieces: each time that one was worked on, from the first lesson that gave it to its end."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date
from fractions import Fraction
from itertools import groupby, takewhile

from cockpit.studio.assignments.assignment import Measures, Tempo
from cockpit.studio.changes.pieces import Piece
from cockpit.studio.notes.notes import Mark
from cockpit.studio.pieces.given import GivenLine
from cockpit.studio.values import Value

QUARTER = Fraction(1)


class PieceHearing(Value):
    """The tempo that a piece was heard at, with the date of the lesson that gave the line: in beats a minute, a beat being so many quarters."""

    on: date
    tempo: int
    beat: Fraction

    @property
    def quarters(self) -> Fraction:
        """The tempo in quarters a minute."""
        return self.tempo * self.beat


class PieceTime(Value):
    """One time that a piece was worked on: its lines, the oldest first, at least one. Dates are those of the lessons that gave them."""

    lines: tuple[GivenLine, ...]

    @property
    def since(self) -> date:
        """When it was first given."""
        return self.lines[0].on

    @property
    def last_on(self) -> date:
        """When it was last given."""
        return self.lines[-1].on

    @property
    def asked(self) -> GivenLine:
        """What is asked of it now: of the last lesson that gave it, the last line that is still open, else the last."""
        last = self.lines[-1]
        newest = takewhile(lambda each: each.lesson_id == last.lesson_id, reversed(self.lines))
        return next(filter(_is_open, newest), last)

    @property
    def state(self) -> Mark | None:
        """How it went, as far as that is known of what is asked now."""
        return self.asked.mark

    @property
    def is_open(self) -> bool:
        """Whether it is neither done nor dropped."""
        return _is_open(self.asked)

    @property
    def goal(self) -> Fraction | None:
        """The tempo that it is to reach, in quarters a minute: that of the newest line that asks for one."""
        return next((tempo.goal * tempo.beat for tempo in self._tempos), None)

    @property
    def beat(self) -> Fraction:
        """What its tempos are told in, in quarters: the beat of the newest line that asks for a tempo."""
        return next((tempo.beat for tempo in self._tempos), QUARTER)

    @property
    def _tempos(self) -> Iterator[Tempo]:
        return (each.read.tempo for each in reversed(self.lines) if each.read.tempo is not None)

    @property
    def hearings(self) -> tuple[PieceHearing, ...]:
        """The tempos that it was heard at, the oldest first; of two on one day the later."""
        heard = {
            each.on: PieceHearing(
                on=each.on, tempo=each.heard, beat=each.read.tempo.beat if each.read.tempo else QUARTER
            )
            for each in self.lines
            if each.heard is not None
        }
        return tuple(heard.values())

    @property
    def measures(self) -> tuple[Measures, ...]:
        """All measures that were given of it, in the order of its lines."""
        return tuple(measures for each in self.lines for measures in each.read.measures)

    @property
    def is_by_heart(self) -> bool:
        """Whether a line asks for it by heart."""
        return any(each.read.by_heart for each in self.lines)

    def weeks(self, on: date) -> int:
        """For how many weeks, begun ones counted, it has been worked on by a date."""
        return max(0, -(-(on - self.since).days // 7))


class PieceHistory(Value):
    """A student's piece: what it was called last, the time that it was worked on last, and `earlier` ones, the newest first.

    `said` is what the teacher says of it.
    """

    key: str
    title: str
    area: str
    now: PieceTime
    earlier: tuple[PieceTime, ...] = ()
    said: Piece | None = None

    @property
    def lines(self) -> tuple[GivenLine, ...]:
        """All its lines, the newest first."""
        return tuple(each for time in (self.now, *self.earlier) for each in reversed(time.lines))

    @property
    def is_named(self) -> bool:
        """Whether its newest line is of something with a name."""
        return self.lines[0].read.is_named

    @property
    def last_done(self) -> PieceTime | None:
        """The last time that it was done, if it ever was."""
        return next((each for each in (self.now, *self.earlier) if each.state is Mark.DONE), None)


def histories(given: Iterable[GivenLine], said: Mapping[str, Piece]) -> tuple[PieceHistory, ...]:
    """The pieces of a student's lines, which come the oldest first, with what she says of them by key.

    Open ones go first: those given last, and of them the oldest; then those that were done or dropped, the newest first.
    """
    by_piece: dict[str, list[GivenLine]] = {}
    for each in given:
        by_piece.setdefault(each.read.piece, []).append(each)
    found = [_history(key, lines, said.get(key)) for key, lines in by_piece.items()]
    still_open = [each for each in found if each.now.is_open]
    still_open.sort(key=lambda each: each.now.since)
    still_open.sort(key=lambda each: each.now.last_on, reverse=True)
    closed = sorted((each for each in found if not each.now.is_open), key=lambda each: each.now.last_on, reverse=True)
    return (*still_open, *closed)


def done_times(pieces: Iterable[PieceHistory]) -> tuple[tuple[PieceHistory, PieceTime], ...]:
    """The pieces that were ever done, each with the last time that it was, the newest first; those taken up again too."""
    done = [(each, time) for each in pieces if (time := each.last_done) is not None]
    return tuple(sorted(done, key=lambda each: each[1].last_on, reverse=True))


def _history(key: str, lines: Sequence[GivenLine], said: Piece | None) -> PieceHistory:
    *earlier, now = _times(lines)
    newest = lines[-1].read
    return PieceHistory(
        key=key, title=newest.title, area=newest.area, now=now, earlier=tuple(reversed(earlier)), said=said
    )


def _times(lines: Sequence[GivenLine]) -> list[PieceTime]:
    """The times that a piece was worked on: after it was done or dropped, another one begins."""
    times: list[PieceTime] = []
    for _, of_lesson in groupby(lines, key=lambda each: each.lesson_id):
        given = tuple(of_lesson)
        if times and (times[-1].is_open or _goes_on(times[-1], given)):
            times[-1] = PieceTime(lines=times[-1].lines + given)
        else:
            times.append(PieceTime(lines=given))
    return times


def _goes_on(time: PieceTime, given: Iterable[GivenLine]) -> bool:
    """Whether measures of a piece alone were done or dropped, and others follow: then the piece was not."""
    fresh = {measures for each in given for measures in each.read.measures}
    return bool(time.asked.read.measures) and bool(fresh - set(time.measures))


def _is_open(given: GivenLine) -> bool:
    return given.mark is None or given.mark.is_open
