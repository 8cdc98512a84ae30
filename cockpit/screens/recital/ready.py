"""What was noted of one item of a recital, with dates; a key says yes, no, or that nobody said. It is a list, never a score."""

from collections.abc import Callable, Iterable
from datetime import date

from textual import on
from textual.widget import Widget
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from cockpit.desk.recital.desk import RecitalDesk
from cockpit.screens.commands.commands import Place
from cockpit.screens.look.show import HAPPENED, NOT, OPEN, WIDEST, Piece, cut_at_word, placed, role
from cockpit.screens.screen import CockpitScreen, Parts, bindings_for
from cockpit.screens.textual_parts.rows import Rows
from cockpit.studio.changes.recital import NotedThing, Recital, RecitalId, RecitalItem, RecitalItemId
from cockpit.studio.clocks.words import near_date
from cockpit.studio.errors import NotFound, Refused
from cockpit.studio.recital.program import SOMEBODY
from cockpit.studio.recital.readiness import NotedAnswer
from cockpit.studio.shown import one_line
from cockpit.studio.values import Value
from cockpit.wording.readiness import heard_facts

_SIGNS = {
    NotedAnswer.YES: (HAPPENED, "finished"),
    NotedAnswer.NO: (NOT, "absent"),
    NotedAnswer.NOT_SAID: (OPEN, "text"),
}
_WORDS, _SINCE = 12, 50  # columns of what a row is about, and since when it is so
_NEXT = {NotedAnswer.NOT_SAID: True, NotedAnswer.YES: False, NotedAnswer.NO: None}
_THINGS = {str(each) for each in NotedThing}


class ReadyRow(Value):
    """One thing of the list: its words, what was said and since when, and what a key notes, in which recital; a permission is not noted here."""

    words: str
    answer: NotedAnswer
    since: str
    thing: NotedThing | None
    of: RecitalId


class ReadyScreen(CockpitScreen):
    """Space goes from not said to yes, to no, and back."""

    PLACE = Place.READY
    BINDINGS = bindings_for(PLACE)

    def __init__(self, parts: Parts, recital_id: RecitalId, item_id: RecitalItemId) -> None:
        super().__init__(parts)
        self._recital_id, self._item_id = recital_id, item_id
        self._rows: list[ReadyRow] = []

    def body(self) -> Iterable[Widget]:
        """What the notes have, and the list."""
        yield Static(id="facts", markup=False)
        yield Rows(id="ready", markup=False)

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
        """Looks again; the cursor stays on its row."""
        try:
            item = self._item()
        except NotFound:
            self.call_next(self._leave)
            return
        home = self.settings.preferences.home
        today = home.date_of(self.desk.clock.now())
        program = self.recitals.reading.program(self._recital_id)
        ready = self.recitals.reading.readiness(item)
        performer = next(each for row in program.rows for each in row.performers if each.item.id == item.id)
        shown_as = "" if performer.shown_as == performer.called else f"on papers: {performer.shown_as}"
        if performer.shown_as == SOMEBODY:
            shown_as = f'on papers: "{SOMEBODY}"'
        self.entitle(f"{one_line(performer.called)}  {one_line(item.piece)}", shown_as)
        self.query_one("#facts", Static).update("  ".join(heard_facts(ready, today)))
        self._rows = [
            *(
                ReadyRow(
                    words=str(each.what),
                    answer=each.answer,
                    since=_since(each.on, today),
                    thing=NotedThing(str(each.what)) if str(each.what) in _THINGS else None,
                    of=item.recital_id,
                )
                for each in ready.noted
            ),
            *(self._rehearsed(each, item) for each in self.recitals.reading.program(item.recital_id).rehearsals),
        ]
        self.query_one(Rows).lay_out(self._options)

    @on(OptionList.OptionSelected)
    def turn_chosen(self, event: OptionList.OptionSelected) -> None:
        """Says the next answer of the row that was tapped."""
        event.stop()
        self.action_turn()

    def action_turn(self) -> None:
        """Says the next answer of the chosen row: from not said to yes, to no, and back."""
        self._note(lambda row: _NEXT[row.answer])

    def action_say_yes(self) -> None:
        """Says yes."""
        self._note(lambda _: True)

    def action_say_no(self) -> None:
        """Says no."""
        self._note(lambda _: False)

    def action_say_nothing(self) -> None:
        """Says that nobody said."""
        self._note(lambda _: None)

    def _note(self, answer: Callable[[ReadyRow], bool | None]) -> None:
        def take() -> str:
            row = self._chosen()
            if row.thing is None:
                raise Refused("A permission is said in the roster: press d on the student.")
            return self.recitals.steps.note(self._item(), row.thing, row.of, is_yes=answer(row))

        self.step(take)

    def _chosen(self) -> ReadyRow:
        place = self.query_one(Rows).highlighted
        if place is None:
            raise Refused("Choose a row first.")
        return self._rows[place]

    def _item(self) -> RecitalItem:
        found = [each for each in self.recitals.reading.items(self._recital_id) if each.id == self._item_id]
        if not found:
            raise NotFound("This item is not in the recital any more.")
        return found[0]

    def _rehearsed(self, rehearsal: Recital, item: RecitalItem) -> ReadyRow:
        home = self.settings.preferences.home
        today = home.date_of(self.desk.clock.now())
        noted = self.recitals.reading.rehearsed(item).get(rehearsal.id)
        answer = NotedAnswer.NOT_SAID if noted is None else NotedAnswer.YES if noted.is_yes else NotedAnswer.NO
        return ReadyRow(
            words=f"at the rehearsal, {near_date(rehearsal.held_on, today)}",
            answer=answer,
            since=_since(noted.said_on if noted is not None else None, today),
            thing=NotedThing.REHEARSED,
            of=rehearsal.id,
        )

    def _options(self, width: int) -> list[Option]:
        width = min(width, WIDEST)
        options = []
        for number, row in enumerate(self._rows):
            sign, name = _SIGNS[row.answer]
            style = role(name, "bold") if row.answer is NotedAnswer.NO else role(name)
            said = style if row.answer is NotedAnswer.NO else role("quiet")
            pieces: list[Piece] = [
                (0, sign, style),
                (2, str(row.answer), said),
                (_WORDS, cut_at_word(row.words, width - _WORDS), role("text" if row.thing is not None else "quiet")),
                (_SINCE, row.since, role("quiet")),
            ]
            options.append(Option(placed(width, *pieces), id=str(number)))
        return options


def _since(on: date | None, today: date) -> str:
    return near_date(on, today) if on is not None else ""
