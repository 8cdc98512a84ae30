"""The studio year on the screen: where each student stands, and lessons of the past that are marked together."""

from collections.abc import Iterable

from textual import on
from textual.widget import Widget

from cockpit.screens.calendar.year_grid import YearGrid
from cockpit.screens.commands.commands import Place
from cockpit.screens.screen import CockpitScreen, bindings_for
from cockpit.studio.calendar.year import StudioYear
from cockpit.studio.clocks.words import counted, month_and_day


class YearScreen(CockpitScreen):
    """Lessons by student and month, against the number of lesson times in the year."""

    PLACE = Place.YEAR
    BINDINGS = bindings_for(PLACE)

    def body(self) -> Iterable[Widget]:
        """The sheet."""
        yield YearGrid(id="year")

    def on_mount(self) -> None:
        """Shows it."""
        self.show()
        self.query_one(YearGrid).focus()

    def show(self) -> None:
        """Reads the year, and shows it."""
        year = self.desk.ahead.year()
        self.entitle(year_title(year), year_sums(year))
        self.query_one(YearGrid).show(year, self.desk.clock.now(), self.settings.preferences.home)

    def action_mark_taught(self) -> None:
        """Proposes to mark as taught what is not marked in the chosen cell."""
        self.attempt(self._propose)

    @on(YearGrid.Agreed)
    def mark_proposed(self) -> None:
        """Marks what was proposed."""
        grid = self.query_one(YearGrid)
        proposal = grid.proposal
        if proposal is None:
            return
        grid.propose(None)

        def mark() -> str:
            self.arranged(proposal)
            return f"Done: {proposal.said}. F4 takes all of it back."

        self.step(mark)

    def action_close(self) -> None:
        """Leaves what was proposed as it is, else goes back."""
        grid = self.query_one(YearGrid)
        if grid.proposal is None:
            super().action_close()
        grid.propose(None)

    def _propose(self) -> None:
        grid = self.query_one(YearGrid)
        grid.propose(self.desk.arranging.propose_taught(grid.chosen))


def year_title(year: StudioYear) -> str:
    """From when to when the year goes."""
    first, last = (f"{month_and_day(on)}, {on.year}" for on in (year.first_on, year.until_on))
    return f"{first}, to {last}"


def year_sums(year: StudioYear) -> str:
    """What is taught and planned of what is promised to all."""
    comes_to = sum(each.taught + each.planned for each in year.students)
    return (
        f"{comes_to} of {counted(sum(each.promised for each in year.students), 'lesson time')}" if year.students else ""
    )
