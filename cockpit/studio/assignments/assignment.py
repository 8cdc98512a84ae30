"""An assignment as the program understands it: values only; what reads them out of a typed line stands in `reading`."""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from cockpit.studio.clocks.words import MONTHS
from cockpit.studio.notes.areas import AnyArea

_CLAUSE_ENDS = re.compile(r"[,;()\[\]]")
_DAY = (
    r"(?:(?:mon|tues?|wed(?:nes)?|thu(?:rs)?|fri|sat(?:ur)?|sun)(?:days?)?|(?:mon|diens|donners|frei|sams|sonn)tags?|mittwochs?"
    r"|sonnabends?|(?:lun|mar|mercre|jeu|vendre|same)dis?|dimanches?|lunes|martes|mi[ée]rcoles|jueves|viernes|s[áa]bados?|domingos?)"
)
_MONTH = "|".join(f"{month[:3]}(?:{month[3:]})?" for month in MONTHS)
_ON_DATE = (
    rf"\b(?:in|on|by|from|since|before|after|for|am|bis|vor|nach|ab|seit|für|le|avant|après|depuis|pour|el|hasta|antes del?|desde|para"
    rf"|jusqu['’]à)(?: (?:el|zum|au|den|dem))? (?:{_DAY}|{_MONTH})\b"
)
_NOT = (
    "nicht|keine?n?|außer|ausser|ohne|nie|pas|sauf|sans|jamais|excepté|salvo|excepto|sin|nunca|menos|oder|ou|o|und|et|y"
)
_LEFT_OUT = re.compile(
    rf"(?:\b(?:not?|never|without|except|skip|or|nor|{_NOT})\b(?: (?:practice|playing|on|for|am|le|les|el|los))*)?\s*\b(?:{_DAY}|weekends?|weekdays?)\b(?: (?:off|frei|libre)\b)?",
    re.IGNORECASE,
)
_UNITS = (
    r"(?:days?|weeks?|weekends?|weekdays?|mornings?|afternoons?|evenings?|nights?|hours?|minutes?|mins?|sessions?)"
    r"|times|(?:half|all|of) the time|once|twice|weekly|nightly|monthly"
)
# Days in short in other languages, two or more: "Mo Mi Fr", "lun/mer". "Do Mi" may be sung.
_GERMAN, _ROMANCE = "Mo|Di|Mi|Do|Fr|Sa|So", "lun|mar|mer|mi[eé]|jeu|jue|ven|vie|sam|s[áa]b|dim|dom"
_BETWEEN_DAYS = r"\.?(?:[,/&+\s–-]|und|et|y)+"
_SURELY_GERMAN = "Mo|Di|Fr|Sa|So"
_SHORT_DAYS = (
    rf"\b(?-i:(?:(?:{_SURELY_GERMAN}){_BETWEEN_DAYS}(?:{_GERMAN})|(?:Mi|Do){_BETWEEN_DAYS}(?:{_SURELY_GERMAN}))"
    rf"(?:{_BETWEEN_DAYS}(?:{_GERMAN}))*)\b|\b(?:{_ROMANCE})(?:{_BETWEEN_DAYS}(?:{_ROMANCE}))+\b"
)
# No title has one, nor a number that counts something; one that has a day may be a title or not.
_NO_NAME = re.compile(
    r"\d+(?:(?:\s?[-–,;&+]\s?|\s(?:up to|to|thru|through|then|and|or|bis|und|à|et|a|y)\s)\d+)+|\d{2,}\s?/\s?\d{2,}|[~≈<>]\s?\d+"
    r"|(?<![\w#.])\d+ (?!(?:with|without|and|in|of|from|by|to|for|de|at|on)\b)[a-zß-ÿ]+(?: [a-zß-ÿ]+){0,2}"
    rf"|(?i:{_ON_DATE})|(?i:{_SHORT_DAYS})"
)
_NUMBERS = (
    "one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|thirteen|fourteen|fifteen|sixteen|seventeen|eighteen|nineteen|twenty"
    "|thirty|forty|fifty|sixty|eins|zwei|drei|vier|fünf|sechs|sieben|acht|neun|zehn|elf|zwölf|une?|deux|trois|quatre|cinq|sept|huit|neuf"
    "|dix|onze|douze|uno|dos|tres|cuatro|cinco|seis|siete|ocho|nueve|diez|once|doce"
)
_COUNTED = r"measures?|bars?|pages?|takte?n?|seiten?|mesures?|comp[aá]s(?:es)?|p[aá]ginas?"
# What may be an amount, a tempo, measures or days, or limits what was understood: "by Friday", "except the coda".
_UNREAD = re.compile(
    r"\d|\bevery (?:other|second|third)\b|\bonly \w|\w only\b|\ball but\b|\b(?:[lr]h|h[st])\b|n['’]t\b"
    rf"|{_SHORT_DAYS}|\b(?:{_COUNTED}) (?:{_NUMBERS})\b"
    rf"|\b(?:{_UNITS}|wk|not?|never|without|except|excluding|skip|omit|if|unless|until|till|til|max|daily|{_DAY})\b|{_ON_DATE}|\b(?-i:M[ /-]?W|T[ /-]?Th)(?![a-z])",
    re.IGNORECASE,
)
# How a measure is counted says something where no tempo does.
_BEATS = re.compile(rf"\b(?:in|en|à) (?:{_NUMBERS})(?=\W*$| at\b)|\bcut (?:time|c)\b|\balla breve\b", re.IGNORECASE)
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


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """A stretch of the text that was understood: columns `begins` up to, not with, `ends`."""

    part: Part
    begins: int
    ends: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Tempo:
    """A tempo mark in beats a minute.

    `beat` is the note value that is counted, in quarters (dotted quarter: 3/2). `goal` is the tempo asked for, or the
    upper end of a range; `start` the lower one where two are said ("72 to 88", "60-72").
    """

    beat: Fraction
    goal: int
    start: int | None = None
    is_about: bool = False
    is_ceiling: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Measures:
    """Measures `first` to `last`, both inclusive; without `last` to the end of the piece."""

    first: int
    last: int | None

    @property
    def count(self) -> int | None:
        """How many measures these are; None where the end of the piece is not known."""
        return self.last - self.first + 1 if self.last is not None else None


@dataclass(frozen=True, slots=True, kw_only=True)
class Pages:
    """Pages `first` to `last`, both inclusive."""

    first: int
    last: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Key:
    """A key: its tonic as "D", "C#" or "Bb", and its mode ("major", "minor", "harmonic minor", "melodic minor")."""

    tonic: str
    mode: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Times:
    """How often something is played, in all or a day."""

    count: int
    is_daily: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Assignment:
    """One thing to practice. `text` is exactly what was typed after the label; everything else was read out of it.

    `stretches` say which columns of `text` were understood, in order and without overlap; the rest of it is kept as it
    is. The family reads `own_label` where she has a word of her own for the area. `number` is one in a book or an opus, "5" or "ex. 3"; `opus` is "op. 27", "BWV 846" or "K. 331". `minutes` are a
    day's. `named_so` are words of the title that would say something elsewhere: "Daily" of "Daily Bread". `days` are weekdays, Monday is 0; None where none are named. On those of `not_on` there is to be nothing.
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

    def is_due_on(self, weekday: int) -> bool:
        """Whether it is for a weekday, as far as the line says: one of its days, and none that it leaves out."""
        return (self.days is None or weekday in self.days) and weekday not in self.not_on

    @property
    def unread(self) -> tuple[str, ...]:
        """What stands between the understood stretches and may be an amount or days, up to the next sign that ends a clause."""
        in_title = (self.text[each.begins : each.ends] for each in self.stretches if each.part is Part.TITLE)
        ranges = (found[0] for title in in_title for found in _NO_NAME.finditer(title))
        clauses = (
            self.text[begins:ends].strip(" .-–—") for begins, ends in self._clauses() if self._is_unread(begins, ends)
        )
        return (*self.named_so, *ranges, *clauses)

    def _clauses(self) -> Iterator[tuple[int, int]]:
        """The columns of what stands between the understood stretches, cut at the signs that end a clause."""
        gaps = [0, *(at for each in self.stretches for at in (each.begins, each.ends)), len(self.text)]
        for begins, ends in zip(gaps[::2], gaps[1::2], strict=True):
            at = begins
            for sign in _CLAUSE_ENDS.finditer(self.text, begins, ends):
                yield at, sign.start()
                at = sign.end()
            yield at, ends

    def _is_unread(self, begins: int, ends: int) -> bool:
        clause = self.text[begins:ends]
        is_spoken_of = any(first < ends and begins < last for first, last in self.unclear)
        is_count = self.tempo is None and _BEATS.search(clause) is not None
        return (
            is_spoken_of
            or is_count
            or _UNREAD.search(_LEFT_OUT.sub(" ", clause) if self.not_on else clause) is not None
        )

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
