"""One recital on the screen: who plays what and when, in an order of hers, with what is not ready and what stands against it."""

from collections.abc import Iterable

from textual import on
from textual.content import Content
from textual.widget import Widget
from textual.widgets import OptionList, Static

from cockpit.desk.calendar.proposals import Purpose
from cockpit.desk.recital.desk import RecitalDesk
from cockpit.screens.asking import AskingScreen, Choice
from cockpit.screens.commands.commands import Place
from cockpit.screens.recital.lines import ask_recital_line
from cockpit.screens.recital.recital_rows import (
    BETWEEN,
    ITEM,
    OTHER,
    ShownRecital,
    item_facts,
    recital_options,
    shown_title,
)
from cockpit.screens.screen import CockpitScreen, Parts, bindings_for
from cockpit.screens.textual_parts.rows import Rows
from cockpit.studio.changes.recital import Recital, RecitalId, RecitalItem, RecitalItemId
from cockpit.studio.clocks.words import long_date
from cockpit.studio.errors import NotFound, Refused
from cockpit.studio.recital.lengths import length_words
from cockpit.studio.recital.program import begins_at

_MOST_SITTINGS = 9
_TALL, _FACTS, _FACTS_TALL = 30, 3, 6


class ItemPane(Static):
    """What is known of the chosen item, as much of it as there is room for: its room stays, so that the rows do not jump."""


class RecitalScreen(CockpitScreen):
    """Enter says what is ready of an item, or opens a rehearsal or a sitting."""

    PLACE = Place.RECITAL
    BINDINGS = bindings_for(PLACE)

    def __init__(self, parts: Parts, recital_id: RecitalId) -> None:
        super().__init__(parts)
        self._recital_id = recital_id
        self._shown: ShownRecital | None = None
        self.is_left = False

    def body(self) -> Iterable[Widget]:
        """The program, and the chosen item."""
        yield Rows(id="program", markup=False)
        yield ItemPane(id="item", markup=False)

    def on_mount(self) -> None:
        """Shows it."""
        self.show()
        self.query_one(Rows).focus()

    def _leave(self) -> None:
        """Closes: what it shows is not there any more."""
        self.dismiss(None)

    @property
    def recitals(self) -> RecitalDesk:
        """What takes the steps."""
        return self.desk.recitals()

    def show(self) -> None:
        """Looks again; the cursor stays on its item."""
        try:
            program = self.recitals.reading.program(self._recital_id)
        except NotFound:  # the step that made it was taken back
            self.call_next(self._leave)
            return
        home = self.settings.preferences.home
        today = home.date_of(self.desk.clock.now())
        items = [each for row in program.rows for each in row.items]
        shown = ShownRecital(program=program, ready=self.recitals.reading.readiness_of(items), home=home, today=today)
        self._shown = shown
        named, when = shown_title(program, home, today)
        music = f"{length_words(program.times.music)} of music" if program.rows else ""
        self.entitle(named, "  ".join(filter(None, (when, music))))
        self.query_one(Rows).lay_out(lambda width: recital_options(shown, width))
        self._tell_chosen()

    @on(OptionList.OptionHighlighted)
    def tell_of_chosen(self) -> None:
        """Tells of the item that the cursor came to."""
        self._tell_chosen()

    def on_resize(self) -> None:
        """Tells it in the room that there is."""
        self._tell_chosen()

    @on(OptionList.OptionSelected)
    def open_chosen(self, event: OptionList.OptionSelected) -> None:
        """Opens what was tapped."""
        event.stop()
        kind, number = self._chosen_row()
        if kind == OTHER:
            self.app.push_screen(RecitalScreen(self.parts, RecitalId(number)), lambda _: self.show())
        elif kind == ITEM:
            self.action_show_ready()

    # Items

    def action_add(self) -> None:
        """Asks for a student and what that one plays."""
        self.attempt(lambda: ask_recital_line(self, Purpose.ITEM, (self._recital_id, None)))

    def action_change(self) -> None:
        """Asks for all of the chosen item, rehearsal, or sitting again."""

        def ask() -> None:
            kind, number = self._chosen_row()
            if kind == OTHER:
                self._change(RecitalId(number))
                return
            item = self._chosen()
            typed = self.recitals.lines.line_of_item(self._recital_id, item.id)
            ask_recital_line(self, Purpose.ITEM_CHANGE, (self._recital_id, item), typed)

        self.attempt(ask)

    def action_remove(self) -> None:
        """Removes the chosen item, rehearsal, or sitting."""

        def remove() -> str:
            kind, number = self._chosen_row()
            if kind == OTHER:
                return self.recitals.steps.remove(RecitalId(number))
            return self.recitals.steps.remove_item(self._recital_id, self._chosen().id)

        self.step(remove)

    def action_move_up(self) -> None:
        """Moves the chosen item before the one above it."""
        self.step(lambda: self.recitals.steps.move(self._recital_id, self._chosen().id, -1))

    def action_move_down(self) -> None:
        """Moves the chosen item behind the one below it."""
        self.step(lambda: self.recitals.steps.move(self._recital_id, self._chosen().id, 1))

    def action_draft_order(self) -> None:
        """Puts the items into a drafted order."""
        self.step(lambda: self.recitals.steps.draft_order(self._recital_id))

    def action_set_length(self) -> None:
        """Asks how long the chosen item lasts, begun with what is known."""

        def ask() -> None:
            item = self._chosen()
            typed = length_words(item.seconds) if item.seconds is not None else ""
            ask_recital_line(self, Purpose.ITEM_LENGTH, (self._recital_id, item), typed)

        self.attempt(ask)

    def action_compute_lengths(self) -> None:
        """Works out the lengths that nobody typed."""
        self.step(lambda: self.recitals.steps.compute_lengths(self._recital_id))

    def action_show_ready(self) -> None:
        """Opens what was noted of the chosen item."""
        from cockpit.screens.recital.ready import ReadyScreen  # when it is first asked for

        self.attempt(
            lambda: self.app.push_screen(
                ReadyScreen(self.parts, self._recital_id, self._chosen().id), lambda _: self.show()
            )
        )

    def action_move_to_sitting(self) -> None:
        """Asks into which sitting the chosen item goes."""
        self.attempt(self._ask_sitting)

    # The recital

    def action_change_recital(self) -> None:
        """Asks for all of the recital again."""
        self.attempt(lambda: self._change(self._recital_id))

    def action_show_times(self) -> None:
        """Opens the table of when it suits whom."""
        from cockpit.screens.recital.times import TimesScreen  # when it is first asked for

        self.attempt(self._refuse_empty)
        if self._program_rows:
            self.app.push_screen(TimesScreen(self.parts, self._recital_id), lambda _: self.show())

    def action_show_papers(self) -> None:
        """Opens who gets which papers."""
        from cockpit.screens.recital.papers import PapersScreen  # when it is first asked for

        def open_papers() -> None:
            self.desk.recital_papers().program(self._recital_id)
            self.app.push_screen(PapersScreen(self.parts, self._recital_id), lambda _: self.show())

        self.attempt(open_papers)

    def action_add_rehearsal(self) -> None:
        """Asks when a rehearsal is."""
        self.attempt(lambda: ask_recital_line(self, Purpose.REHEARSAL, (self._recital_id, None)))

    def action_add_sitting(self) -> None:
        """Asks when a further sitting is."""
        self.attempt(lambda: ask_recital_line(self, Purpose.SITTING, (self._recital_id, None)))

    def action_run(self) -> None:
        """Opens the recital as it is played; on another day than its own, asks first."""
        self.attempt(self._run)

    def action_show_all(self) -> None:
        """Goes to the list of all recitals."""
        self.dismiss(None)

    def action_close(self) -> None:
        """Goes back to where she came from, past the list."""
        self.is_left = True
        self.dismiss(None)

    # Parts

    @property
    def _program_rows(self) -> int:
        return len(self._shown.program.rows) if self._shown is not None else 0

    def _refuse_empty(self) -> None:
        if not self._program_rows:
            raise Refused("Nobody plays yet. Press a to add an item.")

    def _change(self, recital_id: RecitalId) -> None:
        ask_recital_line(self, Purpose.RECITAL_CHANGE, (recital_id, None), self.recitals.lines.line_of(recital_id))

    def _run(self) -> None:
        self._refuse_empty()
        recital, home = self.recitals.reading.recital(self._recital_id), self.settings.preferences.home
        if recital.is_rehearsal:
            raise Refused("A rehearsal is not run here. Press r on an item to note who attended.")
        if recital.began_at is not None or home.date_of(begins_at(recital)) == home.date_of(self.desk.clock.now()):
            self._open_live()
            return
        answers = [
            Choice(letter="n", word="no", does="leave it"),
            Choice(letter="y", word="yes", does="run it now"),
        ]
        question = f"The recital is on {long_date(recital.held_on)}"
        self.app.push_screen(
            AskingScreen(question, answers), lambda answer: self._open_live() if answer == "y" else None
        )

    def _open_live(self) -> None:
        from cockpit.screens.recital.live import LiveScreen  # when it is first asked for

        self.app.push_screen(LiveScreen(self.parts, self._recital_id), lambda _: self.show())

    def _ask_sitting(self) -> None:
        item = self._chosen()
        sittings = self._sittings()
        others = [each for each in sittings if each.id != item.recital_id][:_MOST_SITTINGS]
        if not others:
            raise Refused("There is one sitting only. Press s for another one.")
        home = self.settings.preferences.home
        answers = [
            Choice(letter=str(number), word=f"{number}", does=home.date_and_time(begins_at(each)))
            for number, each in enumerate(others, start=1)
        ]

        def chosen(answer: str | None) -> None:
            if answer is not None:
                self.step(lambda: self.recitals.steps.move_to_sitting(item, others[int(answer) - 1].id))

        self.app.push_screen(AskingScreen(f"{item.piece}: into which sitting?", answers), chosen)

    def _sittings(self) -> list[Recital]:
        """The recital with all its sittings, by date."""
        own = self.recitals.reading.recital(self._recital_id)
        first = self.recitals.reading.recital(own.parent_id) if own.parent_id is not None else own
        return [first, *self.recitals.reading.program(first.id).sittings]

    def _tell_chosen(self) -> None:
        """Tells of the item with the cursor."""
        shown = self._shown
        kind, number = self._chosen_row()
        row = None
        if shown is not None and kind == ITEM:
            row = next((each for each in shown.program.rows if number in {item.id for item in each.items}), None)
        most = _FACTS_TALL if self.app.size.height >= _TALL else _FACTS
        pane = self.query_one(ItemPane)
        pane.styles.height = most + 1 if self.app.size.height >= _TALL else most
        facts = item_facts(row, shown, self.app.size.width - 4) if row is not None and shown is not None else []
        lines = facts[:most]
        if len(facts) > most:
            lines[-1] = Content.assemble(lines[-1][: self.app.size.width - 8], "…")
        pane.update(Content("\n").join(lines))

    def _chosen_row(self) -> tuple[str, int]:
        """What the chosen row is, and the number of its item or recital; nothing where none is chosen."""
        option = self.query_one(Rows).highlighted_option
        kind, _, number = ((option.id or "") if option is not None else "").partition(BETWEEN)
        return kind, int(number or 0)

    def _chosen(self) -> RecitalItem:
        """The item with the cursor, of those who play together the first.

        Raises:
            Refused: there is none.
        """
        kind, number = self._chosen_row()
        item_id = RecitalItemId(number)
        found = [each for each in self.recitals.reading.items(self._recital_id) if kind == ITEM and each.id == item_id]
        if not found:
            raise Refused("Choose an item first. Press a to add one.")
        return found[0]
