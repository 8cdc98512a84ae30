"""A small picture of the tempos that a piece was heard at, as SVG that needs nothing else and is read without colors."""

from collections.abc import Sequence
from fractions import Fraction
from html import escape

from cockpit.studio.pieces.history import PieceHearing

_WIDTH, _HEIGHT, _EDGE = 160, 40, 5


def tempo_plot(hearings: Sequence[PieceHearing], goal: Fraction | None, title: str, words: str) -> str:
    """The picture: a dot for each hearing, a line through them, and a broken line at the `goal` (quarters a minute).

    `title` and `words` say the same to those who do not see it. Dots are as far apart as the days between them.
    """
    tempos = [each.quarters for each in hearings]
    scale = (*tempos, goal) if goal is not None else tempos
    low, high = min(scale), max(scale)
    first, days = hearings[0].on, (hearings[-1].on - hearings[0].on).days
    dots = [
        (
            _at(Fraction((each.on - first).days, days) if days else Fraction(1, 2), _WIDTH),
            _up(each.quarters, low, high),
        )
        for each in hearings
    ]
    line = " ".join(f"{x},{y}" for x, y in dots)
    at_goal = _up(goal, low, high) if goal is not None else ""
    parts = [
        f'<line x1="0" y1="{at_goal}" x2="{_WIDTH}" y2="{at_goal}" stroke="currentColor" stroke-dasharray="4 3"/>'
        if goal is not None
        else "",
        f'<polyline points="{line}" fill="none" stroke="currentColor" stroke-width="2"/>',
        *(f'<circle cx="{x}" cy="{y}" r="3" fill="currentColor"/>' for x, y in dots),
    ]
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" viewBox="0 0 {_WIDTH} {_HEIGHT}">'
        f"<title>{escape(title)}</title><desc>{escape(words)}</desc>{''.join(parts)}</svg>"
    )


def _up(tempo: Fraction, low: Fraction, high: Fraction) -> str:
    share = (tempo - low) / (high - low) if high > low else Fraction(1, 2)
    return _at(1 - share, _HEIGHT)


def _at(share: Fraction, length: int) -> str:
    return f"{float(_EDGE + share * (length - 2 * _EDGE)):.1f}"
