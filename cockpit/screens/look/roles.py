"""The roles that colors play, and a theme as the colors of all of them."""

from collections.abc import Mapping
from dataclasses import dataclass

ROLES = (
    "ground", "pane", "text", "quiet", "line", "title", "student", "clock_running", "clock_wrap_up", "clock_over",
    "clock_waiting", "booked", "running", "over_time", "finished", "absent", "cancelled", "cursor_ground", "cursor_text",
    "selection_ground", "key", "private", "asked", "warning", "error", "notice_ground", "notice_text",
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """A theme: its colors as `#rrggbb`, by role."""

    name: str
    title: str
    is_dark: bool
    colors: Mapping[str, str]


def tinted(look: Look) -> dict[str, str]:
    """The grounds of the band in the wrap-up and over time: a part of the clock's color in the ground, less where it is light."""
    share, ground = 0.20 if look.is_dark else 0.14, look.colors["ground"]
    return {f"{phase}_ground": _mixed(ground, look.colors[f"clock_{phase}"], share) for phase in ("wrap_up", "over")}


def _mixed(first: str, second: str, share: float) -> str:
    """A color with a share of another in it, each channel by itself."""
    channels = ((int(first[at : at + 2], 16), int(second[at : at + 2], 16)) for at in (1, 3, 5))
    return "#" + "".join(f"{round(one + (other - one) * share):02X}" for one, other in channels)
