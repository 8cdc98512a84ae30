"""What usually follows what in lines of notes: counted steps by their context, and the steps that are likely next."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import islice
from operator import itemgetter

from cockpit.studio.completion.steps import Context

_MOST_FOLLOWING = 40
_MOST_UNBEGUN = 6
# How much is left to more general contexts for each different step seen in one, by the kind of context.
OPENNESS: dict[str | int, float] = {0: 0.5, 1: 5.0, 2: 5.0, 3: 3.0, 4: 0.7, 5: 2.0, 6: 0.5, 7: 0.5, 8: 0.3, 9: 0.7}
_UNHEARD = 1e-7
_weight = itemgetter(1)


@dataclass(frozen=True, slots=True, kw_only=True)
class Following:
    """The steps that followed a context, the usual first, with their weights; `openness` is left to other contexts."""

    steps: Mapping[str, float]
    total: float
    openness: float


Habits = Mapping[Context, Following]


class Counting:
    """Counts steps while a memory is made."""

    __slots__ = ("_counts", "_seen")

    def __init__(self) -> None:
        self._counts: dict[Context, dict[str, float]] = {}
        self._seen: dict[Context, int] = {}

    def add(self, context: Context, step: str, weight: float) -> None:
        """Adds a step that followed a context."""
        steps = self._counts.setdefault(context, {})
        steps[step] = steps.get(step, 0.0) + weight
        self._seen[context] = self._seen.get(context, 0) + 1

    def habits(self) -> Habits:
        """What was counted, cut to the usual steps of each context."""
        return {context: self._following(context, steps) for context, steps in self._counts.items()}

    def _following(self, context: Context, steps: dict[str, float]) -> Following:
        total = sum(steps.values())
        usual = steps if len(steps) == 1 else dict(sorted(steps.items(), key=_weight, reverse=True)[:_MOST_FOLLOWING])
        return Following(
            steps=usual, total=total, openness=OPENNESS.get(context[0], 1.0) * total * len(steps) / self._seen[context]
        )


def known(habits: Sequence[Habits], contexts: Iterable[Context]) -> list[Following]:
    """What followed the contexts, from general to special, and in the habits from common to her own."""
    contexts = tuple(contexts)
    return [found for each in habits for context in contexts if (found := each.get(context)) is not None]


def most_special(habits: Sequence[Habits], contexts: Sequence[Context], count: int) -> list[Following]:
    """The last of those that `known` returns, at most so many."""
    found: list[Following] = []
    for each in reversed(habits):
        for context in reversed(contexts):
            if (following := each.get(context)) is not None:
                found.append(following)
                if len(found) == count:
                    return found[::-1]
    return found[::-1]


def only_step(following: Sequence[Following]) -> str | None:
    """The step, where all know one only and the same."""
    steps = {step for each in following for step in islice(each.steps, 2)}
    return steps.pop() if len(steps) == 1 else None


def likely(
    following: Sequence[Following], begun: str, words: Mapping[str, float], most: int = _MOST_FOLLOWING
) -> dict[str, float]:
    """The steps that begin with what was begun, without regard to case, each with how likely it is.

    `words` are steps that are known without any context. Each context, from general to special, keeps of the likelihood
    so far what its openness leaves to it (the estimate of Witten and Bell, 1991, from memory).
    """
    start = begun.lower()
    length = len(begun)
    found = dict(words)
    for each in following:
        for step in islice(each.steps, most if length else min(most, _MOST_UNBEGUN)):
            if step not in found and (not length or step[:length].lower() == start):
                found[step] = _UNHEARD
    for each in following:
        share = 1.0 / (each.total + each.openness)
        kept = each.openness * share
        steps = each.steps
        for step, likelihood in found.items():
            found[step] = kept * likelihood + (steps[step] * share if step in steps else 0.0)
    return found
