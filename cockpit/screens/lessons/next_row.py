"""The last row of a narrow screen: who is next, and the time of day."""

from textual.content import Content
from textual.widget import Widget

from cockpit.desk.desk import Desk
from cockpit.screens.look.show import cut, placed, role
from cockpit.settings.settings import Settings
from cockpit.studio.lessons.scheduled import ScheduledLesson


class NextRow(Widget):
    """Who is next, and the time of day."""

    def __init__(self, desk: Desk, settings: Settings) -> None:
        super().__init__(id="next")
        self._desk = desk
        self._home = settings.preferences.home
        self._shown = ("", "")

    def tell_time(self, following: ScheduledLesson | None) -> None:
        """Shows the time that it is, and the `following` lesson; nothing is painted where nothing changed."""
        mark = "rehearsal  " if self._desk.clock.is_rehearsal else ""
        said = ""
        if following is not None:
            at, _ = self._home.time_and_half(following.lesson.starts_at)
            said = f"next {at}  {following.student.name}"
        fresh = said, mark + self._home.time(self._desk.clock.now())
        if fresh != self._shown:
            self._shown = fresh
            self.refresh()

    def render(self) -> Content:
        """The row in its width."""
        width, (said, time) = self.size.width, self._shown
        return placed(
            width,
            (1, cut(said, max(0, width - len(time) - 3)), role("quiet")),
            (width - 1 - len(time), time, role("text", "bold")),
        )
