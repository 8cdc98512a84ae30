"""The whole mix of a student, and the mix of the studio, on the screen."""

from collections.abc import Iterable

from textual import on
from textual.widget import Widget
from textual.widgets.option_list import Option

from cockpit.desk.pieces.mixing import Mixing
from cockpit.screens.commands.commands import Place
from cockpit.screens.pieces.mix_rows import mix_options, name_of, studio_options
from cockpit.screens.screen import CockpitScreen, Parts, bindings_for
from cockpit.screens.textual_parts.rows import Rows
from cockpit.studio.clocks.words import counted
from cockpit.studio.errors import Refused
from cockpit.studio.people.people import StudentId


class MixScreen(CockpitScreen):
    """Every area and strand of a student over eight weeks; x leaves one for this season."""

    PLACE = Place.MIX
    BINDINGS = bindings_for(PLACE)

    def __init__(self, parts: Parts, student_id: StudentId) -> None:
        super().__init__(parts)
        self._student_id = student_id

    def body(self) -> Iterable[Widget]:
        """The rows."""
        yield Rows(id="mix", markup=False)

    def on_mount(self) -> None:
        """Shows them."""
        self.show()
        self.query_one(Rows).focus()

    def show(self) -> None:
        """Looks again; the cursor stays on its row."""
        shown, rules = self._mixing.of(self._student_id), self.settings.preferences.pieces.mix
        self.entitle(shown.student.name)

        def draw(width: int) -> list[Option]:
            return mix_options(shown, rules, width)

        self.query_one(Rows).lay_out(draw)

    def action_leave(self) -> None:
        """Leaves the chosen area or strand for this season."""
        self.step(self._leave)

    @property
    def _mixing(self) -> Mixing:
        return self.desk.mixing()

    def _leave(self) -> str:
        option = self.query_one(Rows).highlighted_option
        if option is None or not option.id:
            raise Refused("Choose an area or a strand first.")
        return self._mixing.leave(self._student_id, name_of(option.id))


class StudioMixScreen(CockpitScreen):
    """The strands of the studio, and who did not have them."""

    PLACE = Place.STUDIO_MIX
    BINDINGS = bindings_for(PLACE)

    def __init__(self, parts: Parts) -> None:
        super().__init__(parts)
        self._is_reading = True

    def body(self) -> Iterable[Widget]:
        """The rows."""
        yield Rows(id="mix", markup=False)

    def on_mount(self) -> None:
        """Shows them; once the index has caught up, again."""
        self.show()
        self.query_one(Rows).focus()
        self.read_all_notes()

    @on(CockpitScreen.NotesRead)
    def show_read_notes(self) -> None:
        """Shows the mix with the notes that were read meanwhile."""
        self._is_reading = False
        self.show()

    def show(self) -> None:
        """Looks again."""
        shown = self.desk.mixing().studio()
        may_miss = self._is_reading or self.desk.why_read_only is not None  # whoever only reads adds none to the index
        self.entitle("the last eight weeks", counted(shown.students, "student"))

        def draw(width: int) -> list[Option]:
            return studio_options(shown, width, may_miss=may_miss)

        self.query_one(Rows).lay_out(draw)
