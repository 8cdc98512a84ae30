"""Paints what a change touched, and asks no other part of the screen to draw itself."""

from collections.abc import Iterator

from rich.segment import Segment
from textual._compositor import Compositor
from textual.geometry import Region
from textual.screen import Screen, ScreenResultType
from textual.strip import Strip

from cockpit.studio.shown import CONTROL


class FastCompositor(Compositor):
    """Textual's own, which for one changed line has every part of its container draw all of its lines.

    Textual writes out what is in a line as it is; here no control character of a name, a file or a server's answer gets to
    the terminal, which would obey it. Such a character has no width, so that the line keeps its own.

    It leans on a private module of Textual, which is why that is pinned to one version; a test paints with both and
    compares the screens.
    """

    def _get_renders(self, crop: Region | None = None) -> Iterator[tuple[Region, Region, list[Strip]]]:
        """The parts that `crop` touches, each with the lines in it alone."""
        for region, clip, strips in super()._get_renders() if crop is None else self._touched(crop):
            yield region, clip, [_harmless(strip) for strip in strips]

    def _touched(self, crop: Region) -> Iterator[tuple[Region, Region, list[Strip]]]:
        for widget, (region, clip) in self.visible_widgets.items():
            shown = region.intersection(clip)
            if not shown.overlaps(crop):
                continue
            top, bottom = max(shown.y, crop.y), min(shown.bottom, crop.bottom)
            lines = Region(shown.x, top, shown.width, bottom - top)
            yield region, lines, widget.render_lines(lines.translate((-region.x, -region.y)))


def _harmless(strip: Strip) -> Strip:
    if not any(map(CONTROL.search, (segment.text for segment in strip))):
        return strip
    segments = [Segment(CONTROL.sub("", part.text), part.style, part.control) for part in strip]
    return Strip(segments, strip.cell_length)


class FastScreen(Screen[ScreenResultType]):
    """A screen that is painted so; every screen of ours is one."""

    def __init__(self, name: str | None = None, id: str | None = None, classes: str | None = None) -> None:  # noqa: A002 as there
        super().__init__(name, id, classes)
        self._compositor = FastCompositor()
