"""The fixed phrases of a language, as its file and the English one have them."""

import tomllib
from collections.abc import Iterator, Mapping, Sequence

from cockpit.studio.clocks.words import possessive
from cockpit.studio.errors import BadInput
from cockpit.studio.shown import one_line
from cockpit.studio.values import Value

# Phrases of earlier versions: a file of the teacher's own that has one is not at fault.
_GONE = frozenset({"plan.what_it_is"})


class Phrases(Value):
    """The phrases of a language by section and name, `notes.title`; `language` is its short name by ISO 639.

    `by_key` has a phrase for every key, an English one where the language has none.
    """

    language: str
    by_key: Mapping[str, str]

    def __hash__(self) -> int:
        return hash(self.language)

    def say(self, key: str, **words: object) -> str:
        """A phrase with its words filled in; its name and those words where the English file is gone, so that a paper can be made."""
        phrase = self.by_key.get(key)
        return phrase.format(**words) if phrase is not None else ", ".join(map(str, (_bare(key), *words.values())))

    def minutes(self, count: int) -> str:
        """A count of minutes: `1 minute`, `4 minutes`."""
        return self.say("words.minutes_one" if count == 1 else "words.minutes_other", count=count)

    def times(self, count: int) -> str:
        """How often, in words up to twelve: `once`, `three times`, `28 times`."""
        if count == 1:
            return self.say("words.once")
        key = f"words.times_{count}"
        return self.say(key) if key in self.by_key else self.say("words.times_other", count=count)

    def joined(self, words: Sequence[str]) -> str:
        """Several words as one list: `a and b`; of three or more, `a, b, and c` in English and `a, b y c` in Spanish."""
        *before, last = words
        if not before:
            return last
        comma = "," if len(before) > 1 and self._is_english else ""
        return self.say("words.and", first=f"{', '.join(before)}{comma}", last=last)

    def whose(self, name: str) -> str:
        """A name before what belongs to it: `Ilse's` in English; other languages say it without a change of the name."""
        return possessive(name) if self._is_english else name

    @property
    def _is_english(self) -> bool:
        return self.language.partition("-")[0] == "en"


def _bare(key: str) -> str:
    return key.rpartition(".")[2].replace("_", " ")


def read_phrases(text: str) -> Mapping[str, str]:
    """The phrases in a TOML text by section and name: `mail.updated`.

    Raises:
        BadInput: it cannot be read, or is anything else than sections of texts.
    """
    found: dict[str, str] = {}
    try:
        sections = tomllib.loads(text)
    except (ValueError, RecursionError) as fault:  # ValueError: a number of thousands of digits, too
        raise BadInput(f"the phrases could not be read as TOML: {fault}") from fault
    for section, phrases in sections.items():
        if not isinstance(phrases, dict):
            raise BadInput(f"{section}: found {phrases!r}. Use a section of phrases")
        for name, phrase in phrases.items():
            if not isinstance(phrase, str):
                raise BadInput(f"{section}.{name}: found {phrase!r}. Use a text in quotes")
            found[f"{section}.{name}"] = phrase
    return found


def sound_phrases(own: Mapping[str, str], known: Mapping[str, str]) -> tuple[Mapping[str, str], tuple[str, ...]]:
    """Those of somebody's own phrases that can be used, and for each other one what was found and what would work.

    `known` are all phrases in English: a translation is one line, and has the same words in braces.
    """
    own = {key: phrase for key, phrase in own.items() if key not in _GONE}
    faults = {key: fault for key, phrase in own.items() if (fault := _fault(key, phrase, known)) is not None}
    return {key: phrase.strip() for key, phrase in own.items() if key not in faults}, tuple(faults.values())


def _fault(key: str, phrase: str, known: Mapping[str, str]) -> str | None:
    if key not in known:
        return f"{key}: this phrase does not exist in the English file"
    if not phrase.strip() or one_line(phrase) != phrase:
        return f"{key}: found {phrase!r}. Use words on one line"
    wanted = frozenset(places(known[key]))
    try:
        found = frozenset(places(phrase))
    except ValueError:
        found = frozenset({"a single brace"})
    if found == wanted:
        return None
    return f"{key}: found {_braces(found)}. Use {_braces(wanted)}"


def places(phrase: str) -> Iterator[str]:
    """What is filled into a phrase: the words in braces.

    Raises:
        ValueError: a brace stands alone.
    """
    from string import Formatter  # 1.4 ms, and only files that somebody wrote are looked at

    for _, name, form, conversion in Formatter().parse(phrase):
        if name is not None:
            yield f"{name}{f'!{conversion}' if conversion else ''}{f':{form}' if form else ''}"


def _braces(names: frozenset[str]) -> str:
    return " and ".join(f"{{{name}}}" for name in sorted(names)) or "no words in braces"
