"""Every command with its keys; choosing one does it."""

from collections.abc import Iterable

from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from cockpit.screens.commands.command import Command, keys_of
from cockpit.screens.look.show import role
from cockpit.screens.textual_parts.fast_compositor import FastScreen
from cockpit.screens.textual_parts.rows import Rows


class HelpScreen(ModalScreen[str], FastScreen[str]):
    """The commands of the screen below; dismissed with the id of the one to do, or with nothing."""

    BINDINGS = [Binding("escape", "close", "Close", priority=True)]

    def __init__(self, commands: Iterable[Command], footnote: str) -> None:
        super().__init__()
        self._commands = tuple(commands)
        self._footnote = footnote

    def compose(self) -> ComposeResult:
        """The list, and what else is good to know."""
        with Vertical(classes="sheet"):
            yield Static("Commands · enter does one · esc", classes="title", markup=False)
            rows = [Option(_row(command), id=command.id) for command in self._commands]
            yield Rows(*rows, Option(Content.styled(f"\n{self._footnote}", role("quiet")), disabled=True), markup=False)

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Does the chosen command."""
        self.dismiss(event.option_id)

    def action_close(self) -> None:
        """Goes back."""
        self.dismiss(None)


def _row(command: Command) -> Content:
    keys = keys_of(command) or "no key"
    return Content.assemble(
        (f"{keys:<14} ", role("key", "bold")), (command.label, "bold"), "\n", (f"  {command.help}", role("quiet"))
    )
