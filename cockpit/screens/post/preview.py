"""What a family gets, as it will read it, and what of the notes stays with the teacher."""

from collections.abc import Callable, Iterable, Sequence
from pathlib import Path

from textual.containers import VerticalScroll
from textual.content import Content
from textual.geometry import Size
from textual.widget import Widget

from cockpit.desk.post.previewing import Preview
from cockpit.outlets.browser import open_file
from cockpit.screens.commands.commands import Place
from cockpit.screens.look.show import lines_of, role
from cockpit.screens.post.sheet_rows import family_rows, kept_rows
from cockpit.screens.screen import CockpitScreen, Parts, bindings_for


class PreviewPart(Widget):
    """Rows that are drawn for the width that there is."""

    def __init__(self, draw: Callable[[int], Sequence[Content]], id: str) -> None:  # noqa: A002 as there
        super().__init__(id=id)
        self._rows_for = draw

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:  # noqa: ARG002 as there
        """As many rows as there are."""
        return len(self._rows_for(width))

    def render(self) -> Content:
        """The rows."""
        return Content("\n").join(self._rows_for(self.content_size.width))


class PreviewScreen(CockpitScreen):
    """The sheet, and beside or below it what stays with her; the page opens in the browser."""

    PLACE = Place.PREVIEW
    BINDINGS = bindings_for(PLACE)
    HORIZONTAL_BREAKPOINTS = [(0, "-one"), (110, "-beside")]

    def __init__(self, parts: Parts, preview: Preview) -> None:
        super().__init__(parts)
        self._preview = preview

    def body(self) -> Iterable[Widget]:
        """How it goes, the sheet, and what stays with her."""
        preview = self._preview
        facts = Content.styled("\n".join(preview.facts), role("quiet"))
        yield PreviewPart(lambda width: lines_of(facts, width), id="facts")
        with VerticalScroll(id="preview"):
            yield PreviewPart(lambda width: family_rows(preview, width), id="family")
            yield PreviewPart(lambda width: kept_rows(preview, width), id="kept")

    def on_mount(self) -> None:
        """The arrows scroll."""
        self.entitle(self._preview.heading)
        self.query_one(VerticalScroll).focus()

    def action_open_page(self) -> None:
        """Opens the page in the browser."""
        self.attempt(lambda: self.say(_opened(self.desk.previewing.keep_page(self._preview))))


def _opened(path: Path) -> str:
    return f"The page: {path}" if open_file(path) else f"No browser was found here. The page is {path}"
