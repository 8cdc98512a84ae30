"""The rest of the line that is being typed, as far as it can be told from what was typed before.

A proposal is for the end of a line; it never changes what was typed, and whoever types on is not hindered. Lines that
are kept from the family are completed from their like, of this student only, and only once their label stands.
"""

import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from cockpit.studio.habits import Following, Habits, known, likely
from cockpit.studio.memory import Memory
from cockpit.studio.steps import (
    END,
    START,
    Context,
    Opening,
    contexts,
    opening_contexts,
    opening_of,
    shape_of,
    steps_of,
)
from cockpit.studio.word_stock import Words, stock_habits, stock_words

_LINES_ABOVE, _TAIL, _LONGEST_WHOLE, _MOST_STEPS, _MOST_EACH = 40, 64, 200, 24, 5
_LEAST_LIKELY = 0.08  # below this a proposal would be wrong too often to be worth a look
_LEAST_LIKELY_FURTHER = 0.6
_USED_UP = 0.03
_LEAST_LIKELY_SIGNS = 0.5
_WORD_OF_STEP = re.compile(r"[^\W_]")
_BREAK = re.compile(r"[\n\r\x0b\x0c\x1c-\x1e\x85\u2028\u2029]")
_NEXT_WORD = re.compile(r"\s*\S*\s?")
_LAST_WORD = re.compile(r"[^\W_]+\Z")
_BEGUN_WORD = re.compile(r"[^\W\d_]+(?:['’][^\W\d_]*)?\Z")
_SHARES = (0.6, 0.25, 0.15)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Above:
    """What the lines above say about this one: the opening before it, labels and topics that were there."""

    last: Opening
    labels: Counter[str]
    topics: frozenset[tuple[str, str]]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Place:
    """Where in a line the next step is looked for: behind `steps`, whose text without case and numbers is `whole`."""

    opening: Opening
    steps: list[str]
    whole: str | None

    def contexts(self) -> tuple[Context, ...]:
        topic = self.opening.topic or (shape_of(self.steps[0]) if self.opening.label and self.steps else "")
        return contexts(self.opening, topic if self.steps else "", self.steps, self.whole or "")

    def behind(self, step: str) -> "_Place":
        whole = None if self.whole is None else self.whole + shape_of(step)
        return _Place(opening=self.opening, steps=[*self.steps[-3:], step], whole=whole)


def ghost(memory: Memory, lines_above: Sequence[str], line: str) -> str:
    """What is proposed behind a line of which the cursor is at the end; "" where nothing is likely enough."""
    if _BREAK.search(line):
        return ""
    above = _above(lines_above)
    opening = opening_of(line)
    if not opening.label:
        first = _first_step(memory, above, line)
        if first is not None:
            return first
    return _rest(memory, above, opening, line).removesuffix(END)


def next_word(proposal: str) -> str:
    """The part of a proposal that one key takes: a word with the space behind it."""
    found = _NEXT_WORD.match(proposal)
    return found[0] if found else ""


def abbreviation(memory: Memory, line: str) -> tuple[int, str] | None:
    """The characters before the cursor that the accepting key replaces, and what they stand for; None if for nothing."""
    word = _LAST_WORD.search(line)
    long = memory.abbreviations.get(word[0].lower()) if word else None
    return (len(word[0]), long) if word and long else None


def _above(lines: Sequence[str]) -> _Above:
    openings = [opening_of(f"{line[:80]} ") for line in lines[-_LINES_ABOVE:] if line.strip()]
    return _Above(
        last=openings[-1] if openings else START,
        labels=Counter(each.label for each in openings),
        topics=frozenset((each.label, each.topic) for each in openings if each.topic),
    )


def _first_step(memory: Memory, above: _Above, line: str) -> str | None:
    """The rest of a line of which not even the first step is whole; None where that is no matter of lines above."""
    if len(line) > 24 or len(steps_of(line)) > 2:
        return None
    following = known((stock_habits(), memory.common.habits, memory.own), opening_contexts(above.last))
    found = likely(following, line, _base(memory, Opening(), line) if line else {})
    total = sum(found.values())
    for step in found:
        label = opening_of(step).label
        if label and above.labels[label] >= max(1, memory.usual.get(label, 0)):
            found[step] *= _USED_UP
    best = _best(found, line, total)
    if best is None:
        return None
    step, likelihood = best
    opening = opening_of(step)
    place = _Place(
        opening=opening, steps=[] if opening.label else [step], whole="" if opening.label else shape_of(step)
    )
    return (step[len(line) :] + _further(memory, above, place, step, likelihood)).removesuffix(END)


def _best(found: dict[str, float], begun: str, total: float) -> tuple[str, float] | None:
    longer = [(likelihood, step) for step, likelihood in found.items() if len(step) > len(begun)]
    if not longer or total <= 0:
        return None
    likelihood, step = max(longer)
    return (step, likelihood / total) if likelihood / total >= _LEAST_LIKELY else None


def _rest(memory: Memory, above: _Above, opening: Opening, line: str) -> str:
    """The rest of a line whose first step is whole."""
    text = line[len(opening.typed) :]
    is_whole = len(text) <= _LONGEST_WHOLE
    steps = steps_of(text if is_whole else _tail(text))
    begun = steps[-1] if steps else ""
    whole = "".join(map(shape_of, steps[:-1])) if is_whole else None
    place = _Place(opening=opening, steps=steps[:-1], whole=whole)
    found = _steps_at(memory, above, place, begun)
    ways = [(likelihood, step, place) for step, likelihood in found.items() if len(step) > len(begun)]
    if begun and begun[-1].isalnum():
        exact = max((likelihood for step, likelihood in found.items() if len(step) == len(begun)), default=0.0)
        exact = exact if found else 1.0
        following = _steps_at(memory, above, place.behind(begun), "")
        ways += [(exact * each, step, place.behind(begun)) for step, each in following.items()]
    best = max(ways, key=lambda way: (way[0], way[1]), default=None)
    if best is None or best[0] < _LEAST_LIKELY:
        return ""
    likelihood, step, at = best
    typed = len(begun) if at is place else 0
    return step[typed:] + _further(memory, above, at.behind(step), step, likelihood)


def _tail(text: str) -> str:
    tail = text[-_TAIL:]
    return tail[tail.find(" ") + 1 :]


def _steps_at(memory: Memory, above: _Above, place: _Place, begun: str, most: int = 60) -> dict[str, float]:
    following = _known_at(memory, place)
    found = likely(following, begun, _base(memory, place.opening, begun) if begun else {}, most)
    total = sum(found.values()) or 1.0
    label = place.opening.label
    is_topic = bool(label) and not place.steps
    return {
        step: each / total * (_USED_UP if is_topic and (label, shape_of(step)) in above.topics else 1.0)
        for step, each in found.items()
    }


def _known_at(memory: Memory, place: _Place) -> list[Following]:
    habits: tuple[Habits, ...] = (stock_habits(), memory.common.habits, memory.own)
    return known((*habits, memory.kept_back) if place.opening.is_kept_back else habits, place.contexts())


def _base(memory: Memory, opening: Opening, begun: str) -> dict[str, float]:
    """The words that begin as the begun one does, known without any context."""
    word = _BEGUN_WORD.search(begun)
    if word is None:
        return {}
    signs = begun[: word.start()]
    sources: tuple[Words, ...] = (memory.own_words, memory.common.words, stock_words())
    if opening.is_kept_back:
        sources = (memory.kept_back_words, *sources)
    found: dict[str, float] = {}
    for words, share in zip(sources[::-1], (*_SHARES[::-1], 0.3), strict=False):
        for each, likelihood in words.get(word[0].lower(), {}).items():
            found[signs + each] = found.get(signs + each, 0.0) + share * likelihood
    return found


def _further(memory: Memory, above: _Above, place: _Place, step: str, likelihood: float) -> str:
    """What goes on behind a step that is proposed, as long as it is likely."""
    text = ""
    for _ in range(_MOST_STEPS):
        if step.endswith(END) or (place.opening.is_kept_back and not place.steps):
            break
        found = _steps_at(memory, above, place, "", _MOST_EACH)
        if not found:
            break
        likelihood, step = max((each, step) for step, each in found.items())
        if likelihood < _LEAST_LIKELY_FURTHER:
            return text + _signs(found)
        text += step
        place = place.behind(step)
    return text


def _signs(found: dict[str, float]) -> str:
    """The signs or the space that the next step is likely to begin with, whatever its word."""
    signs: dict[str, float] = {}
    for step, likelihood in found.items():
        word = _WORD_OF_STEP.search(step)
        if word is not None and word.start():
            before = step[: word.start()]
            signs[before] = signs.get(before, 0.0) + likelihood
    likelihood, before = max(((each, before) for before, each in signs.items()), default=(0.0, ""))
    return before if likelihood > _LEAST_LIKELY_SIGNS else ""
