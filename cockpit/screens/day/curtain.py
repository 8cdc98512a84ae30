"""The curtain: what is on the screen while she shares it. A first name, the board or five lines of music, the minutes that are left.

On the board's own line each letter is text, as in the notes: `key Ab` and `open strings violin` begin with letters too. So its
commands are control letters, which every terminal delivers while she types, and no line has to be begun in a way of its own.
"""

import unicodedata
from collections.abc import Callable, Mapping, Sequence
from datetime import datetime, timedelta
from itertools import accumulate

from rich.cells import cell_len, set_cell_size
from textual import events, on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.content import Content
from textual.message import Message
from textual.widget import Widget
from textual.widgets import Input

from cockpit.desk.desk import Desk
from cockpit.outlets.browser import open_file
from cockpit.screens.commands.commands import BY_ID, Command, Place, key_name
from cockpit.screens.day.board_rows import board_rows, family_rows
from cockpit.screens.look.show import Piece, cut_at_word, lines_of, placed, role
from cockpit.screens.screen import bindings_for
from cockpit.screens.textual_parts.fast_compositor import FastScreen
from cockpit.screens.textual_parts.key_strip import KeyStrip
from cockpit.screens.textual_parts.search_field import Field
from cockpit.settings.settings import Settings
from cockpit.studio.day.board import Board, BoardEntry
from cockpit.studio.errors import BadInput, CockpitError
from cockpit.studio.lessons.lesson import LessonId
from cockpit.studio.lessons.scheduled import ScheduledLesson
from cockpit.studio.people.people import first_name
from cockpit.studio.recital.live import RecitalNow
from cockpit.studio.recital.program import RecitalProgram
from cockpit.studio.shown import shown
from cockpit.studio.values import Value
from cockpit.wording.recital import public_words

SHOW_CURTAIN = "app.show_curtain"
WITHOUT_A_KEY = "escape"  # lifts where her own keys leave the command none
_LINES, _MIDDLE = 5, 2
_AIRY = 13  # rows from which on a row lies between two lines
_LEAST = 7  # rows below which there is no room for them
_BELOW = 3  # rows from the lines to the time
_RESTS = 3  # columns without a line on each side of the name
_BESIDE = 20  # columns beside the name at least, so that the middle line is seen on both sides
_HEAD = 2  # rows above the board
_NARROW = 64  # columns below which what is said of the board's line has two rows
_MINUTE = timedelta(minutes=1)
_LIFTS = " lifts"
_APART = 2  # columns between two keys
_KEYS = ("board.keep", "board.take_off", "board.show_notes", "board.open_page")
_LEFT_OUT = ("board.take_off", "board.open_page", "board.show_notes", "board.keep")  # the first where there is no room
_OF_CHOSEN = ("board.keep", "board.take_off")
_BACK = "board"  # what the key of the notes is for while they are shown


class PlayedOnCurtain(Value):
    """What of a recital that goes on the curtain may know: its name, what is played, what is next; words as papers have them."""

    name: str
    playing: str = ""
    following: str = ""


class BoardKey(Value):
    """A key of the board: the command, its key as it is printed, and what it is for. An idle one does nothing now."""

    command: str
    key: str
    does: str
    is_idle: bool = False


class CurtainView(Value):
    """All that the curtain knows, so that it can show nothing else.

    `first_name` is empty where no lesson runs; `minutes_left` is None where nothing is said of the time, and 0 or less
    from the last minute on; `lifts` is the key as it is printed. `says` is about a key that she pressed. `family_lines` are
    shown instead of the board where they are not None.
    """

    first_name: str = ""
    minutes_left: int | None = None
    is_over: bool = False
    lifts: str
    says: str = ""
    has_line: bool = False
    entries: tuple[BoardEntry, ...] = ()
    chosen: int = 0
    family_lines: tuple[str, ...] | None = None
    played: PlayedOnCurtain | None = None
    board_keys: tuple[BoardKey, ...] = ()


class BoardLook(Value):
    """The board and how she looks at it: which thing is chosen, and the notes for the family where they are shown instead."""

    board: Board | None = None
    chosen: str = ""
    family_lines: tuple[str, ...] | None = None


def curtain_view(
    running: ScheduledLesson | None,
    now: datetime,
    *,
    has_clock: bool,
    says: str = "",
    look: BoardLook | None = None,
    commands: Mapping[str, Command] = BY_ID,
) -> CurtainView:
    """Collects what the curtain may show at a moment (UTC): the running lesson, its board, and the keys, which may be the teacher's own."""
    lifts = lifting_key(commands)
    if running is None:
        return CurtainView(lifts=lifts, says=says)
    left = running.lesson.ends_at - now
    look = look or BoardLook()
    entries = look.board.entries if look.board is not None else ()
    words = [entry.words for entry in entries]
    return CurtainView(
        first_name=shown(first_name(running.student, running.family)),
        minutes_left=left // _MINUTE if has_clock else None,
        is_over=left <= timedelta(),
        lifts=lifts,
        says=says,
        has_line=look.board is not None,
        entries=entries,
        chosen=words.index(look.chosen) if look.chosen in words else max(0, len(words) - 1),
        family_lines=look.family_lines,
        board_keys=_board_keys(commands, look) if look.board is not None else (),
    )


def lifting_key(commands: Mapping[str, Command]) -> str:
    """The key that lifts the curtain, as it is printed."""
    return key_name(next(iter(commands[SHOW_CURTAIN].keys), WITHOUT_A_KEY))


def _board_keys(commands: Mapping[str, Command], look: BoardLook) -> tuple[BoardKey, ...]:
    """Lists the keys of the board; the teacher may have chosen other keys for the commands."""
    has_chosen = look.board is not None and look.board.entries and look.family_lines is None
    named = (commands[each] for each in _KEYS if commands[each].keys)
    return tuple(
        BoardKey(
            command=command.id,
            key=key_name(command.keys[0]),
            does=_BACK if command.id == "board.show_notes" and look.family_lines is not None else command.short,
            is_idle=command.id in _OF_CHOSEN and not has_chosen,
        )
        for command in named
    )


def played_on_curtain(
    live: tuple[RecitalProgram, RecitalNow] | None, running: ScheduledLesson | None
) -> PlayedOnCurtain | None:
    """What the curtain may know of the recital that goes on; nothing where a lesson began after it."""
    if live is None:
        return None
    program, now = live
    began_at, since = (running.lesson.began_at if running is not None else None), program.recital.began_at
    if began_at is not None and since is not None and began_at > since:
        return None
    following = now.following[0] if now.following else None
    return PlayedOnCurtain(
        name=shown(program.recital.name),
        playing=shown(public_words(now.playing)) if now.playing is not None else "",
        following=shown(public_words(following)) if following is not None else "",
    )


def curtain(view: CurtainView, width: int, height: int) -> list[Content]:
    """The rows of the curtain in a room of so many columns and rows."""
    has_board = view.entries or view.family_lines is not None
    if view.played is not None:
        rows = _with_program(view.played, width, height)
    else:
        rows = _with_board(view, width, height) if has_board and height >= _LEAST else _with_staff(view, width, height)
    if rows:
        rows[-1] = _strip(view, width)
    if view.has_line and height >= _LEAST:
        most = _rows_said(width)
        said = lines_of(Content(view.says), width - 2) if view.says else []
        for row, words in enumerate(said[:most], height - 1 - most):
            rows[row] = [(1, words.plain, role("text"))]
    return [placed(width, *row) for row in rows]


def _rows_said(width: int) -> int:
    return 2 if width < _NARROW else 1


def _foot(width: int) -> int:
    """How many rows are below the board: an empty one, its line, what is said of that, the key."""
    return _rows_said(width) + 3


def _with_board(view: CurtainView, width: int, height: int) -> list[list[Piece]]:
    """The name and the time above, and below them the board, or what the family will read."""
    left, room = _left(view), height - _HEAD - _foot(width)
    name = _spread(view.first_name, width - cell_len(left) - 3)
    head: list[Piece] = [(1, name, role("text", "bold"))]
    if left:
        head.append((width - cell_len(left) - 1, left, role("clock_running")))
    if view.family_lines is not None:
        rows = family_rows(view.family_lines, width, room)
    else:
        rows = [row.pieces for row in board_rows(view.entries, view.chosen, width, room)]
    return [head, *([] for _ in range(_HEAD - 1)), *rows, *([] for _ in range(height - _HEAD - len(rows)))]


def thing_at(view: CurtainView, width: int, height: int, row: int) -> BoardEntry | None:
    """Finds the thing of the board in a row. The row that counts the things without room stands for the first of them."""
    if view.played is not None or not view.entries or view.family_lines is not None or height < _LEAST:
        return None
    below_head = row - _HEAD
    rows = board_rows(view.entries, view.chosen, width, height - _HEAD - _foot(width))
    return rows[below_head].entry if 0 <= below_head < len(rows) else None


def _with_program(played: PlayedOnCurtain, width: int, height: int) -> list[list[Piece]]:
    """What is played in the middle of five lines, the name of the recital above them, and what is next below."""
    rows, top, staff = _staff_around(played.playing or played.name, width, height)
    if height >= _LEAST and played.playing and top > 1:
        name = cut_at_word(played.name, width - 2)
        rows[max(0, top - 2)].append((_centered(name, width), name, role("quiet")))
    at = min(top + staff + 1, height - 2)
    if played.following and height >= _LEAST and at >= top + staff:
        following = cut_at_word(f"next  {played.following}", width - 2)
        rows[at].append((_centered(following, width), following, role("text")))
    return rows


def _with_staff(view: CurtainView, width: int, height: int) -> list[list[Piece]]:
    """The name in the middle of five lines, and the time below them."""
    rows, top, staff = _staff_around(view.first_name, width, height)
    if (left := _left(view)) and height >= _LEAST:
        at = min(top + staff - 1 + _BELOW + 1, height - (_foot(width) if view.has_line else 2))
        if at >= top + staff:
            rows[at].append((_centered(left, width), left, role("clock_running")))
    return rows


def _staff_around(words: str, width: int, height: int) -> tuple[list[list[Piece]], int, int]:
    """The rows with five lines around some words, the row of the first line, and how many rows the lines take."""
    rows: list[list[Piece]] = [[] for _ in range(height)]
    step = 2 if height >= _AIRY else 1
    staff = (_LINES - 1) * step + 1
    top = max(0, (height - staff) // 2)
    name = _spread(words, width - _BESIDE)
    if height >= _LEAST:
        for row in range(staff):
            rows[top + row] += _staff_row(row, staff, step, width, cell_len(name))
    if name:
        rows[top + staff // 2 if height >= _LEAST else 0].append((_centered(name, width), name, role("text", "bold")))
    return rows, top, staff


def _left(view: CurtainView) -> str:
    if view.minutes_left is None:
        return ""
    if view.is_over:
        return "time is up"
    return f"{view.minutes_left} min left" if view.minutes_left else "under 1 min left"


def _strip(view: CurtainView, width: int) -> list[Piece]:
    """Draws the last row: the key that lifts, then what is said or, at the end of the row, the keys of the board."""
    after = _after_lifts(view)
    says = [] if view.has_line else [(after + 2, view.says, role("text"))]
    keys = [
        piece
        for column, each in _keys_below(view, width)
        for piece in (
            (column, each.key, role("text")),
            (column + cell_len(each.key), f" {each.does}", role("quiet")),
        )
    ]
    return [(1, view.lifts, role("text", "bold")), (after - len(_LIFTS), _LIFTS, role("quiet")), *says, *keys]


def _after_lifts(view: CurtainView) -> int:
    return 1 + cell_len(view.lifts) + len(_LIFTS)


def _keys_below(view: CurtainView, width: int) -> list[tuple[int, BoardKey]]:
    """Places the keys of the board at the end of the last row, each with its column.

    What has no room is left out. An idle key leaves its place empty, so that no other moves.
    """
    room = width - _after_lifts(view) - _APART - 1
    fit = list(view.board_keys)
    for least in _LEFT_OUT:
        if _length(fit) > room:
            fit = [each for each in fit if each.command != least]
    columns = accumulate((_length([each]) + _APART for each in fit), initial=width - 1 - _length(fit))
    return [(column, each) for column, each in zip(columns, fit, strict=False) if not each.is_idle]


def _length(keys: Sequence[BoardKey]) -> int:
    return sum(cell_len(f"{each.key} {each.does}") + _APART for each in keys) - _APART


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

    def __init__(self, desk: Desk, settings: Settings, commands: Mapping[str, Command], chosen: str = "") -> None:
        super().__init__(id="curtain")
        self._desk = desk
        self._has_clock = settings.curtain_clock
        self._commands = commands
        self._says = ""
        self._chosen = chosen
        self._shows_family_lines = False
        self.view = self._read()

    def say(self, words: str) -> None:
        """Answers a key; the words are the same whatever is behind the curtain."""
        self._says = words
        self.tell_time()

    def tell_time(self) -> None:
        """Shows the time that it is."""
        fresh = self._read()
        if fresh != self.view:
            self.view = fresh
            self.refresh()

    @property
    def chosen(self) -> BoardEntry | None:
        """The chosen thing on the board, where the board is shown."""
        has_chosen = self.view.entries and not self._shows_family_lines
        return self.view.entries[self.view.chosen] if has_chosen else None

    def choose(self, words: str) -> None:
        """Draws one thing of the board first."""
        self._chosen = words
        self.say("")

    def move(self, step: int) -> None:
        """Chooses the thing before or after, up to the ends of the board."""
        if self.chosen is not None:
            place = max(0, min(len(self.view.entries) - 1, self.view.chosen + step))
            self.choose(self.view.entries[place].words)

    def turn(self) -> None:
        """Shows the notes for the family instead of the board, or the board again."""
        self._shows_family_lines = not self._shows_family_lines
        self.say("")

    def render(self) -> Content:
        """The rows in the room that there is."""
        return Content("\n").join(curtain(self.view, *self.size))

    async def on_click(self, event: events.Click) -> None:
        """Lifts at a tap on the key, does what another key is for, and chooses a thing of the board."""
        width, height = self.size
        if event.y < height - 1:
            if (thing := thing_at(self.view, width, height, event.y)) is not None:
                self.choose(thing.words)
        elif event.x < _after_lifts(self.view):
            await self.app.run_action("app.show_curtain")
        else:
            for column, each in _keys_below(self.view, width):
                if column <= event.x < column + _length([each]):
                    self.post_message(KeyStrip.Tapped(each.command))

    def _read(self) -> CurtainView:
        board, running = self._desk.board, self._desk.day.running
        played = played_on_curtain(self._desk.recitals().reading.live_program(), running)
        if played is not None:
            return CurtainView(lifts=lifting_key(self._commands), says=self._says, played=played)
        lines = board.family_lines() if self._shows_family_lines else None
        return curtain_view(
            running,
            self._desk.clock.now(),
            has_clock=self._has_clock,
            says=self._says,
            look=BoardLook(board=board.now(), chosen=self._chosen, family_lines=lines),
            commands=self._commands,
        )


class Draft(Value):
    """What is typed in the line of a lesson's board, and is not on it yet, and the thing that is chosen there."""

    lesson_id: LessonId | None
    typed: str = ""
    chosen: str = ""


class CurtainScreen(FastScreen[None]):
    """Lies over whatever is shown, a dialog too; what is typed goes into the board's line, while a lesson runs.

    `keep` puts a line below the notes of a lesson. `draft` is what stood in the line of that lesson before.
    """

    class Faulted(Message):
        """Something could not be saved; the sentence is told when the curtain is lifted."""

        def __init__(self, sentence: str) -> None:
            super().__init__()
            self.sentence = sentence

    COVERS = True
    AUTO_FOCUS = ""
    ALLOW_SELECT = False
    PLACE = Place.BOARD
    BINDINGS = [
        *bindings_for(Place.BOARD),
        Binding("down", "choose(1)", show=False, priority=True),
        Binding("up", "choose(-1)", show=False, priority=True),
    ]

    def __init__(
        self,
        desk: Desk,
        settings: Settings,
        commands: Mapping[str, Command],
        keep: Callable[[LessonId, str], None],
        draft: Draft | None = None,
    ) -> None:
        super().__init__()
        self._desk = desk
        self._commands = commands
        self._keep = keep
        self._lesson_id = draft.lesson_id if draft is not None else None
        self._curtain = Curtain(desk, settings, commands, draft.chosen if draft is not None else "")
        self._line = Field(draft.typed if draft is not None else "", id="board-line", select_on_focus=False)

    def compose(self) -> ComposeResult:
        """The curtain, and the board's line over it."""
        yield self._curtain
        yield self._line

    def on_resize(self, event: events.Resize) -> None:
        """Puts the line where the curtain leaves room for it."""
        self._line.styles.margin = (0, 1, _rows_said(event.size.width) + 1, 1)

    def on_mount(self) -> None:
        """Takes the cursor into the line, where there is one."""
        self.tell_time()

    @property
    def draft(self) -> Draft:
        """What is typed in the line and is not on the board, and what is chosen."""
        chosen = self._curtain.chosen
        return Draft(
            lesson_id=self._lesson_id, typed=self._line.value, chosen=chosen.words if chosen is not None else ""
        )

    def say(self, words: str) -> None:
        """Answers a key."""
        self._curtain.say(words)

    def tell_time(self) -> None:
        """Shows the time that it is, and the line of the lesson that runs: no other student sees what is typed in it."""
        self._curtain.tell_time()
        running = self._desk.day.running if self._curtain.view.played is None else None
        lesson_id = running.lesson.id if running is not None else None
        if lesson_id != self._lesson_id:
            self._lesson_id, self._line.value = lesson_id, ""
        self._line.display = lesson_id is not None
        if lesson_id is not None and self.focused is not self._line:
            self._line.focus()

    def on_input_changed(self) -> None:
        """Takes back what was said of the line before."""
        self.say("")

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Puts the line on the board; below the notes while those are shown. What is not understood stays typed."""
        if event.value.strip():
            self._attempt(lambda: self._take(event.value))

    @on(KeyStrip.Tapped)
    async def do_tapped(self, event: KeyStrip.Tapped) -> None:
        """Does what a key of the board is for."""
        await self.run_action(self._commands[event.command].action)

    def action_choose(self, step: int) -> None:
        """Chooses the thing before or after."""
        self._curtain.move(step)

    def action_keep(self) -> None:
        """Keeps the chosen thing as a line of the notes."""
        self._attempt(self._keep_chosen)

    def action_take_off(self) -> None:
        """Takes the chosen thing off the board; in a line that has words, deletes one sign of them."""
        chosen = self._curtain.chosen
        if self._line.value:
            self._line.action_delete_right()
        elif chosen is not None:
            self._attempt(lambda: self._desk.board.take_off(chosen.words))

    def action_open_page(self) -> None:
        """Opens the board as a page of its own."""
        if self._desk.day.running is not None:
            self._attempt(self._open_page)

    def action_show_notes(self) -> None:
        """Shows today's notes as the family will read them instead of the board, or the board again."""
        if self._desk.day.running is not None:
            self._curtain.turn()

    async def on_key(self, event: events.Key) -> None:
        """Lifts where her own keys leave the command none."""
        if not self._commands[SHOW_CURTAIN].keys and event.key == WITHOUT_A_KEY:
            await self.app.run_action("app.show_curtain")

    def _attempt(self, step: Callable[[], object]) -> None:
        """Does something, or says what of the line was not understood; of any fault no more than that there is one.

        Its sentence, which may name a folder or a student, waits behind the curtain.
        """
        self.say("")
        try:
            step()
        except BadInput as fault:
            self.say(str(fault))
        except CockpitError as fault:
            self.say("Not saved.")
            self.post_message(self.Faulted(str(fault)))
        self.tell_time()

    def _take(self, typed: str) -> None:
        if self._curtain.view.family_lines is None:
            self._curtain.choose(self._desk.board.put(typed))
        else:
            self._write(typed.strip())
        self._line.value = ""

    def _keep_chosen(self) -> None:
        chosen = self._curtain.chosen
        if chosen is None:
            return
        if not chosen.is_kept:
            self._write(f"Theory: {{{chosen.words}}}")
        self.say("It is in the notes." if chosen.is_kept else "Kept in the notes.")

    def _write(self, line: str) -> None:
        running = self._desk.day.running
        if running is not None:
            self._keep(running.lesson.id, line)

    def _open_page(self) -> None:
        is_open = open_file(self._desk.board.open_page())
        self.say(
            "The page is open."
            if is_open
            else "No browser was found here. The page is board.html in the studio folder."
        )
