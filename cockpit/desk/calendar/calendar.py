"""The calendar's part of the desk."""

from collections.abc import Callable

from cockpit.desk.calendar.ahead import LookingAhead
from cockpit.desk.calendar.arranging import Arranging
from cockpit.desk.calendar.lines import Lines
from cockpit.desk.ports import Clock, Folder, Printer, Reading
from cockpit.desk.post.letters import Letters
from cockpit.desk.steps import Steps
from cockpit.studio.preferences import Preferences
from cockpit.studio.values import Value


class CalendarDesk(Value):
    """What lies ahead, and what can be arranged."""

    ahead: LookingAhead
    arranging: Arranging
    lines: Lines


def calendar_desk(
    sources: tuple[Reading, Clock],
    steps: Steps,
    folder: Folder,
    preferences: Preferences,
    printer: Printer,
    letters: Callable[[], Letters],
) -> CalendarDesk:
    """The calendar's part of the desk before a store."""
    reading, clock = sources
    ahead = LookingAhead(reading, clock, folder, preferences, printer)
    lines = Lines(reading, steps, clock, ahead)
    return CalendarDesk(ahead=ahead, arranging=Arranging(reading, ahead, lines, letters), lines=lines)
