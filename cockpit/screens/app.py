"""The program on the screen: its looks, its screens, and its end, whichever way that comes."""

import asyncio
from datetime import timedelta
from typing import TYPE_CHECKING, Any

from textual import on
from textual.events import InputEvent, Paste
from textual.message import Message
from textual.screen import Screen

from cockpit.desk.desk import Desk
from cockpit.screens.app_actions import AppActions, Opening, opening_sentences
from cockpit.screens.base import UNHEARD, CockpitScreen
from cockpit.screens.closing import Closing
from cockpit.screens.commands.command import key_name
from cockpit.screens.commands.commands import BY_ID
from cockpit.screens.day.day import DayScreen
from cockpit.screens.ending import is_terminal_gone, listen, listen_for_stops, settle
from cockpit.screens.look.styles import STYLES, TALL
from cockpit.screens.textual_parts.input_order import InputOrder

if TYPE_CHECKING:
    from rich.console import RenderableType

    from cockpit.screens.post.handing_over import HandingOver

_PAUSE = timedelta(seconds=1.5)
_QUIET = 0.5  # seconds after the start, by when everything that stays is in memory


class CockpitApp(AppActions):
    """The lesson-day cockpit."""

    CSS = STYLES
    VERTICAL_BREAKPOINTS = TALL
    TITLE = "Lesson day"
    ENABLE_COMMAND_PALETTE = True

    _handing_over: "HandingOver | None" = None
    _input_order: InputOrder | None = None
    _quitting: Closing | None = None
    _ends_with: int | None = None

    def post_message(self, message: Message) -> bool:
        """Takes a message; keys, pastes and taps come in one at a time."""
        if not isinstance(message, (InputEvent, Paste)) or message.is_forwarded:
            return super().post_message(message)
        if self._input_order is None:
            self._input_order = InputOrder(self, super().post_message)
        return self._input_order.take(message)

    def get_default_screen(self) -> Screen[None]:
        """The lesson day."""
        return DayScreen(self._desk, self._settings, self._commands, _greeting(self._desk, self._opening))

    def on_mount(self) -> None:
        """Starts the clock, and the ways to end."""
        own = (command for command in self._commands if command.keys != BY_ID[command.id].keys)
        # Her own keys alone: Textual goes through all bindings for each that is named here, at every key.
        self.set_keymap({command.id: ",".join(command.keys) or UNHEARD for command in own})
        listen(asyncio.get_running_loop(), self._end)
        if self._opening.ends is not None:
            self._opening.ends.listen()
        listen_for_stops(asyncio.get_running_loop(), self)
        self.set_timer(_QUIET, settle)
        self.call_after_refresh(self._painted)
        self.set_timer(self._opening.idle_seconds, self._look_ahead_when_idle)
        self.set_timer(self._opening.idle_seconds, self.look_at_outbox)
        self._tick_at_next_second()

    def _fatal_error(self) -> None:
        """Ends the program after a fault of ours; Textual's own would show variables too, and in them notes and addresses."""
        from rich.traceback import Traceback

        if self._opening.ends is not None:
            self._opening.ends.begin(1)
        # A screen that was still being opened when the end began finds its parts gone: nobody needs to know.
        faults = [] if self._ends_with is not None else [Traceback(show_locals=False, suppress=["rich", "textual"])]
        self.panic(*faults)

    @on(CockpitScreen.OutboxChanged)
    def look_at_outbox(self) -> None:
        """Hands over what is due, now and whenever something else is."""
        from cockpit.screens.post.handing_over import HandingOver  # with the first thing that goes out

        if self._opening.postman is None or self._desk.why_read_only is not None:
            return
        if self._handing_over is None:
            self._handing_over = HandingOver(self, self._desk, self._opening.postman, self._tell_of_outbox)
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
                screen.attempt(screen.show_outbox)
        if sentence is not None:
            _tell(self.screen, sentence)

    def _look_ahead_when_idle(self) -> None:
        """Looks ahead for the first time once she has stopped typing: it takes longer than a key may."""
        now = self._desk.clock.now()
        typed = (screen.typed_at for screen in self.screen_stack if isinstance(screen, DayScreen))
        if any(timedelta() <= now - at < _PAUSE for at in typed):
            self.set_timer(self._opening.idle_seconds, self._look_ahead_when_idle)
        else:
            self.look_ahead()

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

    async def action_quit(self) -> None:
        """Closes the program; what cannot be saved holds it back once."""
        if self._quitting is None:
            self._quitting = Closing(self._desk.saving, self._opening.rescue, self._save_typed)
        key = next(
            (key_name(key) for command in self._commands if command.id == "app.quit" for key in command.keys), ""
        )
        why = self._quitting.held_back(key.capitalize() or "Close")
        if why is None:
            self.exit()
        else:
            for screen in self.screen_stack:  # the palette may be on top
                _tell(screen, why)

    def exit(self, result: None = None, return_code: int = 0, message: "RenderableType | None" = None) -> None:
        """Begins the end of the program, whatever caused it."""
        if self._ends_with is None:
            self._ends_with = return_code
        if self._opening.ends is not None:
            self._opening.ends.begin(return_code)
        super().exit(result, return_code, message)

    @property
    def return_code(self) -> int | None:
        """The exit status that the end began with, whatever fails after that."""
        return self._ends_with if self._ends_with is not None else super().return_code

    async def run_async(self, **more: Any) -> None:  # noqa: ANN401 as there
        """Runs the program until its screen is gone."""
        try:
            await super().run_async(**more)
        finally:
            if self._opening.screen_gone is not None:
                self._opening.screen_gone()

    def _end(self, number: int) -> None:
        self._save_typed()
        self.exit(return_code=128 + number)

    def _save_typed(self) -> None:
        for screen in self.screen_stack:
            if isinstance(screen, DayScreen):
                screen.attempt(screen.save_typed)


def _tell(screen: Screen[object], fault: str) -> None:
    if isinstance(screen, CockpitScreen):
        screen.say(fault, is_fault=True)


def _greeting(desk: Desk, opening: Opening) -> str:
    """The most urgent sentence; the others would be cut, and are in Help."""
    sentences = opening_sentences(desk, opening)
    more = f" ({len(sentences) - 1} more in Help.)" if len(sentences) > 1 else ""
    return f"{sentences[0]}{more}" if sentences else ""
