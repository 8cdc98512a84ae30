"""A line of an assignment cut into words, numbers and signs, and what all readers of it ask."""

import re
from collections.abc import Callable, Sequence
from typing import NamedTuple

from cockpit.studio.assignments.assignment import Hands, Key, Measures, Pages, Part, Tempo, Times
from cockpit.studio.notes.areas import AnyArea

LONGEST_READ = 1000
"""What begins or goes on behind this column is kept as text: a line so long is prose."""

# An open end is seen only by what follows it, so that words behind the last column read are looked at too.
_LOOKED_AT = LONGEST_READ + 100
# Only 0 to 9 are numbers here. The note signs of Unicode's musical symbols can be typed in two or three pieces.
_TOKEN = re.compile(
    "[wW]/[oO](?![^\\W_])|[0-9]+|[^\\W\\d_]+|[\U0001d157\U0001d158]\U0001d165[\U0001d16e\U0001d16f]?|\\S"
)


def words_in(line: str) -> frozenset[str]:
    """The words of a line as a set."""
    return frozenset(line.split())


DASHES = frozenset("-‐‑‒–—−")
ARROWS = frozenset("→⟶➔➝")
BRACED = "{}"
"""The token of what stood in braces: no other has two signs."""
_TO = words_in("to thru through bis à hasta")
_SHORT_FORMS = {"w/o": "without"}
# What may stand within a title in small letters.
ARTICLES = words_in("the a an my our your his her le la les der die das el los las")
JOINERS = words_in("of the in on and for from to de di du von")
_OPENERS = frozenset('([{"“‘,;:|—*_&')
_CLOSERS = frozenset('.,;:!?)]}"”…|—*_&')
_COUNTED = words_in(
    "min mins minute minutes minuten minuto minutos times rep reps repetition repetitions oct octs octave octaves bpm day days week "
    "weeks wk wks sec secs second seconds page pages measure measures bar bars beat beats hour hours hr hrs % "
    "percent line lines note notes"
)
_PLACES = words_in("page pages measure measures bar bars beat beats day line")
# Words that can follow a number without being what it counts.
_GOES_ON = words_in(
    "with without at in on from for by and then only again slow slowly hands left right both hs ht lh rh q h e m mm p "
    "pp pg no op up daily every each mon tue tues wed thu thur thurs fri sat sun until"
)
ENDS_CLAUSE = frozenset(",;.!?()[]{}|•·") | {"then", "but"}
SPELLED = {
    word: number
    for number, word in enumerate(
        ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"), start=1
    )
} | {
    "thirteen": 13, "fourteen": 14, "fifteen": 15, "sixteen": 16, "seventeen": 17, "eighteen": 18, "nineteen": 19, "twenty": 20,
    "thirty": 30, "forty": 40, "fifty": 50, "sixty": 60,
}  # fmt: skip
# Read nowhere, but named behind a word that counts: "Takte eins bis acht".
OTHER_NUMBERS = words_in(
    "eins zwei drei vier fünf sechs sieben acht neun zehn elf zwölf un deux trois quatre cinq six sept huit neuf dix onze douze uno dos "
    "tres cuatro cinco seis siete ocho nueve diez once doce"
)

TokenValue = Tempo | Measures | Pages | Key | Hands | Times | int | str


# Tuples with names here and in the readers: as a dataclass each would add half a millisecond to every start.
class Claim(NamedTuple):
    """What was read: tokens `begins` up to, not with, `ends`. Without values the line speaks of it, but not clearly.

    `is_denied` says that the line speaks of it as what is not to be; `is_passing`, that it claims nothing unless so;
    `is_aside`, that the line tells it of something else: the tempo of a recording, the days of a camp.
    """

    part: Part
    begins: int
    ends: int
    values: tuple[TokenValue, ...] = ()
    is_denied: bool = False
    is_passing: bool = False
    is_aside: bool = False


class Tokens(NamedTuple):
    """The words, numbers and signs of a line: as typed, in small letters, and the columns they stand in."""

    area: AnyArea
    typed: list[str]
    words: list[str]
    begins: list[int]
    ends: list[int]

    def word(self, at: int) -> str:
        """The word at a place in small letters; empty outside of the line."""
        return self.words[at] if 0 <= at < len(self.words) else ""

    def is_glued(self, at: int) -> bool:
        """Whether nothing stands between a token and the one before it."""
        return 0 < at < len(self.words) and self.begins[at] == self.ends[at - 1]

    def begins_clean(self, at: int) -> bool:
        """Whether something can begin here: behind a space or an opening sign, not in the middle of something else."""
        return not self.is_glued(at) or self.words[at - 1] in _OPENERS

    def ends_clean(self, after: int) -> bool:
        """Whether something can end before this token. In 5.3, 4:30 or 12/3 a number goes on."""
        if not self.is_glued(after):
            return True
        sign = self.words[after]
        return sign in _CLOSERS and not (sign in ".:" and self.is_glued(after + 1) and self.word(after + 1).isdigit())

    def number(self, at: int, low: int, high: int) -> int | None:
        """The number written in digits at a place, if it is one within bounds."""
        word = self.word(at)
        if not word.isascii() or not word.isdigit() or len(word) > 4:
            return None
        return int(word) if low <= int(word) <= high else None

    def amount(self, at: int, low: int, high: int) -> int | None:
        """A number in digits or as a word, with nothing before it that makes it a part of something else."""
        if not self.begins_clean(at) or self.is_second_of_two(at):
            return None
        spelled = SPELLED.get(self.word(at))
        if spelled is not None:
            return spelled if low <= spelled <= high else None
        return self.number(at, low, high)

    def is_second_of_two(self, at: int) -> bool:
        """Whether a number ends a range or follows another one's decimal point: 3 to 5, 3 or 5, 3 - 5."""
        before = self.word(at - 1)
        if before == ">":
            return self.word(at - 3).isdigit()
        is_between = before in DASHES or before in ARROWS or before in _TO or before in {"or", "a"}
        return is_between and self.word(at - 2).isdigit()

    def counts_something(self, after: int) -> bool:
        """Whether what follows a number is what it counts: 5 min, 3x, 2 oct, 72 bpm, 10m."""
        word = self.word(after)
        if word in {"x", "×"}:
            return not self.word(after + 1).isdigit()
        if word in {"m", "h", "s"}:
            return self.is_glued(after)
        if word in _PLACES and self.word(after + 1).isdigit():  # no. 5 measures 1-8
            return False
        return word in _COUNTED or (word == "8" and self.word(after + 1) == "ve")

    def goes_on(self, after: int) -> bool:
        """Whether a number before this token stands for itself: no unknown word follows that it might count."""
        word = self.word(after)
        return self.ends_clean(after) and not self.counts_something(after) and (not word.isalpha() or word in _GOES_ON)

    def ends_clause(self, at: int) -> bool:
        """Whether a clause or the line ends at a place."""
        return not self.word(at) or self.words[at] in ENDS_CLAUSE

    def is_capital(self, at: int) -> bool:
        """Whether a word stands at a place that begins with a capital and goes on small: "Daily", and neither HS nor mm."""
        word = self.typed[at] if 0 <= at < len(self.typed) else ""
        return word[:1].isupper() and word[1:].islower()

    def past_joiners(self, at: int) -> int:
        """The place behind the small words that join those of a name: "Fifteen Minutes of Fame"."""
        while self.word(at) in JOINERS:
            at += 1
        return at

    def past_dot(self, at: int) -> int:
        """The place behind a dot that ends an abbreviation, or the place itself."""
        return at + 1 if self.is_glued(at) and self.word(at) == "." else at

    def past_range_sign(self, at: int) -> int | None:
        """The place behind a dash, an arrow or a word that stands between the ends of a range; None without one."""
        word = self.word(at)
        if word in DASHES:
            return at + 2 if self.is_glued(at + 1) and self.word(at + 1) in {"-", ">"} else at + 1
        if word == "jusqu":  # jusqu'à
            return at + 3
        if word == "a" and self.word(at + 1).isdigit() and self.word(at - 1).isdigit():  # compases 5 a 12
            return at + 1
        return at + 1 if word in ARROWS or word in _TO else None

    def is_arrow(self, at: int) -> bool:
        """Whether an arrow stands at a place, typed in one sign or two."""
        return self.word(at) in ARROWS or (self.word(at) == "-" and self.is_glued(at + 1) and self.word(at + 1) == ">")

    def is_spaced_dash(self, at: int) -> bool:
        """Whether a dash stands alone between two thoughts: 72 - hands separately."""
        return self.word(at) in DASHES and not self.is_glued(at) and not self.is_glued(at + 1)


Reader = Callable[[Tokens, int], Claim | None]


def tokens_of(text: str, area: AnyArea, braced: Sequence[tuple[int, int]] = ()) -> Tokens:
    """Cuts the beginning of a line, as far as it is read; columns that stood in braces are one token, whatever is in them."""
    if braced:
        return _with_braced(text, area, braced)
    matches = list(_TOKEN.finditer(text, 0, _LOOKED_AT))
    typed = [match[0] for match in matches]
    return Tokens(
        area=area,
        typed=typed,
        words=[_SHORT_FORMS.get(word.lower(), word.lower()) for word in typed],
        begins=[match.start() for match in matches],
        ends=[match.end() for match in matches],
    )


def _with_braced(text: str, area: AnyArea, braced: Sequence[tuple[int, int]]) -> Tokens:
    for begins, ends in braced:
        text = f"{text[:begins]}{' ' * (ends - begins)}{text[ends:]}"
    others = tokens_of(text, area)
    places = [(begins, ends, BRACED, BRACED) for begins, ends in braced if ends <= _LOOKED_AT]
    every = sorted((*zip(others.begins, others.ends, others.typed, others.words, strict=True), *places))
    return Tokens(
        area=area,
        typed=[typed for _, _, typed, _ in every],
        words=[word for _, _, _, word in every],
        begins=[begins for begins, _, _, _ in every],
        ends=[ends for _, ends, _, _ in every],
    )
