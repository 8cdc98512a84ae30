"""A tempo from taps along with a student's playing, in moments of a monotonic clock.

The tempo is the median of the intervals between taps, and the intervals that are far from the others do not count:

- The interval that the others are held against is the median of all, of two in the middle the longer one: a doubled
  tap makes two short intervals of one, and five taps with a doubled one among them must not be at a loss.
- An interval of twice that, within 15 percent, is one tap missed, and is halved.
- Any other that is more than 25 percent away is dropped: a hesitation, a doubled tap.
- Where less than half of the intervals are alike, or fewer than two, nobody could say a tempo, and none is said.

That a tempo can be tapped at half or double the beat of its mark is common practice, no source; the limits are our own.
"""

from collections.abc import Iterable, Sequence
from itertools import pairwise

from cockpit.studio.values import Value

FEWEST_TAPS = 4
MOST_TAPS = 17
"""Only the last taps count, so that a tempo that has changed is followed."""
PAUSE = 4.5
"""Seconds after which a tap begins anew. At the slowest tempo that is tapped, 30, a missed tap leaves 4."""
BOUNCE = 0.05
"""Seconds within which a second tap is no beat but a key that bounced. It is a fifth of a beat at 240, the fastest tempo
that is tapped: where the first of the two was the wrong one, its intervals still count."""
FARTHEST = 0.25
FARTHEST_MISSED = 0.15
FARTHEST_CORRECTED = 0.15
"""Half or double is taken only this near the mark asked for, about three steps of a metronome: a student who plays at
two thirds of the mark is slow, and did not play at four thirds of it."""
_FEWEST_ALIKE = 2


class TappedTempo(Value):
    """A tempo in beats a minute, as tapped and toward the mark asked for.

    `taps` is how many of the taps count; `spread` is how far their intervals are from the median on average, in percent.
    """

    bpm: int
    as_tapped: int
    taps: int
    spread: int

    @property
    def is_corrected(self) -> bool:
        """Whether the tempo is half or double of what was tapped."""
        return self.bpm != self.as_tapped


class Taps(Value):
    """The moments of taps that belong together, in seconds of a monotonic clock, in order."""

    moments: tuple[float, ...] = ()

    def with_tap(self, at: float) -> "Taps":
        """The taps with one more; alone after a pause, and without it where the key only bounced."""
        since = at - self.moments[-1] if self.moments else PAUSE + 1
        if since < BOUNCE:
            return self
        if since > PAUSE:
            return Taps(moments=(at,))
        return Taps(moments=(*self.moments, at)[-MOST_TAPS:])

    def tempo(self, goal: int | None = None) -> TappedTempo | None:
        """The tempo, toward the mark `goal` for; None with fewer than four taps, or where they agree on none."""
        if len(self.moments) < FEWEST_TAPS:
            return None
        intervals = [later - earlier for earlier, later in pairwise(self.moments)]
        alike = _alike(intervals)
        if len(alike) < max(_FEWEST_ALIKE, len(intervals) / 2):
            return None
        beat = _median(alike.values())
        spread = sum(abs(interval - beat) for interval in alike.values()) / len(alike) / beat
        return TappedTempo(
            bpm=round(_corrected(60 / beat, goal)),
            as_tapped=round(60 / beat),
            taps=len({tap for place in alike for tap in (place, place + 1)}),
            spread=round(100 * spread),
        )


def _alike(intervals: Sequence[float]) -> dict[int, float]:
    """The intervals that count, by their places; those of a missed tap are halved."""
    usual = sorted(intervals)[len(intervals) // 2]
    alike = {}
    for place, interval in enumerate(intervals):
        if abs(interval - usual) <= FARTHEST * usual:
            alike[place] = interval
        elif abs(interval / 2 - usual) <= FARTHEST_MISSED * usual:
            alike[place] = interval / 2
    return alike


def _median(values: Iterable[float]) -> float:
    ordered = sorted(values)
    middle = len(ordered) // 2
    return (ordered[middle] + ordered[-1 - middle]) / 2


def _corrected(bpm: float, goal: int | None) -> float:
    """The tempo, or half or double of it where that is near the mark asked for; no two of them can be."""
    if goal is not None:
        for multiple in (bpm / 2, bpm * 2):
            if abs(multiple - goal) <= FARTHEST_CORRECTED * goal:
                return multiple
    return bpm
