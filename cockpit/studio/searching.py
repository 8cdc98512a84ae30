"""Words that are searched for in a text, whatever their case and accents."""

import re
import unicodedata
from collections.abc import Sequence
from functools import lru_cache

# Letters that no decomposition takes a stroke or a dot from.
_PLAIN = str.maketrans({"ı": "i", "ø": "o", "ł": "l", "đ": "d", "ð": "d", "þ": "th", "æ": "ae", "œ": "oe"})
_BETWEEN = re.compile(r"['’]")
_WORD = re.compile(r"\w+")

Span = tuple[int, int]
"""Where something begins and ends in a text."""


def plain(text: str) -> str:
    """A text without case, accents, and apostrophes: `Dvořák` is `dvorak`, `Groß` is `gross`, `St. John's` is `st. johns`."""
    decomposed = unicodedata.normalize("NFKD", _BETWEEN.sub("", text).casefold())
    return "".join(sign for sign in decomposed if not unicodedata.combining(sign)).translate(_PLAIN)


def searched_words(typed: str) -> tuple[str, ...]:
    """The words of what is typed to search by, plain."""
    return tuple(_WORD.findall(plain(typed)))


def has_words(words: Sequence[str], text: str) -> bool:
    """Whether each of the plain words begins a word of a text."""
    in_it = _words_in(text)
    return all(f" {word}" in in_it for word in words)


@lru_cache(maxsize=2000)
def _words_in(text: str) -> str:
    return "".join(f" {word}" for word in searched_words(text))


def spans_of(words: Sequence[str], text: str, *, within: bool = False) -> tuple[Span, ...] | None:
    """Where each of the plain words stands in a text, first at the beginning of a word; None where one does not.

    Where it need not begin a word, it may stand `within` one.
    """
    found: list[Span] = []
    signs, places = _plain_signs(text)
    for word in words:
        begins = next((at for at in _places(word, signs) if at == 0 or not signs[at - 1].isalnum()), None)
        if begins is None and within:
            begins = next(iter(_places(word, signs)), None)
        if begins is None:
            return None
        found.append((places[begins], places[begins + len(word) - 1] + 1))
    return tuple(sorted(found))


def _places(word: str, signs: str) -> list[int]:
    return [at for at in range(len(signs)) if signs.startswith(word, at)]


@lru_cache(maxsize=2000)
def _plain_signs(text: str) -> tuple[str, tuple[int, ...]]:
    """A text made plain, and of each of its letters the place in the text that it comes from."""
    signs = [(sign, at) for at, typed in enumerate(text) for sign in plain(typed)]
    return "".join(sign for sign, _ in signs), tuple(at for _, at in signs)
