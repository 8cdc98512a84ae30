"""The pages of the guide, and which of them belongs to which place."""

from collections.abc import Mapping
from functools import cache
from importlib import resources

from cockpit.screens.commands.command import Place

PAGES = (
    "first-day", "lesson", "assignments", "calendar", "coming-up", "end-of-day", "sending", "languages",
    "bringing-files-in", "your-data", "privacy", "settings", "keys", "scripts",
)  # fmt: skip

PLACES: Mapping[Place, tuple[str, str]] = {
    Place.EVERYWHERE: ("first-day", ""),
    Place.DAY: ("lesson", ""),
    Place.NOTES: ("lesson", "Notes"),
    Place.LAST: ("assignments", ""),
    Place.QUEUE: ("calendar", ""),
    Place.AHEAD: ("coming-up", ""),
    Place.REVIEW: ("end-of-day", ""),
    Place.WEEK: ("calendar", "The week"),
    Place.YEAR: ("calendar", "The studio year"),
    Place.OUTBOX: ("sending", "The outbox"),
    Place.WAYS: ("sending", "How notes are sent"),
    Place.PREVIEW: ("sending", "The preview"),
}
"""The page of each place, and the heading that Help opens it at; none is its beginning."""


@cache
def page_text(page: str) -> str:
    """A page as Markdown."""
    return (resources.files("cockpit") / "guide" / f"{page}.md").read_text(encoding="utf-8")


@cache
def page_title(page: str) -> str:
    """The title of a page: its first line."""
    return page_text(page).partition("\n")[0].removeprefix("# ")
