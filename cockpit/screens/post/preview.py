"""What a family gets, as it will read it."""

from collections.abc import Iterable
from pathlib import Path

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from cockpit.desk.post.previewing import Previewing
from cockpit.outlets.browser import open_file
from cockpit.screens.base import CockpitScreen, bindings_for
from cockpit.screens.commands.command import Command, Where
from cockpit.screens.commands.commands import COMMANDS
from cockpit.screens.look.show import role
from cockpit.screens.textual_parts.widgets import KeyStrip, Notice
from cockpit.studio.post.preview import Preview

_STRIP = ("preview.open_page", "preview.close", "app.show_help", "app.command_palette", "app.quit")


class PreviewScreen(CockpitScreen):
    """The words of the notes; the page opens in the browser."""

    BINDINGS = bindings_for(Where.PREVIEW)

    def __init__(self, preview: Preview, previewing: Previewing, commands: tuple[Command, ...] = COMMANDS) -> None:
        super().__init__()
        self._preview = preview
        self._previewing = previewing
        self._commands = {command.id: command for command in commands}

    def compose(self) -> ComposeResult:
        """The subject, to whom, and the words."""
        yield Static(self._preview.heading, classes="title", markup=False)
        with VerticalScroll(id="preview"):
            facts = "\n".join(self._preview.facts)
            yield Static(Content.assemble((f"{facts}\n\n", role("quiet")), self._preview.text), markup=False)
        yield Notice()
        yield KeyStrip([self._commands[name] for name in _STRIP])

    def on_mount(self) -> None:
        """The arrows scroll."""
        self.query_one(VerticalScroll).focus()

    def commands_here(self) -> Iterable[Command]:
        """What can be done here."""
        return [c for c in self._commands.values() if c.where in {Where.EVERYWHERE, Where.PREVIEW}]

    def action_open_page(self) -> None:
        """Opens the page in the browser."""
        self.attempt(lambda: self.say(_opened(self._previewing.keep_page(self._preview))))

    def action_close(self) -> None:
        """Goes back."""
        self.dismiss(None)


def _opened(path: Path) -> str:
    return f"The page: {path}" if open_file(path) else f"No browser is at hand here. The page: {path}"
