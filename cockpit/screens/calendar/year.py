"""The studio year on the screen: where each student stands."""

from collections.abc import Iterable
from datetime import date, timedelta

from textual import events
from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from cockpit.desk.desk import Desk
from cockpit.screens.base import CockpitScreen, bindings_for
from cockpit.screens.calendar.year_rows import YearShown, year_lines, year_sums, year_title
from cockpit.screens.commands.command import Command, Where
from cockpit.screens.commands.commands import COMMANDS
from cockpit.screens.look.show import role
from cockpit.screens.textual_parts.rows import Rows
from cockpit.screens.textual_parts.widgets import KeyStrip, Notice

_BESIDE_ROWS = 3  # the list's padding, and its scrollbar
_COUNTED = "Trials do not count. A make-up counts in place of the lesson that it is given for."
_STRIP = ("year.close", "app.show_help", "app.command_palette", "app.quit")


class YearScreen(CockpitScreen):
    """Lessons by student, and by month where the screen is wide enough, against the number promised."""

    BINDINGS = bindings_for(Where.YEAR)

    def __init__(self, desk: Desk, commands: tuple[Command, ...] = COMMANDS) -> None:
        super().__init__()
        self._desk = desk
        self._commands = {command.id: command for command in commands}
        self._shown: YearShown | None = None

    def compose(self) -> ComposeResult:
        """The year and its sums, the students, a notice, the keys."""
        yield Static(classes="title", markup=False)
        yield Static(id="sums", markup=False)
        yield Static(id="columns", markup=False)
        yield Rows(id="year", markup=False)
        yield Notice()
        yield KeyStrip([self._commands[name] for name in _STRIP])

    def on_mount(self) -> None:
        """Reads the year, and shows it."""
        first_on, students, months = self._desk.ahead.year()
        practice = self._desk.ahead.practice
        shown = self._shown = YearShown(
            first_on=first_on,
            until_on=date(first_on.year + 1, *practice.year_begins) - timedelta(days=1),
            this_month=self._desk.day.today().replace(day=1),
            promised=practice.promised,
            students=students,
            months=months,
        )
        self.query_one(".title", Static).update(year_title(shown))
        self.query_one("#sums", Static).update(year_sums(shown))
        self._draw(self.app.size.width)
        self.say(_COUNTED)
        self.query_one(OptionList).focus()

    def on_resize(self, event: events.Resize) -> None:
        """Lays the lines out anew."""
        self._draw(event.size.width)

    def commands_here(self) -> Iterable[Command]:
        """What can be done here."""
        return [c for c in self._commands.values() if c.where in {Where.EVERYWHERE, Where.YEAR}]

    def action_close(self) -> None:
        """Goes back to where she came from."""
        self.dismiss(None)

    def _draw(self, width: int) -> None:
        if self._shown is None:
            return
        heading, lines = year_lines(self._shown, width - _BESIDE_ROWS)
        columns = self.query_one("#columns", Static)
        columns.display = bool(heading)
        columns.update(Content.styled(heading, role("title", "bold")))
        listing = self.query_one(OptionList)
        place = listing.highlighted
        options = [
            Option(line, id=str(year.student.id)) for line, year in zip(lines, self._shown.students, strict=True)
        ]
        listing.set_options(options or [Option("No student has lessons in this year.", disabled=True)])
        listing.highlighted = (place or 0) if options else None
