"""The notes' editor with what it proposes: the rest of a line, dim behind the cursor, taken by one key or typed over."""

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from rich.cells import cell_len
from textual.reactive import Reactive, reactive
from textual.strip import Strip
from textual.widgets.text_area import Selection

from cockpit.screens.commands.commands import Place
from cockpit.screens.look.show import cut_at_word
from cockpit.screens.screen import bindings_for
from cockpit.screens.textual_parts.fast_text_area import NotesText
from cockpit.studio.theory.lesson_theory import ANY_LESSON, LessonTheory

if TYPE_CHECKING:
    from cockpit.studio.theory.reading import Answer

Ghost = Callable[[Sequence[str], str], str]
"""What is proposed behind a line, of the lines above it and its own text."""
Short = Callable[[str], "tuple[int, str] | None"]
"""How many characters before the cursor are short for something, and for what."""
Answers = Callable[["Answer"], Sequence[str]]
"""The rows of an answer of theory, in the language in which it is written into a line."""
_MEANS = " = "


class ProposingText(NotesText):
    """Proposes at the end of a line. A proposal is no text: it is not saved, and typing on never has to wait for it."""

    PLACE = Place.NOTES
    BINDINGS = bindings_for(PLACE, priority=False)
    # Textual would paint the whole widget again: the row with the cursor is enough, and is painted at a key in any case.
    suggestion: Reactive[str] = reactive("", repaint=False)
    ghost: Ghost | None = None
    short: Short | None = None
    theory: LessonTheory = ANY_LESSON
    answers: Answers | None = None
    labeled: Callable[[int], str | None] | None = None
    _stands_for: tuple[int, str] | None = None

    def propose_with(self, ghost: Ghost | None, short: Short | None) -> None:
        """Proposes by these functions from now on; by none, nothing is proposed."""
        self.ghost, self.short = ghost, short
        self.update_suggestion()

    def update_suggestion(self) -> None:
        """Proposes what fits the line with the cursor."""
        self._stands_for = None
        self.suggestion = self._proposal()

    def watch_suggestion(self) -> None:
        """Paints the row with the cursor."""
        self.refresh_lines(self.wrapped_document.location_to_offset(self.cursor_location).y)

    def _render_line(self, y: int) -> Strip:
        whole = self.suggestion
        shown = self._shortened(whole) if whole else ""
        if shown == whole:
            return super()._render_line(y)
        self.set_reactive(ProposingText.suggestion, shown)  # what is drawn; what is proposed stays
        try:
            return super()._render_line(y)
        finally:
            self.set_reactive(ProposingText.suggestion, whole)

    def _shortened(self, suggestion: str) -> str:
        """What of a proposal fits behind the cursor: it ends behind a word, and a sign says that it goes on."""
        x, _ = self.wrapped_document.location_to_offset(self.cursor_location)
        room = self.wrap_width - x
        if cell_len(suggestion) <= room:
            return suggestion
        words = cut_at_word(suggestion, room).removesuffix("…")
        return f"{words}…" if suggestion[len(words)] in " ,;" else "…"

    def _proposal(self) -> str:
        row, column = self.cursor_location
        if self.read_only or not self.selection.is_empty:
            return ""
        line = self.document.get_line(row)
        if column < len(line):
            return ""
        if line.endswith("}"):
            from cockpit.wording.theory import (  # with 10 ms of patterns, which no other line waits for
                answer_rows,
                written_out,
            )

            rows = self.answers if self.answers is not None else answer_rows
            if (stands_for := written_out(line, self.theory, rows)) is not None:
                self._stands_for = stands_for
                return f"{_MEANS}{stands_for[1]}"
        if self.ghost is None:
            return ""
        if self.short is not None and (stands_for := self.short(line)) is not None:
            self._stands_for = stands_for
            return f"{_MEANS}{stands_for[1]}"
        return self.ghost(self.document.lines[:row], line)

    def _watch_selection(self, previous_selection: Selection, selection: Selection) -> None:
        super()._watch_selection(previous_selection, selection)
        if not self._is_edited and (self.suggestion or self.ghost is not None):  # an edit proposes anew when it is made
            self.update_suggestion()

    def action_take_word(self) -> None:
        """Takes the next word of what is proposed; without a proposal, goes to the right."""
        if not self.suggestion:
            self.action_cursor_right()
        elif self._stands_for is not None:
            self.action_take_all()
        else:
            from cockpit.studio.completion.completion import next_word  # there is a proposal: it is loaded

            self._take(next_word(self.suggestion), 0)

    def action_take_all(self) -> None:
        """Takes all that is proposed; without a proposal, a label that the line lacks, or the way to the end of the line.

        Where nothing is typed yet, nothing is taken.
        """
        if not self.document.get_line(self.cursor_location[0]).strip():
            self.action_cursor_line_end()
        elif not self.suggestion:
            if not self._take_label():
                self.action_cursor_line_end()
        elif self._stands_for is not None:
            self._take(self._stands_for[1], self._stands_for[0])
        else:
            self._take(self.suggestion, 0)

    def action_cursor_right(self, select: bool = False) -> None:  # noqa: FBT001, FBT002 Textual's own signature
        """Goes to the right. Textual's own would take a proposal."""
        self.suggestion = ""
        super().action_cursor_right(select)

    def _take_label(self) -> bool:
        """Puts the label before a line that it would make an assignment, at the end of the line; whether there was one."""
        row, column = self.cursor_location
        line = self.document.get_line(row)
        is_at_end = column == len(line) and self.selection.is_empty and not self.read_only
        labeled = self.labeled(row) if self.labeled is not None and is_at_end else None
        if labeled is None:
            return False
        self.replace(labeled, (row, 0), (row, column), maintain_selection_offset=False)
        return True

    def _take(self, text: str, replaced: int) -> None:
        row, column = self.cursor_location
        self.replace(text, (row, column - replaced), (row, column), maintain_selection_offset=False)
