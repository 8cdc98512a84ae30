"""Looks: our own colors by role, out of the bundled themes and the teacher's own."""

import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from importlib import resources
from pathlib import Path
from typing import TYPE_CHECKING

from cockpit.studio.errors import BadSettings

if TYPE_CHECKING:
    from textual.theme import Theme

ROLES = (
    "ground", "pane", "text", "quiet", "line", "title", "student", "clock_running", "clock_wrap_up", "clock_over",
    "clock_waiting", "booked", "running", "over_time", "finished", "absent", "cancelled", "cursor_ground", "cursor_text",
    "selection_ground", "key", "private", "warning", "error", "notice_ground", "notice_text",
)  # fmt: skip
_HEX = re.compile(r"#[0-9A-Fa-f]{6}")
_FIRST = "ebony"


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """A theme: its colors as `#rrggbb`, by role."""

    name: str
    title: str
    is_dark: bool
    colors: Mapping[str, str]


def read_look(text: str, source: str) -> Look:
    """A look out of a TOML text; `source` names it in errors.

    Raises:
        BadSettings: the file, the key, what was found and what would work.
    """
    try:
        table = tomllib.loads(text)
    except tomllib.TOMLDecodeError as fault:
        raise BadSettings(f"{source} is not readable as TOML: {fault}.") from fault
    name, title, is_dark = table.get("name"), table.get("title", ""), table.get("is_dark")
    if not isinstance(name, str) or not name:
        raise BadSettings(f"{source}, name: found {name!r}, expected the theme's name in quotes.")
    if not isinstance(is_dark, bool):
        raise BadSettings(f"{source}, is_dark: found {is_dark!r}, expected true or false.")
    return Look(name=name, title=str(title), is_dark=is_dark, colors=_colors(table.get("colors"), source))


def _colors(table: object, source: str) -> Mapping[str, str]:
    if not isinstance(table, dict):
        raise BadSettings(f"{source}, colors: found {table!r}, expected a section [colors].")
    for role in table:
        if role not in ROLES:
            raise BadSettings(f"{source}, colors: found {role}, expected one of {', '.join(ROLES)}.")
    for role in ROLES:
        value = table.get(role)
        if not isinstance(value, str) or not _HEX.fullmatch(value):
            found = "nothing" if value is None else repr(value)
            raise BadSettings(f'{source}, colors.{role}: found {found}, expected a color such as "#1C1A15".')
    return dict(table)


def bundled_looks() -> dict[str, Look]:
    """The themes that come with the program; the one to start with is first."""
    package = Path(str(resources.files("cockpit")))
    beside = package.parent / "themes"
    folder = beside if beside.is_dir() else package / "themes"
    looks = [read_look(path.read_text(encoding="utf-8"), path.name) for path in sorted(folder.glob("*.toml"))]
    return {look.name: look for look in sorted(looks, key=lambda look: look.name != _FIRST)}


def looks_of(folder: Path) -> tuple[dict[str, Look], tuple[str, ...]]:
    """The bundled themes and those of the studio folder, and a sentence for each of hers that cannot be used."""
    looks, sentences = bundled_looks(), []
    for path in sorted((folder / "themes").glob("*.toml")):
        try:
            look = read_look(path.read_text(encoding="utf-8-sig"), str(path))
        except (BadSettings, OSError, UnicodeDecodeError) as fault:
            sentences.append(str(fault))
        else:
            looks[look.name] = look
    return looks, tuple(sentences)


def to_textual(look: Look) -> "Theme":
    """The look for Textual: every role as a variable `role-...`, and Textual's own names filled from them."""
    from textual.theme import Theme  # with the screens only

    colors = look.colors
    variables = {f"role-{role.replace('_', '-')}": value for role, value in colors.items()}
    variables |= {
        "block-cursor-background": colors["cursor_ground"],
        "block-cursor-foreground": colors["cursor_text"],
        "input-selection-background": colors["selection_ground"],
        "border": colors["line"],
        "scrollbar": colors["line"],
        "scrollbar-background": colors["pane"],
        "text-muted": colors["quiet"],
    }
    return Theme(
        name=look.name,
        primary=colors["title"],
        secondary=colors["student"],
        background=colors["ground"],
        surface=colors["pane"],
        panel=colors["notice_ground"],
        foreground=colors["text"],
        warning=colors["warning"],
        error=colors["error"],
        success=colors["finished"],
        accent=colors["key"],
        dark=look.is_dark,
        variables=variables,
    )
