"""A recital as it is played: now, next, and on deck, how long it has been, and how far behind the plan it is."""

from collections.abc import Callable, Iterable

from rich.cells import cell_len
from textual import on
from textual.content import Content
from textual.widget import Widget
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from cockpit.desk.recital.desk import RecitalDesk
from cockpit.screens.commands.commands import Place
from cockpit.screens.look.show import HAPPENED, NOT, NOW, OPEN, WIDEST, Piece, cut_at_word, placed, role
from cockpit.screens.recital.recital_rows import length_shown
from cockpit.screens.screen import CockpitScreen, Parts, bindings_for
from cockpit.screens.textual_parts.rows import Rows, group
from cockpit.studio.changes.recital import RecitalId
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.errors import NotFound
from cockpit.studio.recital.lengths import length_words
from cockpit.studio.recital.live import RecitalNow, real_seconds
from cockpit.studio.recital.program import ProgramRow, RecitalProgram
from cockpit.studio.shown import one_line
from cockpit.wording.recital import behind_words, exact_time, row_names

_SMALLEST = 60  # columns from which on a planned time stands in the rows above the program


class LiveScreen(CockpitScreen):
    """Enter begins what is next, or ends what is played. Each step is kept as the moment it was taken at."""

    PLACE = Place.LIVE
    BINDINGS = bindings_for(PLACE)

    def __init__(self, parts: Parts, recital_id: RecitalId) -> None:
        super().__init__(parts)
        self._recital_id = recital_id
        self._program: RecitalProgram | None = None
        self._told: tuple[str, str, str] = ("", "", "")

    def body(self) -> Iterable[Widget]:
        """Now, next, on deck; then the whole program."""
        yield Static(id="live", markup=False)
        yield Rows(id="played", markup=False)

    def on_mount(self) -> None:
        """Shows it."""
        self.show()
        self.query_one(Rows).focus()

    def _leave(self) -> None:
        """Closes: what it shows is not there any more."""
        self.dismiss(None)

    @property
    def recitals(self) -> RecitalDesk:
        """What takes the steps."""
        return self.desk.recitals()

    def show(self) -> None:
        """Looks again; the cursor goes to what is played, or to what is next."""
        try:
            program = self._program = self.recitals.reading.program(self._recital_id)
        except NotFound:
            self.call_next(self._leave)
            return
        now = self.recitals.reading.now(self._recital_id)
        self.query_one(Rows).lay_out(lambda width: live_options(program, width))
        here = now.playing or (now.following[0] if now.following else None)
        if here is not None:
            ids = [option.id for option in self.query_one(Rows).options]
            self.query_one(Rows).highlighted = ids.index(str(here.number))
        self._told = ("", "", "")
        self.tell_time()

    def tell_time(self) -> None:
        """Shows the time that it is, of the running lesson and of the recital."""
        super().tell_time()
        program = self._program
        if program is None:
            return
        now = self.recitals.reading.now(self._recital_id)
        rows = live_rows(now, program, self.settings.preferences.home, self.app.size.width - 2)
        told = (one_line(program.recital.name), live_count(now, program), "\n".join(each.plain for each in rows))
        if told != self._told:
            self._told = told
            self.entitle(told[0], told[1])
            self.query_one("#live", Static).update(Content("\n").join(rows))

    def on_resize(self) -> None:
        """Lays the rows out for another width."""
        self.tell_time()

    @on(OptionList.OptionSelected)
    def go_on_by_tap(self, event: OptionList.OptionSelected) -> None:
        """A tap on a row chooses it, and does nothing more."""
        event.stop()

    def action_go_on(self) -> None:
        """Begins what is next, or ends what is played."""
        self._take(self.recitals.live.go_on)

    def action_go_back(self) -> None:
        """Takes the last moment back."""
        self._take(self.recitals.live.go_back)

    def action_skip(self) -> None:
        """Passes over what is next."""
        self._take(self.recitals.live.skip)

    def action_move_to_end(self) -> None:
        """Moves what is next behind all others."""
        self._take(self.recitals.live.move_to_end)

    def _take(self, step: Callable[[RecitalId], RecitalNow]) -> None:
        def take() -> None:
            step(self._recital_id)

        self.step(take)


def live_count(now: RecitalNow, program: RecitalProgram) -> str:
    """How long it has been, of the time that is planned, and how far behind it is."""
    planned = length_words(program.times.total)
    if not now.has_begun:
        return f"{planned} planned"
    return f"{length_words(now.elapsed)} of {planned}  {behind_words(now.behind)}"


def live_rows(now: RecitalNow, program: RecitalProgram, home: TeacherClock, width: int) -> list[Content]:
    """Now, next, and on deck, each in a row; without anything that is played, what enter does."""
    following = now.following
    rows = [_now(now, program, home, width)]
    for label, row in zip(("next", "on deck"), [*following[:2], None, None], strict=False):
        rows.append(_row(label, row, home, width) if row is not None else Content())
    if not following:
        rows[1] = _said("next", "the thanks, then enter ends the recital" if not now.is_over else "", width)
    return rows


def live_options(program: RecitalProgram, width: int) -> list[Option]:
    """The program with what was played, how long it really took, and what is to come."""
    width = min(width, WIDEST)
    options: list[Option] = [group("program", width, len(program.rows))]
    room = min(20, width // 3, max((cell_len(row_names(row)) for row in program.rows), default=0))
    tail = max((len(_lasts(row)) for row in program.rows), default=0) + 2
    for row in program.rows:
        item = row.shared
        real = real_seconds(item)
        style = role("quiet") if real is not None or item.is_skipped else role("text", "bold")
        sign, color = (
            (NOT, role("cancelled", "bold")) if item.is_skipped
            else (HAPPENED, role("finished")) if real is not None
            else (NOW, role("clock_running")) if item.began_at is not None
            else (OPEN, role("text"))
        )  # fmt: skip
        lasts, at = _lasts(row), 6
        pieces: list[Piece] = [
            (0, sign, color), (2, f"{row.number:>2}", role("quiet")),
            (at, cut_at_word(row_names(row), room), style),
            (at + room + 2, cut_at_word(one_line(item.piece), max(1, width - at - room - 2 - tail)), role("text")),
            (width - len(lasts), lasts, role("quiet")),
        ]  # fmt: skip
        options.append(Option(placed(width, *pieces), id=str(row.number)))
    return options


def _lasts(row: ProgramRow) -> str:
    """How long a number lasts; how long it really took, of that; or that it was skipped."""
    real = real_seconds(row.shared)
    if row.shared.is_skipped:
        return "skipped"
    return length_shown(row) if real is None else f"{length_words(real)} of {length_shown(row)}"


def _now(now: RecitalNow, program: RecitalProgram, home: TeacherClock, width: int) -> Content:
    if now.is_over:
        return _said("now", "The recital is over. Backspace takes that back.", width)
    if not now.has_begun:
        return _said("now", f"begins at {exact_time(program.starts_at, home)}; enter begins the welcome", width)
    if now.playing is None:
        what = "the welcome" if not now.played and now.following else "the thanks" if not now.following else "a change"
        return _said("now", what, width)
    left = f"{length_words(now.remaining)} left" if now.remaining >= 0 else f"{length_words(-now.remaining)} over"
    return _row("now", now.playing, home, width, left)


def _row(label: str, row: ProgramRow, home: TeacherClock, width: int, said: str = "") -> Content:
    is_now = label == "now"
    words = f"{row_names(row)}  {one_line(row.shared.piece)}"
    at_end = said or (exact_time(row.time.starts_at, home) if width >= _SMALLEST else "")
    room = width - 13 - len(at_end) - 2
    name = role("clock_running", "bold") if is_now else role("text", "bold")
    return placed(
        width, (0, NOW if is_now else OPEN, role("clock_running") if is_now else role("text")),
        (2, label.upper(), role("text" if is_now else "quiet", "bold")), (10, f"{row.number:>2}", role("quiet")),
        (13, cut_at_word(words, room), name),
        (width - len(at_end), at_end, role("clock_running") if is_now else role("quiet")),
    )  # fmt: skip


def _said(label: str, words: str, width: int) -> Content:
    if not words:
        return Content()
    return placed(width, (2, label.upper(), role("quiet", "bold")), (13, cut_at_word(words, width - 13), role("text")))
