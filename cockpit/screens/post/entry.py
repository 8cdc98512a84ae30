"""One line to type in, and nothing else: an address, a password."""

from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical
from textual.screen import ModalScreen
from textual.widgets import Input, Static

from cockpit.screens.textual_parts.fast_compositor import FastScreen
from cockpit.screens.textual_parts.heading import Heading
from cockpit.screens.textual_parts.search_field import Field


class EntryScreen(ModalScreen[str], FastScreen[str]):
    """Dismissed with what was typed, or with nothing. A secret is never shown."""

    BINDINGS = [Binding("escape", "close", "Close", priority=True)]

    def __init__(self, title: str, footnote: str, *, is_secret: bool = False) -> None:
        super().__init__()
        self._title = title
        self._footnote = footnote
        self._is_secret = is_secret

    def compose(self) -> ComposeResult:
        """A title, the line, what becomes of it."""
        with Vertical(classes="sheet"):
            yield Heading(self._title)
            yield Field(password=self._is_secret)
            yield Static(self._footnote, classes="footnote", markup=False)

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Takes what was typed, if anything was."""
        if event.value.strip():
            self.dismiss(event.value)

    def action_close(self) -> None:
        """Goes back; nothing was changed."""
        self.dismiss(None)
