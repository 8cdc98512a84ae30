"""Where something stands in braces in a line, and the line without those that are understood."""

from collections.abc import Iterator

from cockpit.studio.theory.counting import Counted
from cockpit.studio.theory.lesson_theory import ANY_LESSON, LessonTheory
from cockpit.studio.theory.reading import MOST_SIGNS, Answer, Unclear, read_theory
from cockpit.studio.values import Value


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
