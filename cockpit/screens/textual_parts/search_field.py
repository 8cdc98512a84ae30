"""The title of a screen that is searched, with the field to type in."""

from textual.app import ComposeResult
from textual.containers import Horizontal
from textual.content import Content
from textual.widgets import Input, Static

from cockpit.screens.look.show import role


class SearchField(Horizontal):
    """Which screen this is, in capitals, what it shows, and the field."""

    def __init__(self, name: str, hint: str, said: str = "") -> None:
        super().__init__()
        self._where = name.upper()
        self._hint = hint
        self._said = said

    def compose(self) -> ComposeResult:
        """The name, the words, the field."""
        yield Static(Content.styled(self._where, role("text", "bold")))
        if self._said:
            yield Static(self._said, id="said", markup=False)
        yield Input(placeholder=self._hint)

    @property
    def typed(self) -> str:
        """What is typed."""
        return self.query_one(Input).value
