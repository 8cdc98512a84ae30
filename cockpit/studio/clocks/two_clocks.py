"""A moment on the teacher's clock and on a family's: whether they differ, and how to say it."""

from datetime import datetime

from cockpit.studio.clocks.moments import WEEKDAYS, Zone, local_time
from cockpit.studio.clocks.words import city, clock_time


def family_time(starts_at: datetime, home_zone: Zone, family_zone: str, hours: int) -> str | None:
    """A UTC moment on the family's clock where that shows another time than the teacher's, else None.

    With the city, and with the weekday where the day differs too: `2:00 pm Phoenix`, `Wed 3:30 am Kolkata`.
    Zones are IANA names; `hours` is 12 or 24.
    """
    ours = local_time(starts_at, home_zone).replace(tzinfo=None)
    theirs = local_time(starts_at, family_zone).replace(tzinfo=None)
    if ours == theirs:
        return None
    day = "" if ours.date() == theirs.date() else f"{WEEKDAYS[theirs.weekday()][:3]} "
    return f"{day}{clock_time(theirs, hours)} {city(family_zone)}"
