"""Words by how they begin, and the built-in stock of words and phrases, counted once."""

from collections.abc import Iterable, Mapping
from functools import lru_cache

from cockpit.studio.completion.habits import Counting, Habits
from cockpit.studio.completion.learning import learn_line, learn_opening
from cockpit.studio.completion.steps import START
from cockpit.studio.completion.stock_lines import LINES
from cockpit.studio.completion.vocabulary import WORDS
from cockpit.studio.completion.word_pairs import PAIRS

_MOST_EACH = 6
_LONGEST = 24
_PAIR_WEIGHT = 4.0
_PAIR_RANK = 2
_RANK = 20
Words = Mapping[str, Mapping[str, float]]


def words_by_beginning(weights: Iterable[tuple[str, float]]) -> Words:
    """For each beginning, without case, the usual words that begin so, each with its share of all."""
    ranked = sorted(weights, key=lambda each: -each[1])
    total = sum(weight for _, weight in ranked) or 1.0
    found: dict[str, dict[str, float]] = {}
    for word, weight in ranked:
        lower = word.lower()
        for length in range(1, min(len(lower), _LONGEST)):
            words = found.setdefault(lower[:length], {})
            if len(words) < _MOST_EACH:
                words[word] = weight / total
    return found


@lru_cache(maxsize=1)
def stock_habits() -> Habits:
    """What follows what in the built-in lines."""
    counting = Counting()
    above = START
    for line in LINES:
        opening = learn_opening(counting, line, above, 1.0) if ": " in line else above
        above = opening
        learn_line(counting, line, 1.0)
    for word, behind in PAIRS:
        for rank, each in enumerate(behind):
            counting.add((1, word), f" {each}", _PAIR_WEIGHT / (rank + _PAIR_RANK))
    return counting.habits()


@lru_cache(maxsize=1)
def stock_words() -> Words:
    """The built-in words by their beginnings."""
    return words_by_beginning((word, 1.0 / (rank + _RANK)) for rank, word in enumerate(WORDS))


@lru_cache(maxsize=1)
def stock_spellings() -> Mapping[str, str]:
    """The built-in words by their small letters."""
    return {word.lower(): word for word in reversed(WORDS)}
