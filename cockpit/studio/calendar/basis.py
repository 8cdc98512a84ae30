"""What the calendar for others hangs on beside the records: the teacher's clock, and the studio year that it begins with."""

from datetime import date

from cockpit.studio.clocks.moments import Zone


def calendar_basis(home_zone: Zone, year_begins_on: date) -> str:
    """A text that is another one when a weekly time on her clock can mean other moments, or its series begins anew."""
    if isinstance(home_zone, str):
        return f"{year_begins_on}; {home_zone}"
    stays = (f"{stay.zone} from {stay.from_on} until {stay.until_on}" for stay in home_zone.stays)
    return "; ".join((str(year_begins_on), home_zone.zone, *stays))
