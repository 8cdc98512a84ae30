"""A student's page: the pieces and how far they are, what was done, the mix, the latest notes."""

from collections.abc import Callable, Iterable
from typing import TYPE_CHECKING

from textual import on
from textual.widget import Widget
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from cockpit.desk.calendar.proposals import Proposal, Purpose
from cockpit.desk.pieces.pages import StudentPage, StudentPages
from cockpit.screens.commands.commands import Place
from cockpit.screens.pieces.page_rows import BETWEEN, LESSON, facts, page_options
from cockpit.screens.screen import CockpitScreen, Parts, bindings_for
from cockpit.screens.textual_parts.heading import Title
from cockpit.screens.textual_parts.rows import Rows
from cockpit.screens.typed_times.line import LineScreen
from cockpit.studio.clocks.words import counted, near_date
from cockpit.studio.errors import Refused
from cockpit.studio.lessons.lesson import Lesson
from cockpit.studio.lessons.scheduled import ScheduledLesson
from cockpit.studio.people.people import StudentId
from cockpit.studio.pieces.history import PieceHistory
from cockpit.studio.shown import one_line
from cockpit.wording.recital import days_to_words

if TYPE_CHECKING:
    from cockpit.desk.day.looking_back import EarlierLesson


class PieceLines:
    """Reads lines about one piece."""

    def __init__(self, pages: StudentPages, student_id: StudentId, history: PieceHistory) -> None:
        self._pages, self._student_id, self._history = pages, student_id, history

    def propose(self, purpose: Purpose, booking: ScheduledLesson | None, line: str) -> Proposal:  # noqa: ARG002 as there
        """Reads a line."""
        return self._pages.propose(self._student_id, self._history, line)


class PageScreen(CockpitScreen):
    """All that was given a student over the weeks. Enter opens the history of a piece, or a lesson's notes."""

    PLACE = Place.PAGE
    BINDINGS = bindings_for(PLACE)

    def __init__(self, parts: Parts, student_id: StudentId, until: Lesson | None = None) -> None:
        super().__init__(parts)
        self._until = until
        self._student_id = student_id
        self._page: StudentPage | None = None

    def head(self) -> Widget:
        """Whose page this is."""
        return Title(self.pages.name_of(self._student_id))

    def body(self) -> Iterable[Widget]:
        """How the lessons went, and the rows."""
        yield Static(id="attended", markup=False)
        yield Rows(id="pieces", markup=False)

    def on_mount(self) -> None:
        """Shows the page; once the index has caught up, again."""
        self.show()
        self.query_one(Rows).focus()
        if self._page is not None and self._page.unread:
            self.read_all_notes()

    @property
    def pages(self) -> StudentPages:
        """What makes the page."""
        return self.desk.pages()

    def show(self) -> None:
        """Looks again; the cursor stays on its row."""
        page = self._page = self.pages.page(self._student_id)
        home = self.settings.preferences.home
        following = page.following
        taught = [f"{each.instrument or ''} {each.minutes}".strip() for each in page.times]
        said = "  ".join(dict.fromkeys(taught))
        at = following.lesson.starts_at if following is not None else None
        self.entitle(said, f"next {near_date(home.date_of(at), page.on)}" if at is not None else "no lesson booked")
        played = [
            f"{one_line(listed.recital.name)} {days_to_words(listed.recital.held_on, listed.weeks, page.on)}: {one_line(item.piece)}"
            for listed, item in self.desk.recitals().reading.to_come_of(self._student_id)
        ]
        self.query_one("#attended", Static).update("\n".join((facts(page), *played)))
        rules = self.settings.preferences.pieces.mix

        def draw(width: int) -> list[Option]:
            return page_options(page, rules, width, is_ascii=self.settings.signs == "ascii")

        self.query_one(Rows).lay_out(draw)

    @on(OptionList.OptionSelected)
    def open_chosen(self, event: OptionList.OptionSelected) -> None:
        """Opens what was tapped."""
        event.stop()
        self.action_choose()

    def action_choose(self) -> None:
        """Opens the history of the chosen piece, or the notes of the chosen lesson."""
        self.attempt(self._open)

    def action_describe(self) -> None:
        """Asks what is to be said of the chosen piece."""
        self.attempt(self._describe)

    def action_keep_alive(self) -> None:
        """Keeps the chosen piece alive, or no more."""
        self._with_piece(lambda history: self.pages.keep_alive(self._student_id, history))

    def action_join(self) -> None:
        """Has the piece whose name looks like that of the chosen one be the chosen one."""
        self._with_piece(lambda history: self._answer(history, is_one=True))

    def action_keep_two(self) -> None:
        """Has the chosen piece and the one that looks like it be two for good."""
        self._with_piece(lambda history: self._answer(history, is_one=False))

    def action_write_report(self) -> None:
        """Shows the progress sheet for the family, and asks for her own words."""
        from cockpit.screens.pieces.report import write_report  # when it is first asked for

        def write() -> None:
            if unread := self._shown.unread:
                raise Refused(f"{counted(unread, 'earlier lesson')} were not read yet. Try again in a minute.")
            write_report(self, self._shown)

        self.attempt(write)

    def action_show_mix(self) -> None:
        """Opens the whole mix."""
        from cockpit.screens.pieces.mix import MixScreen  # when it is first asked for

        self.app.push_screen(MixScreen(self.parts, self._student_id), lambda _: self.show())

    def action_add_to_recital(self) -> None:
        """Asks for an item of the next recital, begun with this student and the chosen piece."""
        from cockpit.screens.recital.lines import ask_recital_line  # when it is first asked for

        def ask() -> None:
            coming = [
                each.recital for each in self.desk.recitals().reading.view().coming if each.recital.parent_id is None
            ]
            if not coming:
                raise Refused("No recital is to come. Press g in the queue to make one.")
            kind, key = self._chosen_row()
            history = self._shown.piece(key) if kind and kind != LESSON else None
            typed = f"{self._shown.student.name} {history.title if history is not None else ''}"
            ask_recital_line(self, Purpose.ITEM, (coming[0].id, None), typed)

        self.attempt(ask)

    def action_read_notes(self) -> None:
        """Reads the student's earlier lessons, the last one first."""
        self.attempt(lambda: self._read(next(iter(self._shown.lessons), None)))

    def action_find_words(self) -> None:
        """Looks for words in this student's notes."""
        self.find(f"{self._shown.student.name.split()[0]} ")

    @property
    def _shown(self) -> StudentPage:
        if self._page is None:
            raise Refused("The page is not there yet.")
        return self._page

    @on(CockpitScreen.NotesRead)
    def show_read_notes(self) -> None:
        """Shows the page with the notes that were read meanwhile."""
        self.show()

    def _with_piece(self, take: Callable[[PieceHistory], str]) -> None:
        self.step(lambda: take(self._piece()))

    def _answer(self, history: PieceHistory, *, is_one: bool) -> str:
        other = self._shown.alike_to(history.key)
        if other is None:
            raise Refused(f"No other piece has a name like {history.title}.")
        return self.pages.answer_alike(self._student_id, other, history.key, is_one=is_one)

    def _describe(self) -> None:
        history = self._piece()
        if self.desk.why_read_only is not None:
            raise Refused(self.desk.why_read_only)  # before she has typed a line

        def understood(proposal: Proposal | None) -> None:
            if proposal is not None:
                self.step(lambda: self.arranged(proposal))

        lines = PieceLines(self.pages, self._student_id, history)
        self.app.push_screen(LineScreen(lines, Purpose.PIECE, None, "", history.title), understood)

    def _open(self) -> None:
        kind, key = self._chosen_row()
        if kind == LESSON:
            self._read(next((each for each in self._shown.lessons if each.lesson.id == key), None))
        elif kind:
            self.show_history(self._shown.student, key)

    def _read(self, earlier: "EarlierLesson | None") -> None:
        if earlier is None:
            raise Refused(f"{self._shown.student.name} has no earlier lesson in the last months.")
        self.read_lesson(self._shown.student.name, earlier, self._until)

    def _chosen_row(self) -> tuple[str, str]:
        """What the chosen row is, and the key of its piece or the number of its lesson; nothing where none is chosen."""
        option = self.query_one(Rows).highlighted_option
        kind, _, key = ((option.id or "") if option is not None else "").partition(BETWEEN)
        return kind, key

    def _piece(self) -> PieceHistory:
        """The chosen piece.

        Raises:
            Refused: no piece is chosen.
        """
        kind, key = self._chosen_row()
        history = self._shown.piece(key) if kind and kind != LESSON else None
        if history is None:
            raise Refused("Choose a piece first.")
        return history
