"""Looks: our own colors by role, out of the bundled themes and the teacher's own."""

import re
from collections.abc import Mapping
from pathlib import Path
from types import MappingProxyType
from typing import TYPE_CHECKING

from cockpit.screens.look.legible import hard_to_read
from cockpit.screens.look.roles import CORNERS, RESTS, ROLES, STROKES, Face, Look, face_variables, tinted
from cockpit.settings.settings import read_table
from cockpit.studio.errors import BadSettings

if TYPE_CHECKING:
    from textual.theme import Theme

# Textual works most of its colors out by mixing; mixed ones are faint on our grounds, so that stock widgets get ours.
_STOCK = {
    "block-cursor-background": "cursor_ground",
    "block-cursor-foreground": "cursor_text",
    "block-cursor-blurred-background": "selection_ground",
    "block-cursor-blurred-foreground": "text",
    "border": "line",
    "border-blurred": "line",
    "footer-background": "notice_ground",
    "footer-foreground": "notice_text",
    "footer-description-foreground": "notice_text",
    "footer-key-foreground": "key",
    "foreground-muted": "quiet",
    "foreground-disabled": "quiet",
    "input-cursor-background": "text",
    "input-cursor-foreground": "pane",
    "input-selection-background": "selection_ground",
    "input-selection-foreground": "text",
    "panel-darken-1": "pane",  # the ground of the palette on a dark theme
    "panel-lighten-1": "notice_ground",  # and of a toast
    "screen-selection-background": "selection_ground",
    "scrollbar": "line",
    "scrollbar-hover": "quiet",
    "scrollbar-active": "title",
    "scrollbar-background": "pane",
    "scrollbar-background-hover": "pane",
    "scrollbar-background-active": "pane",
    "scrollbar-corner-color": "pane",
    "text-muted": "quiet",
    "text-disabled": "quiet",  # the hint in an empty field, among others
    "text-primary": "title",
    "text-secondary": "student",
    "text-accent": "key",
    "text-warning": "warning",
    "text-error": "error",
    "text-success": "finished",
}
_AS_BEFORE = {"asked": "clock_waiting"}  # a role that came later, and the one whose color an older theme gives it
_GONE = frozenset({"booked", "running", "over_time"})  # roles that color nothing any more; older themes have them
_HEX = re.compile(r"#[0-9A-Fa-f]{6}")
_NAME = re.compile(r"[a-z][a-z0-9-]*")
_KEYS = ("name", "title", "is_dark", "colors", "face")
_FACE = {"stroke": STROKES, "corners": CORNERS, "rest": tuple(RESTS)}
_FIRST = "ebony"


def read_look(text: str, source: str) -> Look:
    """A look out of a TOML text; `source` names it in errors.

    Raises:
        BadSettings: the file, the key, what was found and what would work.
    """
    table = read_table(text, source)
    for key in table:
        if key not in _KEYS:
            raise _fault(source, key, "an unknown key", f"one of {', '.join(_KEYS)}")
    name, title, is_dark = table.get("name"), table.get("title"), table.get("is_dark")
    # Textual makes a style class of the name, and would end at the first blank or comma in it.
    if not isinstance(name, str) or not _NAME.fullmatch(name):
        raise _fault(source, "name", name, 'a name in lowercase letters, digits, and hyphens, such as "my-oak"')
    if not isinstance(title, str) or not title.strip():
        raise _fault(source, "title", title, "what the theme is like, in quotes")
    if not isinstance(is_dark, bool):
        raise _fault(source, "is_dark", is_dark, "true or false")
    colors, face = _colors(table.get("colors"), source), _face(table.get("face", {}), source)
    return Look(name=name, title=title.strip(), is_dark=is_dark, colors=colors, face=face)


def _colors(table: object, source: str) -> Mapping[str, str]:
    if not isinstance(table, dict):
        raise _fault(source, "colors", table, "a section [colors]")
    for role in table:
        if role not in ROLES and role not in _GONE:
            raise _fault(source, f"colors.{role}", "an unknown role", f"one of {', '.join(ROLES)}")
    given = {role: table[other] for role, other in _AS_BEFORE.items() if other in table} | table
    for role in ROLES:
        value = given.get(role)
        if not isinstance(value, str) or not _HEX.fullmatch(value):
            raise _fault(source, f"colors.{role}", value, 'a color such as "#1C1A15"')
    return MappingProxyType({role: given[role] for role in ROLES})


def _face(table: object, source: str) -> Face:
    if not isinstance(table, dict):
        raise _fault(source, "face", table, "a section [face]")
    for key, value in table.items():
        if key not in _FACE:
            raise _fault(source, f"face.{key}", "an unknown key", f"one of {', '.join(_FACE)}")
        if value not in _FACE[key]:
            raise _fault(source, f"face.{key}", value, "one of " + ", ".join(f'"{word}"' for word in _FACE[key]))
    return Face(**table)


def _fault(source: str, key: str, found: object, expected: str) -> BadSettings:
    shown = "nothing" if found is None else found
    return BadSettings(f"{source}, {key}: found {shown}. Use {expected}.")


def themes_folder() -> Path:
    """The themes and the style sheet that come with the program: inside the package, or beside it in a checkout."""
    package = Path(__file__).parents[2]
    inside = package / "themes"
    # Inside first: beside an installed package lie other people's folders, and one may be named themes.
    return inside if inside.is_dir() else package.parent / "themes"


def bundled_looks() -> dict[str, Look]:
    """The themes that come with the program, by name; the one to start with is first."""
    folder = themes_folder()
    looks = [read_look(path.read_text(encoding="utf-8"), path.name) for path in sorted(folder.glob("*.toml"))]
    return {look.name: look for look in sorted(looks, key=lambda look: look.name != _FIRST)}


def looks_of(folder: Path | None) -> tuple[dict[str, Look], tuple[str, ...]]:
    """The bundled themes and those of the studio folder, and a sentence for each of hers that cannot be used, or read."""
    looks, sentences = bundled_looks(), []
    for path in sorted((folder / "themes").glob("*.toml")) if folder is not None else ():
        try:
            look = read_look(path.read_text(encoding="utf-8-sig"), str(path))
        except BadSettings as fault:
            sentences.append(str(fault))
        except UnicodeDecodeError as fault:
            sentences.append(f"{path} is not UTF-8 (byte {fault.start + 1}). Save it as UTF-8.")
        except OSError as fault:
            sentences.append(f"{path} could not be read: {fault.strerror}.")
        else:
            looks[look.name] = look
            sentences.extend(filter(None, [hard_to_read(look, str(path))]))
    return looks, tuple(sentences)


def to_textual(look: Look) -> "Theme":
    """The look for Textual: every role as a variable `role-...`, and Textual's own names filled from them."""
    from textual.theme import Theme  # about 120 ms at the first import, and a command that prints needs none of it

    colors = look.colors
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
        variables={f"role-{role.replace('_', '-')}": value for role, value in {**colors, **tinted(look)}.items()}
        | {name: colors[role] for name, role in _STOCK.items()}
        | face_variables(look.face),
    )
