"""Where something stands in braces in a line, the line without those that are understood, and answers that were written out."""

import re
from collections.abc import Iterator

from cockpit.studio.theory.counting import Counted
from cockpit.studio.theory.lesson_theory import ANY_LESSON, LessonTheory
from cockpit.studio.theory.reading import MOST_SIGNS, Answer, Unclear, answer_to, read_theory
from cockpit.studio.values import Value

WRITTEN = " (= "
"""Before an answer that the program wrote: nobody begins a bracket so."""
_WORD = re.compile(r"(?<!\S)\S+")
LONGEST_ANSWER = 1200
"""The longest answer that is known again, in signs: four chromatic octaves up and down in French have room in it."""
_MOST_WRITTEN = 8


class Braced(Value):
    """A stretch of a line in braces, both braces with it, and what it is understood as."""

    begins: int
    ends: int
    words: str
    meaning: Answer | Unclear

    @property
    def answer(self) -> Answer | None:
        """Its answer, where it is understood and, of a rhythm, where its measures are right."""
        is_faulty = isinstance(self.meaning, Unclear) or (isinstance(self.meaning, Counted) and self.meaning.faults)
        return None if isinstance(self.meaning, Unclear) or is_faulty else self.meaning


class WrittenAnswer(Value):
    """An answer that was written out: where its words begin, where it begins, where it ends, and what the words mean, if anything."""

    begins: int
    answered_at: int
    ends: int
    answer: Answer | None


def braced_in(line: str, lesson: LessonTheory = ANY_LESSON) -> tuple[Braced, ...]:
    """What stands in braces in a line of a lesson, in order. Braces within braces and those that are never closed are text."""
    if "{" not in line:
        return ()
    return tuple(
        Braced(
            begins=begins, ends=ends, words=line[begins + 1 : ends - 1], meaning=read_theory(line[begins + 1 : ends - 1], lesson)
        )
        for begins, ends in _stretches(line)
        if ends - begins - 2 <= MOST_SIGNS and line[begins + 1 : ends - 1].strip()
    )  # fmt: skip


def without_braces(line: str) -> tuple[str, tuple[Braced, ...]]:
    """A line without the braces that are understood, and what stood in them, with its places in that line."""
    kept: list[str] = []
    found: list[Braced] = []
    at = length = 0
    for each in braced_in(line):
        if each.answer is None:
            continue
        before = line[at : each.begins]
        begins = length + len(before)
        kept += [before, each.words]
        length, at = begins + len(each.words), each.ends
        found.append(Braced(begins=begins, ends=length, words=each.words, meaning=each.meaning))
    return ("".join((*kept, line[at:])), tuple(found)) if found else (line, ())


def with_answer(words: str, answer: str) -> str:
    """Words with their answer written out behind them, as `written_in` knows it again: `D major (= D E F♯ G A B C♯ D)`."""
    return f"{words}{WRITTEN}{answer})"


def written_in(line: str) -> tuple[WrittenAnswer, ...]:
    """The answers that were written out in a line, with the words that they answer, in order."""
    found: list[WrittenAnswer] = []
    first = 0
    for _ in range(_MOST_WRITTEN):
        at = line.find(WRITTEN, first)
        ends = _closed(line, at) if at >= 0 else None
        if ends is None:  # nothing behind it is one either, but by a stray bracket
            break
        begins, answer = _words_before(line, first, at)
        found.append(WrittenAnswer(begins=begins, answered_at=at, ends=ends, answer=answer))
        first = ends
    return tuple(found)


def _closed(line: str, at: int) -> int | None:
    """Where the bracket of an answer ends; rhythms and blues scales have brackets in theirs."""
    depth = 0
    for here in range(at, min(len(line), at + LONGEST_ANSWER + len(WRITTEN) + 1)):
        depth += (line[here] == "(") - (line[here] == ")")
        if depth == 0 and line[here] == ")":
            return here + 1
    return None


def _words_before(line: str, first: int, at: int) -> tuple[int, Answer | None]:
    """Where the words begin that are answered: the most of those before the answer that are understood."""
    before = line[max(first, at - MOST_SIGNS) : at]
    for word in _WORD.finditer(before):
        answer = answer_to(before[word.start() :])
        if answer is not None:
            return at - len(before) + word.start(), answer
    return at, None


def _stretches(line: str) -> Iterator[tuple[int, int]]:
    """Where each pair of braces that no other is in begins and ends, in one pass."""
    depth = begins = 0
    is_plain = True
    for at, sign in enumerate(line):
        if sign == "{":
            depth += 1
            begins, is_plain = (at, True) if depth == 1 else (begins, False)
        elif sign == "}" and depth:
            depth -= 1
            if depth == 0 and is_plain:
                yield begins, at + 1
