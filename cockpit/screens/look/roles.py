"""The roles that colors play, and a theme as the colors of all of them."""

from collections.abc import Mapping
from dataclasses import dataclass

ROLES = (
    "ground", "pane", "text", "quiet", "line", "title", "student", "clock_running", "clock_wrap_up", "clock_over",
    "clock_waiting", "booked", "running", "over_time", "finished", "absent", "cancelled", "cursor_ground", "cursor_text",
    "selection_ground", "key", "private", "warning", "error", "notice_ground", "notice_text",
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """A theme: its colors as `#rrggbb`, by role."""

    name: str
    title: str
    is_dark: bool
    colors: Mapping[str, str]
