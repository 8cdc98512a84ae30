"""Signs out of ASCII, for a terminal that draws others over two cells: East Asian width, which Unicode leaves to it (UAX #11)."""

from rich.segment import Segment
from textual.color import Color
from textual.filter import LineFilter

_SIGNS = {
    "●": "*", "○": "o", "◐": "%", "▶": ">", "×": "x", "›": "}", "▒": "#", "»": "=", "╱": "/", "±": "+", "┊": ".",
    "·": ".", "…": "~", "–": "-", "−": "-", "’": "'", "←": "<", "→": ">",
    "─": "-", "━": "=", "╌": "-", "┄": "-", "┈": ".", "┃": "|", "│": "|", "┼": "|", "┿": "|", "┤": "|", "┥": "|", "├": "|",
    "┨": "|", "┠": "|", "╂": "|", "┴": "-", "┸": "|", "□": "o", "┐": "|", "┘": "|", "└": "|", "╻": "|", "╹": "|", "╵": "|",
    "█": "#", "▀": '"', "▄": "_",
    **dict.fromkeys("▁▂▃", "_"), **dict.fromkeys("▅▆▇", "#"), **dict.fromkeys("▉▊▋▌▍▎▏▐▕", "|"), "▔": "-",
}  # fmt: skip
_ASCII = str.maketrans(_SIGNS)


class AsciiSigns(LineFilter):
    """Draws each sign of ours as the ASCII one of the same meaning; what was typed stays, but for such signs in it."""

    def apply(self, segments: list[Segment], background: Color) -> list[Segment]:  # noqa: ARG002 as there
        """A line with its signs exchanged; each takes one cell, as before."""
        return [
            segment
            if segment.text.isascii()
            else Segment(segment.text.translate(_ASCII), segment.style, segment.control)
            for segment in segments
        ]
