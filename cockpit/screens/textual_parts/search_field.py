"""A field to type a line in, and the title of a screen that is searched by one."""

from textual.app import ComposeResult
from textual.containers import Horizontal
from textual.content import Content
from textual.reactive import Reactive, reactive
from textual.widgets import Input, Static

from cockpit.screens.look.show import role


class Field(Input):
    """A line to type in. Its cursor stands still: nothing is painted while nothing happens."""

    cursor_blink: Reactive[bool] = reactive(False, init=False)


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
        yield Field(placeholder=self._hint)

    def say(self, said: str) -> None:
        """Shows other words beside the name."""
        self.query_one("#said", Static).update(said)

    @property
    def typed(self) -> str:
        """What is typed."""
        return self.query_one(Field).value
