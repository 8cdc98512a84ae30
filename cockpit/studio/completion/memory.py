"""What is remembered for one student's lesson, to complete the lines that are typed in it."""

from collections import Counter
from collections.abc import Collection, Mapping, Sequence

from cockpit.studio.completion.common_phrases import CommonPhrases, common_phrases
from cockpit.studio.completion.ngrams import Counting, Ngrams, learn_line, learn_opening
from cockpit.studio.completion.numbers import Paces, pace_in, paces_of
from cockpit.studio.completion.stock import Words, stock_habits, stock_words, words_by_beginning
from cockpit.studio.completion.tokens import START, LineOpening, opening_of, tokens_of
from cockpit.studio.notes.notes import NoteLine, read_notes
from cockpit.studio.notes.vocabulary import BUILT_IN, Labels
from cockpit.studio.values import Value

_AGING = 0.85
_LEAST = 0.1
_OPEN = 1.5
_MOST_BODIES = 60
_SIGNS = ' \t.,;:!?()[]{}"“”‘–—-/=*+&#'


class Memory(Value):
    """What lines of this student are completed from.

    `own` is from what her family may see and from open assignments, `kept_back` from the lines about this student that
    are kept from the family, `common` from several other students, `stock` is built in. `usual` counts the labels of
    the last note.
    """

    own: Ngrams
    own_words: Words
    kept_back: Ngrams
    kept_back_words: Words
    common: CommonPhrases
    stock: CommonPhrases
    usual: Mapping[str, int]
    abbreviations: Mapping[str, str]
    labels: Labels = BUILT_IN


def memory_of(
    *,
    bodies: Sequence[str] = (),
    open_lines: Sequence[str] = (),
    others: Sequence[Sequence[str]] = (),
    names: Collection[str] = (),
    abbreviations: Mapping[str, str] | None = None,
    labels: Labels = BUILT_IN,
) -> Memory:
    """What is remembered for a lesson; made once when the lesson is shown.

    Args:
        bodies: This student's earlier notes as typed, the newest first; more than a year of them is not read.
        open_lines: The open assignments as lines to type today, with the tempo heard last where there is one.
        others: The notes of the teacher's other students, by student, the newest first.
        names: The names of other students and families, which are never proposed from their notes.
        abbreviations: The teacher's own, as "hs" and "hands separately".
        labels: Those of the studio. One of her own is completed before she has used it, as one that is built in.
    """
    learner = _Learner(labels)
    paces = paces_of(bodies, labels)
    weight = 1.0
    for body in bodies[:_MOST_BODIES]:
        learner.learn(read_notes(body, labels), weight, paces)
        weight = max(weight * _AGING, _LEAST)
    if open_lines:
        learner.learn(read_notes("\n".join(open_lines), labels), _OPEN, {})
    last = read_notes(bodies[0], labels) if bodies else ()
    return Memory(
        own=learner.own.habits(),
        own_words=words_by_beginning(learner.own_words.items()),
        kept_back=learner.kept_back.habits(),
        kept_back_words=words_by_beginning(learner.kept_back_words.items()),
        common=common_phrases(others, names, labels),
        stock=CommonPhrases(habits=stock_habits(labels), words=stock_words()),
        usual=Counter(opening_of(f"{line.typed} ", labels).label for line in last if line.text),
        abbreviations={short.lower(): long for short, long in (abbreviations or {}).items()},
        labels=labels,
    )


class _Learner:
    """Counts what is this student's own, apart from what is kept back."""

    __slots__ = ("kept_back", "kept_back_words", "labels", "own", "own_words", "seen")

    def __init__(self, labels: Labels) -> None:
        self.labels = labels
        self.own, self.kept_back = Counting(), Counting()
        self.seen: set[tuple[str, str]] = set()
        self.own_words: dict[str, float] = {}
        self.kept_back_words: dict[str, float] = {}

    def learn(self, lines: Sequence[NoteLine], weight: float, paces: Paces) -> None:
        """Learns the lines of a note, in order."""
        above = START
        seen: set[tuple[str, str]] = set()
        for line in lines:
            if line.text.strip():
                opening = opening_of(f"{line.typed} ", self.labels)
                is_newest = bool(opening.label) and (opening.label, opening.topic) not in self.seen
                seen.add((opening.label, opening.topic))
                above = self._learn(line, above, weight, pace_in(paces, opening.label) if is_newest else None)
        self.seen |= seen

    def _learn(self, line: NoteLine, above: LineOpening, weight: float, pace: Sequence[float] | None) -> LineOpening:
        opening = opening_of(f"{line.typed} ", self.labels)
        is_public = not line.line.is_kept_back and not line.typed.lstrip(_SIGNS).lower().startswith("private")
        if is_public or opening.is_kept_back:  # of a line that is kept back the label only
            learn_opening(self.own, line.typed, above, weight, self.labels)
        learn_line(self.own if is_public else self.kept_back, line.typed, weight, pace, self.labels)
        words = self.own_words if is_public else self.kept_back_words
        for token in tokens_of(line.text):
            word = token.strip(_SIGNS)
            if word and not word[-1].isdigit():
                words[word] = words.get(word, 0.0) + weight
        return opening if is_public or opening.is_kept_back else above
