"""What every screen shares: its place among the commands, its key strip, its steps, and faults that become a sentence."""

from collections.abc import Callable, Iterable, Mapping
from datetime import date
from typing import TYPE_CHECKING, ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.dom import DOMNode
from textual.message import Message
from textual.widget import Widget

from cockpit.desk.calendar.proposals import Proposal, Purpose
from cockpit.desk.day.teaching import Finished
from cockpit.desk.desk import Desk
from cockpit.desk.ports import Sender
from cockpit.screens.commands.commands import BY_ID, COMMANDS, Command, Place
from cockpit.screens.look.styles import TALL
from cockpit.screens.sharing import copy
from cockpit.screens.textual_parts.fast_compositor import FastScreen
from cockpit.screens.textual_parts.heading import Title
from cockpit.screens.textual_parts.key_strip import KeyStrip
from cockpit.screens.textual_parts.notice import Notice
from cockpit.settings.settings import Settings
from cockpit.studio.clocks.words import listed, possessive
from cockpit.studio.errors import CockpitError, NotSaved
from cockpit.studio.lessons.lesson import LessonId
from cockpit.studio.lessons.scheduled import ScheduledLesson
from cockpit.studio.values import Value

if TYPE_CHECKING:
    from cockpit.desk.calendar.ahead import MakeUpOwed
    from cockpit.desk.day.looking_back import EarlierLesson
    from cockpit.screens.lessons.lesson_row import LessonRow
    from cockpit.studio.calendar.clock_changes import ChangeAhead
    from cockpit.studio.lessons.breaks import TimeOff
    from cockpit.studio.lessons.lesson import Lesson
    from cockpit.studio.people.people import Student, StudentId

UNHEARD = "f63"  # no keyboard has it; a command without keys holds it, so that settings can put another in its place


def bindings_for(place: Place, *, priority: bool = True) -> list[BindingType]:
    """The bindings of the commands that are heard in a place; their ids let keys be changed by settings.

    They come before the focused editor's own, since each must work while she types.
    """
    return [
        Binding(
            ",".join(command.keys) or UNHEARD,
            command.action,
            command.label,
            show=False,
            id=command.id,
            priority=priority,
        )
        for command in COMMANDS
        if command.place is place
    ]


class Parts(Value):
    """What every screen is made with. Without a `sender` nothing goes out."""

    desk: Desk
    settings: Settings
    commands: Mapping[str, Command]
    sender: Sender | None = None


class Step(Message):
    """A pane asks for a step at the desk; its screen takes it. `take` returns a sentence, or refuses with one."""

    def __init__(self, take: Callable[[], str | None]) -> None:
        super().__init__()
        self.take = take


class CockpitScreen(FastScreen[None]):
    """A screen says where it is (`PLACE`, `BINDINGS`), what is in it (`body`), and how it is read again (`show`).

    An action of it may refuse: the refusal is shown and nothing is lost.
    """

    PLACE: ClassVar[Place]
    VERTICAL_BREAKPOINTS = TALL

    class LessonChosen(Message):
        """A lesson was chosen, to be shown on its day."""

        def __init__(self, on: date, lesson_id: LessonId) -> None:
            super().__init__()
            self.on = on
            self.lesson_id = lesson_id

    class PageAsked(Message):
        """A student's page is asked for, with the lesson up to which she reads from it, if there is one."""

        def __init__(self, student_id: "StudentId", until: "Lesson | None") -> None:
            super().__init__()
            self.student_id = student_id
            self.until = until

    class HistoryAsked(Message):
        """The history of a student's piece is asked for."""

        def __init__(self, student: "Student", key: str) -> None:
            super().__init__()
            self.student = student
            self.key = key

    class LessonAsked(Message):
        """An earlier lesson of a student of a name is asked for, and the one up to which she reads on, if there is one."""

        def __init__(self, name: str, earlier: "EarlierLesson", until: "Lesson | None") -> None:
            super().__init__()
            self.name = name
            self.earlier = earlier
            self.until = until

    class ComingUpAsked(Message):
        """Coming up is asked for, with the cursor on a row: a make-up that is owed, a clock change, a break, or a pause."""

        def __init__(self, about: "MakeUpOwed | ChangeAhead | TimeOff") -> None:
            super().__init__()
            self.about = about

    class FindAsked(Message):
        """Find is asked for, with words that are typed already."""

        def __init__(self, typed: str) -> None:
            super().__init__()
            self.typed = typed

    class NotesRead(Message):
        """The index of all notes has caught up."""

    class OutboxChanged(Message):
        """The outbox has something else to do now."""

    def __init__(self, parts: Parts, classes: str | None = None) -> None:
        super().__init__(classes=classes)
        self.parts = parts
        self.desk = parts.desk
        self.settings = parts.settings
        self._lesson_row: LessonRow | None = None

    def compose(self) -> ComposeResult:
        """The running lesson, a title, what is in the screen, a notice, the keys."""
        from cockpit.screens.lessons.lesson_row import LessonRow  # the lesson day, which is first, has none

        self.fit()
        self._lesson_row = LessonRow(self.desk, self.settings)
        yield self._lesson_row
        yield self.head()
        yield from self.body()
        yield Notice()
        yield KeyStrip(self.strip())

    def head(self) -> Widget:
        """Which screen this is."""
        return Title(self.PLACE.removeprefix("the "))

    def body(self) -> Iterable[Widget]:
        """The widgets between the title and the notice."""
        raise NotImplementedError

    def show(self) -> None:
        """Reads again what the screen shows, and shows it."""
        raise NotImplementedError

    def strip(self) -> list[Command]:
        """The commands in the key strip: those of this place, then those of every place."""
        named = [command for command in self.parts.commands.values() if command.short]
        return [c for place in (self.PLACE, Place.EVERYWHERE) for c in named if c.place is place]

    def entitle(self, said: str, count: str = "") -> None:
        """Says what the screen shows, and a count."""
        self.query_one(Title).say(said, count)

    def tell_time(self) -> None:
        """Shows the running lesson at the time that it is."""
        if self._lesson_row is not None:
            self._lesson_row.tell_time()

    def say(self, sentence: str, *, is_fault: bool = False) -> None:
        """Shows a sentence in the row of the keys, for its time."""
        self.query_one(Notice).say(sentence, is_fault=is_fault)

    def attempt(self, step: Callable[[], object]) -> bool:
        """Does something, or shows why not; whether it was done."""
        try:
            step()
        except CockpitError as fault:
            self.say(str(fault), is_fault=True)
            return False
        return True

    def step(self, take: Callable[[], str | None]) -> bool:
        """Takes a step at the desk, and shows what came of it; whether it was taken."""

        def taken() -> None:
            sentence = take()
            self.show()
            self.say(sentence or "")

        return self.attempt(taken)

    @on(Step)
    def take_step(self, event: Step) -> None:
        """Takes a step that a pane asks for."""
        event.stop()
        self.step(event.take)

    def ask_for_line(self, purpose: Purpose, booking: ScheduledLesson | None, typed: str = "") -> None:
        """Asks for a line about a lesson, begun with what is `typed`, and carries out what was understood of it."""
        from cockpit.screens.typed_times.line import LineScreen  # the first screen does not wait for all its rules

        def understood(proposal: Proposal | None) -> None:
            if proposal is not None:
                self.step(lambda: self.arranged(proposal))

        self.app.push_screen(LineScreen(self.desk.arranging, purpose, booking, typed), understood)

    def arranged(self, proposal: Proposal) -> str:
        """Carries a proposal out; returns a sentence."""
        sentence = self.desk.arranging.do(proposal)
        self.desk.day.reload()
        if proposal.shown:
            self.post_message(self.OutboxChanged())
        return sentence

    def show_page(self, student_id: "StudentId", until: "Lesson | None" = None) -> None:
        """Shows a student's page; from it she reads the lessons before one, or all."""
        self.post_message(self.PageAsked(student_id, until))

    def show_history(self, student: "Student", key: str) -> None:
        """Shows the history of a student's piece."""
        self.post_message(self.HistoryAsked(student, key))

    def read_lesson(self, name: str, earlier: "EarlierLesson", until: "Lesson | None" = None) -> None:
        """Shows an earlier lesson of a student of a name, to walk from it to others: up to a later one, or to all."""
        self.post_message(self.LessonAsked(name, earlier, until))

    def read_all_notes(self) -> None:
        """Has the index of all notes catch up, and says so to this screen at the end: it may stand there while she types on."""
        self.desk.index_notes(self._tell_notes_read)

    def _tell_notes_read(self) -> None:
        self.post_message(self.NotesRead())  # from another thread, which this may be

    def find(self, typed: str) -> None:
        """Opens Find with words that are typed already."""
        self.post_message(self.FindAsked(typed))

    def choose_student(self, student_id: "StudentId") -> bool:  # noqa: ARG002 a screen that has students does
        """Puts the cursor on a student that was found; whether this screen has students to choose."""
        return False

    def finished(self, done: Finished) -> str:
        """Copies and hands over the notes of a finished lesson; returns a sentence.

        Raises:
            NotSaved: the folder refused; the lesson is finished all the same.
        """
        if done.fault is not None:
            self.show()
            raise NotSaved(done.fault)
        if done.path is None:
            return f"{possessive(done.student)} lesson is finished. There were no notes, so nothing was exported."
        if done.posted:
            self.post_message(self.OutboxChanged())
        if done.for_clipboard is not None:
            copy(self.app, done.for_clipboard)
        places = [
            *(["copied to the clipboard"] if done.for_clipboard is not None else []),
            *(["in the outbox"] if done.posted else []),
            f"in {done.path.relative_to(self.desk.folder)}",
        ]
        return ". ".join((f"{done.student}: {listed(places)}", *done.notices))

    def action_undo(self) -> None:
        """Takes the last step back."""
        self.step(self.desk.teaching.undo)

    def action_close(self) -> None:
        """Goes back to where she came from."""
        self.dismiss(None)

    async def do(self, command_id: str) -> None:
        """Does a command that was tapped or searched for, as what hears its keys does it, wherever the cursor is."""
        command = BY_ID[command_id]
        await self.app.run_action(command.action, default_namespace=self.home_of(command.place))

    def home_of(self, place: Place) -> DOMNode:
        """What hears the keys of a place: this screen, or one of its panes."""
        panes = (widget for widget in self.query("*") if getattr(widget, "PLACE", None) is place)
        return next(panes, self)

    @on(KeyStrip.Tapped)
    async def do_tapped(self, event: KeyStrip.Tapped) -> None:
        """Does a command that was tapped."""
        event.stop()
        await self.do(event.command)

    def outbox_changed(self) -> None:
        """Shows what has changed in the outbox, on a screen that shows anything of it."""

    @property
    def place_here(self) -> Place:
        """Where the cursor is: in a pane that is a place of its own, or on this screen."""
        around = self.focused.ancestors_with_self if self.focused is not None else ()
        return next((place for node in around if (place := getattr(node, "PLACE", None)) is not None), self.PLACE)

    def commands_here(self) -> Iterable[Command]:
        """The commands that can be done on this screen and in its panes; one without a key that is also one with a key is left out."""
        places = (Place.EVERYWHERE, self.PLACE)
        here = [command for command in self.parts.commands.values() if command.place.screen in places]
        with_keys = {command.label for command in here if command.keys}
        return [command for command in here if command.keys or command.label not in with_keys]
