"""The words of a typed line: each run of them is claimed as something, and what nobody claims is named."""

import difflib
import re
import unicodedata
from collections.abc import Callable, Container, Iterator, Mapping, Sequence
from itertools import chain, takewhile

from cockpit.studio.clocks.calendar_words import MONTH_WORDS, WEEKDAY_WORDS
from cockpit.studio.clocks.moments import WEEKDAYS, Zone
from cockpit.studio.clocks.words import MONTHS
from cockpit.studio.clocks.zones import near_zones
from cockpit.studio.errors import BadInput
from cockpit.studio.typed_times.parts import Part, Unknown, ZoneName
from cockpit.studio.typed_times.places import name_at, place_at, place_key, spoken
from cockpit.studio.typed_times.reasons import is_feast
from cockpit.studio.typed_times.rules import LESSON_RULES, RULES, Rules
from cockpit.studio.values import Value

Found = tuple[tuple[Part, ...], int] | None
Finder = Callable[[str, int], Found]
"""Tells what the words from a place of a line on mean, and where they end; None if they mean nothing to it."""
_EXAMPLE = 'Type a day, a time, and a length, such as "thu 4:30 pm 45 min".'
_LONGEST = 120
_BETWEEN = re.compile(r"[ ,;.]*")
OF_THE_DAY = (
    rf"(?:um|den)(?= [0-9])|(?:le|el)(?= (?:[0-9]|(?:{'|'.join(WEEKDAY_WORDS)})\b))|à(?= [0-9])|a las?(?= [0-9])"
)
"""Small German, French, and Spanish words right before a day or a time."""
_FILLER = re.compile(
    rf"(?:on|at|@|the|lesson|(?:my|our) (?:local )?(?:time|clock)|{OF_THE_DAY}|am(?= (?:[0-9]{{1,2}}\.|[a-z]+tag\b|mittwoch|sonnabend))|"
    r"instead|please|pls|(?:move|push|shift)(?: it)?(?: to|(?! [0-9]{1,3}(?=[ ,;]|$)(?! ?(?:m|h|[ap]\.?m))))|[-–—])(?=[ ,;]|$)"
)
# Words of the language that no city is meant by, however near one is spelled.
_NO_CITY = frozenset(
    [
        "about",
        "after",
        "before",
        "between",
        "during",
        "either",
        "except",
        "maybe",
        "never",
        "other",
        "since",
        "their",
        "there",
        "through",
        "under",
        "until",
        "which",
        "without",
        "would",
    ]
)
_SHORTEST_CITY = 5
_BRACKETS = str.maketrans("()", "  ")
_COLON = re.compile(r":(?=\s|$)|(?<=\s):(?=[^\W\d])")
_CALL = re.compile(r"(?<=\w)!+(?=[\s,;.]|$)")
_ISO_T = re.compile(r"(?<=-[0-9]{2})t(?=[0-9])", re.IGNORECASE)
_WORD = re.compile(r"[^ ,;]+")
_CALENDAR_WORDS = (
    *(name.casefold() for name in (*WEEKDAYS, *MONTHS)),
    *("today", "tomorrow", "tonight", "yesterday", "morning", "afternoon", "evening", "next", "noon", "week"),
    *("weeks", "days", "hour", "minutes", "quarter", "half"),
)  # fmt: skip
# Words of a day that is counted from the lesson, which no other word of the calendar is meant by.
_COUNTING = frozenset(
    [
        "a",
        "an",
        "one",
        "day",
        "days",
        "week",
        "weeks",
        "month",
        "months",
        "fortnight",
        "following",
        "previous",
        "last",
        "later",
        "earlier",
        "sooner",
        "early",
        "late",
        "before",
        "after",
        "back",
        "forward",
        "same",
        "by",
    ]
)
# Days whose date the studio does not know.
_UNDATED = frozenset(
    [
        "labor",
        "summer",
        "fall",
        "autumn",
        "winter",
        "spring",
        "semester",
        "term",
        "school",
        "vacation",
        "holiday",
        "holidays",
        "break",
        "recital",
        "exam",
        "exams",
        "concert",
    ]
)
_CLOCK_OF = re.compile(r" (?:local )?(?:time(?: zone)?|clock)$")
_PRONOUNS = frozenset({"her", "his", "their"})
_FROM_LESSON = ' A day can count from the lesson: "a day earlier", "2 weeks later".'
_MOST_UNKNOWN = 4
# Short forms of days and months that are also English words, names, or another day: what to type for what they may mean.
_SHORT_FORMS = {
    "do": ("Donnerstag", "thu"), "so": ("Sonntag", "sun"), "sam": ("Samstag or samedi", "sat"), "dom": ("domingo", "sun"),
    "mar": ("mardi or martes", "tue"), "ago": ("agosto", "aug"),
}  # fmt: skip


class NotUnderstood(BadInput):
    """A word means nothing; `found` says which, without the line that would work where a moment is asked for."""

    def __init__(self, found: str, works: str = "") -> None:
        super().__init__(f"{found} {_EXAMPLE}{works}")
        self.found = found


class WordRun(Value):
    """A run of words as typed, and what it was claimed as: no parts where it says nothing, one `Unknown` where nobody knows it.

    `rest` is the line from the first of the words on.
    """

    text: str
    rest: str
    parts: tuple[Part, ...]

    @property
    def has_comma(self) -> bool:
        """Whether a comma or a colon stands behind it."""
        return self.rest.removeprefix(self.text).lstrip().startswith((",", ";"))

    @property
    def has_colon(self) -> bool:
        """Whether a colon or a semicolon stands behind it."""
        return self.rest.removeprefix(self.text).lstrip().startswith(";")

    @property
    def is_unknown(self) -> bool:
        """Whether nothing claimed it."""
        return any(isinstance(part, Unknown) for part in self.parts)


def claims_of(text: str, finders: Sequence[Finder]) -> tuple[WordRun, ...]:
    """Every word of a line, in order, in the runs that the first finder that knows them claims.

    Raises:
        BadInput: the line is too long, or what it says cannot be.
    """
    line = _Line(text)
    if len(line.said) > _LONGEST:
        raise NotUnderstood(f"The line is too long. Use at most {_LONGEST} characters.")
    if "?" in line.said:
        raise BadInput("The line has a question mark, so it is not taken. Leave it out when you are sure.")
    return tuple(line.claims(finders))


def read_parts(text: str, also: Mapping[str, Zone]) -> tuple[Part, ...]:
    """The parts of a line that names a moment, in their order; `also` maps names of people to zones.

    Raises:
        BadInput: nothing is written, or a word means nothing here.
    """
    names = {place_key(name): zone for name, zone in also.items()}
    finders = moment_finders(names, LESSON_RULES)
    claims = claims_of(re.sub(r"^\s*to\s", " ", text, flags=re.IGNORECASE), finders)
    for place, claim in enumerate(claims):
        if claim.is_unknown:
            raise not_understood(claims[place:], names)
    parts = tuple(part for claim in claims for part in claim.parts)
    if not parts:
        raise NotUnderstood("The line has no day or time yet.")
    return parts


def moment_finders(
    names: Mapping[str, Zone], rules: Rules = RULES, small: re.Pattern[str] = _FILLER
) -> tuple[Finder, ...]:
    """Those of a line that names a moment; the keys of `names` are those of `place_key`."""
    return (
        lambda said, place: located(said, place, name_at(said, place, names)),
        by_rules(rules),
        lambda said, place: located(said, place, place_at(said, place, names)),
        filler(small),
    )


def by_rules(rules: Rules) -> Finder:
    """Finds what the first rule that fits reads."""

    def find(said: str, place: int) -> Found:
        for rule, reader in rules:
            match = rule.match(said, place)
            parts = reader(match) if match is not None else ()
            if match is not None and parts:
                return parts, match.end()
        return None

    return find


def filler(words: re.Pattern[str]) -> Finder:
    """Finds words that say nothing."""

    def find(said: str, place: int) -> Found:
        match = words.match(said, place)
        return ((), match.end()) if match is not None else None

    return find


def located(said: str, place: int, found: tuple[tuple[Zone, ...], int] | None) -> Found:
    """What a place of a line means, where the clocks and the end of its words were found."""
    if found is None:
        return None
    zones, end = found
    return (ZoneName(text=said[place:end], zones=zones),), end


class _Line:
    """A line as it is compared, `said`, of which every place is one in the line as it was typed."""

    def __init__(self, text: str) -> None:
        spoken_so = _CALL.sub(" ", _COLON.sub(";", unicodedata.normalize("NFKC", text).translate(_BRACKETS)))
        spoken_so = _ISO_T.sub(" ", spoken_so)
        self._words = spoken_so.split()
        folded = [word.casefold() for word in self._words]
        self.said = " ".join(folded)
        self._begins = [sum(map(len, folded[:number])) + number for number in range(len(folded))]

    def claims(self, finders: Sequence[Finder]) -> Iterator[WordRun]:
        place = _after(_BETWEEN, self.said, 0)
        while place < len(self.said):
            found = next(filter(None, (find(self.said, place) for find in finders)), None)
            if found is None:
                end = _after(_WORD, self.said, place)
                found = (Unknown(text=self.said[place:end]),), end
            parts, end = found
            yield WordRun(text=self._typed(place, end), rest=self._typed(place, len(self.said)), parts=parts)
            place = _after(_BETWEEN, self.said, end)

    def _typed(self, begins: int, ends: int) -> str:
        """The words between two places with their capitals, where a capital is as long as its small letter."""
        words = zip(self._words, self._begins, strict=True)
        typed = [
            word[max(0, begins - at) : ends - at]
            for word, at in words
            if at < ends and begins < at + len(word) and len(word.casefold()) == len(word)
        ]
        said = self.said[begins:ends]
        return " ".join(typed) if " ".join(typed).casefold() == said else said


def month_alone(word: str) -> bool:
    """Whether a word is a month."""
    return word in MONTH_WORDS


def not_understood(claims: Sequence[WordRun], names: Mapping[str, Zone]) -> BadInput:
    """What is said of words that mean nothing, the first of `claims`; it names what comes near them, if anything does."""
    run = [claim.text.casefold() for claim in takewhile(lambda claim: claim.is_unknown or not claim.parts, claims)]
    phrases = (" ".join(run[begins:ends]) for begins in range(len(run)) for ends in range(len(run), begins, -1))
    undated = next((phrase for phrase in phrases if phrase in _UNDATED or is_feast(phrase)), None)
    if undated is not None:
        return BadInput(f'The studio has no date for "{undated}". Type the day, such as "dec 18".')
    words = [claim.text.casefold() for claim in takewhile(lambda claim: claim.is_unknown, claims[:_MOST_UNKNOWN])]
    first = words[0]
    short = _SHORT_FORMS.get(first.rstrip("."))
    hint = ' For {}, type "{}".'.format(*short) if short is not None else ""
    if month_alone(first):
        return BadInput(f'"{first}" needs a day. Type both, such as "{first} 12".{hint}')
    if hint:
        return NotUnderstood(f'"{first}" is not understood.{hint}')
    if first in _COUNTING:
        return NotUnderstood(f'"{_short(" ".join(words))}" is not understood.', works=_FROM_LESSON)
    return _misspelled(words, names) or NotUnderstood(
        f'"{_short(first)}" is not understood.', works=' A city can come after a time: "4 pm phoenix".'
    )


def _misspelled(words: Sequence[str], names: Mapping[str, Zone]) -> BadInput | None:
    """What is said of words that come near a word of the calendar, a name, or a city; None of others."""
    first, run = words[0], " ".join(words).removeprefix("in ")
    calendar = difflib.get_close_matches(first, _CALENDAR_WORDS, n=1, cutoff=0.75)
    if calendar and calendar[0] != first:
        return BadInput(f'"{_short(first)}" is not understood. Did you mean "{calendar[0]}"?')
    for unknown in dict.fromkeys((run, first)):
        near = [each for each in _near(unknown, names) if each.casefold() != unknown]
        if near:
            return BadInput(f'"{_short(unknown)}" is not understood. Close matches: {", ".join(near)}.')
    return None


def _near(unknown: str, names: Mapping[str, Zone]) -> list[str]:
    """Up to three names and cities that come near unknown words."""
    key = place_key(unknown)
    people = [_spoken_name(each, names) for each in difflib.get_close_matches(key, names, n=3, cutoff=0.75)]
    is_word = len(key) < _SHORTEST_CITY or key in _NO_CITY
    cities = () if is_word else (spoken(zone) for zone in near_zones(key))
    return list(dict.fromkeys(chain(people, cities)))[:3]


def _spoken_name(key: str, names: Container[str]) -> str:
    """A name, or whose clock it is, as a line can have it: `Wren's time`."""
    clock = _CLOCK_OF.search(key)
    if clock is None:
        return key.title()
    whose = key[: clock.start()]
    if whose in _PRONOUNS:
        return key
    bare = whose.removesuffix("s")
    if bare + clock[0] in names:
        return f"{bare.title()}'s time"
    return f"{whose} time"


def _after(form: re.Pattern[str], said: str, place: int) -> int:
    match = form.match(said, place)
    return match.end() if match is not None else place


def _short(words: str) -> str:
    return words if len(words) <= 40 else f"{words[:40]}…"
