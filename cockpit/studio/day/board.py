"""The board of a lesson: the theory that its student may be shown, from the notes and from the board's own line."""

from collections.abc import Iterable, Iterator, Sequence

from cockpit.studio.changes.records import BoardLine
from cockpit.studio.lessons.lesson import LessonId
from cockpit.studio.notes.notes import for_family, read_notes, things_of
from cockpit.studio.notes.vocabulary import BUILT_IN, Labels
from cockpit.studio.theory.braces import braced_in, without_braces
from cockpit.studio.theory.lesson_theory import ANY_LESSON, LessonTheory
from cockpit.studio.theory.reading import Answer
from cockpit.studio.values import Value


class BoardItem(Value):
    """One thing on the board: the words that are typed in braces, and their answer."""

    words: str
    answer: Answer


class BoardEntry(Value):
    """One thing on the board as its student reads it: the words as typed, and the rows of their answer.

    `is_kept` says that it stands in the notes.
    """

    words: str
    rows: tuple[str, ...]
    is_kept: bool = False


class Board(Value):
    """All that a student may see of a lesson while it runs. `language` is that of the family."""

    lesson_id: LessonId
    first_name: str
    language: str
    theory: LessonTheory = ANY_LESSON
    entries: tuple[BoardEntry, ...] = ()


def items_of_notes(body: str, labels: Labels = BUILT_IN, lesson: LessonTheory = ANY_LESSON) -> tuple[BoardItem, ...]:
    """What stands in braces in the lines that a family sees, in the order of the notes.

    `for_family` alone decides which lines those are. The notes as they were typed give the order.
    """
    if "}" not in body:
        return ()
    seen = for_family(body, labels)
    texts = {*(line.text for line in (*seen.assignments, *seen.to_get, *seen.goals)), *seen.remarks}
    typed = (each.text for line in read_notes(body, labels) for each in things_of(line) or (line,))
    return _once(item for text in typed if text in texts for item in _items(text, lesson))


def items_typed(line: str, lesson: LessonTheory = ANY_LESSON) -> tuple[BoardItem, ...]:
    """What a line of the board puts on it; nothing where any word of it is not understood. One without braces is as if in them."""
    line = in_braces(line)
    found = tuple(_items(line, lesson))
    is_whole = without_braces(line)[0].split() == " ".join(item.words for item in found).split()
    return _once(found) if is_whole else ()


def in_braces(line: str) -> str:
    """A line of the board with the braces that she may leave out."""
    return line if "{" in line else f"{{{line.strip()}}}"


def board_items(
    body: str, lines: Sequence[BoardLine], labels: Labels = BUILT_IN, lesson: LessonTheory = ANY_LESSON
) -> tuple[BoardItem, ...]:
    """What is on the board: what the notes have, then what was put on it by its own line, without what was taken off."""
    off = {line.words for line in lines if line.is_off}
    put = (item for line in lines for item in items_typed(line.words, lesson))
    return tuple(item for item in _once((*items_of_notes(body, labels, lesson), *put)) if item.words not in off)


def with_family_line(body: str, line: str, labels: Labels = BUILT_IN) -> str | None:
    """Notes with a line at their end that the family reads; None where no place there lets the family read it.

    Below private words an empty line comes first, or they would go on with it.
    """
    before = for_family(body, labels)
    above = body.rstrip("\n")
    longer = (f"{above}{apart}{line}\n" for apart in (("\n", "\n\n") if above else ("",)))
    return next((each for each in longer if for_family(each, labels) != before), None)


def _items(text: str, lesson: LessonTheory) -> Iterator[BoardItem]:
    for each in braced_in(text, lesson):
        if each.answer is not None:
            yield BoardItem(words=" ".join(each.words.split()), answer=each.answer)


def _once(items: Iterable[BoardItem]) -> tuple[BoardItem, ...]:
    return tuple(dict.fromkeys(items))
