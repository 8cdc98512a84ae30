"""The small widgets of the lesson day: the clock, the key strip, the notice."""

from dataclasses import dataclass
from textwrap import wrap

from textual import events
from textual.content import Content
from textual.message import Message
from textual.widget import Widget

from cockpit.screens.commands.command import Command, key_name
from cockpit.screens.look.figures import big_figures, ruler
from cockpit.screens.look.show import PHASE_ROLES, clock_words, figures_text, role
from cockpit.studio.clocks.moments import Zone
from cockpit.studio.lessons.countdown import ClockFace, Phase
from cockpit.studio.shown import shown

_TALL = 5
_LOW = 3


class ClockBar(Widget):
    """The clock of the running lesson, or of the next one: the student, large figures, and the lesson as a ruler."""

    def __init__(self, home_zone: Zone, hours: int, wait_minutes: int) -> None:
        super().__init__(id="clock")
        self._home_zone = home_zone
        self._hours = hours
        self._wait_minutes = wait_minutes
        self._face = ClockFace(phase=Phase.FREE)
        self._now = ""
        self._shown: Content | None = None

    def show(self, face: ClockFace, now: str) -> None:
        """Shows a clock face and the time of day; nothing is painted where nothing changed."""
        self._face, self._now = face, now
        fresh = self._draw()
        if self._shown is None or fresh.markup != self._shown.markup:
            self._shown = fresh
            self.refresh()

    def render(self) -> Content:
        """The clock at the size it has now."""
        self._shown = self._draw()
        return self._shown

    def _draw(self) -> Content:
        face, width = self._face, self.size.width
        words = clock_words(face, self._home_zone, self._hours, self._wait_minutes)
        style = role(PHASE_ROLES[face.phase], "bold")
        rows = self._figures(max(len(word) for word in words[:2]))
        height = len(rows)
        room = max(0, width - len(rows[0]) - 4)
        below = ""
        if max(len(word) for word in words[:2]) > room:
            words, below = ("", "", ""), f"{words[0]} · {words[2] or words[1]}"
        elif len(words[2]) > room:
            words, below = (words[0], words[1], ""), words[2]
        beside = [""] * ((height - _LOW) // 2) + list(words) + [""] * height
        parts: list[tuple[str, str]] = [*self._heading(width), ("\n", "")]
        for row, word in zip(rows, beside, strict=False):
            parts += [(f" {row}  ", style), (f"{_cut(word, room)}\n", role(PHASE_ROLES[face.phase]))]
        last = [(f" {_cut(below, width - 2)}", style)] if below else self._ruler(width, style)
        return Content.assemble(*parts, *last)

    def _figures(self, beside: int) -> list[str]:
        text = figures_text(self._face)
        tall = big_figures(text, _TALL) if text else [""] * _TALL
        if self.size.height >= _TALL + 2 and len(tall[0]) + 4 + beside <= self.size.width:
            return tall
        return big_figures(text, _LOW) if text else [""] * _LOW

    def _heading(self, width: int) -> list[tuple[str, str]]:
        booking, before, facts = self._face.booking, " ", ""
        name = "No lessons today" if self._face.phase is Phase.NO_LESSONS else "The day is done"
        if booking is not None:
            name = booking.student.name
            before = " Next: " if self._face.phase in {Phase.BEFORE, Phase.WAITING} else " "
            facts = " · ".join(f for f in (booking.lesson.instrument, f"{booking.lesson.minutes} min") if f)
        room = max(4, width - len(before) - len(facts) - len(self._now) - 5)
        name = _cut(name, room)
        gap = " " * max(1, width - len(before) - len(name) - 2 - len(facts) - len(self._now) - 1)
        return [
            (before, role("quiet")),
            (name, role("student", "bold")),
            (f"  {facts}{gap}{self._now}", role("quiet")),
        ]

    def _ruler(self, width: int, style: str) -> list[tuple[str, str]]:
        if self._face.phase not in {Phase.RUNNING, Phase.WRAP_UP, Phase.OVER}:
            return [("─" * max(0, width), role("line"))]
        passed, left, cue, rest = ruler(self._face.share, self._face.wrap_up_share, max(1, width - 2))
        quiet = role("line")
        return [(" ", ""), (passed, style), (left, quiet), (cue, role("clock_wrap_up", "bold")), (rest, quiet)]


def _cut(text: str, room: int) -> str:
    return text if len(text) <= room else text[: max(0, room - 1)] + "…"


@dataclass(frozen=True, slots=True)
class _Item:
    row: int
    begins: int
    ends: int
    command: Command


class KeyStrip(Widget):
    """The keys of this moment, each of which can be tapped. What does not fit is left to Help."""

    class Tapped(Message):
        """A command was tapped."""

        def __init__(self, command: str) -> None:
            super().__init__()
            self.command = command

    def __init__(self, commands: list[Command]) -> None:
        super().__init__(id="strip")
        self._commands = commands

    def offer(self, commands: list[Command]) -> None:
        """Shows the keys of another moment; nothing is painted where they are the same."""
        if commands != self._commands:
            self._commands = commands
            self.refresh()

    def render(self) -> Content:
        """As many commands as fit, in their order of use."""
        parts: list[tuple[str, str]] = []
        row = 0
        for item in self._items:
            if item.row > row:
                row = item.row
                parts.append(("\n", ""))
            key = _key_of(item.command)
            parts += [(key, role("key", "bold")), (f"{item.command.short}  ", role("text"))]
        return Content.assemble(*parts)

    def on_click(self, event: events.Click) -> None:
        """Does what was tapped."""
        place = event.get_content_offset_capture(self)
        for item in self._items:
            if item.row == place.y and item.begins <= place.x < item.ends:
                event.stop()
                self.post_message(self.Tapped(item.command.id))

    @property
    def _items(self) -> list[_Item]:
        """Where each command stands; asked again at a tap, since the strip may not have been painted since it changed."""
        width, height = self.size
        items: list[_Item] = []
        row = column = 0
        for command in self._commands:
            length = len(_key_of(command)) + len(command.short) + 2
            if column and column + length - 2 > width:
                row, column = row + 1, 0
            if row >= height:
                break
            items.append(_Item(row, column, column + length - 2, command))
            column += length
        return items


def _key_of(command: Command) -> str:
    return f"{key_name(command.keys[0])} " if command.keys else ""


class Notice(Widget):
    """One sentence about what just happened; it stays until the next one."""

    def __init__(self) -> None:
        super().__init__(id="notice")
        self.sentence = ""
        self._is_fault = False

    def say(self, sentence: str, *, is_fault: bool = False) -> None:
        """Shows a sentence; it can name what a file or a server says."""
        sentence = shown(sentence)
        if (sentence, is_fault) != (self.sentence, self._is_fault):
            self.sentence, self._is_fault = sentence, is_fault
            self.refresh()

    def render(self) -> Content:
        """The sentence; a fault has a sign before it, not only a color."""
        if not self.sentence:
            return Content("")
        style = role("error", "bold") if self._is_fault else role("text")
        lines = wrap(f"{'! ' if self._is_fault else ''}{self.sentence}", max(1, self.content_size.width))
        room = max(1, self.content_size.height)
        if len(lines) > room:
            lines = [*lines[: room - 1], _cut(" ".join(lines[room - 1 :]), self.content_size.width)]
        return Content.styled("\n".join(lines), style)
