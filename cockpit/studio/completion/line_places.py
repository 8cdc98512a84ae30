"""Places in a line that is being typed, the steps that are likely there, and how far they go on being sure."""

import re
from collections.abc import Mapping
from dataclasses import dataclass

from cockpit.studio.completion.habits import Following, Habits, known, likely, most_special, only_step
from cockpit.studio.completion.memory import Memory
from cockpit.studio.completion.steps import END, Context, Opening, contexts, shape_of

_MOST_STEPS, _MOST_EACH, _MOST_SPECIAL = 16, 5, 5
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


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """Where in a line the next step is looked for: behind `steps`, whose text without case and numbers is `whole`.

    `whole` is None in a line that is too long to be known by its whole.
    """

    opening: Opening
    steps: tuple[str, ...]
    whole: str | None
    topic: str = ""

    def contexts(self) -> tuple[Context, ...]:
        """What the next step can be known by."""
        return contexts(self.opening, self.topic, self.steps, self.whole or "")

    def behind(self, step: str) -> "Place":
        """The place behind one more step."""
        whole = None if self.whole is None else self.whole + shape_of(step)
        topic = self.topic
        if not self.steps and self.opening.label and not self.opening.is_kept_back:
            topic = shape_of(step)
        return Place(opening=self.opening, steps=(*self.steps[-3:], step), whole=whole, topic=topic)


def steps_at(memory: Memory, said: Topics, place: Place, begun: str) -> dict[str, float]:
    """The steps that begin with what is begun, each with its likelihood; what lines above have `said` is none again."""
    return _without_said(
        likely(known(_habits(memory, place), place.contexts()), begun, base_words(memory, place.opening, begun)),
        said,
        place,
    )


def further(memory: Memory, said: Topics, place: Place, step: str) -> str:
    """What goes on behind a proposed step, as long as it is sure; never into a line that is kept from the family."""
    text = ""
    for _ in range(_MOST_STEPS):
        if step.endswith(END) or (place.opening.is_kept_back and not place.steps):
            break
        # The general contexts add little here, and cost as much as the special ones.
        special = most_special(_habits(memory, place), place.contexts(), _MOST_SPECIAL)
        only = only_step(special) if place.steps else None
        found = _UNKNOWN if not special else {only: 1.0} if only else _further_at(special, said, place)
        likelihood, step = max((each, step) for step, each in found.items())
        if likelihood < _LEAST_LIKELY_FURTHER:
            return text + _signs(found)
        text += step
        place = place.behind(step)
    return text


def base_words(memory: Memory, opening: Opening, begun: str) -> dict[str, float]:
    """The steps with the words that begin as the begun one does, known without any context."""
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


def _further_at(special: list[Following], said: Topics, place: Place) -> dict[str, float]:
    return _without_said(likely(special, "", {}, _MOST_EACH), said, place)


def _habits(memory: Memory, place: Place) -> tuple[Habits, ...]:
    """From common to her own; what is kept back only in a line of its like."""
    habits: tuple[Habits, ...] = (memory.stock.habits, memory.common.habits, memory.own)
    return (*habits, memory.kept_back) if place.opening.is_kept_back else habits


def _without_said(found: dict[str, float], said: Topics, place: Place) -> dict[str, float]:
    """The likelihoods as shares of 1, and those of what was said above hardly any."""
    total = sum(found.values()) or 1.0
    label = place.opening.label
    is_topic = bool(label) and not place.steps
    return {
        step: each / total * (_USED_UP if is_topic and (label, shape_of(step)) in said else 1.0)
        for step, each in found.items()
    }


def _signs(found: Mapping[str, float]) -> str:
    """The signs or the space that the next step is likely to begin with, whatever its word."""
    signs: dict[str, float] = {}
    for step, likelihood in found.items():
        word = _LETTER.search(step)
        if word is not None and word.start():
            before = step[: word.start()]
            signs[before] = signs.get(before, 0.0) + likelihood
    likelihood, before = max(((each, before) for before, each in signs.items()), default=(0.0, ""))
    return before if likelihood > _LEAST_LIKELY_SIGNS else ""
