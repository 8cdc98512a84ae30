"""Paints what a change touched, and asks no other part of the screen to draw itself."""

from collections.abc import Iterator

from textual._compositor import Compositor
from textual.geometry import Region
from textual.strip import Strip


class LeanCompositor(Compositor):
    """Textual's own, which for one changed line has every part of its container draw all of its lines.

    It leans on a private module of Textual, which is why that is pinned to one version; a test paints with both and
    compares the screens.
    """

    def _get_renders(self, crop: Region | None = None) -> Iterator[tuple[Region, Region, list[Strip]]]:
        """The parts that `crop` touches, each with the lines in it alone."""
        if crop is None:
            yield from super()._get_renders()
            return
        for widget, (region, clip) in self.visible_widgets.items():
            shown = region.intersection(clip)
            if not shown.overlaps(crop):
                continue
            top, bottom = max(shown.y, crop.y), min(shown.bottom, crop.bottom)
            lines = Region(shown.x, top, shown.width, bottom - top)
            yield region, lines, widget.render_lines(lines.translate((-region.x, -region.y)))
