"""An assignment's line of one lesson as the look back knows it: what it was, and how it went."""

from collections.abc import Iterable, Iterator
from datetime import date

from cockpit.studio.assignments.assignment import Measures, Tempo
from cockpit.studio.assignments.reading import read_assignment
from cockpit.studio.lessons.lesson import LessonId
from cockpit.studio.notes.areas import Area
from cockpit.studio.notes.notes import Line, Mark, NoteLine, read_notes
from cockpit.studio.notes.vocabulary import Labels
from cockpit.studio.pieces.keys import is_of_a_book, piece_of, title_of
from cockpit.studio.values import Value, replace


class ReadLine(Value):
    """An assignment's line of some notes, read: the `place`-th of them, whole as it was typed.

    `piece` is the key of what it is about, as far as this line says it, and `title` what that is called. `book` is the key
    of the book that the line names; `of_book` is a number in the book that was named last, or nothing for pages of it.
    `minutes` are a day's.
    """

    place: int
    line: str
    area: str
    piece: str
    title: str
    book: str | None = None
    of_book: str | None = None
    measures: tuple[Measures, ...] = ()
    tempo: Tempo | None = None
    minutes: int | None = None
    by_heart: bool = False

    @property
    def is_named(self) -> bool:
        """Whether it is played and has a name, as a piece, a study, a book, and a scale have, and is not just a line of an area."""
        return not self.piece.startswith(f"{self.area}:") and self.area != Area.LISTENING


class GivenLine(Value):
    """A line that was given in a lesson on a date of the teacher's clock, and how it went, once that is known.

    `heard` is the tempo that it was heard at, in its own beat a minute.
    """

    lesson_id: LessonId
    on: date
    read: ReadLine
    mark: Mark | None = None
    heard: int | None = None
    clean_runs: int = 0


def read_lines(body: str, labels: Labels) -> tuple[ReadLine, ...]:
    """The lines of notes that assign something, each once, read; a line's place is its number among them."""
    lines = (each for each in read_notes(body, labels) if each.line is Line.ASSIGNMENT and each.text)
    return tuple(_read(place, line) for place, line in enumerate(dict.fromkeys(lines)))


def with_books(given: Iterable[GivenLine]) -> Iterator[GivenLine]:
    """A student's lines, the oldest first: a number or pages alone are those of the book that was named last in the area."""
    books: dict[str, str] = {}
    for each in given:
        read = each.read
        if read.book is not None:
            books[read.area] = read.book
        of_book = read.of_book if read.area in books else None
        if of_book is None:
            yield each
        else:
            yield replace(each, read=replace(read, piece=" ".join(filter(None, (books[read.area], of_book)))))


def numbers_in(pieces: Iterable[str]) -> frozenset[str]:
    """What can be a number in a book, at the ends of the keys of some pieces: also nothing, as pages of one have."""
    words = [piece.split() for piece in pieces]
    return frozenset(" ".join(each[begins:]) for each in words for begins in range(len(each) + 1))


def _read(place: int, line: NoteLine) -> ReadLine:
    assignment, key = read_assignment(line), piece_of(line)
    is_alone = is_of_a_book(line, assignment)
    numbered = " ".join(filter(None, (key.opus, f"no. {key.number}" if key.number else None)))
    names_book = assignment.title is not None and not is_alone and (numbered or assignment.area is Area.METHOD_BOOK)
    return ReadLine(
        place=place,
        line=line.typed,
        area=str(assignment.area),
        piece=str(key),
        title=title_of(line),
        book=key.name if names_book else None,
        of_book=numbered if is_alone else None,
        measures=() if assignment.has_other_numbers else assignment.measures,
        tempo=assignment.tempo,
        minutes=assignment.minutes,
        by_heart=assignment.by_heart,
    )
