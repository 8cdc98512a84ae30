"""Whether a theme can be read: the contrast of each text with every ground that it stands on."""

from cockpit.screens.look.roles import ROLES, Look, tinted

LEAST = 4.5
"""The least contrast of a text with its ground (WCAG 2.2, success criterion 1.4.3, level AA)."""
GROUNDS = frozenset({"ground", "pane", "cursor_ground", "selection_ground", "notice_ground"})
ON_THEIR_OWN_GROUND = {"cursor_text": "cursor_ground", "notice_text": "notice_ground"}
ON_GROUND = tuple(role for role in ROLES if role not in GROUNDS | {"line"} | ON_THEIR_OWN_GROUND.keys())
PAIRS = (
    *((role, ground) for role in ON_GROUND for ground in ("ground", "pane")),
    *ON_THEIR_OWN_GROUND.items(),
    ("key", "notice_ground"),
    *((role, "selection_ground") for role in ("text", "quiet", "private")),
    *((role, f"{phase}_ground") for phase in ("wrap_up", "over") for role in ("text", f"clock_{phase}")),
)


def contrast(first: str, second: str) -> float:
    """The contrast ratio, 1 to 21, of two sRGB colors written `#rrggbb`; never rounded.

    By the formula of WCAG 2.2 (w3.org/TR/WCAG22, relative luminance and contrast ratio).
    """
    lighter, darker = sorted((_luminance(first), _luminance(second)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def hard_to_read(look: Look, source: str) -> str | None:
    """A sentence on the faintest text of a look that is hard to read; None where all can be read."""
    colors = {**look.colors, **tinted(look)}
    ratios = {pair: contrast(*(colors[role] for role in pair)) for pair in PAIRS}
    faint = sorted((ratio, pair) for pair, ratio in ratios.items() if ratio < LEAST)
    if not faint:
        return None
    ratio, (role, ground) = faint[0]
    more = (
        f" {len(faint) - 1} more are too faint."
        if len(faint) > 2
        else " One more is too faint."
        if len(faint) > 1
        else ""
    )
    # Cut, never rounded up: 4.49 must not be told as 4.5.
    said = f"The contrast of {role} on {ground} is {int(ratio * 10) / 10}; it must be at least {LEAST}.{more}"
    return f"{source} is hard to read. {said}"


def _luminance(color: str) -> float:
    red, green, blue = (_linear(int(color[at : at + 2], 16) / 255) for at in (1, 3, 5))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def _linear(channel: float) -> float:
    return channel / 12.92 if channel <= 0.04045 else ((channel + 0.055) / 1.055) ** 2.4
