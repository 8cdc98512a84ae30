"""What of a teacher's other lessons may help with this one: short sequences of words that she writes to several.

Nothing that is kept back from families is read. A sequence counts where it stands in the notes of two students at
least, and only if each of its words is in the built-in stock or written small in the notes of two students, and is
no part of a name that the studio knows. So neither a remark to another family nor a name in it comes through.
"""

import re
from collections import Counter
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache

from cockpit.studio.habits import Counting, Habits
from cockpit.studio.notes import Line, read_notes
from cockpit.studio.steps import END, Context, opening_of, steps_of, word_of
from cockpit.studio.word_stock import Words, stock_spellings, words_by_beginning

_WORD = re.compile(r"[^\W\d_]+(?:['’][^\W\d_]+)*")
_NUMBER = re.compile(r"\d{4,}")
_FEWEST_STUDENTS = 2
_LONGEST_LINE = 300
_MOST_BODIES = 12
_PUBLIC = frozenset({Line.ASSIGNMENT, Line.REMARK})
_Sequence = tuple[Context, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class CommonPhrases:
    """What follows what in the notes of several students, and the words in them."""

    habits: Habits
    words: Words


def common_phrases(others: Sequence[Sequence[str]], names: Collection[str]) -> CommonPhrases:
    """What is common to the notes of other students, given as their bodies by student, the newest first.

    Of each student the newest ones are read; `names` never appear in it.
    """
    counts = [_counts_of_student(tuple(bodies[:_MOST_BODIES])) for bodies in others]
    students: Counter[_Sequence] = Counter()
    times: Counter[_Sequence] = Counter()
    for each in counts:
        students.update(each.keys())
        times.update(each)
    words = _common_words(counts) - {part.lower() for name in names for part in _WORD.findall(name)}
    counting = Counting()
    heard: Counter[str] = Counter()
    for sequence, count in students.items():
        context, step = sequence
        if (
            count >= _FEWEST_STUDENTS
            and _is_common(step, words)
            and all(_is_common(str(each), words) for each in context)
        ):
            counting.add(context, step, float(times[sequence]))
            if context[0] == 1 and (word := _WORD.search(step)):
                heard[word[0]] += times[sequence]
    return CommonPhrases(habits=counting.habits(), words=words_by_beginning(heard.items()))


def _is_common(step: str, words: Collection[str]) -> bool:
    return not _NUMBER.search(step) and all(word.lower() in words for word in _WORD.findall(step))


def _common_words(counts: Sequence[Mapping[_Sequence, int]]) -> set[str]:
    """The words in the built-in stock, and those that two students' notes have in small letters."""
    students: Counter[str] = Counter()
    for each in counts:
        students.update({word for _, step in each for word in _WORD.findall(step) if word.islower()})
    return {word for word, count in students.items() if count >= _FEWEST_STUDENTS} | stock_spellings().keys()


@lru_cache(maxsize=200)  # of all students one has a new note since the last lesson
def _counts_of_student(bodies: tuple[str, ...]) -> Mapping[_Sequence, int]:
    counts: Counter[_Sequence] = Counter()
    for body in bodies:
        counts.update(_sequences(body))
    return counts


@lru_cache(maxsize=4000)  # most bodies are those of the lesson before this one
def _sequences(body: str) -> Mapping[_Sequence, int]:
    """What stands behind one word, behind two, and behind one in an area, in what a family may see of a note."""
    counts: Counter[_Sequence] = Counter()
    for line in read_notes(body):
        if line.line in _PUBLIC and not line.typed.lstrip(" \t*_-•([{\"'").lower().startswith("private"):
            _count(counts, line.typed[:_LONGEST_LINE])
    return counts


def _count(counts: Counter[_Sequence], line: str) -> None:
    opening = opening_of(line)
    second = first = "^"
    for step in [*steps_of(line.rstrip()[len(opening.typed) :]), END]:
        text = _spelled(step)
        for context in ((1, first), (2, opening.label, first), (3, second, first)):
            counts[context, text] += 1
        second, first = first, word_of(step)


def _spelled(step: str) -> str:
    """A step with its word in the stock's letters, where it is in the stock."""
    word = _WORD.search(step)
    spelling = stock_spellings().get(word[0].lower()) if word else None
    return step[: -len(spelling)] + spelling if word and spelling and step.endswith(word[0]) else step
