"""The clock of a family that moves house: as one text, and with a move more, another, or none.

The text is the same in the database, in a roster, and in an export: `America/Phoenix; America/Denver from 2027-03-01`,
with ` to ` and the last day behind a stay that ends.
"""

from collections.abc import Iterable
from datetime import date
from zoneinfo import ZoneInfo

from cockpit.studio.clocks.home import Home, Stay
from cockpit.studio.clocks.moments import Zone, parted

BETWEEN, FROM, TO = "; ", " from ", " to "


def clock_text(zone: Zone) -> str:
    """A clock as its text; that of one zone is the zone's name alone."""
    first, stays = parted(zone)
    said = (
        f"{stay.zone}{FROM}{stay.from_on}" + (f"{TO}{stay.until_on}" if stay.until_on is not None else "")
        for stay in stays
    )
    return BETWEEN.join((first, *said))


def clock_in(text: str) -> Zone:
    """The clock of a text that `clock_text` wrote.

    Raises:
        ValueError: it is no such text.
        ZoneInfoNotFoundError: a stay is in no zone that there is.
    """
    if ";" not in text:
        return text
    first, *others = text.split(BETWEEN)
    return Home(zone=first, stays=tuple(map(_stay_in, others)))


def clock_of(first: str, stays: Iterable[Stay]) -> Zone:
    """The clock of a first zone and of the stays that change it."""
    kept: list[Stay] = []
    for stay in sorted(stays, key=lambda each: each.from_on):
        if Home(zone=first, stays=tuple(kept)).lesson_zone_on(stay.from_on) != stay.zone:
            kept.append(stay)
    return Home(zone=first, stays=tuple(kept)) if kept else first


def zones_of(zone: Zone) -> tuple[str, ...]:
    """The IANA zones that a clock ever shows, in the order of their first days."""
    first, stays = parted(zone)
    return tuple(dict.fromkeys((first, *(stay.zone for stay in stays))))


def with_stay(zone: Zone, stay: Stay, today: date) -> Zone:
    """A clock with one more move or stay.

    It takes the place of the one that begins on the same day, and of one to the same place that is still to come: its
    days were other ones. What would be a move to where they live already is none.
    """
    first, stays = parted(zone)
    kept = (each for each in stays if each.from_on != stay.from_on and not _is_to_come_like(each, stay, today))
    return clock_of(first, (*kept, stay))


def without_stays_to_come(zone: Zone, today: date) -> Zone:
    """A clock without the moves and stays that begin after a date."""
    first, stays = parted(zone)
    return clock_of(first, (each for each in stays if each.from_on <= today))


def agreed(known: Zone, said: Zone) -> Zone:
    """The clock of a family where somebody says it again: one place of theirs, without a date, says nothing of their moves."""
    return known if isinstance(said, str) and said in zones_of(known) else said


def _is_to_come_like(each: Stay, stay: Stay, today: date) -> bool:
    return each.from_on > today and each.zone == stay.zone and (each.until_on is None) == (stay.until_on is None)


def _stay_in(text: str) -> Stay:
    zone, begins, days = text.partition(FROM)
    from_on, _, until_on = days.partition(TO)
    if not begins:
        raise ValueError(f"no stay: {text}")
    stay = Stay(
        zone=zone,
        from_on=date.fromisoformat(from_on),
        until_on=date.fromisoformat(until_on) if until_on else None,
    )
    ZoneInfo(zone)  # a far day must not be the first to find that there is no such zone
    return stay
