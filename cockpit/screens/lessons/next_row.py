"""The last row of a narrow screen: who is next, and the time of day."""

from textual.content import Content
from textual.widget import Widget

from cockpit.desk.desk import Desk
from cockpit.screens.look.show import cut, placed, role
from cockpit.settings.settings import Settings
from cockpit.studio.lessons.countdown import next_after, read_clock


class NextRow(Widget):
    """Who is next, and the time of day."""

    def __init__(self, desk: Desk, settings: Settings) -> None:
        super().__init__(id="next")
        self._desk = desk
        self._home = settings.preferences.home
        self._shown = ("", "")

    def tell_time(self) -> None:
        """Shows the time that it is; nothing is painted where nothing changed."""
        if self.display and self._said() != self._shown:
            self.refresh()

    def render(self) -> Content:
        """The row in its width."""
        width = self.size.width
        self._shown = following, time = self._said()
        return placed(
            width,
            (1, cut(following, max(0, width - len(time) - 3)), role("quiet")),
            (width - 1 - len(time), time, role("text", "bold")),
        )

    def _said(self) -> tuple[str, str]:
        now, bookings = self._desk.clock.now(), self._desk.day.bookings_going_on
        booking = next_after(bookings, read_clock(bookings, now, {}))
        mark = "rehearsal  " if self._desk.clock.is_rehearsal else ""
        at = self._home.time(booking.lesson.starts_at).partition(" ")[0] if booking is not None else ""
        following = f"next {at}  {booking.student.name}" if booking is not None else ""
        return following, mark + self._home.time(now)
