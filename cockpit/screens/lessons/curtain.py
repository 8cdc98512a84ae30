"""The curtain: what is on the screen while she shares it. A first name, five lines of music, and the minutes that are left."""

import unicodedata
from collections.abc import Sequence
from datetime import datetime, timedelta

from rich.cells import cell_len, set_cell_size
from textual import events
from textual.app import ComposeResult
from textual.content import Content
from textual.widget import Widget

from cockpit.desk.desk import Desk
from cockpit.screens.commands.commands import key_name
from cockpit.screens.look.show import Piece, placed, role
from cockpit.screens.textual_parts.fast_compositor import FastScreen
from cockpit.settings.settings import Settings
from cockpit.studio.lessons.scheduled import ScheduledLesson
from cockpit.studio.people.people import first_name
from cockpit.studio.shown import shown
from cockpit.studio.values import Value

WITHOUT_A_KEY = "escape"  # lifts where her own keys leave the command none
_LINES, _MIDDLE = 5, 2
_AIRY = 13  # rows from which on a row lies between two lines
_LEAST = 7  # rows below which there is no room for them
_BELOW = 3  # rows from the lines to the time
_RESTS = 3  # columns without a line on each side of the name
_BESIDE = 20  # columns beside the name at least, so that the middle line is seen on both sides
_MINUTE = timedelta(minutes=1)


class CurtainView(Value):
    """All that the curtain knows, so that it can show nothing else.

    `first_name` is empty where no lesson runs; `minutes_left` is None where nothing is said of the time, and 0 or less
    from the last minute on; `lifts` is the key as it is printed. `says` is about a key that she pressed.
    """

    first_name: str = ""
    minutes_left: int | None = None
    is_over: bool = False
    lifts: str
    says: str = ""


def curtain_view(
    running: ScheduledLesson | None, now: datetime, *, has_clock: bool, keys: Sequence[str], says: str = ""
) -> CurtainView:
    """What the curtain may know of the running lesson at a moment (UTC), and of its own keys."""
    lifts = key_name(next(iter(keys), WITHOUT_A_KEY))
    if running is None:
        return CurtainView(lifts=lifts, says=says)
    left = running.lesson.ends_at - now
    return CurtainView(
        first_name=shown(first_name(running.student, running.family)),
        minutes_left=left // _MINUTE if has_clock else None,
        is_over=left <= timedelta(),
        lifts=lifts,
        says=says,
    )


def curtain(view: CurtainView, width: int, height: int) -> list[Content]:
    """The rows of the curtain in a room of so many columns and rows."""
    rows: list[list[Piece]] = [[] for _ in range(height)]
    step = 2 if height >= _AIRY else 1
    staff = (_LINES - 1) * step + 1
    top = max(0, (height - staff) // 2)
    name = _spread(view.first_name, width - _BESIDE)
    if height >= _LEAST:
        for row in range(staff):
            rows[top + row] += _staff_row(row, staff, step, width, cell_len(name))
    if name:
        rows[top + staff // 2 if height >= _LEAST else 0].append((_centered(name, width), name, role("text", "bold")))
    if (left := _left(view)) and height >= _LEAST:
        at = min(top + staff - 1 + _BELOW + 1, height - 2)
        if at >= top + staff:
            rows[at].append((_centered(left, width), left, role("clock_running")))
    if rows:
        rows[-1] = _strip(view)
    return [placed(width, *row) for row in rows]


def _left(view: CurtainView) -> str:
    if view.minutes_left is None:
        return ""
    if view.is_over:
        return "time is up"
    return f"{view.minutes_left} min left" if view.minutes_left else "under 1 min left"


def _strip(view: CurtainView) -> list[Piece]:
    after = 1 + cell_len(view.lifts)
    said = [(after + 8, view.says, role("text"))] if view.says else []
    return [(1, view.lifts, role("text", "bold")), (after, " lifts", role("quiet")), *said]


def _staff_row(row: int, rows: int, step: int, width: int, name: int) -> list[Piece]:
    """A row of the five lines with the thin and the thick bar at their end; the middle line makes room for a name so wide."""
    thin, thick, length = width - 4, width - 2, max(0, width - 4)
    is_line = row % step == 0
    ends = {0: ("┐", "╻"), rows - 1: ("┘", "╹")}.get(row, ("┤" if is_line else "│", "┃"))
    pieces = [(thin, ends[0]), (thick, ends[1])] if length else []
    if is_line and row == _MIDDLE * step and name:
        begins = (width - name + 1) // 2 - _RESTS
        after = begins + name + 2 * _RESTS
        pieces += [(0, "─" * max(0, begins)), (after, "─" * max(0, length - after))]
    elif is_line:
        pieces.append((0, "─" * length))
    return [(column, words, role("line")) for column, words in pieces if words]


def _centered(words: str, width: int) -> int:
    return max(0, (width - cell_len(words) + 1) // 2)


def _spread(name: str, room: int) -> str:
    """A name with its letters apart where its script has letters that stand apart, and where there is room for that."""
    name = unicodedata.normalize("NFC", name)
    apart = " ".join(name)
    if cell_len(apart) <= room and all(map(_stands_alone, name)):
        return apart
    return name if cell_len(name) <= room else f"{set_cell_size(name, max(0, room - 1)).rstrip()}…"


def _stands_alone(letter: str) -> bool:
    is_mark = unicodedata.category(letter)[0] in "MC"
    return cell_len(letter) == 1 and not is_mark and unicodedata.bidirectional(letter) not in {"R", "AL"}


class Curtain(Widget):
    """The curtain over the whole screen; nothing is painted where nothing changed."""

    def __init__(self, desk: Desk, settings: Settings, keys: Sequence[str]) -> None:
        super().__init__(id="curtain")
        self._desk = desk
        self._has_clock = settings.curtain_clock
        self._keys = keys
        self._says = ""
        self._view = self._read()

    def say(self, words: str) -> None:
        """Answers a key; the words are the same whatever is behind the curtain."""
        self._says = words
        self.tell_time()

    def tell_time(self) -> None:
        """Shows the time that it is."""
        fresh = self._read()
        if fresh != self._view:
            self._view = fresh
            self.refresh()

    def render(self) -> Content:
        """The rows in the room that there is."""
        return Content("\n").join(curtain(self._view, *self.size))

    async def on_click(self, event: events.Click) -> None:
        """Lifts at a tap on the key."""
        if event.y == self.size.height - 1 and event.x <= cell_len(self._view.lifts) + len(" lifts"):
            await self.app.run_action("app.show_curtain")

    def _read(self) -> CurtainView:
        return curtain_view(
            self._desk.day.running,
            self._desk.clock.now(),
            has_clock=self._has_clock,
            keys=self._keys,
            says=self._says,
        )


class CurtainScreen(FastScreen[None]):
    """Lies over whatever is shown, a dialog too. It has no field and no list, so that no letter and no paste goes anywhere."""

    COVERS = True
    AUTO_FOCUS = ""
    ALLOW_SELECT = False

    def __init__(self, desk: Desk, settings: Settings, keys: Sequence[str]) -> None:
        super().__init__()
        self._curtain = Curtain(desk, settings, keys)
        self._keys = keys

    def compose(self) -> ComposeResult:
        """The curtain, and nothing else."""
        yield self._curtain

    def say(self, words: str) -> None:
        """Answers a key."""
        self._curtain.say(words)

    def tell_time(self) -> None:
        """Shows the time that it is."""
        self._curtain.tell_time()

    async def on_key(self, event: events.Key) -> None:
        """Lifts where her own keys leave the command none."""
        if not self._keys and event.key == WITHOUT_A_KEY:
            await self.app.run_action("app.show_curtain")
