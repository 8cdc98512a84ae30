"""A question with a few answers, each of them a letter."""

from collections.abc import Mapping, Sequence

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
from cockpit.studio.values import Value


class Choice(Value):
    """One of the answers: its letter, its word, what it does, and the `keys` that mean it too."""

    letter: str
    word: str
    does: str
    keys: Sequence[str] = ()


class AskingScreen(ModalScreen[str], FastScreen[str]):
    """Dismissed with the letter of an answer, or with nothing. The first answer is chosen at the beginning."""

    BINDINGS = [Binding("escape", "close", "Close", priority=True)]

    def __init__(self, question: str, answers: Sequence[Choice]) -> None:
        super().__init__()
        self._question = question
        self._answers = answers
        self._by_key: Mapping[str, str] = {key: each.letter for each in answers for key in (each.letter, *each.keys)}

    def compose(self) -> ComposeResult:
        """The question, and its answers with their letters."""
        longest = max(len(each.word) for each in self._answers) + 2
        with Vertical(classes="sheet"):
            yield Heading(self._question)
            yield Rows(*(Option(_row(each, longest), id=each.letter) for each in self._answers), markup=False)

    def on_mount(self) -> None:
        """The first answer is chosen."""
        self.query_one(OptionList).focus()

    def on_key(self, event: Key) -> None:
        """Takes an answer by its letter, or by a key that means it."""
        if event.key in self._by_key:
            event.stop()
            self.dismiss(self._by_key[event.key])

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Takes the answer that was chosen or tapped."""
        self.dismiss(event.option_id)

    def action_close(self) -> None:
        """Goes back; nothing was changed."""
        self.dismiss(None)


def _row(answer: Choice, longest: int) -> Content:
    letter = (answer.letter, role("text", "bold"))
    return Content.assemble(letter, (f"  {answer.word:<{longest}}", role("text")), (answer.does, role("quiet")))
