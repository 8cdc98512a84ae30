"""All recitals on the screen; where one alone is to come, it is opened at once."""

from collections.abc import Iterable

from textual import on
from textual.widget import Widget
from textual.widgets import OptionList

from cockpit.desk.calendar.proposals import Proposal, Purpose
from cockpit.desk.recital.desk import RecitalDesk
from cockpit.screens.commands.commands import Place
from cockpit.screens.recital.lines import ask_recital_line
from cockpit.screens.recital.recital import RecitalScreen
from cockpit.screens.recital.recital_rows import list_options
from cockpit.screens.screen import CockpitScreen, bindings_for
from cockpit.screens.textual_parts.rows import Rows
from cockpit.studio.changes.recital import Recital, RecitalId
from cockpit.studio.clocks.words import counted
from cockpit.studio.errors import Refused


class RecitalsScreen(CockpitScreen):
    """The next recital first. Enter opens the chosen one."""

    PLACE = Place.RECITALS
    BINDINGS = bindings_for(PLACE)

    def body(self) -> Iterable[Widget]:
        """The list."""
        yield Rows(id="recitals", markup=False)

    def on_mount(self) -> None:
        """Shows it, or the one that is to come."""
        self.show()
        self.query_one(Rows).focus()
        own = [each for each in self.recitals.reading.view().coming if each.recital.parent_id is None]
        if len(own) == 1:
            self._open(own[0].recital.id)

    @property
    def recitals(self) -> RecitalDesk:
        """What keeps recitals."""
        return self.desk.recitals()

    def show(self) -> None:
        """Looks again; the cursor stays on its line."""
        view, home = self.recitals.reading.view(), self.settings.preferences.home
        today = home.date_of(self.desk.clock.now())
        own = [each for each in view.coming if each.recital.parent_id is None]
        self.entitle(f"{counted(len(own), 'recital')} to come" if own else "none to come")
        self.query_one(Rows).lay_out(lambda width: list_options(view, home, today, width))

    @on(OptionList.OptionSelected)
    def open_chosen(self, event: OptionList.OptionSelected) -> None:
        """Opens the chosen one."""
        event.stop()
        self.action_choose()

    def action_choose(self) -> None:
        """Opens the chosen one."""
        self.attempt(lambda: self._open(self._chosen()))

    def action_add(self) -> None:
        """Asks for a new recital, and opens it."""
        self.attempt(lambda: ask_recital_line(self, Purpose.RECITAL, then=self._added))

    def action_change(self) -> None:
        """Asks for all of the chosen one again."""

        def ask() -> None:
            chosen = self._chosen()
            ask_recital_line(self, Purpose.RECITAL_CHANGE, (chosen, None), self.recitals.lines.line_of(chosen))

        self.attempt(ask)

    def action_remove(self) -> None:
        """Removes the chosen one with all that belongs to it."""
        self.step(lambda: self.recitals.steps.remove(self._chosen()))

    def _added(self, proposal: Proposal) -> None:
        new = next((edit.after for edit in proposal.edits), None)
        if isinstance(new, Recital):
            self._open(new.id)

    def _open(self, recital_id: RecitalId) -> None:
        def back(is_left: bool | None) -> None:  # noqa: FBT001 as Textual's
            if is_left:
                self.dismiss(None)
            else:
                self.show()

        screen = RecitalScreen(self.parts, recital_id)
        self.app.push_screen(screen, lambda _: back(screen.is_left))

    def _chosen(self) -> RecitalId:
        """The recital with the cursor.

        Raises:
            Refused: there is none.
        """
        option = self.query_one(Rows).highlighted_option
        if option is None or not option.id:
            raise Refused("There is no recital yet. Press n for a new one.")
        return RecitalId(int(option.id))
