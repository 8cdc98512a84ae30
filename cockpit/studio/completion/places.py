"""Places in a line that is being typed, the tokens that are likely there, and how far they go on being sure."""

import re
from collections.abc import Mapping

from cockpit.studio.completion.memory import Memory
from cockpit.studio.completion.ngrams import NextTokens, Ngrams, known, likely, most_special, only_token
from cockpit.studio.completion.tokens import END, Context, LineOpening, contexts, shape_of
from cockpit.studio.values import Value

_MOST_TOKENS, _MOST_EACH, _MOST_SPECIAL = 16, 5, 5
_LEAST_LIKELY_FURTHER = 0.75
_LEAST_LIKELY_SIGNS = 0.5
_USED_UP = 0.03
_UNKNOWN: Mapping[str, float] = {" a": 0.6}  # behind a word that nothing is known of most often comes a space
# Her own words weigh more in assignments, plain English in sentences; the order is kept back, own, common, built in.
_SHARES = (0.0, 0.6, 0.25, 0.15)
_SHARES_IN_REMARKS = (0.0, 0.15, 0.15, 0.7)
_SHARES_KEPT_BACK = (0.3, 0.15, 0.15, 0.7)
_LETTER = re.compile(r"[^\W_]")
_BEGUN_WORD = re.compile(r"[^\W\d_]+(?:['’][^\W\d_]*)?\Z")
Topics = frozenset[tuple[str, str]]


class LinePlace(Value):
    """Where in a line the next token is looked for: behind `tokens`, whose text without case and numbers is `whole`.

    `whole` is None in a line that is too long to be known by its whole.
    """

    opening: LineOpening
    tokens: tuple[str, ...]
    whole: str | None
    topic: str = ""

    def contexts(self) -> tuple[Context, ...]:
        """What the next token can be known by."""
        return contexts(self.opening, self.topic, self.tokens, self.whole or "")

    def behind(self, token: str) -> "LinePlace":
        """The place behind one more token."""
        whole = None if self.whole is None else self.whole + shape_of(token)
        topic = self.topic
        if not self.tokens and self.opening.label and not self.opening.is_kept_back:
            topic = shape_of(token)
        return LinePlace(opening=self.opening, tokens=(*self.tokens[-3:], token), whole=whole, topic=topic)


def tokens_at(memory: Memory, said: Topics, place: LinePlace, begun: str) -> dict[str, float]:
    """The tokens that begin with what is begun, each with its likelihood; what lines above have `said` is none again."""
    return _without_said(
        likely(known(_habits(memory, place), place.contexts()), begun, base_words(memory, place.opening, begun)),
        said,
        place,
    )


def further(memory: Memory, said: Topics, place: LinePlace, token: str) -> str:
    """What goes on behind a proposed token, as long as it is sure; never into a line that is kept from the family."""
    text = ""
    for _ in range(_MOST_TOKENS):
        if token.endswith(END) or (place.opening.is_kept_back and not place.tokens):
            break
        # The general contexts add little here, and cost as much as the special ones.
        special = most_special(_habits(memory, place), place.contexts(), _MOST_SPECIAL)
        only = only_token(special) if place.tokens else None
        found = _UNKNOWN if not special else {only: 1.0} if only else _further_at(special, said, place)
        likelihood, token = max((each, token) for token, each in found.items())
        if likelihood < _LEAST_LIKELY_FURTHER:
            return text + _signs(found)
        text += token
        place = place.behind(token)
    return text


def base_words(memory: Memory, opening: LineOpening, begun: str) -> dict[str, float]:
    """The tokens with the words that begin as the begun one does, known without any context."""
    word = _BEGUN_WORD.search(begun)
    if word is None:
        return {}
    signs, start = begun[: word.start()], word[0].lower()
    sources = (memory.kept_back_words, memory.own_words, memory.common.words, memory.stock.words)
    shares = _SHARES_KEPT_BACK if opening.is_kept_back else _SHARES if opening.label else _SHARES_IN_REMARKS
    found: dict[str, float] = {}
    for words, share in zip(sources, shares, strict=True):
        for each, likelihood in words.get(start, {}).items() if share else ():
            found[signs + each] = found.get(signs + each, 0.0) + share * likelihood
    return found


def _further_at(special: list[NextTokens], said: Topics, place: LinePlace) -> dict[str, float]:
    return _without_said(likely(special, "", {}, _MOST_EACH), said, place)


def _habits(memory: Memory, place: LinePlace) -> tuple[Ngrams, ...]:
    """From common to her own; what is kept back only in a line of its like."""
    habits: tuple[Ngrams, ...] = (memory.stock.habits, memory.common.habits, memory.own)
    return (*habits, memory.kept_back) if place.opening.is_kept_back else habits


def _without_said(found: dict[str, float], said: Topics, place: LinePlace) -> dict[str, float]:
    """The likelihoods as shares of 1, and those of what was said above hardly any."""
    total = sum(found.values()) or 1.0
    label = place.opening.label
    is_topic = bool(label) and not place.tokens
    return {
        token: each / total * (_USED_UP if is_topic and (label, shape_of(token)) in said else 1.0)
        for token, each in found.items()
    }


def _signs(found: Mapping[str, float]) -> str:
    """The signs or the space that the next token is likely to begin with, whatever its word."""
    signs: dict[str, float] = {}
    for token, likelihood in found.items():
        word = _LETTER.search(token)
        if word is not None and word.start():
            before = token[: word.start()]
            signs[before] = signs.get(before, 0.0) + likelihood
    likelihood, before = max(((each, before) for before, each in signs.items()), default=(0.0, ""))
    return before if likelihood > _LEAST_LIKELY_SIGNS else ""
