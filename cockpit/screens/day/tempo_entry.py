"""A tempo on its way in: typed by digits, or tapped along with the student's playing."""

from datetime import datetime

from cockpit.studio.clocks.words import counted
from cockpit.studio.practice.tapping import FEWEST_TAPS, TappedTempo, Taps
from cockpit.studio.values import Value, field, replace

_DIGITS = 3


class TempoEntry(Value):
    """What was typed or tapped so far; `goal` is the tempo that the assignment asks for, if it does."""

    goal: int | None = None
    digits: str = ""
    taps: Taps = field(default_factory=Taps)

    @property
    def is_empty(self) -> bool:
        """Whether nothing was typed or tapped."""
        return not self.digits and not self.taps.moments

    @property
    def tapped(self) -> TappedTempo | None:
        """The tempo of the taps."""
        return self.taps.tempo(self.goal)

    @property
    def tempo(self) -> int | None:
        """The tempo that can be kept."""
        if self.digits:
            return int(self.digits)
        return self.tapped.bpm if self.tapped is not None else None

    def with_digit(self, digit: str) -> "TempoEntry":
        """With one more digit; taps are forgotten."""
        return replace(self, digits=(self.digits + digit)[:_DIGITS], taps=Taps())

    def with_tap(self, at: datetime) -> "TempoEntry":
        """With one more tap; digits are forgotten."""
        return replace(self, digits="", taps=self.taps.with_tap(at.timestamp()))

    def shortened(self) -> "TempoEntry":
        """Without the last digit, or without the taps."""
        return replace(self, digits=self.digits[:-1], taps=Taps())

    @property
    def words(self) -> str:
        """What it comes to, in a line."""
        if self.digits:
            return f"Tempo {self.digits}, press enter to save"
        taps = len(self.taps.moments)
        if (tapped := self.tapped) is None:
            more = FEWEST_TAPS - taps
            return f"{counted(taps, 'tap')}, {more} more needed" if more > 0 else f"{taps} taps, still too uneven"
        toward = f" ({tapped.as_tapped} tapped)" if tapped.is_corrected else ""
        return f"Tempo {tapped.bpm}{toward} ±{tapped.spread}%, press enter to save"
