"""What became of a lesson that was not begun: taught, absent, or canceled."""

from collections.abc import Sequence

from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical
from textual.content import Content
from textual.events import Key
from textual.screen import ModalScreen
from textual.widgets import OptionList
from textual.widgets.option_list import Option

from cockpit.screens.look.show import role
from cockpit.screens.textual_parts.fast_compositor import FastScreen
from cockpit.screens.textual_parts.heading import Heading
from cockpit.screens.textual_parts.rows import Rows
from cockpit.studio.clocks.words import possessive
from cockpit.studio.lessons.lesson import State
from cockpit.studio.lessons.scheduled import ScheduledLesson

_ANSWERS = {
    "t": (State.FINISHED, "Taught", "finishes the lesson"),
    "a": (State.ABSENT, "Absent", "the student did not come"),
    "c": (State.CANCELLED, "Canceled", "in time or late, by your notice period"),
}


class BecameScreen(ModalScreen[State], FastScreen[State]):
    """Dismissed with FINISHED, ABSENT, or CANCELLED, or with nothing. The keys that finish a lesson mean taught."""

    BINDINGS = [Binding("escape", "close", "Close", priority=True)]

    def __init__(self, booking: ScheduledLesson, finish: Sequence[str]) -> None:
        super().__init__()
        self._booking = booking
        self._finish = finish

    def compose(self) -> ComposeResult:
        """The question, and its three answers with their letters."""
        with Vertical(classes="sheet"):
            whose = possessive(self._booking.student.name)
            yield Heading(f"{whose} lesson was not begun. What became of it?")
            yield Rows(*(Option(_row(letter), id=letter) for letter in _ANSWERS), markup=False)

    def on_mount(self) -> None:
        """The first answer is chosen."""
        self.query_one(OptionList).focus()

    def on_key(self, event: Key) -> None:
        """Takes an answer by its letter."""
        letter = "t" if event.key in self._finish else event.key
        if letter in _ANSWERS:
            event.stop()
            self.dismiss(_ANSWERS[letter][0])

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Takes the answer that was chosen or tapped."""
        self.dismiss(_ANSWERS[event.option_id or ""][0])

    def action_close(self) -> None:
        """Goes back; nothing was changed."""
        self.dismiss(None)


def _row(letter: str) -> Content:
    _, word, means = _ANSWERS[letter]
    return Content.assemble((letter, role("text", "bold")), (f"  {word:<10}", role("text")), (means, role("quiet")))
