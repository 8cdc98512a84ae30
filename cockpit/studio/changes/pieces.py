"""What the teacher says of a student's pieces and of the mix: kept, since no note says it."""

from datetime import date
from enum import StrEnum

from cockpit.studio.people.people import StudentId
from cockpit.studio.values import Value


class PieceState(StrEnum):
    """Where she has a piece of a student."""

    LEARNING = "learning"
    POLISHED = "polished"
    KEPT_ALIVE = "kept alive"
    RESTING = "resting"


class Piece(Value):
    """What she says of one piece of a student. `key` tells it from the student's others, as its lines do.

    `origin` is a country, a people, or a style, in her own words; `is_chosen` says that the student chose it. It has so many
    `measures`, and is wanted by a date. Its `state` is so since a date; a piece that is being learned needs none. One
    that is kept alive was polished on that date. Dates are the teacher's.
    The family may see the composer and the origin.
    """

    student_id: StudentId
    key: str
    composer: str | None = None
    origin: str | None = None
    is_chosen: bool = False
    measures: int | None = None
    wanted_on: date | None = None
    state: PieceState = PieceState.LEARNING
    state_since: date | None = None

    @property
    def kept_since(self) -> date | None:
        """The date from which on it is kept alive; None where it is not."""
        return self.state_since if self.state is PieceState.KEPT_ALIVE else None


class PieceAlias(Value):
    """Two names of a student's pieces that look alike: whether lines with the `key` are of the `piece`, as she said."""

    student_id: StudentId
    key: str
    piece: str
    is_one: bool


class StrandLeft(Value):
    """A strand of the mix that is not mentioned for a student, through a date; without one it is never taught."""

    student_id: StudentId
    strand: str
    until_on: date | None = None
