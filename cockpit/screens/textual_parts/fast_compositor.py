"""Paints what a change touched, and asks no other part of the screen to draw itself."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import chain
from typing import TYPE_CHECKING

from rich.segment import Segment
from textual._compositor import ChopsUpdate, Compositor, LayoutUpdate
from textual.content import Content
from textual.events import ScreenResume
from textual.geometry import Region
from textual.screen import Screen, ScreenResultType
from textual.strip import Strip
from textual.widget import Widget

from cockpit.screens.look.show import differing_columns
from cockpit.screens.textual_parts.changed_cells import ChangedCells, Part
from cockpit.studio.shown import CONTROL, without

if TYPE_CHECKING:
    from rich.console import Console


class FastCompositor(Compositor):
    """Textual's own, which for one changed line has every part of its container draw all of its lines.

    Textual writes out what is in a line as it is; here no control character of a name, a file or a server's answer gets to
    the terminal, which would obey it. Such a character has no width, so that the line keeps its own.

    It leans on a private module of Textual, which is why that is pinned to one version; a test paints with both and
    compares the screens.
    """

    def __init__(self) -> None:
        super().__init__()
        self.shown = ChangedCells()
        self._spans: Mapping[
            int, tuple[int, int]
        ] = {}  # of each row that has changed since it was painted last, from where to where

    def _get_renders(self, crop: Region | None = None) -> Iterator[tuple[Region, Region, list[Strip]]]:
        """The parts that `crop` touches, each with the lines in it alone."""
        for region, clip, strips in super()._get_renders() if crop is None else self._touched(crop):
            yield region, clip, [_harmless(strip) for strip in strips]

    def render_partial_update(self) -> ChopsUpdate | None:
        """What has changed since it was painted last; None where nothing has."""
        self._spans = _spans_of(self._dirty_regions)
        update = super().render_partial_update()
        self._spans = {}
        if update is None:
            return None
        changes = _Changes(update.chops, update.spans, update.chop_ends)
        changes.shown = self.shown
        return changes

    def render_full_update(self, simplify: bool = False) -> LayoutUpdate:  # noqa: FBT001, FBT002 as there
        """The whole screen."""
        update = super().render_full_update(simplify)
        whole = _Whole([list(strips) for strips in update.strips], update.region)
        whole.shown = self.shown
        return whole

    def _touched(self, crop: Region) -> Iterator[tuple[Region, Region, list[Strip]]]:
        """Each part that `crop` touches, with the lines in it; of a change, with those alone that changed and that no part before it covers."""
        open_rows = dict(self._spans) or dict.fromkeys(crop.line_range, crop.column_span)
        for widget, (region, clip) in self.visible_widgets.items():
            shown = region.intersection(clip)
            if not open_rows:
                break
            rows = [row for row in shown.line_range if row in open_rows] if shown.overlaps(crop) else []
            for top, bottom in _stretches(rows):
                lines = Region(shown.x, top, shown.width, bottom - top)
                yield region, lines, widget.render_lines(lines.translate((-region.x, -region.y)))
            for row in rows:
                left, right = open_rows[row]
                if shown.x <= left and right <= shown.right:
                    del open_rows[row]


def _spans_of(regions: Iterable[Region]) -> dict[int, tuple[int, int]]:
    """Of each row that some regions touch, the column of the first cell in them and the one behind the last."""
    spans: dict[int, tuple[int, int]] = {}
    for region in regions:
        for row in region.line_range:
            left, right = spans.get(row, region.column_span)
            spans[row] = min(left, region.x), max(right, region.right)
    return spans


def _stretches(rows: Sequence[int]) -> list[tuple[int, int]]:
    """Rows in order as stretches, each with the row behind its last."""
    begun = [row for at, row in enumerate(rows) if at == 0 or rows[at - 1] != row - 1]
    ended = [row + 1 for at, row in enumerate(rows, 1) if at == len(rows) or rows[at] != row + 1]
    return list(zip(begun, ended, strict=True))


def _harmless(strip: Strip) -> Strip:
    if all(CONTROL.isdisjoint(part.text) for part in strip):
        return strip
    segments = [Segment(without(CONTROL, part.text), part.style, part.control) for part in strip]
    return Strip(segments, strip.cell_length)


class _Changes(ChopsUpdate):
    """Writes the cells that changed; Textual writes each part of a line that was touched."""

    shown: ChangedCells

    def render_segments(self, console: "Console") -> str:
        """What the terminal is to be told."""
        return self.shown.written(console, self._parts())

    def _parts(self) -> Iterator[Part]:
        for y, begins, ends in self.spans:
            for end, (x, strip) in zip(self.chop_ends[y], self.chops[y].items(), strict=False):
                first, last = max(x, begins), min(end, ends)
                if strip is not None and first < last:
                    yield first, y, strip.crop(first - x, last - x)


class _Whole(LayoutUpdate):
    """Writes every cell, so that nothing stays of what another program wrote."""

    shown: ChangedCells

    def render_segments(self, console: "Console") -> str:
        """What the terminal is to be told."""
        self.shown.forget()
        return self.shown.written(console, self._parts())

    def _parts(self) -> Iterator[Part]:
        for y, strips in enumerate(self.strips):
            x = 0
            for strip in strips:
                yield x, y, strip
                x += strip.cell_length


def refresh_changed(widget: Widget, before: Sequence[Content], after: Sequence[Content]) -> None:
    """Has a widget paint the columns in which its rows differ from those before; all of it where their number does."""
    for row, (old, new) in enumerate(zip(before, after, strict=False)):
        if (columns := differing_columns(old, new)) is not None:
            widget.refresh(Region(columns[0], row, columns[1] - columns[0], 1))
    if len(before) != len(after):
        widget.refresh()


class FastScreen(Screen[ScreenResultType]):
    """A screen that is painted so; every screen of ours is one.

    Below one that `COVERS` all, nothing is painted: Textual would paint the top one again, whole, at each tick of a clock
    and each blink of a cursor below it.
    """

    COVERS = False
    _was_shown = False

    def __init__(self, name: str | None = None, id: str | None = None, classes: str | None = None) -> None:  # noqa: A002 as there
        super().__init__(name, id, classes)
        self._compositor: FastCompositor = FastCompositor()

    def fit(self) -> None:
        """Sets the classes of its size before anything in it is styled; Textual does so after a first picture."""
        sizes = (self.app.size.width, self.HORIZONTAL_BREAKPOINTS), (self.app.size.height, self.VERTICAL_BREAKPOINTS)
        fitting = [[name for least, name in breakpoints or () if least <= size][-1:] for size, breakpoints in sizes]
        self.add_class(*chain.from_iterable(fitting))

    def on_screen_resume(self, event: ScreenResume) -> None:
        """Spares a screen that comes for the first time a second styling of all its parts, which were styled as they came."""
        event.refresh_styles = event.refresh_styles and self._was_shown
        self._was_shown = True

    def on_screen_suspend(self) -> None:
        """Another screen is painted over this one."""
        self._compositor.shown.forget()

    def tell_time(self) -> None:
        """Shows what depends on the time of day; called once a second, also before its parts are there."""

    def _compositor_refresh(self) -> None:
        """Paints what has changed, where it can be seen; a screen that comes to the top is painted whole in any case."""
        top = self.app.screen
        waits = self._repaint_required if top is self else isinstance(top, FastScreen) and top.COVERS
        if not waits:
            super()._compositor_refresh()
