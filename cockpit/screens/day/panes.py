"""Two panes of the lesson day: the queue and the notes."""

from collections.abc import Callable, Mapping
from datetime import datetime

from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from cockpit.screens.base import bindings_for
from cockpit.screens.commands.command import Where
from cockpit.screens.day.proposing import ProposingText
from cockpit.screens.day.understood import understood_rows
from cockpit.screens.look.show import notes_count, queue_row
from cockpit.screens.textual_parts.rows import Rows
from cockpit.settings.settings import Settings
from cockpit.studio.lessons.booking import Booking, called
from cockpit.studio.lessons.lesson import LessonId
from cockpit.studio.notes.notes import read_notes
from cockpit.studio.post.outgoing import Fate
from cockpit.studio.practice.budget import Budget


class QueueList(Rows):
    """The lessons of the day; a letter arranges the chosen one."""

    BINDINGS = bindings_for(Where.QUEUE, priority=False)


class QueuePane(Vertical):
    """Today's lessons in order. The cursor is kept by lesson, so that it never lands on another one."""

    def __init__(self) -> None:
        super().__init__(id="queue", classes="pane")

    def compose(self) -> ComposeResult:
        """A title, and the list."""
        yield Static("Queue", classes="title", markup=False)
        yield QueueList(id="lessons", markup=False)

    def show(self, title: str, rows: dict[LessonId, Content], shown: LessonId | None) -> None:
        """Shows the lessons; nothing is painted where nothing changed."""
        heading = self.query_one(".title", Static)
        if heading.content != title:
            heading.update(title, layout=False)
        listing = self.query_one(OptionList)
        if [option.id for option in listing.options] != list(rows):
            listing.set_options([Option(row, id=lesson_id) for lesson_id, row in rows.items()])
        else:
            for option in listing.options:
                fresh = rows[LessonId(option.id or "")]
                if not isinstance(option.prompt, Content) or option.prompt.markup != fresh.markup:
                    listing.replace_option_prompt(option.id or "", fresh)
        if shown is not None and (listing.highlighted is None or not listing.has_focus):
            listing.highlighted = list(rows).index(shown)


def queue_rows(
    bookings: tuple[Booking, ...],
    now: datetime,
    shown: LessonId | None,
    settings: Settings,
    fates: Mapping[LessonId, Fate],
) -> dict[LessonId, Content]:
    """The rows of the queue by lesson; `fates` are those of notes that have not gone out."""
    names = called(bookings)
    return {
        b.lesson.id: queue_row(
            b,
            names[b.lesson.id],
            now,
            settings,
            is_shown=b.lesson.id == shown,
            fate=fates.get(b.lesson.id),
        )
        for b in bookings
    }


class NotesPane(Vertical):
    """The notes of the lesson that is shown: what is typed here is saved at once."""

    def __init__(self, on_typed: Callable[[], None]) -> None:
        super().__init__(id="notes", classes="pane")
        self._on_typed = on_typed
        self.lesson_id: LessonId | None = None
        self.budget = Budget()

    def compose(self) -> ComposeResult:
        """A title, the text, and a count of what it holds."""
        yield Static("Notes", classes="title", markup=False)
        yield ProposingText(
            id="text",
            soft_wrap=True,
            highlight_cursor_line=True,
            max_checkpoints=500,
        )
        yield Static(id="understood-line", markup=False)
        yield Static(id="count", markup=False)

    def on_mount(self) -> None:
        """A still cursor: no repainting while nothing happens."""
        self.text.on_typed = self._on_typed
        self.text.cursor_blink = False
        self.text.match_cursor_bracket = False

    @property
    def text(self) -> ProposingText:
        """The editor."""
        return self.query_one(ProposingText)

    def show(self, lesson_id: LessonId | None, body: str, title: Content, *, is_open: bool) -> None:
        """Shows the notes of a lesson. The same lesson's text is left alone: what is on the screen is the newest.

        Notes that can be typed on begin with the cursor on a line of its own: a `Private:` typed at once must not
        become the end of a line that the family gets.
        """
        self.retitle(title)
        opens = is_open and self.text.read_only
        if lesson_id != self.lesson_id or opens or (not is_open and body != self.text.text):
            self.lesson_id = lesson_id
            self.text.load_text(on_a_fresh_line(body) if is_open else body)
            self.text.move_cursor(self.text.document.end)
        self.text.read_only = not is_open
        self.count()

    def retitle(self, title: Content) -> None:
        """Shows another title."""
        self.query_one(".title", Static).update(title, layout=False)

    def count(self) -> None:
        """Says what is understood of the line with the cursor, and what the text holds; paints only what is another."""
        row = self.text.cursor_location[0]
        line = "" if self.text.read_only or self.text.is_kept_back(row) else self.text.document.get_line(row)
        room = self.query_one("#understood-line", Static)
        width, rows = room.content_size
        for shown, fresh in (
            (room, Content(understood_rows(line, width, rows))),
            (self.query_one("#count", Static), notes_count(self.text.text, self.budget)),
        ):
            if str(shown.content) != str(fresh):
                shown.update(fresh, layout=False)

    def on_resize(self) -> None:
        """Says it anew in the room that there is now."""
        self.count()

    @property
    def warning(self) -> str | None:
        """A sentence on practice that grows suddenly, if it does."""
        return self.budget.warning(read_notes(self.text.text))

    def on_click(self) -> None:
        """A tap anywhere in the pane takes the cursor into the text."""
        self.text.focus()


def on_a_fresh_line(body: str) -> str:
    """A text with an empty last line."""
    return body if not body or body.endswith("\n") else f"{body}\n"
