"""What usually follows what in lines of notes: counted tokens by their context, and the tokens that are likely next."""

from collections.abc import Iterable, Mapping, Sequence
from itertools import islice
from operator import itemgetter

from cockpit.studio.completion.numbers import changes, moved_on
from cockpit.studio.completion.tokens import (
    END,
    Context,
    LineOpening,
    contexts,
    opening_contexts,
    opening_of,
    shape_of,
    tokens_of,
)
from cockpit.studio.notes.vocabulary import BUILT_IN, Labels
from cockpit.studio.values import Value

_MOST_FOLLOWING = 40
_MOST_UNBEGUN = 6
# How much is left to more general contexts for each different token seen in one, by the kind of context.
OPENNESS: dict[str | int, float] = {0: 0.5, 1: 5.0, 2: 5.0, 3: 3.0, 4: 0.7, 5: 2.0, 6: 0.5, 7: 0.5, 8: 0.3, 9: 0.7}
_UNHEARD = 1e-7
_weight = itemgetter(1)
_LONGEST_LINE = 300
_MOVED_ON = 0.25
# Of one piece the newest line counts; of ways to write in general, many weeks do.
_OF_TOPIC_AGING = 8.0
_OF_TOPIC = frozenset({4, 6, 7, 8, 9})


class NextTokens(Value):
    """The tokens that followed a context, the usual first, with their weights; `openness` is left to other contexts."""

    tokens: Mapping[str, float]
    total: float
    openness: float


Ngrams = Mapping[Context, NextTokens]


class Counting:
    """Counts tokens while a memory is made."""

    __slots__ = ("_counts", "_seen")

    def __init__(self) -> None:
        self._counts: dict[Context, dict[str, float]] = {}
        self._seen: dict[Context, int] = {}

    def add(self, context: Context, token: str, weight: float) -> None:
        """Adds a token that followed a context."""
        tokens = self._counts.setdefault(context, {})
        tokens[token] = tokens.get(token, 0.0) + weight
        self._seen[context] = self._seen.get(context, 0) + 1

    def habits(self) -> Ngrams:
        """What was counted, cut to the usual tokens of each context."""
        return {context: self._following(context, tokens) for context, tokens in self._counts.items()}

    def _following(self, context: Context, tokens: dict[str, float]) -> NextTokens:
        total = sum(tokens.values())
        usual = (
            tokens if len(tokens) == 1 else dict(sorted(tokens.items(), key=_weight, reverse=True)[:_MOST_FOLLOWING])
        )
        return NextTokens(
            tokens=usual,
            total=total,
            openness=OPENNESS.get(context[0], 1.0) * total * len(tokens) / self._seen[context],
        )


def known(habits: Sequence[Ngrams], contexts: Iterable[Context]) -> list[NextTokens]:
    """What followed the contexts, from general to special, and in the habits from common to her own."""
    contexts = tuple(contexts)
    return [found for each in habits for context in contexts if (found := each.get(context)) is not None]


def most_special(habits: Sequence[Ngrams], contexts: Sequence[Context], count: int) -> list[NextTokens]:
    """The last of those that `known` returns, at most so many."""
    found: list[NextTokens] = []
    for each in reversed(habits):
        for context in reversed(contexts):
            if (following := each.get(context)) is not None:
                found.append(following)
                if len(found) == count:
                    return found[::-1]
    return found[::-1]


def only_token(following: Sequence[NextTokens]) -> str | None:
    """The token, where all know one only and the same."""
    tokens = {token for each in following for token in islice(each.tokens, 2)}
    return tokens.pop() if len(tokens) == 1 else None


def likely(
    following: Sequence[NextTokens], begun: str, words: Mapping[str, float], most: int = _MOST_FOLLOWING
) -> dict[str, float]:
    """The tokens that begin with what was begun, without regard to case, each with how likely it is.

    `words` are tokens that are known without any context. Each context, from general to special, keeps of the likelihood
    so far what its openness leaves to it (the estimate of Witten and Bell, 1991, from memory).
    """
    start = begun.lower()
    length = len(begun)
    found = dict(words)
    for each in following:
        for token in islice(each.tokens, most if length else min(most, _MOST_UNBEGUN)):
            if token not in found and (not length or token[:length].lower() == start):
                found[token] = _UNHEARD
    for each in following:
        share = 1.0 / (each.total + each.openness)
        kept = each.openness * share
        tokens = each.tokens
        for token, likelihood in found.items():
            found[token] = kept * likelihood + (tokens[token] * share if token in tokens else 0.0)
    return found


def learn_opening(
    counting: Counting, line: str, above: LineOpening, weight: float, labels: Labels = BUILT_IN
) -> LineOpening:
    """Learns how a line begins, with its label only where it has one, after the line above it; returns its opening."""
    opening = opening_of(f"{line[:_LONGEST_LINE]} ", labels)
    first = opening.typed.rstrip() + " " if opening.label else (tokens_of(line[:_LONGEST_LINE]) or [END])[0]
    for context in opening_contexts(above):
        counting.add(context, first, weight)
    return opening


def learn_line(
    counting: Counting, line: str, weight: float, pace: Sequence[float] | None = None, labels: Labels = BUILT_IN
) -> None:
    """Learns what follows what in a line behind its label; with a `pace` its numbers may go on from there."""
    line = line[:_LONGEST_LINE]
    opening = opening_of(f"{line} ", labels)
    tokens = tokens_of(line.rstrip()[len(opening.typed) :])
    whole = ""
    last = len(tokens) - 1
    for at in range(len(tokens) + 1):
        token = _token(tokens, at, last)
        before = tokens[:at]
        topic = opening.topic if at else ""
        ways = changes(before, token, tokens[at + 1] if at < last else "", pace) if pace else ((token, 1.0),)
        for context in contexts(opening, topic, before, whole):
            here = weight**_OF_TOPIC_AGING if context[0] in _OF_TOPIC else weight
            for way, share in ways:
                counting.add(context, way, here * share)
        if pace and at and (further := moved_on(before, token)) is not None:
            context = contexts(opening, topic, [*before[:-1], further[0]], whole)[-1]
            counting.add(context, further[1], weight * _MOVED_ON)
        if token.endswith(END):
            return
        whole += shape_of(token)


def _token(tokens: Sequence[str], at: int, last: int) -> str:
    """The token at a place; signs behind the last word belong to the end of the line."""
    if at > last:
        return END
    is_end = at == last and not tokens[at][-1].isalnum()
    return tokens[at] + END if is_end else tokens[at]
