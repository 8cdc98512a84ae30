"""How long an item lasts: as she typed it, or worked out from its measures, its meter, and its tempo."""

from fractions import Fraction

from cockpit.studio.assignments.assignment import Tempo
from cockpit.studio.pieces.history import PieceTime
from cockpit.studio.practice.passages import seconds_through
from cockpit.studio.values import Value

_ROUNDED_TO = 5  # seconds


class ItemLength(Value):
    """The seconds that an item lasts, and whether they were worked out rather than typed."""

    seconds: int
    is_computed: bool = False


def computed_length(measures: int, tempo: Tempo, meter: Fraction | None) -> ItemLength | None:
    """How long measures last at a tempo's goal, rounded up to five seconds; None where that cannot be said.

    `meter` is a measure's length in quarters. Where none is known it is 4/4, but a dotted beat may be of any meter. Repeats
    are hers to type.
    """
    exact = seconds_through(measures, tempo, meter)
    if exact is None:
        return None
    return ItemLength(seconds=-(-exact // _ROUNDED_TO) * _ROUNDED_TO, is_computed=True)


def tempo_to_play(time: PieceTime) -> Tempo | None:
    """The tempo that a piece was heard at last, else the one that it is to reach."""
    if time.hearings:
        heard = time.hearings[-1]
        return Tempo(beat=heard.beat, goal=heard.tempo)
    if time.goal is None:
        return None
    return Tempo(beat=time.beat, goal=int(time.goal / time.beat))
