"""The program on the screen: its looks, its screens, and its end, whichever way that comes."""

import asyncio
import contextlib
import sys
from collections.abc import Sequence
from datetime import timedelta
from importlib import import_module
from typing import TYPE_CHECKING, Any, cast

from textual import on
from textual.app import App
from textual.events import Event, InputEvent, Paste
from textual.message import Message
from textual.screen import Screen

from cockpit.desk.desk import Desk
from cockpit.screens.commands.commands import BY_ID, COMMANDS, Command, Place, key_name
from cockpit.screens.day.day import DayScreen
from cockpit.screens.ending import Closing, is_terminal_gone, listen, listen_for_stops, settle
from cockpit.screens.look.styles import DAY_STYLES, STYLES_OVER_DAY, TALL
from cockpit.screens.look.theming import to_textual
from cockpit.screens.opening import Opening, greeting, opening_notices
from cockpit.screens.screen import UNHEARD, CockpitScreen, Parts, bindings_for
from cockpit.screens.textual_parts.fast_compositor import FastScreen
from cockpit.screens.textual_parts.input_order import InputOrder
from cockpit.screens.textual_parts.notice import Notice
from cockpit.screens.textual_parts.pasting import read_pastes_whole
from cockpit.screens.textual_parts.thin_scrollbar import draw_scrollbars_thin
from cockpit.settings.settings import Settings
from cockpit.studio.errors import CockpitError
from cockpit.studio.shown import shown

if TYPE_CHECKING:
    from rich.console import RenderableType
    from textual.filter import LineFilter

    from cockpit.screens.day.curtain import CurtainScreen, Draft
    from cockpit.screens.post.handing_over import HandingOver
    from cockpit.studio.lessons.lesson import LessonId

_PAUSE = timedelta(seconds=1.5)
# The title of the window, which whoever shares it shows: the one before it is kept, and put back (XTWINOPS 22 and 23).
_TITLED, _TITLED_AS_BEFORE = "\x1b[22;2t\x1b]2;Lesson\x07", "\x1b[23;2t"
_WITH_CURTAIN = frozenset({"show_curtain", "quit"})
_QUIET = 0.5  # seconds after the start, by when everything that stays is in memory


class CockpitApp(App[None]):
    """The lesson-day cockpit."""

    CSS = DAY_STYLES
    BINDINGS = bindings_for(Place.EVERYWHERE)
    HORIZONTAL_BREAKPOINTS = [(0, "-one"), (70, "-two")]
    VERTICAL_BREAKPOINTS = TALL
    TITLE = "Lesson day"
    ENABLE_COMMAND_PALETTE = False

    _signs: "LineFilter | None" = None
    _handing_over: "HandingOver | None" = None
    _input_order: InputOrder | None = None
    _draft: "Draft | None" = None
    _quitting: Closing | None = None
    _ends_with: int | None = None

    def __init__(
        self, desk: Desk, settings: Settings, opening: Opening, commands: tuple[Command, ...] = COMMANDS
    ) -> None:
        super().__init__()
        read_pastes_whole()
        draw_scrollbars_thin()
        self._desk = desk
        self._opening = opening
        by_id = {command.id: command for command in commands}
        self._parts = Parts(desk=desk, settings=settings, commands=by_id, sender=opening.sender)
        for look in opening.looks.values():
            self.register_theme(to_textual(look))
        name = settings.theme if settings.theme in opening.looks else next(iter(opening.looks))
        # Not as a theme is changed: Textual would read the whole style sheet in its own colors, and then again in ours.
        self.set_reactive(App.theme, name)
        self.stylesheet.set_variables(self.get_css_variables())
        if settings.signs == "ascii":
            from cockpit.screens.look.ascii_signs import AsciiSigns  # for the few terminals that need it

            self._signs = AsciiSigns()

    def get_line_filters(self) -> Sequence["LineFilter"]:
        """Textual's own, and in a terminal that needs it the one that draws all signs in ASCII."""
        filters = super().get_line_filters()
        return filters if self._signs is None else [*filters, self._signs]

    def get_default_screen(self) -> Screen[None]:
        """The lesson day."""
        return DayScreen(self._parts, greeting(self._desk, self._opening))

    @property
    def day(self) -> DayScreen | None:
        """The lesson day, which every other screen is over; None before it is there, and when it is gone."""
        return next((screen for screen in self.screen_stack if isinstance(screen, DayScreen)), None)

    def on_mount(self) -> None:
        """Starts the clock, and the ways to end."""
        own = (command for command in self._parts.commands.values() if command.keys != BY_ID[command.id].keys)
        # Her own keys alone: Textual goes through all bindings for each that is named here, at every key.
        self.set_keymap({command.id: ",".join(command.keys) or UNHEARD for command in own})
        listen(asyncio.get_running_loop(), self._end)
        if self._opening.ends is not None:
            self._opening.ends.listen()
        listen_for_stops(asyncio.get_running_loop(), self)
        self.call_after_refresh(self._painted)

    # What comes in

    def post_message(self, message: Message) -> bool:
        """Takes a message; keys, pastes and taps come in one at a time."""
        if not isinstance(message, (InputEvent, Paste)) or message.is_forwarded:
            return super().post_message(message)
        if self._input_order is None:
            self._input_order = InputOrder(self, super().post_message)
        return self._input_order.take(message)

    async def on_event(self, event: Event) -> None:
        """Replaces control characters in a paste with U+FFFD, whichever field it goes into."""
        if isinstance(event, Paste):
            event.text = shown(event.text)
        await super().on_event(event)

    # The screens, and what can be done on each of them

    def action_open_screen(self, place: str) -> None:
        """Opens a screen, `module:class`, over the one that is shown; it is imported now."""
        module, _, name = place.partition(":")
        screen: type[CockpitScreen] = getattr(import_module(module), name)
        self.push_screen(screen(self._parts), lambda _: self._day_again())

    def action_show_help(self) -> None:
        """Shows the commands and the guide; does the command that is chosen."""
        from cockpit.screens.help.help import HelpScreen  # with Markdown, which the first screen does not wait for

        screen = self.screen
        if isinstance(screen, HelpScreen):
            screen.dismiss(None)
        elif isinstance(screen, CockpitScreen):
            notices = opening_notices(self._desk, self._opening)
            said = screen.query_one(Notice)
            last = [f"Last message: {said.sentence}"] if len(said.parts) > 1 else []
            footnote = shown("\n".join((*last, *notices, f"Studio folder: {self._desk.folder}")))
            self.push_screen(HelpScreen(self._parts, screen, footnote))

    def action_find(self) -> None:
        """Finds a student or a command; closes Find where it is open."""
        self._find()

    def action_command_palette(self) -> None:
        """Finds a command, or a student."""
        self._find(commands_first=True)

    @on(CockpitScreen.PageAsked)
    def show_page(self, event: CockpitScreen.PageAsked) -> None:
        """Shows a student's page."""
        from cockpit.screens.pieces.page import PageScreen  # when it is first asked for

        self.push_screen(PageScreen(self._parts, event.student_id, event.until))

    @on(CockpitScreen.HistoryAsked)
    def show_history(self, event: CockpitScreen.HistoryAsked) -> None:
        """Shows the history of a piece."""
        from cockpit.screens.pieces.history import HistoryScreen  # when it is first asked for

        self.push_screen(HistoryScreen(self._parts, event.student, event.key))

    @on(CockpitScreen.LessonAsked)
    def read_lesson(self, event: CockpitScreen.LessonAsked) -> None:
        """Shows an earlier lesson."""
        from cockpit.screens.day.earlier import EarlierScreen  # when it is first asked for

        self.push_screen(EarlierScreen(self._parts, event.name, event.earlier, event.until))

    @on(CockpitScreen.ComingUpAsked)
    def show_coming_up(self, event: CockpitScreen.ComingUpAsked) -> None:
        """Shows Coming up with the cursor on a row."""
        from cockpit.screens.calendar.ahead import AheadScreen  # when it is first asked for

        self.push_screen(AheadScreen(self._parts, event.about), lambda _: self._day_again())

    @on(CockpitScreen.FindAsked)
    def find(self, event: CockpitScreen.FindAsked) -> None:
        """Opens Find with words that are typed already."""
        self._find(typed=event.typed)

    def _find(self, *, commands_first: bool = False, typed: str = "") -> None:
        from cockpit.screens.help.find import FindScreen  # when it is first asked for
        from cockpit.screens.help.help import HelpScreen

        screen = self.screen
        if isinstance(screen, FindScreen):
            screen.dismiss(None)
            return
        if isinstance(screen, HelpScreen):
            screen.dismiss(None)
        below = screen.below if isinstance(screen, HelpScreen) else screen
        if isinstance(below, CockpitScreen):
            self.push_screen(FindScreen(self._parts, below, commands_first=commands_first, typed=typed))

    def action_show_next(self) -> None:
        """Shows the next theme, and keeps it."""
        names = list(self._opening.looks)
        self.theme = names[(names.index(self.theme) + 1) % len(names)]
        keep = self._opening.keep_theme
        why_not = keep(self.theme) if keep is not None else "This studio is only read."
        title = self._opening.looks[self.theme].title
        self._tell(f"{title}. {why_not} It stays until you close the cockpit." if why_not else f"{title}. It is kept.")

    def action_show_curtain(self) -> None:
        """Hides the screen, whatever is on it, behind the curtain; lifts it again, and all is where it was."""
        from cockpit.screens.day.curtain import CurtainScreen  # when it is first drawn

        if self._curtain is None:
            for notice in self._notices():
                notice.wait()
            parts = self._parts
            self.push_screen(CurtainScreen(parts.desk, parts.settings, parts.commands, self._write_below, self._draft))
        else:
            self._draft = self._curtain.draft
            self.pop_screen()
            for notice in self._notices():
                notice.come()

    def _write_below(self, lesson_id: "LessonId", line: str) -> None:
        if self.day is not None:
            self.day.write_below(lesson_id, line)

    def on_curtain_screen_faulted(
        self, event: "CurtainScreen.Faulted"
    ) -> None:  # by its name: the curtain is loaded late
        """Says what went wrong behind the curtain."""
        self._tell(event.sentence, is_fault=True)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:  # noqa: ARG002 as there
        """Whether an action can be done: behind the curtain none but the lifting, and closing the program."""
        return self._curtain is None or action in _WITH_CURTAIN

    @property
    def _curtain(self) -> "CurtainScreen | None":
        """The curtain while it is drawn: the one screen that covers all."""
        top = self.screen_stack[-1] if self.screen_stack else None
        return cast("CurtainScreen", top) if isinstance(top, FastScreen) and top.COVERS else None

    def _notices(self) -> list[Notice]:
        return [notice for screen in self.screen_stack for notice in screen.query(Notice)]

    @on(CockpitScreen.LessonChosen)
    def open_chosen(self, event: CockpitScreen.LessonChosen) -> None:
        """Leads from another screen back to a lesson."""
        while self.screen is not self.day and len(self.screen_stack) > 1:
            self.pop_screen()
        if self.day is not None:
            self.day.show_other_day(event.on, event.lesson_id)
        self.look_ahead()

    def _day_again(self) -> None:
        """Reads the day and the screen over it again: a lesson may have been moved to another day."""
        if self.day is not None:
            self.day.step(lambda: None)
        self.look_ahead()
        if isinstance(self.screen, CockpitScreen) and self.screen is not self.day:
            self.screen.attempt(self.screen.show)

    # The time

    def _tick_at_next_second(self) -> None:
        now = self._desk.clock.now()
        self.set_timer(1.0 - now.microsecond / 1e6 + 0.005, self._tick)

    def _tick(self) -> None:
        self._tick_at_next_second()
        if is_terminal_gone():
            self.exit(return_code=129)
            return
        has_changed = self._opening.has_changed is not None and self._opening.has_changed()
        if self.day is not None:
            if has_changed:
                self.day.attempt(self.day.read_again)
            self.day.tick()
        for screen in self.screen_stack:
            if isinstance(screen, FastScreen) and screen is not self.day:
                screen.tell_time()

    def _painted(self) -> None:
        """Begins what the first screen does not wait for, on a slow computer either."""
        self.stylesheet.add_source(STYLES_OVER_DAY, read_from=("styles.py", "STYLES_OVER_DAY"))
        self.stylesheet.parse()  # now, and not at the key that opens the first of them
        if len(self.screen_stack) > 1:  # a key came before
            self.refresh_css(animate=False)
        self.set_timer(_QUIET, settle)
        self.set_timer(self._opening.idle_seconds, self._look_ahead_when_idle)
        self.set_timer(self._opening.idle_seconds, self.look_at_outbox)
        self._tick_at_next_second()
        if self._opening.after_first_paint is not None:
            self._opening.after_first_paint(lambda fault: self.call_from_thread(self._tell, fault, is_fault=True))

    def _look_ahead_when_idle(self) -> None:
        """Looks ahead for the first time once she has stopped typing: it takes longer than a key may."""
        now = self._desk.clock.now()
        if self.day is not None and timedelta() <= now - self.day.notes.typed_at < _PAUSE:
            self.set_timer(self._opening.idle_seconds, self._look_ahead_when_idle)
        else:
            self.look_ahead()

    def look_ahead(self) -> None:
        """Counts what is to be settled in the calendar."""
        if self.day is not None:
            self.day.attempt(self.day.look_ahead)

    # What goes out

    @on(CockpitScreen.OutboxChanged)
    def look_at_outbox(self) -> None:
        """Hands over what is due, now and whenever something else is."""
        from cockpit.screens.post.handing_over import HandingOver  # with the first thing that goes out

        if self._opening.sender is None or self._desk.why_read_only is not None:
            return
        if self._handing_over is None:
            self._handing_over = HandingOver(self, self._desk, self._opening.sender, self._tell_of_outbox)
        self._handing_over.look()

    @property
    def is_sending(self) -> bool:
        """Whether something is on its way."""
        return self._handing_over is not None and self._handing_over.is_sending

    def settle_outbox(self, seconds: float) -> None:
        """Saves the answer to what was going when the program closed; gives it up after some seconds."""
        if self._handing_over is not None:
            self._handing_over.settle(seconds)

    def _tell_of_outbox(self, sentence: str | None) -> None:
        if not self.is_running:
            return
        for screen in self.screen_stack:
            if isinstance(screen, CockpitScreen):
                screen.attempt(screen.outbox_changed)
        if sentence is not None:
            self._tell(sentence, is_fault=True)

    # The end

    async def action_quit(self) -> None:
        """Closes the program; what cannot be saved holds it back once."""
        if self._quitting is None:
            self._quitting = Closing(self._desk.saving, self._opening.rescue, self._save_typed)
        key = next(iter(self._parts.commands["app.quit"].keys), "close")
        why = self._quitting.held_back(key_name(key).capitalize())
        if why is None:
            self.exit()
        else:
            for screen in self.screen_stack:  # the palette may be on top
                if isinstance(screen, CockpitScreen):
                    screen.say(why, is_fault=True)
            if self._curtain is not None:
                self._curtain.say("Not closed yet.")

    def exit(self, result: None = None, return_code: int = 0, message: "RenderableType | None" = None) -> None:
        """Begins the end of the program, whatever caused it."""
        if self._ends_with is None:
            self._ends_with = return_code
        if self._opening.ends is not None:
            self._opening.ends.begin(return_code)
        with contextlib.suppress(CockpitError):
            self._desk.board.empty_page()
        super().exit(result, return_code, message)

    @property
    def return_code(self) -> int | None:
        """The exit status that the end began with, whatever fails after that."""
        return self._ends_with if self._ends_with is not None else super().return_code

    async def run_async(self, **more: Any) -> None:  # noqa: ANN401 as there
        """Runs the program until its screen is gone."""
        has_title = self._parts.settings.window_title
        if has_title:
            _send(_TITLED)
        try:
            await super().run_async(**more)
        finally:
            if has_title:
                _send(_TITLED_AS_BEFORE)
            if self._opening.screen_gone is not None:
                self._opening.screen_gone()

    def _fatal_error(self) -> None:
        """Ends the program after a fault of ours; Textual's own would show variables too, and in them notes and addresses."""
        from rich.traceback import Traceback

        if self._opening.ends is not None:
            self._opening.ends.begin(1)
        # A screen that was still being opened when the end began finds its parts gone: nobody needs to know.
        faults = [] if self._ends_with is not None else [Traceback(show_locals=False, suppress=["rich", "textual"])]
        self.panic(*faults)

    def _end(self, number: int) -> None:
        self._save_typed()
        self.exit(return_code=128 + number)

    def _save_typed(self) -> None:
        if self.day is not None:
            self.day.attempt(self.day.save_typed)

    def _tell(self, sentence: str, *, is_fault: bool = False) -> None:
        """Says something on the screen that is on top of those that say anything: a dialog and the curtain do not."""
        told = [screen for screen in self.screen_stack if isinstance(screen, CockpitScreen)]
        if told:
            told[-1].say(sentence, is_fault=is_fault)


def _send(sequence: str) -> None:
    """Sends a sequence to where Textual writes, before its screen is there and after it is gone."""
    terminal = sys.__stderr__
    if terminal is not None and terminal.isatty():
        with contextlib.suppress(OSError):  # the terminal is gone
            terminal.write(sequence)
            terminal.flush()
