"""Intervals: between two notes, and above or below one."""

from enum import StrEnum

from cockpit.studio.theory.note_names import NoteName
from cockpit.studio.values import Value

_IN_LETTERS = 7
_NATURAL = (0, 2, 4, 5, 7, 9, 11)  # of the major scale
_PERFECT = frozenset({0, 3, 4})
_LAST = 15  # two octaves


class Quality(StrEnum):
    """What kind of an interval it is."""

    DOUBLY_DIMINISHED = "doubly_diminished"
    DIMINISHED = "diminished"
    MINOR = "minor"
    PERFECT = "perfect"
    MAJOR = "major"
    AUGMENTED = "augmented"
    DOUBLY_AUGMENTED = "doubly_augmented"


_OF_PERFECT = {
    -2: Quality.DOUBLY_DIMINISHED, -1: Quality.DIMINISHED, 0: Quality.PERFECT, 1: Quality.AUGMENTED, 2: Quality.DOUBLY_AUGMENTED,
}  # fmt: skip
_OF_OTHERS = {
    -3: Quality.DOUBLY_DIMINISHED, -2: Quality.DIMINISHED, -1: Quality.MINOR, 0: Quality.MAJOR, 1: Quality.AUGMENTED,
    2: Quality.DOUBLY_AUGMENTED,
}  # fmt: skip
_TURNED = dict(zip(Quality, reversed(Quality), strict=True))


class Interval(Value):
    """An interval: `number` is 3 for a third."""

    number: int
    quality: Quality

    @property
    def letters(self) -> int:
        """How many letters it is wide."""
        return self.number - 1

    @property
    def half_steps(self) -> int:
        """How many half steps it is wide."""
        octaves, letters = divmod(self.letters, _IN_LETTERS)
        wider = next(each for each, quality in _kinds(letters).items() if quality is self.quality)
        return 12 * octaves + _NATURAL[letters] + wider

    @property
    def inversion(self) -> "Interval | None":
        """The interval that its lower note makes an octave higher; None for one that is wider than an octave."""
        if self.number > _IN_LETTERS + 1:
            return None
        return Interval(number=_IN_LETTERS + 2 - self.number, quality=_TURNED[self.quality])


def interval(number: int, quality: Quality) -> Interval | None:
    """An interval of a number and a quality; None where there is no such one: a perfect third, a diminished unison."""
    is_known = 1 <= number <= _LAST and quality in _kinds((number - 1) % _IN_LETTERS).values()
    found = Interval(number=number, quality=quality) if is_known else None
    return found if found is not None and found.half_steps >= 0 else None


def interval_between(lower: NoteName, upper: NoteName) -> Interval | None:
    """The interval from a note up to the next such one above; None for one that is altered three times."""
    letters, half_steps = lower.letters_up_to(upper), lower.half_steps_up_to(upper)
    if letters == 0 and half_steps < 0:  # C sharp and C: there is no diminished unison
        letters, half_steps = _IN_LETTERS, half_steps + 12
    octaves, rest = divmod(letters, _IN_LETTERS)
    quality = _kinds(rest).get(half_steps - 12 * octaves - _NATURAL[rest])
    return Interval(number=letters + 1, quality=quality) if quality is not None else None


def _kinds(letters: int) -> dict[int, Quality]:
    return _OF_PERFECT if letters in _PERFECT else _OF_OTHERS
