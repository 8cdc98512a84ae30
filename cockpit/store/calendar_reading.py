"""What is asked about the calendar as a whole."""

import sqlite3
from collections.abc import Mapping
from datetime import date
from pathlib import Path

from cockpit.store import rows
from cockpit.store.asking import Asking
from cockpit.studio.lessons.breaks import Break
from cockpit.studio.lessons.lesson import Lesson
from cockpit.studio.lessons.weekly_times import ImportedTime


class CalendarReading:
    """Breaks, what was called off and made up, and the calendar's name and number for others."""

    def __init__(self, connection: sqlite3.Connection, path: Path) -> None:
        self._asking = Asking(connection, path)

    def closed_lessons(self) -> tuple[Lesson, ...]:
        """The lessons that were absent or cancelled, and those that make one up."""
        asked = "SELECT * FROM lesson WHERE outcome IS NOT NULL UNION SELECT * FROM lesson WHERE makes_up IS NOT NULL"
        return self._asking.made(rows.lesson, asked)

    def calendar_edition(self) -> tuple[str, int]:
        """The lasting name of the studio's calendar, and a number that grows with each change of it."""
        return self._asking.only(
            lambda row: (str(row["uid"]), int(row["revision"])), "SELECT uid, revision FROM studio_calendar"
        )

    def calendar_basis(self) -> str | None:
        """What the calendar hung on beside the records when a cockpit that writes was opened last; None before the first."""
        return self._asking.only(_basis, "SELECT basis FROM studio_calendar")

    def imported_times(self) -> tuple[ImportedTime, ...]:
        """What rosters and calendars said of standing times when they were read last."""
        asked = "SELECT * FROM imported_time ORDER BY standing_time_id, event_uid"
        return self._asking.made(rows.imported_time, asked)

    def calendar_titles(self) -> Mapping[str, str]:
        """The student's name that each title of a calendar was said to stand for."""
        return {row["title"]: row["name"] for row in self._asking.all("SELECT title, name FROM calendar_title")}

    def accepted(self) -> frozenset[str]:
        """The keys of what would collide and is to stay as it is."""
        return frozenset(row["key"] for row in self._asking.all("SELECT key FROM accepted"))

    def breaks(self, until_at_least: date | None = None) -> tuple[Break, ...]:
        """The breaks that last to a date or longer, or all of them; in order."""
        asked = "SELECT * FROM break WHERE ? IS NULL OR until_on >= ? ORDER BY from_on, id"
        on = None if until_at_least is None else until_at_least.isoformat()
        return self._asking.made(rows.studio_break, asked, (on, on))


def _basis(row: sqlite3.Row) -> str | None:
    return None if row["basis"] is None else str(row["basis"])
