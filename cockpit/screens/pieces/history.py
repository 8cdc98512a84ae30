"""The history of a piece: each lesson that gave it, the newest first, with what was asked and what was heard."""

from collections.abc import Iterable, Iterator
from datetime import date

from rich.cells import cell_len
from textual import on
from textual.content import Content
from textual.widget import Widget
from textual.widgets import OptionList
from textual.widgets.option_list import Option

from cockpit.screens.commands.commands import Place
from cockpit.screens.day.last import mark_sign
from cockpit.screens.look.show import WIDEST, Piece, hung, placed, role
from cockpit.screens.screen import CockpitScreen, Parts, bindings_for
from cockpit.screens.textual_parts.rows import Rows, group
from cockpit.studio.clocks.words import counted, near_day
from cockpit.studio.errors import Refused
from cockpit.studio.lessons.lesson import LessonId
from cockpit.studio.people.people import Student
from cockpit.studio.pieces.given import GivenLine
from cockpit.studio.pieces.history import PieceHistory, PieceTime
from cockpit.wording.pieces import beat_sign

_DATE, _GAP = 2, 2
_SEPARATOR = "|"


class HistoryScreen(CockpitScreen):
    """A piece of a student through all its lessons. Enter opens a lesson's notes."""

    PLACE = Place.HISTORY
    BINDINGS = bindings_for(PLACE)

    def __init__(self, parts: Parts, student: Student, key: str) -> None:
        super().__init__(parts)
        self._student = student
        self._key = key

    def body(self) -> Iterable[Widget]:
        """The rows."""
        yield Rows(id="history", markup=False)

    def on_mount(self) -> None:
        """Shows them."""
        self.attempt(self.show)
        self.query_one(Rows).focus()

    def show(self) -> None:
        """Looks again."""
        history, today = self.desk.pages().history(self._student.id, self._key), self.desk.day.today()
        self.entitle(f"{history.title}, {self._student.name}", counted(len(history.lines), "line"))

        def draw(width: int) -> list[Option]:
            return history_options(history, today, min(width, WIDEST))

        self.query_one(Rows).lay_out(draw)

    @on(OptionList.OptionSelected)
    def open_chosen(self, event: OptionList.OptionSelected) -> None:
        """Opens the notes of the lesson that was tapped."""
        event.stop()
        self.action_choose()

    def action_choose(self) -> None:
        """Opens the notes of the chosen lesson."""
        option = self.query_one(Rows).highlighted_option
        self.attempt(lambda: self._open((option.id or "") if option is not None else ""))

    def _open(self, chosen: str) -> None:
        earlier = self.desk.looking_back.lesson(LessonId(chosen.partition(_SEPARATOR)[2]))
        if earlier is None:
            raise Refused("There are no notes of this lesson any more.")
        self.read_lesson(self._student.name, earlier)


def history_options(history: PieceHistory, today: date, width: int) -> list[Option]:
    """The lines of a piece, the newest first, in a group for each time that it was worked on."""
    options: list[Option] = []
    for number, time in enumerate((history.now, *history.earlier)):
        options.append(
            group(_time_words(time, today), width, counted(time.weeks(today if time.is_open else time.last_on), "week"))
        )
        options += [
            Option(
                Content("\n").join(line_rows(each, today, width)), id=f"{number}.{place}{_SEPARATOR}{each.lesson_id}"
            )
            for place, each in enumerate(reversed(time.lines))
        ]
    return options


def line_rows(given: GivenLine, today: date, width: int) -> list[Content]:
    """A line of a piece: the date, how it went, what was asked and heard, and below it the line as it was typed."""
    on = near_day(given.on, today)
    at = _DATE + max(cell_len(on), len("September 24")) + _GAP
    facts = [Content.styled(row, role("text")) for row in _in_rows(_facts(given), width - at)]
    typed = Content.styled(given.read.line.strip(), role("quiet"))
    first, *others = [line for row in (*facts, typed) for line in hung(row, width - at)]
    head: list[Piece] = [(0, *mark_sign(given.mark)), (_DATE, on, role("quiet"))]
    return [placed(at, *head) + first, *(Content(" " * at) + line for line in others)]


def _in_rows(facts: Iterable[str], room: int) -> list[str]:
    """Facts two columns apart, on as many rows of so many columns as they need."""
    rows: list[str] = []
    for fact in facts:
        longer = f"{rows[-1]}  {fact}" if rows else fact
        if rows and cell_len(longer) <= room:
            rows[-1] = longer
        else:
            rows.append(fact)
    return rows or ["given"]


def _facts(given: GivenLine) -> Iterator[str]:
    read = given.read
    if read.measures:
        yield "mm. " + ", ".join(
            f"{each.first}-{each.last}" if each.last else f"{each.first} on" for each in read.measures
        )
    if read.tempo is not None:
        start = f"{read.tempo.start} to " if read.tempo.start is not None else ""
        yield f"asked {beat_sign(read.tempo.beat)} {start}{read.tempo.goal}".replace("  ", " ")
    if given.heard is not None:
        yield f"heard {given.heard}"
    if given.clean_runs:
        yield counted(given.clean_runs, "clean run")
    if read.by_heart:
        yield "by heart"
    if given.mark is not None:
        yield str(given.mark)


def _time_words(time: PieceTime, today: date) -> str:
    since = near_day(time.since, today)
    last = near_day(time.last_on, today)
    return f"since {since}" if time.is_open else f"{since} to {last}" if since != last else since
