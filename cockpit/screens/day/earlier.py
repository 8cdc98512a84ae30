"""A student's earlier lessons, one on the screen at a time: what was given, the remarks, and what is the teacher's alone."""

from collections.abc import Iterable, Iterator
from datetime import date

from textual.containers import VerticalScroll
from textual.content import Content
from textual.events import Resize
from textual.widget import Widget
from textual.widgets import Static

from cockpit.desk.day.looking_back import EarlierLesson
from cockpit.screens.commands.commands import Place
from cockpit.screens.day.last import Columns, assignment_row, widest_area
from cockpit.screens.look.show import NEEDS_HER, NOT, PRIVATE, WIDEST, heading, hung, rehearsed_words, role
from cockpit.screens.screen import CockpitScreen, Parts, bindings_for
from cockpit.studio.clocks.words import counted, near_date
from cockpit.studio.lessons.lesson import Kind, Lesson, Outcome
from cockpit.studio.notes.notes import Line, NoteLine

_WIDEST_AREA = 16
_SPACED = 40  # rows of the screen from which on an empty row stands between groups
_BESIDE = 2  # columns: the margins; the scrollbar stands in the right one
_WEEK = 7


class EarlierScreen(CockpitScreen):
    """A student's lessons, up to the one that she came from, which stays as it is; or all that there were."""

    PLACE = Place.EARLIER
    BINDINGS = bindings_for(PLACE)

    def __init__(self, parts: Parts, name: str, earlier: EarlierLesson, until: Lesson | None) -> None:
        super().__init__(parts)
        self._name = name
        self._until = until
        self._shown = earlier

    def body(self) -> Iterable[Widget]:
        """One lesson."""
        yield VerticalScroll(Static(id="earlier", markup=False), id="earlier-room")

    def on_mount(self) -> None:
        """The arrows scroll."""
        self.show()
        self.query_one(VerticalScroll).focus()

    def on_resize(self, event: Resize) -> None:
        """Lays the lesson out anew."""
        self._draw(event.size.width, event.size.height)

    def show(self) -> None:
        """Shows the lesson that she has come to."""
        today = self.desk.day.today()
        self.entitle(f"{self._name}, {near_date(self._shown.on, today)}", facts(self._shown, today))
        self._draw(self.app.size.width, self.app.size.height)
        self.query_one(VerticalScroll).scroll_home(animate=False)

    def action_show_older(self) -> None:
        """Shows the lesson before."""
        before = self.desk.looking_back.before
        self.attempt(lambda: self._go(before(self._shown.lesson), "There is no lesson before this one."))

    def action_show_newer(self) -> None:
        """Shows the lesson after, up to the one that she came from."""
        after = self.desk.looking_back.after
        at_the_end = (
            "There are no notes after this one." if self._until is None else "The next one is the lesson you came from."
        )
        self.attempt(lambda: self._go(after(self._shown.lesson, self._until), at_the_end))

    def _go(self, found: EarlierLesson | None, else_said: str) -> None:
        self.say(else_said if found is None else "")
        if found is not None:
            self._shown = found
            self.show()

    def _draw(self, width: int, height: int) -> None:
        columns = min(WIDEST, width - _BESIDE)
        rows = earlier_rows(self._shown, self.desk.day.today(), columns, is_low=height < _SPACED)
        self.query_one("#earlier", Static).update(Content("\n").join(rows))


def facts(shown: EarlierLesson, today: date) -> str:
    """What a lesson was, and how long ago: `cello 45  1 week ago`, `trial  guitar 30  3 days ago`."""
    lesson, days = shown.lesson, (today - shown.on).days
    ago = f"{counted(days // _WEEK, 'week')} ago" if days >= _WEEK else f"{counted(days, 'day')} ago"
    kind = str(lesson.kind) if lesson.kind is not Kind.WEEKLY else ""
    what = f"{lesson.instrument or ''} {lesson.minutes}".strip()
    return "  ".join(filter(None, [kind, what, rehearsed_words(lesson), ago if days > 0 else ""]))


def earlier_rows(shown: EarlierLesson, today: date, width: int, *, is_low: bool) -> list[Content]:
    """A lesson in groups: what was given, remarks, and what is hers alone; or what became of it without notes."""
    remarks = [line for line in shown.lines if line.line is Line.REMARK]
    private = [line for line in shown.lines if line.line.is_kept_back]
    what_became = became(shown, today)
    if not what_became and not shown.given and not shown.lines:
        what_became = [Content.styled("There are no notes of this lesson.", role("quiet"))]
    groups = [
        what_became,
        *_given(shown, width),
        _group("REMARKS", width, [row for line in remarks for row in hung(Content(f"  {line.text}"), width)]),
        _group("YOURS ALONE", width, [row for line in private for row in _kept_back(line, width)]),
    ]
    rows: list[Content] = []
    for group in filter(None, groups):
        rows += [*([Content()] if rows and not is_low else []), *group]
    return rows


def _group(words: str, width: int, rows: list[Content], count: str = "") -> list[Content]:
    return [heading(words, width, count), *rows] if rows else []


def _given(shown: EarlierLesson, width: int) -> Iterator[list[Content]]:
    """The assignments, what was to be got, and the goals."""
    is_heard = any(each.tempo is not None for each in shown.given)
    columns = Columns(
        width=width, area=min(_WIDEST_AREA, widest_area(shown.given)), has_tempo=is_heard, has_weeks=False
    )
    for title, kind, count in (
        ("GIVEN", Line.ASSIGNMENT, "heard" if is_heard else ""),
        ("TO GET", Line.TO_GET, ""),
        ("GOALS", Line.GOAL, ""),
    ):
        given = (each for each in shown.given if each.line.line is kind)
        yield _group(title, width, [assignment_row(each, shown.on, columns, is_cut=False) for each in given], count)


def _kept_back(line: NoteLine, width: int) -> list[Content]:
    """A line of hers alone: the sign stands before each of its rows."""
    label = "" if line.line is Line.PRIVATE else f"{str(line.line).capitalize()}: "
    rows = hung(Content.styled(f"{label}{line.text}", role("private", "italic")), width - 2)
    return [Content.assemble((f"{PRIVATE} ", role("private")), row) for row in rows]


def became(shown: EarlierLesson, today: date) -> list[Content]:
    """What became of a lesson that was not taught; nothing of one that was, or that is today and is being taught."""
    lesson = shown.lesson
    if lesson.is_live and shown.on == today:
        return []
    is_over = lesson.finished_at is not None
    match lesson.outcome:
        case Outcome.ABSENT:
            said = f"{NOT} absent", "absent"
        case Outcome.CANCELLED:
            said = f"{NOT} canceled in time", "cancelled"
        case Outcome.CANCELLED_LATE:
            said = f"{NOT} canceled late", "cancelled"
        case None if not is_over:
            said = f"{NEEDS_HER} {'never finished' if lesson.began_at is not None else 'not marked'}", "warning"
        case _:
            return []
    return [Content.styled(said[0], role(said[1], "bold"))]
