"""The studio year on the screen: where each student stands."""

from collections.abc import Iterable
from datetime import date, timedelta

from textual import events
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static
from textual.widgets.option_list import Option

from cockpit.screens.calendar.year_rows import YearShown, year_lines, year_sums, year_title
from cockpit.screens.commands.commands import Place
from cockpit.screens.look.show import role
from cockpit.screens.screen import CockpitScreen, Parts, bindings_for
from cockpit.screens.textual_parts.rows import Rows

_BESIDE_ROWS = 3  # the list's padding, and its scrollbar
_COUNTED = "Trial lessons do not count. A make-up counts in place of the lesson it replaces."


class YearScreen(CockpitScreen):
    """Lessons by student, and by month where the screen is wide enough, against the number promised."""

    PLACE = Place.YEAR
    BINDINGS = bindings_for(PLACE)

    def __init__(self, parts: Parts) -> None:
        super().__init__(parts)
        self._shown: YearShown | None = None

    def body(self) -> Iterable[Widget]:
        """The students, below the headings of their columns."""
        yield Static(id="columns", markup=False)
        yield Rows(id="year", markup=False)

    def on_mount(self) -> None:
        """Shows it, and says what is counted."""
        self.show()
        self.say(_COUNTED)
        self.query_one(Rows).focus()

    def show(self) -> None:
        """Reads the year, and shows it."""
        first_on, students, months = self.desk.ahead.year()
        preferences = self.settings.preferences
        shown = self._shown = YearShown(
            first_on=first_on,
            until_on=date(first_on.year + 1, *preferences.year_begins) - timedelta(days=1),
            this_month=self.desk.day.today().replace(day=1),
            promised=preferences.lesson_times,
            students=students,
            months=months,
        )
        self.entitle(year_title(shown), year_sums(shown))
        self._draw(self.app.size.width)

    def on_resize(self, event: events.Resize) -> None:
        """Lays the lines out anew."""
        self._draw(event.size.width)

    def _draw(self, width: int) -> None:
        if self._shown is None:
            return
        heading, lines = year_lines(self._shown, width - _BESIDE_ROWS)
        columns = self.query_one("#columns", Static)
        columns.display = bool(heading)
        columns.update(Content.styled(heading, role("quiet", "bold")))
        listing = self.query_one(Rows)
        place = listing.highlighted
        options = [
            Option(line, id=str(year.student.id)) for line, year in zip(lines, self._shown.students, strict=True)
        ]
        listing.set_options(options or [Option("No student has lessons this year.", disabled=True)])
        listing.highlighted = (place or 0) if options else None
