"""An assignment as the program understands it: values only; what reads them out of a typed line stands in `reading`."""

import re
from enum import StrEnum
from fractions import Fraction

from cockpit.studio.notes.areas import AnyArea
from cockpit.studio.values import Value

_NUMBER = re.compile(r"(?<![\w#])\d+(?!\w)")


class Hands(StrEnum):
    """Which hands play."""

    SEPARATELY = "hands separately"
    TOGETHER = "hands together"
    LEFT = "left hand"
    RIGHT = "right hand"


class Part(StrEnum):
    """What a stretch of an assignment's text was understood as."""

    TITLE = "title"
    NUMBER = "number"
    OPUS = "opus"
    PAGES = "pages"
    MEASURES = "measures"
    TEMPO = "tempo"
    KEY = "key"
    OCTAVES = "octaves"
    HANDS = "hands"
    TIMES = "times"
    MINUTES = "minutes"
    DAYS = "days"
    IN_TURNS = "in turns"
    BY_HEART = "by heart"
    BRACED = "braced"  # theory at hand


class Stretch(Value):
    """A stretch of the text that was understood: columns `begins` up to, not with, `ends`."""

    part: Part
    begins: int
    ends: int


class Tempo(Value):
    """A tempo mark in beats a minute.

    `beat` is the note value that is counted, in quarters (dotted quarter: 3/2). `goal` is the tempo asked for, or the
    upper end of a range; `start` the lower one where two are said ("72 to 88", "60-72").
    """

    beat: Fraction
    goal: int
    start: int | None = None
    is_about: bool = False
    is_ceiling: bool = False


class Measures(Value):
    """Measures `first` to `last`, both inclusive; without `last` to the end of the piece."""

    first: int
    last: int | None

    @property
    def count(self) -> int | None:
        """How many measures these are; None where the end of the piece is not known."""
        return self.last - self.first + 1 if self.last is not None else None


class Pages(Value):
    """Pages `first` to `last`, both inclusive."""

    first: int
    last: int


class Key(Value):
    """A key: its tonic as "D", "C#" or "Bb", and its mode ("major", "minor", "harmonic minor", "melodic minor")."""

    tonic: str
    mode: str


class Times(Value):
    """How often something is played, in all or a day."""

    count: int
    is_daily: bool = False


class Assignment(Value):
    """One thing to practice. `text` is what was typed after the label, without the braces of theory at hand; everything else was read out of it.

    `stretches` say which columns of `text` were understood, in order and without overlap; the rest of it is kept as it
    is. The family reads `own_label` where she has a word of her own for the area. `number` is one in a book or an opus, "5" or "ex. 3"; `opus` is "op. 27", "BWV 846" or "K. 331". `minutes` are a
    day's. `named_so` are words of the title that would say something elsewhere: "Daily" of "Daily Bread". `days` are weekdays, Monday is 0; None where none are named. On those of `not_on` there is to be nothing.
    `braced` is what stood in braces and is no part of its own words.
    `keys` are the columns of keys in a row, `unclear` those of what else the text speaks of and does not say clearly.
    """

    area: AnyArea
    text: str
    typed: str
    own_label: str | None = None
    stretches: tuple[Stretch, ...] = ()
    title: str | None = None
    number: str | None = None
    opus: str | None = None
    pages: tuple[Pages, ...] = ()
    measures: tuple[Measures, ...] = ()
    tempo: Tempo | None = None
    key: Key | None = None
    octaves: int | None = None
    hands: Hands | None = None
    times: Times | None = None
    minutes: int | None = None
    days: frozenset[int] | None = None
    not_on: frozenset[int] = frozenset()
    in_turns: bool = False
    by_heart: bool = False
    keys: tuple[tuple[int, int], ...] = ()
    unclear: tuple[tuple[int, int], ...] = ()
    named_so: tuple[str, ...] = ()
    braced: tuple[str, ...] = ()

    def is_due_on(self, weekday: int) -> bool:
        """Whether it is for a weekday, as far as the line says: one of its days, and none that it leaves out."""
        return (self.days is None or weekday in self.days) and weekday not in self.not_on

    @property
    def has_other_numbers(self) -> bool:
        """Whether a number of the line was not understood.

        It can be of more measures or of another tempo ("mm. 1-8, then 9-16"), so that those that were understood are not
        to be told, or cut into days, as if they were all.
        """
        return any(
            not any(stretch.begins <= number.start() < stretch.ends for stretch in self.stretches)
            for number in _NUMBER.finditer(self.text)
        )
