"""A recital or an item as the line that says all of it, to be changed: what she takes out of the line is taken away."""

from datetime import datetime

from cockpit.studio.changes.recital import PinnedTo, Recital, RecitalItem
from cockpit.studio.clocks.moments import WEEKDAYS
from cockpit.studio.clocks.words import clock_time, month_and_day
from cockpit.studio.recital.lengths import length_words
from cockpit.studio.values import replace


def recital_again(recital: Recital, hours: int) -> str:
    """A recital as a line; `hours` are those of the teacher's clock."""
    limit = recital.minutes_limit
    parts = (
        _labelled("name", recital.name),
        time_to_type(datetime.combine(recital.held_on, recital.at), hours),
        _labelled("theme", recital.theme),
        "online" if recital.is_online else None,
        _labelled("place", recital.place),
        f"{limit}m" if limit is not None else None,
        f"changeover {length_words(recital.changeover)}",
        f"opening {length_words(recital.opening_seconds)}" if recital.opening_seconds else None,
        f"closing {length_words(recital.closing_seconds)}" if recital.closing_seconds else None,
        f"link {recital.link}" if recital.link else None,
    )
    return ", ".join(filter(None, parts))


def bare_recital(recital: Recital) -> Recital:
    """A recital without what its line says, but for its name and its moment, which each has."""
    return replace(
        recital, theme=None, place=None, link=None, minutes_limit=None, is_online=False, opening_seconds=0,
        closing_seconds=0,
    )  # fmt: skip


def item_again(item: RecitalItem, behind: str | None, hours: int) -> str:
    """An item as a line; `behind` is the one that it is pinned after. A length that was worked out is not said."""
    parts = (
        _labelled("piece", item.piece),
        length_words(item.seconds) if item.seconds is not None and not item.is_computed else None,
        _labelled("composer", item.composer),
        _labelled("on", item.instrument),
        _labelled("with", item.with_whom),
        _labelled("costume", item.costume),
        _labelled("prop", item.props),
        _labelled("story", item.story),
        _labelled("enters", item.enters),
        _labelled("shown as", item.shown_as),
        _pinned(item, behind, hours),
        _labelled("note", item.note),
    )
    return ", ".join(filter(None, parts))


def bare_item(item: RecitalItem) -> RecitalItem:
    """An item without what its line says, but for its piece and its instrument, which each has."""
    return replace(
        item, seconds=None, is_computed=False, composer=None, with_whom=None, costume=None, props=None, story=None,
        enters=None, shown_as=None, pin=None, pinned_after=None, pinned_before=None, note=None,
    )  # fmt: skip


def time_to_type(at: datetime, hours: int) -> str:
    """A day and a time as they are typed: `sat december 19 2026 12:00 pm`."""
    return f"{WEEKDAYS[at.weekday()][:3].lower()} {month_and_day(at.date()).lower()} {at.year} {clock_time(at, hours)}"


def _labelled(label: str, words: str | None) -> str | None:
    """A part with its label; its words in quotes where a sign in them would end it."""
    if not words:
        return None
    return f'{label} "{words}"' if '"' not in words and any(sign in words for sign in ",;") else f"{label} {words}"


def _pinned(item: RecitalItem, behind: str | None, hours: int) -> str | None:
    match item.pin:
        case PinnedTo.FIRST | PinnedTo.LAST:
            return str(item.pin)
        case PinnedTo.AFTER:
            return f"after {behind}" if behind else None
        case PinnedTo.BEFORE:
            return f"before {clock_time(item.pinned_before, hours)}" if item.pinned_before is not None else None
        case None:
            return None
