"""A scrollbar that is a thin line, in whole cells."""

from rich.color import Color
from rich.segment import Segment, Segments
from rich.style import Style
from textual.scrollbar import ScrollBar, ScrollBarRender

_LINE = "│"
_BACK = Color.parse("#555555")
_BAR = Color.parse("bright_magenta")


class ThinScrollBar(ScrollBarRender):
    """Where the part that is seen lies, as a line beside it; Textual's own is a block, with parts of cells at its ends."""

    @classmethod
    def render_bar(  # noqa: PLR0913, PLR0917 as there
        cls,
        size: int = 25,
        virtual_size: float = 50,
        window_size: float = 20,
        position: float = 0,
        thickness: int = 1,
        vertical: bool = True,  # noqa: FBT001, FBT002 Textual's own signature
        back_color: Color = _BACK,
        bar_color: Color = _BAR,
    ) -> Segments:
        """The bar in its cells, each of which can be dragged or tapped."""
        if not vertical:
            return super().render_bar(
                size, virtual_size, window_size, position, thickness, vertical, back_color, bar_color
            )
        begins, ends = cls.seen(size, virtual_size, window_size, position)
        cells = []
        for cell in range(size):
            is_seen = begins <= cell < ends
            does = "grab" if is_seen else "scroll_up" if cell < begins else "scroll_down"
            style = Style(color=bar_color, bgcolor=back_color, meta={"@mouse.down": does} if ends else None)
            cells.append(Segment((_LINE if is_seen else " ") * thickness, style))
        return Segments(cells, new_lines=True)

    @staticmethod
    def seen(size: int, virtual_size: float, window_size: float, position: float) -> tuple[int, int]:
        """The first cell of the line, and the one behind its last; none where all is seen."""
        if not size or not window_size or virtual_size <= window_size:
            return 0, 0
        length = max(1, round(size * window_size / virtual_size))
        begins = round((size - length) * min(1.0, max(0.0, position / (virtual_size - window_size))))
        return begins, begins + length


def draw_scrollbars_thin() -> None:
    """Has every scrollbar drawn so."""
    ScrollBar.renderer = ThinScrollBar
