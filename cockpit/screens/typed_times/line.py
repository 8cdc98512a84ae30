"""A typed line that arranges something: what it was understood as is shown at every key, before it is done."""

from datetime import datetime
from typing import Protocol

from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Input, OptionList, Static
from textual.widgets.option_list import Option

from cockpit.desk.calendar.arranging import Arranging
from cockpit.desk.calendar.proposals import Proposal, Purpose
from cockpit.screens.look.show import role
from cockpit.screens.textual_parts.fast_compositor import FastScreen
from cockpit.screens.textual_parts.heading import Heading
from cockpit.screens.textual_parts.rows import WalkedRows
from cockpit.screens.textual_parts.search_field import Field
from cockpit.studio.errors import BadInput, CockpitError
from cockpit.studio.lessons.scheduled import ScheduledLesson
from cockpit.studio.values import Value


class Ask(Value):
    """What a line is asked for: its purpose, a title with `{}` for the student, examples, whether an empty line means something.

    `title_of_one` is the title where it is about somebody who is known, if that is another.
    """

    purpose: Purpose
    title: str
    example: str
    title_of_one: str = ""
    means_by_itself: bool = False


ASKS = {
    Purpose.MOVE: Ask(
        purpose=Purpose.MOVE, title="Move {}'s lesson to", example="thu 4:30pm   12/3 16:00 45m   4 pm phoenix"
    ),
    Purpose.MAKE_UP: Ask(
        purpose=Purpose.MAKE_UP, title="Make-up for {}", example="thu 4:30pm   next tue 5   12/3 16:00"
    ),
    Purpose.EXTRA: Ask(purpose=Purpose.EXTRA, title="Extra lesson for {}", example="sat 10am 45m   tomorrow 5:15"),
    Purpose.TRIAL: Ask(
        purpose=Purpose.TRIAL,
        title="Trial lesson",
        title_of_one="Trial lesson for {}",
        example="nora bell thu 4pm phoenix 30m",
    ),
    Purpose.CHANGE: Ask(
        purpose=Purpose.CHANGE,
        title="{}'s weekly time",
        example="from jan 12 5 pm 45m   from jan 12 every other week   through dec 18",
    ),
    Purpose.CALL_OFF: Ask(
        purpose=Purpose.CALL_OFF,
        title="Call off",
        example="today ill   from 4pm   until thursday trip   ilse",
        means_by_itself=True,
    ),
    Purpose.REASON: Ask(purpose=Purpose.REASON, title="Why {} was not taught", example="sick   trip   - for no reason"),
    Purpose.STUDENT: Ask(
        purpose=Purpose.STUDENT,
        title="New student",
        example="nora bell, cello, fri 2pm phoenix 45m from dec 11, ana@example.org · tobin, guitar, wed 4pm, with wren",
    ),
    Purpose.DETAILS: Ask(
        purpose=Purpose.DETAILS,
        title="Details of {}",
        example="language es, clock 24 · zone denver from march 3 · remark likes duets · call her Nora, family Bell-Ortiz · 25 a day",
    ),
    Purpose.GUARDIANS: Ask(
        purpose=Purpose.GUARDIANS,
        title="Guardians of {}",
        example="ana ana@example.org notes news · not dad@example.org · phone ana +1 602 555 0100",
    ),
    Purpose.END: Ask(
        purpose=Purpose.END, title="{} ends", example="after dec 18 · today, moved away · after dec 18, keep lessons"
    ),
    Purpose.DUTY: Ask(
        purpose=Purpose.DUTY,
        title="You owe",
        example="order strings every first monday · statements on the 1st · tune the piano by dec 12",
    ),
    Purpose.INQUIRY: Ask(
        purpose=Purpose.INQUIRY,
        title="New inquiry",
        title_of_one="Inquiry for {}",
        example="ana bell for nora 8, cello, phoenix, ana@example.org, tue or thu after 4pm, from a friend",
    ),
    Purpose.WAITING: Ask(
        purpose=Purpose.WAITING, title="Waiting list: {}", example="tue or thu after 4pm, 30m, from june"
    ),
    Purpose.CLOSE: Ask(
        purpose=Purpose.CLOSE,
        title="Close the inquiry for {}",
        example="no answer   chose somebody else   i have no time",
    ),
    Purpose.PIECE: Ask(
        purpose=Purpose.PIECE, title="About {}", example="irish, her choice · composer dvorak · 96 measures · by dec 19"
    ),
    Purpose.PAUSE: Ask(
        purpose=Purpose.PAUSE, title="{} pauses", example="from june 1 to aug 31 trip   from june 1, frees the time"
    ),
    Purpose.BREAK: Ask(
        purpose=Purpose.BREAK, title="No lessons", example="dec 21 to jan 3 holidays   family okonjo dec 24"
    ),
    Purpose.RECITAL: Ask(
        purpose=Purpose.RECITAL,
        title="New recital",
        example="winter tales, sat dec 19 12pm, theme snow and night, online, 60m",
    ),
    Purpose.RECITAL_CHANGE: Ask(
        purpose=Purpose.RECITAL_CHANGE, title="{}", example="name winter tales, sat dec 19 3pm, online, 60m, opening 3m"
    ),
    Purpose.RECITAL_TIME: Ask(purpose=Purpose.RECITAL_TIME, title="Move {} to", example="sat dec 19 3pm   sun noon"),
    Purpose.REHEARSAL: Ask(purpose=Purpose.REHEARSAL, title="Rehearsal of {}", example="sat dec 12 11am"),
    Purpose.SITTING: Ask(purpose=Purpose.SITTING, title="Another sitting of {}", example="sat dec 19 7:30pm"),
    Purpose.ITEM: Ask(
        purpose=Purpose.ITEM,
        title="New item",
        example="ilse the old mill 3:00, by heart, costume miller's apron, prop flour sack, story the mill that would not stop",
    ),
    Purpose.ITEM_CHANGE: Ask(
        purpose=Purpose.ITEM_CHANGE,
        title="{}",
        example="piece the old mill, 3:00, costume miller's apron, after teodor",
    ),
    Purpose.ITEM_LENGTH: Ask(purpose=Purpose.ITEM_LENGTH, title="How long {} lasts", example="3:00   90s   no length"),
}


class LineReader(Protocol):
    """What reads a line for a purpose."""

    def propose(self, purpose: Purpose, booking: ScheduledLesson | None, line: str) -> Proposal: ...  # noqa: D102 said where it is done


class LineScreen(ModalScreen[Proposal], FastScreen[Proposal]):
    """Dismissed with the proposal to carry out, or with nothing. What would collide is asked about once more."""

    BINDINGS = [
        Binding("escape", "close", "Close", priority=True),
        Binding("down", "move(1)", "Down", show=False),
        Binding("up", "move(-1)", "Up", show=False),
    ]

    def __init__(
        self, reader: LineReader, purpose: Purpose, booking: ScheduledLesson | None, typed: str = "", name: str = ""
    ) -> None:
        super().__init__()
        self._name_asked = name or (booking.student.name if booking is not None else "")
        self._reader = reader
        self._ask = ASKS[purpose]
        self._booking = booking
        self._typed = typed
        self._proposal: Proposal | None = None
        self._is_sure = False

    def compose(self) -> ComposeResult:
        """A line to type in, what it means, and times that would suit."""
        with Vertical(classes="sheet"):
            yield Heading(self._title.upper())
            yield Field(self._typed, select_on_focus=False)
            yield Static(id="understood", classes="footnote", markup=False)
            yield WalkedRows()

    @property
    def _title(self) -> str:
        title = self._ask.title_of_one if self._name_asked and self._ask.title_of_one else self._ask.title
        return title.format(self._name_asked)

    def on_mount(self) -> None:
        """Says what can be typed, or what is typed already."""
        self._read(self._typed)

    def on_input_changed(self, event: Input.Changed) -> None:
        """Reads the line as it is now."""
        self._read(event.value)

    def _read(self, typed: str) -> None:
        self._is_sure = False
        if not typed.strip() and not self._ask.means_by_itself:
            self._show_examples()
            return
        try:
            self._show(self._reader.propose(self._ask.purpose, self._booking, typed))
        except CockpitError as fault:
            self._proposal = None
            style = role("quiet") if isinstance(fault, BadInput) else role("error", "bold")
            self._understood(Content.styled(str(fault), style))
            self._list([])

    def on_input_submitted(self) -> None:
        """Does it; where something would go wrong, only when asked twice. A free time that is chosen goes before the line."""
        chosen = self.query_one(OptionList).highlighted_option
        if chosen is not None and chosen.id is not None:
            self._take_time(chosen.id)
        elif self._proposal is not None and (self._is_sure or not self._proposal.troubles):
            self.dismiss(self._proposal)
        elif self._proposal is not None:
            self._is_sure = True
            self._show(self._proposal)

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Takes the free time that was tapped."""
        self._take_time(event.option_id or "")

    def action_move(self, step: int) -> None:
        """Goes through the free times while the cursor stays in the line."""
        listing = self.query_one(OptionList)
        if listing.option_count:
            here = -1 if listing.highlighted is None else listing.highlighted
            listing.highlighted = max(0, min(listing.option_count - 1, here + step)) if here + step >= 0 else None

    def action_close(self) -> None:
        """Goes back; nothing was changed."""
        self.dismiss(None)

    def _take_time(self, at: str) -> None:
        said = self._proposal
        arranging = self._reader
        if self._booking is None or said is None or said.lesson is None or not isinstance(arranging, Arranging):
            return
        starts_at, minutes = datetime.fromisoformat(at), said.lesson.lesson.minutes
        try:
            self.dismiss(arranging.propose_at(self._ask.purpose, self._booking, starts_at, minutes))
        except CockpitError as fault:
            self._understood(Content.styled(str(fault), role("error", "bold")))

    def _show_examples(self) -> None:
        self._proposal = None
        self._understood(Content.styled(f"For example: {self._ask.example}", role("quiet")))
        self._list([])

    def _show(self, proposal: Proposal) -> None:
        self._proposal = proposal
        free = self._free(proposal) if proposal.troubles else []
        # What enter does stands before the troubles: on a small screen these can be more than fit.
        parts: list[tuple[str, str]] = [(proposal.understood, role("text", "bold")), self._enter(proposal)]
        parts += [(f"\n{line}", role("quiet")) for line in proposal.shown]
        if self._ask.means_by_itself and not self.query_one(Input).value.strip():
            parts.append((f"\nOr type, for example: {self._ask.example}", role("quiet")))
        parts += [(f"\n! {trouble}", role("warning", "bold")) for trouble in proposal.troubles]
        if free:
            parts.append(("\nPress down to choose a free time:", role("quiet")))
        self._understood(Content.assemble(*parts))
        self._list(free)

    def _enter(self, proposal: Proposal) -> tuple[str, str]:
        if not proposal.troubles:
            return "\nPress enter to do it", role("quiet")
        if self._is_sure:
            return "\nPress enter to do it anyway   esc cancels", role("error", "bold")
        return "\nPress enter; you will be asked to confirm", role("quiet")

    def _free(self, proposal: Proposal) -> list[Option]:
        lesson, arranging = proposal.lesson, self._reader
        may_be_moved = self._ask.purpose in {Purpose.MOVE, Purpose.MAKE_UP, Purpose.EXTRA}
        if lesson is None or not may_be_moved or not isinstance(arranging, Arranging):
            return []
        return [Option(arranging.at(at, lesson), id=at.isoformat()) for at in arranging.free_times(proposal)]

    def _understood(self, content: Content) -> None:
        self.query_one("#understood", Static).update(content)

    def _list(self, options: list[Option]) -> None:
        listing = self.query_one(OptionList)
        listing.set_options(options)
        listing.highlighted = None
