"""The board of the running lesson: what is on it, what is put on it and taken off it, and its page."""

from pathlib import Path
from typing import TYPE_CHECKING, Protocol

from cockpit.desk.day.day import Day
from cockpit.desk.ports import Clock, Folder, Reading
from cockpit.desk.steps import Steps
from cockpit.studio.changes.records import BoardLine, Edit, Note
from cockpit.studio.errors import BadInput, NotSaved, Refused
from cockpit.studio.lessons.lesson import LessonId
from cockpit.studio.lessons.scheduled import ScheduledLesson
from cockpit.studio.notes.notes import FamilyNotes, for_family
from cockpit.studio.notes.vocabulary import Labels
from cockpit.studio.people.people import first_name

if TYPE_CHECKING:
    from cockpit.studio.day.board import Board
    from cockpit.studio.theory.lesson_theory import LessonTheory
    from cockpit.studio.theory.reading import Answer

PAGE = "board.html"


class BoardPrinter(Protocol):
    """What says an answer in a family's language, and makes the page."""

    def theory_rows(self, answer: "Answer", language: str) -> tuple[str, ...]: ...  # noqa: D102 said where it is done
    def family_lines(  # noqa: D102
        self, notes: FamilyNotes, language: str, lesson: "LessonTheory"
    ) -> tuple[str, ...]: ...
    def board_page(self, board: "Board | None") -> str: ...  # noqa: D102


class BoardDesk:
    """Knows the board of the lesson that runs. What is asked once a second is made again only where something was typed."""

    def __init__(
        self, day: Day, reading: Reading, steps: Steps, clock: Clock, printer: BoardPrinter, folder: Folder
    ) -> None:
        self._day = day
        self._reading = reading
        self._steps = steps
        self._clock = clock
        self._printer = printer
        self._folder = folder
        self._made_of: tuple[ScheduledLesson, str, tuple[BoardLine, ...]] | None = None
        self._made: Board | None = None
        self._has_page: bool | None = None  # not looked for yet: an earlier program may have left one
        self._page_of: tuple[Board | None] | None = None

    def now(self) -> "Board | None":
        """The board as it is; None while no lesson runs."""
        running = self._day.running
        if running is None:
            return None
        lines = self._reading.board_lines(running.lesson.id)
        made_of = running, self._body(running), lines
        if made_of != self._made_of or self._made is None:
            self._made_of, self._made = made_of, self._board(*made_of)
        return self._made

    def family_lines(self) -> tuple[str, ...]:
        """Today's notes of the running lesson as the family will read them, as `for_family` gives them."""
        running = self._day.running
        if running is None:
            return ()
        notes = for_family(self._body(running), self._day.preferences.labels)
        return self._printer.family_lines(notes, self._language(running), self._theory(running))

    def answer_rows(self, booking: ScheduledLesson, answer: "Answer") -> tuple[str, ...]:
        """Says an answer in rows, in the language of the lesson's family."""
        return self._printer.theory_rows(answer, self._language(booking))

    def prepare_answers(self, booking: ScheduledLesson) -> None:
        """Loads theory and the phrases of the family's language ahead of the first brace, which would wait 40 ms. Any thread may call it."""
        from cockpit.studio.theory.reading import answer_to

        if (answer := answer_to("D major")) is not None:
            self.answer_rows(booking, answer)

    def put(self, typed: str) -> str:
        """Puts on the board what is typed, with braces or without; the words that came last.

        Raises:
            BadInput: it is not understood; the sentence names what would work.
            Refused: no lesson runs, or this program may only read.
            NotSaved: the disk refused.
        """
        from cockpit.studio.day.board import items_typed

        running = self._day.running
        theory = self._theory(running) if running is not None else self._day.preferences.theory_for(None)
        found = [item.words for item in items_typed(typed, theory)]
        if not found:
            raise BadInput(_what_works(typed, theory))
        self._keep(found, f"{', '.join(found)} on the board", is_off=False)
        return found[-1]

    def take_off(self, words: str) -> None:
        """Takes a thing off the board; in the notes it stays.

        Raises:
            Refused: no lesson runs, or this program may only read.
            NotSaved: the disk refused.
        """
        self._keep([words], f"{words} off the board", is_off=True)

    def write_below(self, lesson_id: LessonId, line: str) -> None:
        """Writes a line that the family reads below the notes of a lesson that is not open in the editor, as a step.

        Raises:
            BadInput: the family would not read it.
            Refused: this program may only read.
            NotSaved: the disk refused.
        """
        before = self._reading.notes([lesson_id]).get(lesson_id)
        body = with_line(before.body if before is not None else "", line, self._day.preferences.labels)
        note = Note(lesson_id=lesson_id, body=body, changed_at=self._clock.now())
        self._steps.take(f'"{line}" in the notes', Edit(before=before, after=note))

    def open_page(self) -> Path:
        """Writes the page for a browser, and keeps it as the board is from then on; returns its path.

        Raises:
            NotSaved: the folder refused.
        """
        return self._write_page(self.now())

    def keep_page(self) -> None:
        """Writes the page again where there is one and the board is another; it is empty when no lesson runs. Asked once a second.

        Raises:
            NotSaved: the folder refused; said once for each change of the board.
        """
        if self._has_page is None:
            self._has_page = self._steps.can_write and self._folder.content(PAGE) is not None
        if self._has_page and (board := self.now(),) != self._page_of:
            self._write_page(board)

    def empty_page(self) -> None:
        """Empties the page where there is one: nobody follows the lesson when the program ends. Opened again, it is kept again.

        Raises:
            NotSaved: the folder refused.
        """
        self.keep_page()
        if self._has_page and self._page_of != (None,):
            self._write_page(None)

    def _write_page(self, board: "Board | None") -> Path:
        self._has_page, self._page_of = True, (board,)
        try:
            return self._folder.put(PAGE, self._printer.board_page(board))
        except NotSaved as fault:
            raise NotSaved(f"{PAGE} in the studio folder could not be written. It shows an earlier board.") from fault

    def _keep(self, found: list[str], said: str, *, is_off: bool) -> None:
        running = self._day.running
        if running is None:
            raise Refused("No lesson is running.")
        there = {line.words: line for line in self._reading.board_lines(running.lesson.id)}
        now = self._clock.now()
        edits = (
            Edit(
                before=there.get(words),
                after=BoardLine(lesson_id=running.lesson.id, words=words, put_at=now, is_off=is_off),
            )
            for words in found
        )
        self._steps.take(said, *edits)

    def _body(self, running: ScheduledLesson) -> str:
        note = self._reading.notes([running.lesson.id]).get(running.lesson.id)
        return note.body if note is not None else ""

    def _theory(self, running: ScheduledLesson) -> "LessonTheory":
        return self._day.preferences.theory_for(running.lesson.instrument)

    def _language(self, running: ScheduledLesson) -> str:
        return running.family.language or self._day.preferences.sending.language

    def _board(self, running: ScheduledLesson, body: str, lines: tuple[BoardLine, ...]) -> "Board":
        # With 10 ms of patterns, which the first screen does not wait for.
        from cockpit.studio.day.board import Board, BoardEntry, board_items, items_of_notes

        language, theory, labels = self._language(running), self._theory(running), self._day.preferences.labels
        of_notes = set(items_of_notes(body, labels, theory))
        return Board(
            lesson_id=running.lesson.id,
            first_name=first_name(running.student, running.family),
            language=language,
            theory=theory,
            entries=tuple(
                BoardEntry(
                    words=item.words, rows=self._printer.theory_rows(item.answer, language), is_kept=item in of_notes
                )
                for item in board_items(body, lines, labels, theory)
            ),
        )


def with_line(body: str, line: str, labels: Labels) -> str:
    """Notes with a line at their end that the family reads.

    Raises:
        BadInput: the family would not read it.
    """
    from cockpit.studio.day.board import with_family_line

    longer = with_family_line(body, line, labels)
    if longer is None:
        raise BadInput("The family would not read it there. Lift the curtain to write it.")
    return longer


def _what_works(typed: str, lesson: "LessonTheory") -> str:
    from cockpit.studio.day.board import in_braces
    from cockpit.studio.theory.braces import braced_in
    from cockpit.wording.theory import told_of

    line = in_braces(typed)
    found = braced_in(line, lesson)
    unread = next((each for each in found if each.answer is None), None)
    if unread is not None:
        return " · ".join(told_of(line[unread.begins : unread.ends], lesson))
    return f"{{{found[0].words.strip()}}} works by itself" if found else "{D major} works"
