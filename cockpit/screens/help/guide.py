"""The pages of the guide."""

from functools import cache
from importlib import resources
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from cockpit.screens.help.markdown import Section

PAGES = (
    "first-day", "lesson", "assignments", "theory", "calendar", "roster", "coming-up", "looking-back", "inquiries", "recital", "end-of-day", "sending", "languages",
    "bringing-files-in", "your-data", "privacy", "settings", "keys", "scripts",
)  # fmt: skip


@cache
def page_text(page: str) -> str:
    """A page as Markdown."""
    return (resources.files("cockpit") / "guide" / f"{page}.md").read_text(encoding="utf-8")


@cache
def page_sections(page: str) -> "list[Section]":
    """The parts of a page."""
    from cockpit.screens.help.markdown import (
        sections_of,
    )  # with Markdown, which who asks for a text alone does not need

    return sections_of(page_text(page))


@cache
def page_title(page: str) -> str:
    """The title of a page: its first line."""
    return page_text(page).partition("\n")[0].removeprefix("# ")
