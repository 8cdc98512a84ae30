"""A letter to one family, to be read and changed before it goes anywhere."""

from dataclasses import dataclass

from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical
from textual.screen import ModalScreen
from textual.widgets import Static, TextArea

from cockpit.screens.textual_parts.fast_compositor import FastScreen
from cockpit.screens.textual_parts.heading import Heading
from cockpit.studio.day.posting import Letter


@dataclass(frozen=True, slots=True, kw_only=True)
class Written:
    """What she wants of a letter: that it is copied, or goes into the outbox; and its text as it is now."""

    text: str
    is_copied: bool


class LetterScreen(ModalScreen[Written], FastScreen[Written]):
    """Dismissed with the text and where it goes, or with nothing. `way` says how the outbox would send it; empty, if not."""

    BINDINGS = [
        Binding("escape", "close", "Close", priority=True),
        Binding("f9", "send", "Put it into the outbox", priority=True),
        Binding("f5", "copy", "Copy it", priority=True),
    ]

    def __init__(self, letter: Letter, way: str) -> None:
        super().__init__()
        self._letter = letter
        self._way = way

    def compose(self) -> ComposeResult:
        """What it is called, whom it is for, its text, and its keys."""
        family = self._letter.family
        with Vertical(classes="sheet letter"):
            yield Heading(self._letter.title)
            yield Static(
                f"To the {family.name} family{f', {self._way}' if self._way else ', for you to copy'}",
                classes="footnote",
                markup=False,
            )
            text = TextArea(self._letter.text, soft_wrap=True, id="text")
            text.cursor_blink = False
            yield text
            send = f"F9 sends it {self._way}   " if self._way else ""
            yield Static(f"{send}F5 copies it   esc leaves it", classes="footnote", markup=False)

    def on_mount(self) -> None:
        """The cursor stands in the text."""
        self.query_one(TextArea).focus()

    def action_send(self) -> None:
        """Puts it into the outbox; where that would not send it, it is copied."""
        self.dismiss(Written(text=self.query_one(TextArea).text, is_copied=not self._way))

    def action_copy(self) -> None:
        """Copies it."""
        self.dismiss(Written(text=self.query_one(TextArea).text, is_copied=True))

    def action_close(self) -> None:
        """Goes back; nothing goes anywhere."""
        self.dismiss(None)
