"""Find: students, pieces, the words of all notes, inquiries, and commands, narrowed as she types."""

from collections.abc import Iterable, Sequence
from datetime import date
from enum import StrEnum

from rich.cells import cell_len
from textual import on
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Input
from textual.widgets.option_list import Option

from cockpit.desk.day.finding import Found
from cockpit.desk.pieces.searching import FoundInNotes, FoundLine, FoundPiece
from cockpit.screens.commands.commands import Command, Place, key_name
from cockpit.screens.help.searched import SearchedScreen
from cockpit.screens.help.searching import commands_named, marked
from cockpit.screens.look.show import PRIVATE, WIDEST, cut_at_word, lines_of, padded, placed, role
from cockpit.screens.screen import CockpitScreen, Parts, bindings_for
from cockpit.screens.textual_parts.rows import WALKING, WalkedRows, group
from cockpit.screens.textual_parts.search_field import SearchField
from cockpit.studio.clocks.horizons import NEXT_LESSON
from cockpit.studio.clocks.words import counted, listed, near_day, short_date
from cockpit.studio.errors import Refused
from cockpit.studio.inquiries.to_do import InquiryStanding
from cockpit.studio.lessons.scheduled import ScheduledLesson
from cockpit.studio.people.people import Student, StudentId
from cockpit.studio.pieces.pace import tempo_progress
from cockpit.studio.searching import has_words, searched_words, spans_of
from cockpit.studio.values import Value
from cockpit.wording.inquiries import who_asks
from cockpit.wording.pieces import heard_words, tempo_words

_MOST, _MOST_OF_A_GROUP, _MOST_LINES = 30, 5, 50
_KEY = 10
_WIDEST = 24
_GAP = 3
_DATE, _NAME = 13, 10
_ROOM_FOR_A_LINE = 30
_WIDE, _TOLD = 100, 52  # columns from which on a command's help stands in its row, and where it begins
_OF_FIND = frozenset({"student.find", "app.command_palette"})
_BETWEEN = ":"
STUDENTS, PIECES, WORDS, INQUIRIES, COMMANDS = "students", "pieces", "words in notes", "inquiries", "commands"


class RowKind(StrEnum):
    """What a row that is no command stands for: the first part of its id."""

    STUDENT = "student"
    PIECE = "piece"
    LINE = "line"
    INQUIRY = "inquiry"


class FindScreen(SearchedScreen):
    """What is found in the whole studio, and the commands of the screen `below`; the one that is chosen is opened or done there."""

    PLACE = Place.FIND
    BINDINGS = [*bindings_for(PLACE), *WALKING]

    def __init__(self, parts: Parts, below: CockpitScreen, *, commands_first: bool = False, typed: str = "") -> None:
        super().__init__(parts)
        self.below = below
        self._typed_before = typed
        here = [*below.commands_here()]
        # What the app itself does, such as opening a screen, is done wherever she is.
        actions = {each.action for each in here}
        here += [
            each for each in parts.commands.values() if each.action.startswith("app.") and each.action not in actions
        ]
        self._commands = [each for each in here if each.id not in _OF_FIND]
        groups = (STUDENTS, PIECES, WORDS, INQUIRIES)
        self._order = (COMMANDS, *groups) if commands_first else (*groups, COMMANDS)
        self._next: dict[StudentId, ScheduledLesson | None] = {}
        self._columns = StudentColumns()
        self._found = FoundInNotes()
        self._is_reading, self._may_miss = True, True
        self._asked: tuple[InquiryStanding, ...] | None = None

    def head(self) -> Widget:
        """The field, beside the name of the screen."""
        return SearchField(self.PLACE, "a name, a piece, words, a command")

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
        self.read_all_notes()

    @on(CockpitScreen.NotesRead)
    def show_read_notes(self) -> None:
        """Looks again, now that all notes were read."""
        # Whoever only reads adds no notes to the index, and some folders take none.
        self._may_miss = self.desk.why_read_only is not None or not self.desk.pages().searching.has_read_all()
        self._is_reading = False
        if self.typed.strip():
            self.show()

    def show(self) -> None:
        """Looks for what is typed, and shows it."""
        self._found = self.desk.pages().searching.search(self.typed, _MOST_OF_A_GROUP, _MOST_LINES)
        super().show()

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
        """Opens what a row stands for: a lesson, the history of a piece, notes, an inquiry; or does a command."""
        kind, _, key = (chosen or "").partition(_BETWEEN)
        match kind:
            case "":
                return
            case RowKind.STUDENT:
                self._take_student(StudentId(int(key)))
            case RowKind.PIECE:
                self.attempt(lambda: self._open_piece(self._found.pieces[int(key)]))
            case RowKind.LINE:
                self.attempt(lambda: self._open_notes(self._found.lines[int(key)]))
            case RowKind.INQUIRY:
                self._do("app.show_inquiries")
            case _:
                self._do(kind)

    def action_show_page(self) -> None:
        """Opens the page of the student of the chosen row, where the cursor is at the end of what is typed; else moves it."""
        field, option = self.query_one(Input), self.rows.highlighted_option
        student_id = self._student_of((option.id or "") if option is not None else "")
        if student_id is None or field.cursor_position < len(field.value):
            field.action_cursor_right()
        else:
            self.show_page(student_id)

    def _student_of(self, row: str) -> StudentId | None:
        kind, _, key = row.partition(_BETWEEN)
        if kind == RowKind.STUDENT:
            return StudentId(int(key))
        if kind == RowKind.PIECE:
            return self._found.pieces[int(key)].student.id
        return self._found.lines[int(key)].student.id if kind == RowKind.LINE else None

    def _do(self, command: str) -> None:
        self.dismiss(None)
        self.app.call_next(self.below.do, command)

    def _take_student(self, student_id: StudentId) -> None:
        if self.below.choose_student(student_id):
            self.dismiss(None)
            return
        booking = self._next_of(self.desk.finding.by_id(student_id))
        if booking is None:
            self.say(f"This student has no lesson in the next {NEXT_LESSON.days} days.")
        else:
            on_day = self.settings.preferences.home.date_of(booking.lesson.starts_at)
            self.post_message(self.LessonChosen(on_day, booking.lesson.id))

    def _open_piece(self, found: FoundPiece) -> None:
        self.show_history(found.student, self.desk.pages().key_of(found))

    def _open_notes(self, found: FoundLine) -> None:
        earlier = self.desk.looking_back.lesson(found.lesson_id)
        if earlier is None:
            raise Refused("There are no notes of this lesson any more.")
        self.read_lesson(found.student.name, earlier)

    def options(self, width: int) -> Sequence[Option]:
        """What fits, in groups."""
        width = min(width, WIDEST)
        groups = {
            STUDENTS: self._students,
            PIECES: self._pieces,
            WORDS: self._lines,
            INQUIRIES: self._inquiries,
            COMMANDS: self._command_rows,
        }
        options: list[Option] = []
        for name in self._order:
            rows, count = groups[name](width)
            heading = f"{name} of {listed(self._found.names)}" if name is WORDS and self._found.names else name
            options += [group(heading, width, count), *rows] if rows else []
        return options or [Option(self._nothing(width), disabled=True)]

    def _nothing(self, width: int) -> Content:
        read = "no notes that were read so far have" if self._may_miss else "no notes have"
        said = f"Nobody and no command is called {self.typed.strip()}, and {read} these words."
        return Content("\n").join(
            Content.styled(f"  {line.plain}", role("quiet")) for line in lines_of(Content(said), width - 2)
        )

    def _pieces(self, width: int) -> tuple[list[Option], str]:
        found, today = self._found, self.desk.day.today()
        rows = [
            Option(piece_row(each, found.words, today, width), id=f"{RowKind.PIECE}{_BETWEEN}{place}")
            for place, each in enumerate(found.pieces)
        ]
        return rows, f"{len(rows)} of {found.all_pieces}" if found.all_pieces > len(rows) else str(len(rows))

    def _lines(self, width: int) -> tuple[list[Option], str]:
        found, today = self._found, self.desk.day.today()
        rows = [
            Option(line_row(each, found.words, today, width), id=f"{RowKind.LINE}{_BETWEEN}{place}")
            for place, each in enumerate(found.lines)
        ]
        count = f"the newest {len(rows)}" if found.has_more_lines else str(len(rows))
        return rows, f"{count}, more are being read" if self._is_reading else count

    def _inquiries(self, width: int) -> tuple[list[Option], str]:
        """Those who asked about lessons and are called so; nobody before a name is typed."""
        words = searched_words(self.typed)
        if not words:
            return [], ""
        if self._asked is None:
            view = self.desk.inquiring().view()
            self._asked = (*view.open, *view.waiting)
        hits = [each for each in self._asked if has_words(words, _inquiry_words(each))]
        rows = [
            Option(inquiry_row(each, self.typed, width), id=f"{RowKind.INQUIRY}{_BETWEEN}{each.course.inquiry.id}")
            for each in hits[:_MOST_OF_A_GROUP]
        ]
        return rows, f"{len(rows)} of {len(hits)}" if len(hits) > len(rows) else str(len(hits))

    def _students(self, width: int) -> tuple[list[Option], str]:
        hits = self.desk.finding.search(self.typed)
        shown = hits[: _MOST_OF_A_GROUP if self.typed.strip() else _MOST]
        rows = [
            Option(self._student_row(each, width), id=f"{RowKind.STUDENT}{_BETWEEN}{each.student.id}") for each in shown
        ]
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


def piece_row(found: FoundPiece, words: str, today: date, width: int) -> Content:
    """A piece: its name, whose it is, for how long it was worked on, what was heard, and when it was given last."""
    now, title, name = found.history.now, found.history.title, found.student.name
    progress = tempo_progress(now, today)
    state = f"open {counted(now.weeks(today), 'week')}" if now.is_open else str(now.state)
    goal = f", goal {tempo_words(progress.goal, progress.beat)}" if progress.goal is not None else ""
    heard = f"{heard_words(progress)}{goal}" if progress.last is not None else ""
    last = near_day(now.last_on, today)
    room = width - 2 - cell_len(last) - 1
    at = 2 + min(_WIDEST, max(14, room // 3))
    columns = [(at, name), (at + 12, state), (at + 28, heard)]
    shown = [
        (place, said, role("quiet")) for place, said in columns if place + cell_len(said) + 1 <= width - cell_len(last)
    ]
    row = placed(width, (at - 1, "", ""), *shown, (width - cell_len(last), last, role("quiet")))
    cut = marked(cut_at_word(title, at - 3), words, role("text", "bold"), within=True)
    return Content.assemble("  ", cut, row[2 + cut.cell_length :])


def line_row(found: FoundLine, words: str, today: date, width: int) -> Content:
    """A line of notes with its words marked: the date, whose lesson it was, a sign where it is hers alone.

    On a narrow screen the line stands below the date and the name.
    """
    on = near_day(found.on, today) if found.on != today else "today"
    at = 2 + _DATE + 1 + _NAME + 1
    is_narrow = width - at - 2 < _ROOM_FOR_A_LINE
    room = width - (4 if is_narrow else at + 2)
    text = _around(found.line, words, room)
    style = role("private", "italic") if found.is_private else role("text")
    sign = (PRIVATE, role("private")) if found.is_private else (" ", "")
    head = f"  {padded(on, _DATE)} {padded(found.student.name, _NAME)} "
    said = Content.assemble(sign, " ", marked(text, words, style, within=True))
    between = "\n  " if is_narrow else ""
    return Content.assemble((head, role("quiet")), between, said)


def _around(line: str, words: str, room: int) -> str:
    """A line in a room, begun behind its beginning where the words would not be seen otherwise."""
    if cell_len(line) <= room:
        return line
    spans = [span for word in words.split() for span in spans_of((word,), line, within=True) or ()]
    first = min((begins for begins, _ in spans), default=0)
    if first < room - 12:
        return cut_at_word(line, room)
    begins = line.rfind(" ", 0, max(0, first - room // 3)) + 1
    return cut_at_word(f"…{line[begins:]}", room)


def inquiry_row(standing: InquiryStanding, typed: str, width: int) -> Content:
    """Who asked about lessons, and for whom."""
    return Content.assemble(
        "  ", marked(cut_at_word(_inquiry_words(standing), width - 2), typed, role("text"), within=True)
    )


def _inquiry_words(standing: InquiryStanding) -> str:
    inquiry = standing.course.inquiry
    return "  ".join(filter(None, (who_asks(inquiry), inquiry.instrument, str(standing.state))))


class StudentColumns(Value):
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
