"""What of a teacher's other lessons may help with this one: short sequences of words that she writes to several.

Nothing that is kept back from families is read. A sequence counts where it stands in the notes of two students at
least, and only if each of its words is in the built-in stock or written small in the notes of two students, and is
no part of a name that the studio knows. So neither a remark to another family nor a name in it comes through.
"""

import re
import unicodedata
from collections import Counter
from collections.abc import Collection, Mapping, Sequence
from functools import lru_cache

from cockpit.studio.completion.ngrams import Counting, Ngrams
from cockpit.studio.completion.stock import Words, stock_spellings, words_by_beginning
from cockpit.studio.completion.tokens import END, Context, opening_of, tokens_of, word_of
from cockpit.studio.notes.notes import read_notes
from cockpit.studio.notes.vocabulary import BUILT_IN, Labels
from cockpit.studio.values import Value

_WORD = re.compile(r"[^\W\d_]+(?:['’][^\W\d_]+)*")
_NUMBER = re.compile(r"\d{4,}")
_FEWEST_STUDENTS = 2
_LONGEST_LINE = 300
_MOST_BODIES = 12
_Sequence = tuple[Context, str]


class CommonPhrases(Value):
    """What follows what in the notes of several students, or in the built-in stock, and the words in them."""

    habits: Ngrams
    words: Words


class _Student(Value):
    """How often each sequence stands in a student's notes, and the words in them that are written small."""

    counts: Mapping[_Sequence, int]
    small_words: frozenset[str]


def common_phrases(others: Sequence[Sequence[str]], names: Collection[str], labels: Labels = BUILT_IN) -> CommonPhrases:
    """What is common to the notes of other students, given as their bodies by student, the newest first.

    Of each student the newest ones are read; `names` never appear in it.
    """
    students = [_of_student(tuple(bodies[:_MOST_BODIES]), labels) for bodies in others]
    having: Counter[_Sequence] = Counter()
    times: Counter[_Sequence] = Counter()
    for each in students:
        having.update(each.counts.keys())
        times.update(each.counts)
    common = [sequence for sequence, count in having.items() if count >= _FEWEST_STUDENTS]
    words = _common_words(students, names)
    counting = Counting()
    heard: Counter[str] = Counter()
    for context, token in common:
        if _is_common(token, words) and all(_is_common(str(each), words) for each in context):
            counting.add(context, token, float(times[context, token]))
            if context[0] == 1 and (word := _WORD.search(token)):
                heard[word[0]] += times[context, token]
    return CommonPhrases(habits=counting.habits(), words=words_by_beginning(heard.items()))


def _is_common(token: str, words: Collection[str]) -> bool:
    return not _NUMBER.search(token) and all(word.lower() in words for word in _WORD.findall(token))


def _common_words(students: Sequence[_Student], names: Collection[str]) -> set[str]:
    """The words in the built-in stock, and those that two students' notes have in small letters, without names."""
    having = Counter(word for each in students for word in each.small_words)
    words = {word for word, count in having.items() if count >= _FEWEST_STUDENTS} | stock_spellings().keys()
    parts = {_bare(part) for name in names for part in _WORD.findall(unicodedata.normalize("NFC", name))}
    return {word for word in words if _bare(word) not in parts}


def _bare(word: str) -> str:
    """A word without case, accents and the ending that says whose: "José's" is "jose"."""
    letters = unicodedata.normalize("NFKD", word.lower().replace("’", "'"))
    return "".join(sign for sign in letters if not unicodedata.combining(sign)).removesuffix("'s").removesuffix("'")


@lru_cache(maxsize=400)  # of all students one has a new note since the lesson before
def _of_student(bodies: tuple[str, ...], labels: Labels) -> _Student:
    counts: Counter[_Sequence] = Counter()
    for body in bodies:
        counts.update(_sequences(body, labels))
    words = {word for token in {token for _, token in counts} for word in _WORD.findall(token) if word.islower()}
    return _Student(counts=counts, small_words=frozenset(words))


@lru_cache(maxsize=4000)  # most bodies are those of the lesson before this one
def _sequences(body: str, labels: Labels) -> Mapping[_Sequence, int]:
    """What stands behind one word, behind two, and behind one in an area, in what a family may see of a note."""
    counts: Counter[_Sequence] = Counter()
    for line in read_notes(body, labels):
        if (
            line.text.strip()
            and not line.line.is_kept_back
            and not line.typed.lstrip(" \t*_-•([{\"'").lower().startswith("private")
        ):
            _count(counts, line.typed[:_LONGEST_LINE], labels)
    return counts


def _count(counts: Counter[_Sequence], line: str, labels: Labels) -> None:
    opening = opening_of(line, labels)
    second = first = "^"
    for token in [*tokens_of(line.rstrip()[len(opening.typed) :]), END]:
        text = _spelled(token)
        for context in ((1, first), (2, opening.label, first), (3, second, first)):
            counts[context, text] += 1
        second, first = first, word_of(token)


def _spelled(token: str) -> str:
    """A token with its word in the stock's letters, where it is in the stock."""
    word = _WORD.search(token)
    spelling = stock_spellings().get(word[0].lower()) if word else None
    return token[: -len(spelling)] + spelling if word and spelling and token.endswith(word[0]) else token
