"""What can be done on every screen: the screens that open over the lesson day, help, the palette, the looks.

Those screens are imported when they are opened: the first one does not wait for them.
"""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from datetime import date

from textual import on
from textual.app import App, SystemCommand
from textual.events import Event, Paste
from textual.screen import Screen

from cockpit.desk.desk import Desk
from cockpit.desk.ports import Postman
from cockpit.screens.base import CockpitScreen, bindings_for
from cockpit.screens.closing import Ends, Rescuing
from cockpit.screens.commands.command import Command, Where, key_name
from cockpit.screens.commands.commands import COMMANDS
from cockpit.screens.day.day import DayScreen
from cockpit.screens.look.roles import Look
from cockpit.screens.look.theming import to_textual
from cockpit.screens.textual_parts.pasting import read_pastes_whole
from cockpit.settings.settings import Settings
from cockpit.studio.lessons.lesson import LessonId
from cockpit.studio.shown import shown

_FOOTNOTE = (
    "Lines that begin with Private:, Follow-up: or Next time: stay with you. A line such as Scales: ... or Piece: ... "
    "is an assignment. Everything else is a remark to the family. Shift while dragging selects text in most terminals."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Opening:
    """What the program is opened with beside the desk: looks by name, and the faults and sentences to show first.

    `after_first_paint` gets a function that shows a fault, and may call it from any thread. Without a `postman` nothing
    goes out. Work that takes longer than a key may begins after `idle_seconds`, when the calendar's rules are loaded.
    `rescue` keeps unsaved notes at the end, `ends` ends a screen that hangs, and `screen_gone` is called after the screen
    has ended.
    """

    looks: Mapping[str, Look]
    sentences: tuple[str, ...] = ()
    faults: tuple[str, ...] = ()
    after_first_paint: Callable[[Callable[[str], None]], None] | None = None
    has_changed: Callable[[], bool] | None = None
    postman: Postman | None = None
    rescue: Rescuing | None = None
    ends: Ends | None = None
    screen_gone: Callable[[], None] | None = None
    idle_seconds: float = 1.5


class AppActions(App[None]):
    """The actions of the program as a whole."""

    BINDINGS = bindings_for(Where.EVERYWHERE)

    def __init__(
        self, desk: Desk, settings: Settings, opening: Opening, commands: tuple[Command, ...] = COMMANDS
    ) -> None:
        super().__init__()
        read_pastes_whole()
        self._desk = desk
        self._settings = settings
        self._opening = opening
        self._commands = commands
        for look in opening.looks.values():
            self.register_theme(to_textual(look))
        name = settings.theme if settings.theme in opening.looks else next(iter(opening.looks))
        # Not as a theme is changed: Textual would read the whole style sheet in its own colors, and then again in ours.
        self.set_reactive(App.theme, name)
        self.stylesheet.set_variables(self.get_css_variables())

    async def on_event(self, event: Event) -> None:
        """Replaces control characters in a paste with U+FFFD, whichever field it goes into."""
        if isinstance(event, Paste):
            event.text = shown(event.text)
        await super().on_event(event)

    def get_system_commands(self, screen: Screen[object]) -> Iterable[SystemCommand]:
        """The palette: the commands of the screen that is shown."""
        if isinstance(screen, CockpitScreen):
            for command in screen.commands_here():
                keys = " or ".join(key_name(key) for key in command.keys)
                help_text = f"{command.help} {f'({keys})' if keys else ''}"
                yield SystemCommand(command.label, help_text, self._doing(screen, command))

    def action_show_help(self) -> None:
        """Shows every command; does the one that is chosen."""
        from cockpit.screens.help import HelpScreen

        screen = self.screen
        if isinstance(screen, HelpScreen):
            screen.dismiss(None)
        if not isinstance(screen, CockpitScreen):
            return
        told = "\n".join((_FOOTNOTE, *opening_sentences(self._desk, self._opening)))
        footnote = shown(f"{told}\nStudio folder: {self._desk.folder}")
        commands = {command.id: command for command in screen.commands_here()}

        def chosen(command_id: str | None) -> None:
            if command_id is not None:
                self._doing(screen, commands[command_id])()

        self.push_screen(HelpScreen(commands.values(), footnote), chosen)

    def action_find(self) -> None:
        """Finds a student, and shows the lesson."""
        from cockpit.screens.find import FindScreen

        def found(place: tuple[date, LessonId] | None) -> None:
            if place is not None:
                self._show(*place)

        self.push_screen(FindScreen(self._desk.finding, self._settings.home, self._settings.hours), found)

    def action_show_review(self) -> None:
        """Shows the review of the day that is open."""
        from cockpit.screens.review.review import ReviewScreen

        self.push_screen(ReviewScreen(self._desk, self._settings, self._desk.day.on, self._commands))

    def action_show_outbox(self) -> None:
        """Shows what goes out."""
        from cockpit.screens.post.outbox import OutboxScreen

        self.push_screen(
            OutboxScreen(self._desk, self._settings, self._opening.postman, self._commands), lambda _: self._day_again()
        )

    def action_show_ahead(self) -> None:
        """Shows what lies ahead."""
        from cockpit.screens.calendar.ahead import (
            AheadScreen,  # with all its rules, which the first screen does not wait for
        )

        self.push_screen(AheadScreen(self._desk, self._settings, self._commands), lambda _: self._day_again())

    def action_show_week(self) -> None:
        """Shows the week of the day that is open."""
        from cockpit.screens.calendar.week import WeekScreen

        self.push_screen(WeekScreen(self._desk, self._settings, self._commands), lambda _: self._day_again())

    def action_show_year(self) -> None:
        """Shows the studio year."""
        from cockpit.screens.calendar.year import YearScreen

        self.push_screen(YearScreen(self._desk, self._commands))

    def action_show_next(self) -> None:
        """Tries the next theme."""
        names = list(self._opening.looks)
        self.theme = names[(names.index(self.theme) + 1) % len(names)]
        if isinstance(self.screen, CockpitScreen):
            self.screen.say(f'This is {self.theme}. To keep it: theme = "{self.theme}" in settings.toml.')

    @on(CockpitScreen.LessonChosen)
    def open_chosen(self, event: CockpitScreen.LessonChosen) -> None:
        """Leads from another screen back to a lesson."""
        self.pop_screen()
        self._show(event.on, event.lesson_id)
        self.look_ahead()

    def _show(self, on_day: date, lesson_id: LessonId) -> None:
        day = next((screen for screen in self.screen_stack if isinstance(screen, DayScreen)), None)
        if day is not None:
            day.show_other_day(on_day, lesson_id)

    def _doing(self, screen: CockpitScreen, command: Command) -> Callable[[], None]:
        async def do() -> None:
            await screen.do(command.id)

        return lambda: self.call_next(do)

    def _day_again(self) -> None:
        """Shows the lesson that is open now: the one from before may have been moved to another day."""
        for screen in self.screen_stack:
            if isinstance(screen, DayScreen):
                screen.take(lambda: None)
        self.look_ahead()

    def look_ahead(self) -> None:
        """Counts what is to be settled in the calendar."""
        for screen in self.screen_stack:
            if isinstance(screen, DayScreen):
                screen.attempt(screen.look_ahead)


def opening_sentences(desk: Desk, opening: Opening) -> list[str]:
    """What is to be told when the program opens, the most urgent first."""
    next_one = None if desk.day.bookings else desk.finding.what_is_next(desk.day.habits.hours)
    sentences = (desk.why_read_only, *opening.faults, desk.day.left_running(), next_one, *opening.sentences)
    return [sentence for sentence in sentences if sentence]
