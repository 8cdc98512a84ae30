"""The roster on the screen: a row a student, what is known of the chosen one, and a letter for every change."""

from collections.abc import Iterable

from textual import on
from textual.containers import Container
from textual.content import Content
from textual.widget import Widget
from textual.widgets import OptionList
from textual.widgets.option_list import Option

from cockpit.desk.calendar.proposals import Proposal, Purpose
from cockpit.desk.roster.roster import RosterView, StudentDetail, StudioRoster
from cockpit.screens.commands.commands import Place
from cockpit.screens.look.show import WIDEST
from cockpit.screens.post.letter import write_letter
from cockpit.screens.roster.roster_rows import detail_rows, roster_options
from cockpit.screens.screen import CockpitScreen, Parts, bindings_for
from cockpit.screens.textual_parts.rows import Rows
from cockpit.screens.typed_times.line import LineScreen
from cockpit.studio.clocks.horizons import NEXT_LESSON
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.clocks.words import counted
from cockpit.studio.errors import Refused
from cockpit.studio.lessons.scheduled import ScheduledLesson
from cockpit.studio.people.people import Student, StudentId
from cockpit.studio.roster.entries import EntryGroup, RosterEntry

_BESIDE = 110  # columns of the screen from which on the chosen student is told beside the rows
_DETAIL, _APART = 45, 1  # columns of what is told, and between the margins of both


class DetailPane(Widget):
    """What is known of one student, as much of it as there is room for: its room stays, so that the rows do not jump."""

    def __init__(self, home: TeacherClock) -> None:
        super().__init__(id="detail")
        self._home = home
        self._detail: StudentDetail | None = None

    def show(self, detail: StudentDetail | None) -> None:
        """Shows what is known of a student, or nothing."""
        if detail != self._detail:
            self._detail = detail
            self.refresh()

    def render(self) -> Content:
        """The rows."""
        width, height = self.content_size
        rows = detail_rows(self._detail, self._home, min(width, WIDEST)) if self._detail is not None else []
        return Content("\n").join(rows[:height])


class RosterLines:
    """Reads lines about one student, or about somebody new."""

    def __init__(self, roster: StudioRoster, entry: RosterEntry | None) -> None:
        self._roster = roster
        self._entry = entry

    def propose(self, purpose: Purpose, booking: ScheduledLesson | None, line: str) -> Proposal:  # noqa: ARG002 as there
        """Reads a line for a purpose."""
        return self._roster.propose(purpose, self._entry, line)


class RosterScreen(CockpitScreen):
    """The students by name in their groups. Enter opens the lesson of the chosen one."""

    PLACE = Place.ROSTER
    BINDINGS = bindings_for(PLACE)
    HORIZONTAL_BREAKPOINTS = [(0, "-one"), (_BESIDE, "-beside")]

    def __init__(self, parts: Parts) -> None:
        super().__init__(parts)
        self._view: RosterView | None = None
        self._told_of: RosterEntry | None = None
        self._shows_ended = False

    def body(self) -> Iterable[Widget]:
        """The rows, and the chosen student."""
        with Container(id="roster"):
            yield Rows(id="students", markup=False)
            yield DetailPane(self.settings.preferences.home)

    def on_mount(self) -> None:
        """Shows them."""
        self.show()
        self.query_one(Rows).focus()

    @property
    def roster(self) -> StudioRoster:
        """What looks the students over."""
        return self.desk.roster()

    def show(self) -> None:
        """Looks again; the cursor stays on its student."""
        view = self._view = self.roster.view()
        counts = (
            (view.trials, counted(view.trials, "trial")),
            (view.paused, f"{view.paused} paused"),
            (view.ended, f"{view.ended} ended this year"),
        )
        self.entitle(counted(view.students, "student"), "  ".join(words for count, words in counts if count))
        home, shows_ended = self.settings.preferences.home, self._shows_ended

        def draw(width: int) -> list[Option]:
            beside = _DETAIL + _APART if width + 2 >= _BESIDE else 0
            return roster_options(view, home, width - beside, shows_ended=shows_ended)

        self.query_one(Rows).lay_out(draw)
        self._tell_chosen()

    @on(OptionList.OptionHighlighted)
    def tell_of_chosen(self) -> None:
        """Tells of the student that the cursor came to."""
        self._tell_chosen()

    @on(OptionList.OptionSelected)
    def open_chosen(self, event: OptionList.OptionSelected) -> None:
        """Opens the next lesson of the chosen student on its day, or the last one."""
        event.stop()
        self.attempt(self._open)

    def action_show_ended(self) -> None:
        """Shows those who ended too, or hides them."""
        self._shows_ended = not self._shows_ended
        self.show()

    def action_add_student(self) -> None:
        """Asks for a new student; on the line of somebody who had a trial lesson, that one may become a student."""
        self._ask(Purpose.STUDENT, self._entry())

    def action_change_details(self) -> None:
        """Asks what is otherwise known of the chosen student."""
        self.attempt(lambda: self._ask(Purpose.DETAILS, self._chosen()))

    def action_change_standing_time(self) -> None:
        """Asks for another weekly time of the chosen student."""
        self.attempt(lambda: self._ask(Purpose.CHANGE, self._chosen()))

    def action_pause(self) -> None:
        """Asks when the chosen student pauses."""
        self.attempt(lambda: self._ask(Purpose.PAUSE, self._chosen()))

    def action_end(self) -> None:
        """Asks after which day the chosen student has no lessons any more."""
        self.attempt(lambda: self._ask(Purpose.END, self._chosen()))

    def action_change_guardians(self) -> None:
        """Asks who gets what of the chosen student's family."""
        self.attempt(lambda: self._ask(Purpose.GUARDIANS, self._chosen()))

    def action_show_page(self) -> None:
        """Shows the page of the chosen student."""
        self.attempt(lambda: self.show_page(self._chosen().student.id))

    def action_write(self) -> None:
        """Writes to the family about the next lesson of the chosen student."""
        self.attempt(self._write)

    def choose_student(self, student_id: StudentId) -> bool:
        """Puts the cursor on a student; shows those who ended, if that is where the student is."""
        view = self._view
        if view is not None and view.entry(student_id).group is EntryGroup.OVER and not self._shows_ended:
            self.action_show_ended()
        listing = self.query_one(Rows)
        ids = [option.id for option in listing.options]
        if str(student_id) in ids:
            listing.highlighted = ids.index(str(student_id))
        return True

    def _ask(self, purpose: Purpose, entry: RosterEntry | None) -> None:
        """Asks for a line, and carries out what was understood of it; the cursor goes to who is new."""

        def understood(proposal: Proposal | None) -> None:
            if proposal is None or not self.step(lambda: self.arranged(proposal)):
                return
            new = [e.after.id for e in proposal.edits if e.before is None and isinstance(e.after, Student)]
            if new:
                self.choose_student(new[0])

        name = entry.student.name if entry is not None else ""
        self.app.push_screen(LineScreen(RosterLines(self.roster, entry), purpose, None, "", name), understood)

    def _write(self) -> None:
        entry = self._chosen()
        booking = self.desk.finding.next_lesson(entry.student)
        if booking is None:
            raise Refused(f"{entry.student.name} has no lesson in the next {NEXT_LESSON.days} days to write about.")
        write_letter(self, booking)

    def _tell_chosen(self) -> None:
        """Tells of the student with the cursor, once in each look: rows that are laid out anew say it, too."""
        entry, view = self._entry(), self._view
        if entry is not None and entry is self._told_of:
            return
        self._told_of = entry
        detail = self.roster.detail(view, entry) if entry is not None and view is not None else None
        self.query_one(DetailPane).show(detail)

    def _open(self) -> None:
        entry = self._chosen()
        booking = self.roster.lesson_to_open(entry)
        if booking is None:
            raise Refused(f"{entry.student.name} has no lesson yet, and none in the next {NEXT_LESSON.days} days.")
        home = self.settings.preferences.home
        self.post_message(self.LessonChosen(home.date_of(booking.lesson.starts_at), booking.lesson.id))

    def _entry(self) -> RosterEntry | None:
        """The student with the cursor, if there is one."""
        option = self.query_one(Rows).highlighted_option
        if self._view is None or option is None or not option.id:
            return None
        return self._view.entry(StudentId(int(option.id)))

    def _chosen(self) -> RosterEntry:
        """The student with the cursor.

        Raises:
            Refused: there is none.
        """
        entry = self._entry()
        if entry is None:
            raise Refused("There is no student here yet. Press n for a new one.")
        return entry
