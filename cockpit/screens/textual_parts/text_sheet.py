"""A text on a sheet over the screen, to be read and changed."""

from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical
from textual.screen import ModalScreen, ScreenResultType
from textual.widgets import Static, TextArea

from cockpit.screens.textual_parts.fast_compositor import FastScreen
from cockpit.screens.textual_parts.heading import Heading


class TextSheet(ModalScreen[ScreenResultType], FastScreen[ScreenResultType]):
    """Its title, what it is about, the text, and what the keys do. A text that was changed is not left by one key alone."""

    BINDINGS = [Binding("escape", "close", "Close", priority=True)]

    def __init__(self, title: str, about: str, text: str, keys: str) -> None:
        super().__init__()
        self._title = title
        self._about = about
        self._text = text
        self._keys = keys
        self._is_sure = False

    def compose(self) -> ComposeResult:
        """All of it, from top to bottom."""
        with Vertical(classes="sheet letter"):
            yield Heading(self._title)
            yield Static(self._about, classes="footnote", markup=False)
            text = TextArea(self._text, soft_wrap=True, id="text")
            text.cursor_blink = False
            yield text
            yield Static(self._keys, id="text-keys", classes="footnote", markup=False)

    def on_mount(self) -> None:
        """The cursor stands in the text."""
        self.query_one(TextArea).focus()

    @property
    def text(self) -> str:
        """The text as it is now."""
        return self.query_one(TextArea).text

    def action_close(self) -> None:
        """Goes back; asks once where something was typed."""
        if self.text != self._text and not self._is_sure:
            self._is_sure = True
            self.query_one("#text-keys", Static).update(
                "What you typed is lost if you leave. Press esc again to leave."
            )
        else:
            self.dismiss(None)
