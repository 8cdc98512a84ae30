"""What a family gets, as it will read it."""

from collections.abc import Iterable
from pathlib import Path

from textual.containers import VerticalScroll
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from cockpit.desk.post.previewing import Preview
from cockpit.outlets.browser import open_file
from cockpit.screens.commands.commands import Place
from cockpit.screens.look.show import role
from cockpit.screens.screen import CockpitScreen, Parts, bindings_for


class PreviewScreen(CockpitScreen):
    """The words of the notes; the page opens in the browser."""

    PLACE = Place.PREVIEW
    BINDINGS = bindings_for(PLACE)

    def __init__(self, parts: Parts, preview: Preview) -> None:
        super().__init__(parts)
        self._preview = preview

    def body(self) -> Iterable[Widget]:
        """To whom it goes, and the words."""
        facts = "\n".join(self._preview.facts)
        words = Static(Content.assemble((f"{facts}\n\n", role("quiet")), self._preview.text), markup=False)
        yield VerticalScroll(words, id="preview")

    def on_mount(self) -> None:
        """The arrows scroll."""
        self.entitle(self._preview.heading)
        self.query_one(VerticalScroll).focus()

    def action_open_page(self) -> None:
        """Opens the page in the browser."""
        self.attempt(lambda: self.say(_opened(self.desk.previewing.keep_page(self._preview))))


def _opened(path: Path) -> str:
    return f"The page: {path}" if open_file(path) else f"No browser was found here. The page is {path}"
