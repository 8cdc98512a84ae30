"""Find: students and commands, narrowed as she types."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from rich.cells import cell_len
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Input
from textual.widgets.option_list import Option

from cockpit.desk.day.finding import Found
from cockpit.screens.commands.commands import Command, Place, key_name
from cockpit.screens.help.searched import SearchedScreen
from cockpit.screens.help.searching import commands_named, marked
from cockpit.screens.look.show import WIDEST, cut_at_word, padded, role
from cockpit.screens.screen import CockpitScreen, Parts, bindings_for
from cockpit.screens.textual_parts.rows import WALKING, WalkedRows, group
from cockpit.screens.textual_parts.search_field import SearchField
from cockpit.studio.clocks.horizons import NEXT_LESSON
from cockpit.studio.clocks.words import short_date
from cockpit.studio.lessons.scheduled import ScheduledLesson
from cockpit.studio.people.people import Student, StudentId

_MOST = 30
_KEY = 10
_WIDEST = 24
_GAP = 3
_WIDE, _TOLD = 100, 52  # columns from which on a command's help stands in its row, and where it begins
_OF_FIND = frozenset({"student.find", "app.command_palette"})
_STUDENT = "student:"
STUDENTS, COMMANDS = "students", "commands"


class FindScreen(SearchedScreen):
    """Students and the commands of the screen `below`; the one that is chosen is opened or done there."""

    PLACE = Place.FIND
    BINDINGS = [*bindings_for(PLACE), *WALKING]

    def __init__(self, parts: Parts, below: CockpitScreen, *, commands_first: bool = False, typed: str = "") -> None:
        super().__init__(parts)
        self._typed_before = typed
        self.below = below
        self._commands = [each for each in below.commands_here() if each.id not in _OF_FIND]
        self._order = (COMMANDS, STUDENTS) if commands_first else (STUDENTS, COMMANDS)
        self._next: dict[StudentId, ScheduledLesson | None] = {}
        self._columns = StudentColumns()

    def head(self) -> Widget:
        """The field, beside the name of the screen."""
        return SearchField(self.PLACE, "a name, or what to do")

    def body(self) -> Iterable[Widget]:
        """What fits."""
        yield WalkedRows()

    def on_mount(self) -> None:
        """Shows everybody and everything at first; the columns stay as wide as they are then."""
        field = self.query_one(Input)
        field.value = self._typed_before
        field.cursor_position = len(self._typed_before)
        field.focus()
        everybody = self.desk.finding.search("")[:_MOST]
        self._columns = StudentColumns(
            name=_widest(each.student.name for each in everybody),
            family=_widest(map(_family, everybody)),
            what=_widest(_what(self._next_of(each.student)) for each in everybody),
            when=_widest(self._when(self._next_of(each.student)) for each in everybody),
        )
        self.show()

    def strip(self) -> list[Command]:
        """The commands in the key strip, without the one that is open."""
        return [command for command in super().strip() if command.id not in _OF_FIND]

    def action_show_next_group(self) -> None:
        """Chooses the first of the next group."""
        listing = self.rows
        headings = [place for place, option in enumerate(listing.options) if option.disabled]
        here = listing.highlighted or 0
        following = next((place for place in headings if place > here), headings[0] if headings else None)
        if following is not None and following + 1 < listing.option_count:
            listing.highlighted = following + 1

    def take(self, chosen: str | None) -> None:
        """Opens the lesson of a student, or chooses the student on a screen that has them; or does a command."""
        if chosen is None:
            return
        if not chosen.startswith(_STUDENT):
            self.dismiss(None)
            self.app.call_next(self.below.do, chosen)
            return
        student_id = StudentId(int(chosen.removeprefix(_STUDENT)))
        if self.below.choose_student(student_id):
            self.dismiss(None)
            return
        booking = self._next[student_id]
        if booking is None:
            self.say(f"This student has no lesson in the next {NEXT_LESSON.days} days.")
        else:
            on_day = self.settings.preferences.home.date_of(booking.lesson.starts_at)
            self.post_message(self.LessonChosen(on_day, booking.lesson.id))

    def options(self, width: int) -> Sequence[Option]:
        """The students and the commands that fit."""
        width = min(width, WIDEST)
        found = {STUDENTS: self._students(width), COMMANDS: self._command_rows(width)}
        options: list[Option] = []
        for name in self._order:
            rows, count = found[name]
            options += [group(name, width, count), *rows] if rows else []
        return options or [Option(self._nothing(width), disabled=True)]

    def _nothing(self, width: int) -> Content:
        return Content.styled(
            cut_at_word(f"  No student or command is called {self.typed.strip()}.", width), role("quiet")
        )

    def _students(self, width: int) -> tuple[list[Option], str]:
        hits = self.desk.finding.search(self.typed)
        shown = hits[:_MOST]
        rows = [Option(self._student_row(each, width), id=f"{_STUDENT}{each.student.id}") for each in shown]
        return rows, f"{len(shown)} of {len(hits)}" if len(shown) < len(hits) else str(len(hits))

    def _student_row(self, found: Found, width: int) -> Content:
        """The name, the family where it is another name, what is taught, and when next; a column without room is left out."""
        columns, typed, booking = self._columns, self.typed, self._next_of(found.student)
        room = width - 2 - columns.name - columns.when - 1
        parts = [marked(padded(found.student.name, columns.name), typed, role("text", "bold"), within=True)]
        if room >= _GAP + columns.family:
            parts.append(marked(padded(_family(found), columns.family), typed, role("quiet"), within=True))
        if room >= _GAP + columns.family + _GAP + columns.what:
            parts.append(Content.styled(padded(_what(booking), columns.what), role("quiet")))
        when = self._when(booking)
        row = Content.assemble("  ", Content(" " * _GAP).join(parts))
        blank = " " * max(1, width - row.cell_length - cell_len(when))
        return Content.assemble(row, blank, (when, role("text" if booking is not None else "quiet")))

    def _next_of(self, student: Student) -> ScheduledLesson | None:
        """The lesson that a student opens at; looked up once."""
        if student.id not in self._next:
            self._next[student.id] = self.desk.finding.next_lesson(student)
        return self._next[student.id]

    def _when(self, booking: ScheduledLesson | None) -> str:
        if booking is None:
            return "no lesson booked"
        home, starts_at = self.settings.preferences.home, booking.lesson.starts_at
        on = home.date_of(starts_at)
        day = "today" if on == self.desk.day.today() else short_date(on)
        return f"{day} {home.time(starts_at):>8}"

    def _command_rows(self, width: int) -> tuple[list[Option], str]:
        found = commands_named(self._commands, self.typed)
        return [Option(command_row(each, width, self.typed), id=each.id) for each in found], str(len(found))


@dataclass(frozen=True, slots=True, kw_only=True)
class StudentColumns:
    """How wide the columns of the students are."""

    name: int = 0
    family: int = 0
    what: int = 0
    when: int = 0


def _widest(words: Iterable[str]) -> int:
    return min(_WIDEST, max(map(cell_len, words), default=0))


def _what(booking: ScheduledLesson | None) -> str:
    return f"{booking.lesson.instrument or ''} {booking.lesson.minutes}".strip() if booking is not None else ""


def _family(found: Found) -> str:
    return "" if found.family.name == found.student.name else found.family.name


def command_row(command: Command, width: int, typed: str = "", *, has_help: bool = False) -> Content:
    """A command: its first key, its label, its help where it is wide, and at the end its other key, where there is room."""
    first, *others = [key_name(key) for key in command.keys] or [""]
    label = marked(cut_at_word(command.label, max(4, width - _KEY - 2)), typed, role("text"))
    row = Content.assemble((f"{first:>{_KEY}}", role("text", "bold")), "  ", label)
    more = others[0] if others else ""
    if has_help and width >= _WIDE:
        row += " " * max(2, _TOLD - row.cell_length)
        row += Content.styled(cut_at_word(command.help, width - row.cell_length - _KEY), role("quiet"))
    blank = width - row.cell_length - cell_len(more)
    return Content.assemble(row, " " * blank, (more, role("quiet"))) if more and blank >= 2 else row
