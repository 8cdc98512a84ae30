"""What every screen shares: bindings out of the command table, and faults that become a sentence."""

from collections.abc import Callable, Iterable
from datetime import date

from textual import on
from textual.binding import Binding, BindingType
from textual.message import Message

from cockpit.screens.commands.command import Command, Where
from cockpit.screens.commands.commands import BY_ID, COMMANDS
from cockpit.screens.textual_parts.lean_painting import LeanScreen
from cockpit.screens.textual_parts.widgets import KeyStrip, Notice
from cockpit.studio.errors import CockpitError
from cockpit.studio.lessons.lesson import LessonId

UNHEARD = "f63"  # no keyboard has it; a command without keys holds it, so that settings can put another in its place


def bindings_for(*places: Where, priority: bool = True) -> list[BindingType]:
    """The bindings of the commands that are heard in some places; their ids let keys be changed by settings.

    They come before the focused editor's own, since each must work while she types.
    """
    return [
        Binding(
            ",".join(command.keys) or UNHEARD,
            action_of(command),
            command.label,
            show=False,
            id=command.id,
            priority=priority,
        )
        for command in COMMANDS
        if command.where in places
    ]


def action_of(command: Command) -> str:
    """The action that carries a command out: the program's own, or one of the screen that it is heard on."""
    name = command.id.split(".", 1)[1]
    if command.where is Where.QUEUE:
        return f"screen.{name}"  # heard on the list, done by the lesson day
    return f"app.{name}" if command.is_of_app else name


class CockpitScreen(LeanScreen[None]):
    """A screen whose actions may refuse: the refusal is shown and nothing is lost."""

    class LessonChosen(Message):
        """A lesson was chosen, to be shown on its day."""

        def __init__(self, on: date, lesson_id: LessonId) -> None:
            super().__init__()
            self.on = on
            self.lesson_id = lesson_id

    class OutboxChanged(Message):
        """The outbox has something else to do now."""

    def say(self, sentence: str, *, is_fault: bool = False) -> None:
        """Shows a sentence above the keys."""
        self.query_one(Notice).say(sentence, is_fault=is_fault)

    def attempt(self, step: Callable[[], object]) -> bool:
        """Does a step, or shows why not; whether it was done."""
        try:
            step()
        except CockpitError as fault:
            self.say(str(fault), is_fault=True)
            return False
        return True

    async def do(self, command_id: str) -> None:
        """Does a command that was tapped or searched for."""
        await self.run_action(action_of(BY_ID[command_id]))

    @on(KeyStrip.Tapped)
    async def do_tapped(self, event: KeyStrip.Tapped) -> None:
        """Does a command that was tapped."""
        event.stop()
        await self.do(event.command)

    def show_outbox(self) -> None:
        """Shows what has changed in the outbox, on a screen that shows anything of it."""

    def commands_here(self) -> Iterable[Command]:
        """The commands that can be done on this screen."""
        return [command for command in COMMANDS if command.where is Where.EVERYWHERE]
