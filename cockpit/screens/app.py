"""The program on the screen: its looks, its screens, and its end, whichever way that comes."""

import asyncio
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from datetime import date

from textual import on
from textual.app import App, SystemCommand
from textual.screen import Screen

from cockpit.desk.desk import Desk
from cockpit.screens.base import CockpitScreen, bindings_for
from cockpit.screens.command import Command, Where, key_name
from cockpit.screens.commands import COMMANDS
from cockpit.screens.day import DayScreen
from cockpit.screens.ending import is_terminal_gone, listen, listen_for_stops, settle
from cockpit.screens.find import FindScreen
from cockpit.screens.help import HelpScreen
from cockpit.screens.review import ReviewScreen
from cockpit.screens.styles import STYLES
from cockpit.screens.theming import Look, to_textual
from cockpit.settings import Settings
from cockpit.studio.lesson import LessonId

_FOOTNOTE = (
    "Lines that begin with Private:, Follow-up: or Next time: stay with you. A line such as Scales: ... or Piece: ... "
    "is an assignment. Everything else is a remark to the family. Shift while dragging selects text in most terminals."
)
_QUIET = 0.5  # seconds after the start, by when everything that stays is in memory


@dataclass(frozen=True, slots=True, kw_only=True)
class Opening:
    """What the program is opened with, beside the desk: looks by name, faults and sentences to tell, and what may wait.

    What may wait is given a function that tells a fault, from any thread.
    """

    looks: Mapping[str, Look]
    sentences: tuple[str, ...] = ()
    faults: tuple[str, ...] = ()
    after_first_paint: Callable[[Callable[[str], None]], None] | None = None
    has_changed: Callable[[], bool] | None = None


class CockpitApp(App[None]):
    """The lesson-day cockpit."""

    CSS = STYLES
    TITLE = "Lesson day"
    ENABLE_COMMAND_PALETTE = True
    BINDINGS = bindings_for(Where.EVERYWHERE)

    def __init__(
        self, desk: Desk, settings: Settings, opening: Opening, commands: tuple[Command, ...] = COMMANDS
    ) -> None:
        super().__init__()
        self._desk = desk
        self._settings = settings
        self._opening = opening
        self._commands = commands
        for look in opening.looks.values():
            self.register_theme(to_textual(look))
        self.theme = settings.theme if settings.theme in opening.looks else next(iter(opening.looks))

    def get_default_screen(self) -> Screen[None]:
        """The lesson day."""
        return DayScreen(self._desk, self._settings, self._commands, _greeting(self._desk, self._opening))

    def on_mount(self) -> None:
        """Starts the clock, and the ways to end."""
        self.set_keymap({command.id: ",".join(command.keys) for command in self._commands})
        listen(asyncio.get_running_loop(), self._end)
        listen_for_stops(asyncio.get_running_loop(), self)
        self.set_timer(_QUIET, settle)
        self.call_after_refresh(self._painted)
        self._tick_at_next_second()

    def get_system_commands(self, screen: Screen[object]) -> Iterable[SystemCommand]:
        """The palette: the commands of the screen that is shown."""
        if isinstance(screen, CockpitScreen):
            for command in screen.commands_here():
                keys = " or ".join(key_name(key) for key in command.keys)
                help_text = f"{command.help} {f'({keys})' if keys else ''}"
                yield SystemCommand(command.label, help_text, self._doing(screen, command))

    def action_show_help(self) -> None:
        """Shows every command; does the one that is chosen."""
        screen = self.screen
        if isinstance(screen, HelpScreen):
            screen.dismiss(None)
        if not isinstance(screen, CockpitScreen):
            return
        told = "\n".join((_FOOTNOTE, *_opening_sentences(self._desk, self._opening)))
        footnote = f"{told}\nStudio folder: {self._desk.folder}"
        commands = {command.id: command for command in screen.commands_here()}

        def chosen(command_id: str | None) -> None:
            if command_id is not None:
                self._doing(screen, commands[command_id])()

        self.push_screen(HelpScreen(commands.values(), footnote), chosen)

    def action_find(self) -> None:
        """Finds a student, and shows the lesson."""

        def found(place: tuple[date, LessonId] | None) -> None:
            if place is not None:
                self._show(*place)

        self.push_screen(FindScreen(self._desk.finding, self._settings.home, self._settings.hours), found)

    def action_show_review(self) -> None:
        """Shows the review of the day that is open."""
        self.push_screen(ReviewScreen(self._desk, self._settings, self._desk.day.on, self._commands))

    def action_show_next(self) -> None:
        """Tries the next theme."""
        names = list(self._opening.looks)
        self.theme = names[(names.index(self.theme) + 1) % len(names)]
        if isinstance(self.screen, CockpitScreen):
            self.screen.say(f'This is {self.theme}. To keep it: theme = "{self.theme}" in settings.toml.')

    @on(ReviewScreen.Opened)
    def open_reviewed(self, event: ReviewScreen.Opened) -> None:
        """Leads from the review back to a lesson."""
        self.pop_screen()
        self._show(event.on, event.lesson_id)

    def _show(self, on_day: date, lesson_id: LessonId) -> None:
        day = next((screen for screen in self.screen_stack if isinstance(screen, DayScreen)), None)
        if day is not None:
            day.show_other_day(on_day, lesson_id)

    def _doing(self, screen: CockpitScreen, command: Command) -> Callable[[], None]:
        async def do() -> None:
            await screen.do(command.id)

        return lambda: self.call_next(do)

    def _painted(self) -> None:
        screen = self.screen
        if self._opening.after_first_paint is not None:
            self._opening.after_first_paint(lambda fault: self.call_from_thread(_tell, screen, fault))

    def _tick_at_next_second(self) -> None:
        now = self._desk.clock.now()
        self.set_timer(1.0 - now.microsecond / 1e6 + 0.005, self._tick)

    def _tick(self) -> None:
        self._tick_at_next_second()
        if is_terminal_gone():
            self.exit(return_code=129)
            return
        has_changed = self._opening.has_changed is not None and self._opening.has_changed()
        for screen in self.screen_stack:
            if isinstance(screen, DayScreen):
                if has_changed:
                    screen.attempt(screen.read_again)
                screen.tick()

    def _end(self, number: int) -> None:
        for screen in self.screen_stack:
            if isinstance(screen, DayScreen):
                screen.attempt(screen.save_typed)
        self.exit(return_code=128 + number)


def _tell(screen: Screen[object], fault: str) -> None:
    if isinstance(screen, CockpitScreen):
        screen.say(fault, is_fault=True)


def _greeting(desk: Desk, opening: Opening) -> str:
    """The most urgent sentence; the others would be cut, and are in Help."""
    sentences = _opening_sentences(desk, opening)
    more = f" ({len(sentences) - 1} more in Help.)" if len(sentences) > 1 else ""
    return f"{sentences[0]}{more}" if sentences else ""


def _opening_sentences(desk: Desk, opening: Opening) -> list[str]:
    sentences = (desk.why_read_only, *opening.faults, desk.day.left_running(), *opening.sentences)
    return [sentence for sentence in sentences if sentence]
