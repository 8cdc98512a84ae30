"""The calendar's part of the desk."""

from dataclasses import dataclass

from cockpit.desk.calendar.ahead import LookingAhead
from cockpit.desk.calendar.arranging import Arranging
from cockpit.desk.calendar.lines import Lines
from cockpit.desk.ports import Clock, Folder, Printer, Reading
from cockpit.desk.steps import Steps
from cockpit.studio.preferences import Preferences


@dataclass(frozen=True, slots=True, kw_only=True)
class CalendarDesk:
    """What lies ahead, and what can be arranged."""

    ahead: LookingAhead
    arranging: Arranging


def calendar_desk(
    reading: Reading, steps: Steps, clock: Clock, folder: Folder, preferences: Preferences, printer: Printer
) -> CalendarDesk:
    """The calendar's part of the desk before a store."""
    ahead = LookingAhead(reading, clock, folder, preferences, printer)
    return CalendarDesk(ahead=ahead, arranging=Arranging(reading, ahead, Lines(reading, steps, clock, ahead)))
