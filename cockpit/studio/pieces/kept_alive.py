"""Pieces that are kept alive after they were polished: when each is to be heard again.

The gaps widen by common practice, no source. Widening is a choice: even gaps led to the same recall at the end (Kang and
others 2014, DOI 10.3758/s13423-014-0636-z).
"""

from collections.abc import Iterable, Sequence
from datetime import date, timedelta

from cockpit.studio.notes.notes import Mark, NoteLine, read_notes
from cockpit.studio.notes.vocabulary import Labels
from cockpit.studio.pieces.history import PieceHistory
from cockpit.studio.values import Value

_HEARD = frozenset({Mark.DONE, Mark.MORE_WORK, Mark.NOT_YET})


class KeptAlive(Value):
    """When a piece that is kept alive is due: so many weeks after it was polished, or was last heard, `on` a date."""

    on: date
    weeks: int

    @property
    def due_on(self) -> date:
        """The day from which on it is due."""
        return self.on + timedelta(weeks=self.weeks)

    def is_due(self, on: date) -> bool:
        """Whether it is to be heard again by a date."""
        return on >= self.due_on

    def weeks_left(self, on: date) -> int:
        """In how many weeks, begun ones counted, it is due; 0 if it is."""
        return max(0, -(-(self.due_on - on).days // 7))


def kept_alive(history: PieceHistory, gaps: Sequence[int]) -> KeptAlive | None:
    """When a piece is due again; None where it is not kept alive. `gaps` are in weeks, and the last one repeats.

    Each lesson that gave it since, and of which a mark says that it was heard, leads to the next gap; "not yet" leads
    back to the first.
    """
    since = history.said.kept_since if history.said is not None else None
    if since is None:
        return None
    heard = {each.on: each.mark for each in reversed(history.lines) if each.on > since and each.mark in _HEARD}
    on, gap = since, 0
    for heard_on, mark in heard.items():
        on, gap = heard_on, 0 if mark is Mark.NOT_YET else min(gap + 1, len(gaps) - 1)
    return KeptAlive(on=on, weeks=gaps[gap])


class DuePiece(Value):
    """A piece that is kept alive and is to be heard again."""

    key: str
    title: str
    due: KeptAlive


def due_pieces(pieces: Iterable[PieceHistory], gaps: Sequence[int], on: date) -> tuple[DuePiece, ...]:
    """The pieces that are due by a date, the longest due first.

    One that was given again, and of which no mark says how it went, is among the assignments already.
    """
    found = []
    for each in pieces:
        due, newest = kept_alive(each, gaps), each.lines[0]
        if due is not None and due.is_due(on) and (newest.mark is not None or newest.on <= due.on):
            found.append(DuePiece(key=each.key, title=each.title, due=due))
    return tuple(sorted(found, key=lambda each: (each.due.due_on, each.title)))


def review_line(title: str, labels: Labels) -> NoteLine:
    """The line that gives a piece again, as it is typed: `Review: Little Canoe`."""
    return next(iter(read_notes(f"Review: {title}", labels)))
