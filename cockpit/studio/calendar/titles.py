"""Whose lesson an event of a calendar is, by its title: a student of the studio, or a name among other words."""

import re
from collections.abc import Iterable, Mapping, Sequence

from cockpit.studio.notes.spelling import is_near
from cockpit.studio.people.people import name_key
from cockpit.studio.typed_times.instruments import OR_NAMES, is_instrument

_POSSESSIVE = re.compile(r"['\u2019]s\b")
_TURNED = re.compile(r"(?P<last>[^\W\d_][\w'\u2019 -]*), (?P<first>[^\W\d_][\w'\u2019 -]*)")
_BETWEEN = re.compile(r"[^\w\s'\u2019.-]+|\s-\s")
_CHUNKS = re.compile(r"[^\w\s'\u2019.,-]+|\s-\s")
_NAME_WORD = re.compile(r"[^\W\d_][\w'\u2019.-]*|[0-9]+")
_WITHIN_NAME = re.compile(
    r"a[lfpv]|bint?|d[aeiou]?|das|del|della|de[nrs]|dos|e|el|ibn|las?|le|los|te[nr]|v[ao]n|vom|y|zu[mr]?"
)
_INSTRUMENT_WORD = re.compile(r"[^\W\d_]+(?:['\u2019-][^\W\d_]+)*")
_FAMILY_WORDS = frozenset(("the", "family", "familie", "famille", "familia"))
# Around a name they say what the event is, in English, German, French, Spanish, and Italian; common practice, no source.
_LESSONS = frozenset(
    """
    lesson lessons class classes session sessions unterricht stunde cours leçon leçons lecon clase clases lección leccion lezione
    """.split()  # noqa: SIM905 a list would have a line for each word
)
_COMPOUNDS = ("unterricht", "stunde", "stunden")
_NO_NAMES = frozenset(
    """
    make-up makeup moved new rescheduled trial weekly biweekly fortnightly tentative hold music musik musique música musica
    private online zoom video probe essai prueba prova
    """.split()  # noqa: SIM905 a list would have a line for each word
)
_PREPOSITIONS = frozenset("with w for of mit für avec pour de du d con para di".split())  # noqa: SIM905 as above
_LONGEST_INSTRUMENT, _FULL_NAME = 3, 2
_LENGTH_OR_TIME = re.compile(
    r"[0-9]{1,3} ?(?:m|mins?|minutes?|h|hrs?|hours?|uhr)(?!\w)|[0-9]{1,2} ?(?:am|pm)(?!\w)", re.IGNORECASE
)


def students_near(title: str, students: Iterable[str]) -> tuple[str, ...]:
    """The students that a title may mean, the likeliest first.

    Those whose whole name stands in it, in whatever order, come before those of whom it has the first name, or is the
    last one, and these before those of whom it nearly is.
    """
    words = _words(title)
    ranked = []
    for name in sorted(set(students)):
        own = _words(name)
        if not own:
            continue
        if f" {' '.join(own)} " in f" {' '.join(words)} ":
            ranked.append((0, name))
        elif set(own) <= set(words):
            ranked.append((1, name))
        elif own[0] in words or words == own[-1:]:
            ranked.append((2, name))
        elif (
            is_near(name, title)
            or any(is_near(own[0], word) for word in words)
            or (len(words) == 1 and is_near(own[-1], words[0]))
        ):
            ranked.append((3, name))
    return tuple(name for _, name in sorted(ranked))


def members_named(title: str, families: Mapping[str, Iterable[str]]) -> tuple[str, ...]:
    """The students of the family that a title names alone: `Brandvold`, `Brandvold family`; `families` are theirs by name."""
    words = set(_words(title)) - _FAMILY_WORDS
    return tuple(
        dict.fromkeys(name for family, names in families.items() if set(_words(family)) == words for name in names)
    )


def name_in(title: str) -> str | None:
    """The name in a title that is no name alone: `Lesson with Ilse`, `Piano: Mira`, `Berg, Anna`; None where it is one.

    So it is where an instrument stands behind it as in our own calendar. It is the title itself where none is found in it, or
    where a word of it may be a name or an instrument, and empty where all its words say what the event is, as in `Piano`.
    """
    if own_name(title) != title:
        return None
    for turned in filter(None, (_TURNED.fullmatch(chunk.strip()) for chunk in _CHUNKS.split(title))):
        if all(part[0].isupper() and _bare(part) == part for part in turned.groups()):
            return f"{turned['first']} {turned['last']}"
    parts = [part.strip() for part in _BETWEEN.split(title) if part.strip()]
    bare = [_bare(part) for part in parts]
    if not any(bare):
        return ""
    if bare == [title] and _is_name(title):
        return title if any(word in OR_NAMES for word in title.casefold().split()) else None
    # "Thursday lesson: Mira" is Mira's; a viola is one beside somebody else.
    ranked = sorted(
        zip(parts, bare, strict=True), key=lambda part: (_has_lesson(part[0]), part[1].casefold() in OR_NAMES)
    )
    return next((name for _, name in ranked if _is_name(name)), title)


def own_name(title: str) -> str:
    """A title without the instrument behind a name, where it is as our own calendar has it: `Ilse, cello`."""
    name, _, instrument = title.partition(", ")
    is_own = _is_name(name) and instrument.islower() and (is_instrument(instrument) or instrument in OR_NAMES)
    return name if is_own else title


def instrument_in(title: str, name: str) -> str | None:
    """The instrument that a title names besides a student."""
    words = [word.casefold() for word in _INSTRUMENT_WORD.findall(title)]
    own = name.casefold().split()
    for begins in range(len(words)):
        for ends in range(min(begins + _LONGEST_INSTRUMENT, len(words)), begins, -1):
            said = " ".join(words[begins:ends])
            if (is_instrument(said) or said in OR_NAMES) and not set(words[begins:ends]) & {*own}:
                return said
    return None


def _bare(text: str) -> str:
    """A part of a title without the words at its ends that say what the event is."""
    words = _POSSESSIVE.sub("", _LENGTH_OR_TIME.sub("", text)).split()
    begins, ends = 0, len(words)
    while begins < ends and (count := _said_of_event(words[begins:ends])):
        begins += count
        while begins < ends and words[begins].casefold().rstrip("'\u2019") in _PREPOSITIONS:
            begins += 1
    while begins < ends and (count := _said_of_event(words[begins:ends][::-1], is_end=True)):
        ends -= count
    return " ".join(words[begins:ends])


def _said_of_event(words: Sequence[str], *, is_end: bool = False) -> int:
    """How many of the first words say what an event is: an instrument, a lesson; from the end, words come in turned order.

    Behind a first and a last name, an instrument that people are called is one.
    """
    for count in range(min(_LONGEST_INSTRUMENT, len(words)), 0, -1):
        said = words[:count][::-1] if is_end else words[:count]
        if is_instrument(" ".join(said)):
            return count
    word = words[0].casefold()
    is_surely = is_end and word in OR_NAMES and (words[0].islower() or len(words) > _FULL_NAME)
    is_lesson = word in _LESSONS or word in _NO_NAMES or word.endswith(_COMPOUNDS)
    return int(is_surely or is_lesson)


def _has_lesson(text: str) -> bool:
    return any(word in _LESSONS or word.endswith(_COMPOUNDS) for word in text.casefold().split())


def _is_name(text: str) -> bool:
    """Whether a text is made of words of a name alone: with a capital, or the small ones within a name."""
    first, *others = text.split() or [""]
    return _is_of_name(first) and all(_is_of_name(word) or _WITHIN_NAME.fullmatch(word) for word in others)


def _is_of_name(word: str) -> bool:
    return bool(_NAME_WORD.fullmatch(word)) and not word[0].islower() and word.casefold() not in _NO_NAMES | _LESSONS


def _words(text: str) -> list[str]:
    plain = _POSSESSIVE.sub("", text)
    return name_key("".join(letter if letter.isalnum() else " " for letter in plain)).split()
