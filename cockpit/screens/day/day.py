"""The lesson day: the countdown, the queue, the last assignments and the notes; its keys each do one thing at the desk."""

from collections.abc import Callable, Mapping, Sequence
from datetime import date, timedelta
from typing import TYPE_CHECKING

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Container
from textual.events import DescendantFocus
from textual.widgets import OptionList

from cockpit.desk.calendar.proposals import Purpose
from cockpit.desk.day.day import Day
from cockpit.screens.commands.commands import Command, Place, key_name
from cockpit.screens.day.last import LastPane
from cockpit.screens.day.notes import NotesPane
from cockpit.screens.day.queue import INQUIRIES, QueuePane, Waiting
from cockpit.screens.day.queue_rows import DayAfter
from cockpit.screens.lessons.countdown import Countdown
from cockpit.screens.lessons.next_row import NextRow
from cockpit.screens.screen import CockpitScreen, Parts, bindings_for
from cockpit.screens.sharing import open_call
from cockpit.screens.textual_parts.fast_text_area import NotesText
from cockpit.screens.textual_parts.key_strip import KeyStrip
from cockpit.screens.textual_parts.notice import Notice
from cockpit.studio.clocks.words import possessive
from cockpit.studio.errors import CockpitError, Refused
from cockpit.studio.lessons.lesson import Kind, LessonId, Outcome
from cockpit.studio.notes.areas import AnyArea
from cockpit.studio.values import replace

if TYPE_CHECKING:
    from cockpit.desk.calendar.proposals import Proposal
    from cockpit.studio.assignments.last_lesson import GivenAssignment
    from cockpit.studio.inquiries.deadline import Deadline
    from cockpit.studio.lessons.scheduled import ScheduledLesson
    from cockpit.studio.post.outgoing import DeliveryStatus

_STRIP = (
    "lesson.finish", "lesson.begin", "pane.show_next", "student.find", "lesson.give_full_length", "lesson.preview",
    "app.show_curtain", "lesson.show_page", "lesson.go_next", "lesson.open_link", "app.undo", "app.show_ahead", "app.show_review", "app.show_week",
    "app.quit",
)  # fmt: skip
_AHEAD = "app.show_ahead"
_PANES = {"notes": "#text", "last": "#assignments", "queue": "#lessons"}
_LETTERS = frozenset({Place.LAST, Place.QUEUE})
_DAY = timedelta(days=1)
_SAVED_AGAIN = "Saving works again. Your notes are saved."


class DayScreen(CockpitScreen):
    """One day of lessons beside the call."""

    PLACE = Place.DAY
    # Enter is hers to type, but for the one moment in which it answers what is asked about the call.
    BINDINGS = [*bindings_for(PLACE), Binding("enter", "note_call", show=False, priority=True)]
    HORIZONTAL_BREAKPOINTS = [(0, "-one"), (70, "-two"), (130, "-three")]
    AUTO_FOCUS = ""  # else the cursor goes into the queue first, and each way styles and paints anew

    def __init__(self, parts: Parts, greeting: str = "") -> None:
        super().__init__(parts, classes="show-notes")
        self._greeting = greeting
        self._to_settle = 0
        self._deadlines: tuple[Deadline, ...] = ()
        self._after: DayAfter | None = None
        self._unsent: dict[str, DeliveryStatus] = {}
        self._call_question: tuple[str, int] | None = None

    def compose(self) -> ComposeResult:
        """The countdown above, three panes, a notice, the keys."""
        self.fit()
        finish = self.parts.commands["lesson.finish"].keys
        yield Countdown(self.desk, self.settings, key_name(finish[0]) if finish else "", self._so_far, self._typed_last)
        with Container(id="body"):
            yield QueuePane(self.desk, self.settings)
            yield NotesPane(self.desk, self.settings)
            yield LastPane(self.desk, self.settings)
        yield Notice()
        yield KeyStrip([])
        yield NextRow(self.desk, self.settings)

    def on_mount(self) -> None:
        """Opens on the running lesson, or the next one."""
        self.say(self._greeting, is_fault=self.desk.why_read_only is not None)
        self.show()
        self.show_pane("notes")

    def show(self) -> None:
        """Shows the lesson that the desk has open: its notes, what came before, and the time."""
        booking = self.desk.day.shown
        sheet = self.desk.notes.sheet(booking) if booking is not None else None
        if self._after is not None and self._after.on != self.desk.day.on + _DAY:
            self._look_at_day_after()
        self.query_one(Countdown).read_again(booking, sheet)
        self.notes.show(booking, sheet)
        self.query_one(LastPane).show(booking, sheet, self.desk.day.on)
        self.outbox_changed()

    def outbox_changed(self) -> None:
        """Shows in the queue what has not gone out."""
        self._unsent = self.desk.outbox.unsent()
        self.tell_time()

    def tell_time(self) -> None:
        """Shows what depends on the time of day; called once a second, and after each step."""
        countdown = self.query_one(Countdown)
        countdown.tell_time()
        self.query_one(NextRow).tell_time(countdown.following)
        self.query_one(KeyStrip).offer(self.strip())
        self.query_one(QueuePane).show(self._unsent, self._waits, self._after)

    @property
    def _waits(self) -> list[Waiting]:
        """What waits for her, the most urgent first."""
        waits = {
            INQUIRIES: self._inquiries,
            "app.show_outbox": f"outbox: {len(self._unsent)}" if self._unsent else "",
            _AHEAD: f"coming up: {self._to_settle}" if self._to_settle else "",
        }
        return [
            Waiting(command=command, words=words, key=key_name(next(iter(self.parts.commands[command].keys), "")))
            for command, words in waits.items()
            if words
        ]

    @property
    def _inquiries(self) -> str:
        """What is told of inquiries that wait for an answer; empty where none has waited for half of its time."""
        if not self._deadlines:
            return ""
        from cockpit.studio.inquiries.deadline import urgent_words  # they were counted, so that it is loaded

        return urgent_words(self._deadlines, self.desk.clock.now())

    def strip(self) -> list[Command]:
        """The keys of this moment, in this pane."""
        place = self.place_here
        here = [c for c in self.parts.commands.values() if c.place is place] if place in _LETTERS else []
        waits = self._waits if not self.has_class("-three") else []  # else the queue tells of them
        return [*here, *_strip_of(self.desk.day, self.parts.commands, waits)]

    @on(DescendantFocus)
    def offer_keys(self) -> None:
        """Shows the keys of the pane that has them now."""
        self.query_one(KeyStrip).offer(self.strip())

    def show_pane(self, name: str) -> None:
        """Takes the cursor into a pane; on a narrow screen it is then the one that is shown."""
        self.update_classes({f"show-{pane}": pane == name for pane in _PANES})
        self.query_one(_PANES[name]).focus()

    @property
    def notes(self) -> NotesPane:
        """The notes."""
        return self.query_one(NotesPane)

    def tick(self) -> None:
        """Once a second: the time, what could not be saved before, the drafts, and the next day after midnight."""
        if not self.query(NotesPane) or not self.notes.is_ready:
            return
        self.attempt(self._retry_saving)
        if self.desk.saving.fault is None:
            self.attempt(self._turn_over)
            self.attempt(self.desk.teaching.keep_drafts)
        self.attempt(self.desk.board.keep_page)
        self.tell_time()
        self.notes.count()

    def save_typed(self) -> None:
        """Saves the text on the screen if it is not saved yet.

        Raises:
            CockpitError: it was not saved; the text stays where it is.
        """
        if self.notes.save():
            self.say(_SAVED_AGAIN)

    def step(self, take: Callable[[], str | None]) -> bool:
        """Saves what is on the screen, takes a step, and shows the lesson that is open then."""

        def saved_first() -> str | None:
            self.save_typed()
            return take()

        return super().step(saved_first)

    def write_below(self, lesson_id: LessonId, line: str) -> None:
        """Writes a line that the family reads below the notes of a lesson, whichever is shown.

        Raises:
            BadInput: the family would not read it there.
            Refused: the notes are closed.
        """
        if self.notes.lesson_id == lesson_id:
            self.notes.write_below(line)
        else:
            self.desk.board.write_below(lesson_id, line)

    def read_again(self) -> None:
        """Shows what another cockpit has changed."""
        self.desk.day.reload()
        if self._after is not None:
            self._look_at_day_after()
        self.show()

    def look_ahead(self) -> None:
        """Counts what is to be settled in the calendar; the key strip says how much that is."""
        self._to_settle = self.desk.ahead.to_settle()
        self._deadlines = self.desk.inquiry_deadlines()
        self._look_at_day_after()
        self.query_one(LastPane).look_back()  # at the opening it waited for notes to be read
        self.tell_time()

    def _look_at_day_after(self) -> None:
        """Reads what comes after the lessons of the day that is shown; at first when the rules for it are loaded anyway."""
        today, after = self.desk.ahead.days_from(self.desk.day.on, 2)
        self._after = DayAfter(free=today.gaps, on=after.on, bookings=after.bookings)

    def show_other_day(self, on_day: date, lesson_id: LessonId) -> None:
        """Shows a lesson of this or of another day."""
        self.step(lambda: self.desk.day.open(on_day, lesson_id))
        self.show_pane("notes")

    def arranged(self, proposal: "Proposal") -> str:
        """Carries a proposal out, and counts anew what is to be settled."""
        sentence = super().arranged(proposal)
        self.look_ahead()
        return sentence

    @on(OptionList.OptionSelected, "#lessons")
    def go_to_chosen(self, event: OptionList.OptionSelected) -> None:
        """Shows the lesson that was chosen in the queue."""
        if event.option_id is not None:
            chosen = LessonId(event.option_id)
            self.step(lambda: self.desk.day.go_to(chosen))
            self.show_pane("notes")

    @on(QueuePane.LineAsked)
    def arrange_chosen(self, event: QueuePane.LineAsked) -> None:
        """Asks for a line about the chosen lesson."""
        self.attempt(lambda: self._arrange_chosen(event.purpose))

    @on(QueuePane.MarkAsked)
    def mark_chosen(self, event: QueuePane.MarkAsked) -> None:
        """Marks the chosen lesson."""
        self.mark(event.outcome)

    @on(QueuePane.LetterAsked)
    def write_to_family(self) -> None:
        """Shows a letter about the chosen lesson, to be changed and sent, or copied."""
        from cockpit.screens.post.letter import write_letter  # when it is first asked for

        self.attempt(lambda: write_letter(self, self._chosen_lesson()))

    @on(LastPane.Carried)
    def carry(self, event: LastPane.Carried) -> None:
        """Puts an open assignment into today's notes."""
        self.attempt(lambda: self.say(self.notes.carry(event.given)))

    @on(LastPane.ReviewAsked)
    def review(self, event: LastPane.ReviewAsked) -> None:
        """Puts a piece that is due into today's notes."""
        self.attempt(lambda: self.say(self.notes.review(event.title)))

    @on(LastPane.WordTyped)
    def type_on(self, event: LastPane.WordTyped) -> None:
        """Types in the notes what was typed elsewhere by mistake."""
        self.show()
        if self.attempt(lambda: self.notes.type_on(event.letters, was_carried=event.was_carried)):
            self.say("What you typed is in the notes.")
        self.show_pane("notes")

    @on(LastPane.PieceAsked)
    def show_piece(self, event: LastPane.PieceAsked) -> None:
        """Shows the history of an assignment's piece."""
        self.attempt(lambda: self._show_history(event.given))

    @on(NotesText.TooLong)
    def tell_too_long(self, event: NotesText.TooLong) -> None:
        """Says that a paste or a carried line does not fit."""
        self.say(event.sentence, is_fault=True)

    @on(NotesPane.Said)
    def tell(self, event: NotesPane.Said) -> None:
        """Says what there is to say about what is typed."""
        self.say(event.sentence, is_fault=event.is_fault)

    def action_begin(self) -> None:
        """Begins or reopens the lesson that is shown."""
        self.step(self.desk.teaching.begin)
        self.show_pane("notes")

    def action_give_full_length(self) -> None:
        """Moves the end of a lesson that began late."""
        self.step(self.desk.teaching.give_full_length)

    def action_mark_absent(self) -> None:
        """Notes that the student did not come: the chosen one in the queue, else the one that is shown."""
        self.mark(Outcome.ABSENT)

    def action_mark_cancelled(self) -> None:
        """Notes that the lesson was cancelled: the chosen one in the queue, else the one that is shown."""
        self.mark(Outcome.CANCELLED)

    def mark(self, outcome: Outcome) -> None:
        """Marks the chosen lesson in the queue, else the one that is shown."""
        teaching = self.desk.teaching
        mark = teaching.mark_absent if outcome is Outcome.ABSENT else teaching.mark_cancelled
        self.step(lambda: self._of_chosen(mark))
        self.attempt(self.look_ahead)

    def action_undo(self) -> None:
        """Takes the last step back."""
        super().action_undo()
        self.attempt(self.look_ahead)

    def action_go_next(self) -> None:
        """Shows the next lesson of the day."""
        self.step(self.desk.day.go_next)

    def action_show_today(self) -> None:
        """Goes back to today's queue."""
        self.step(self.desk.day.open)

    def action_finish(self) -> None:
        """Finishes the lesson, copies its practice notes, and shows the next one; asks once about what looks like a slip.

        Asks about a lesson that was not begun what became of it.
        """
        self.step(self._finish)
        self.show_pane("notes")

    def action_tell_moved(self) -> None:
        """Says where two commands are whose keys she may still press in the notes."""
        self.say("Absent and canceled are letters of the queue now: a and c.")

    def action_show_page(self) -> None:
        """Shows the student's page: of the chosen one in the queue, else of the one whose lesson is shown."""
        self.attempt(self._show_page)

    def action_show_earlier(self) -> None:
        """Shows the student's lesson before: of the chosen one in the queue, else of the one that is shown."""
        self.attempt(self._show_earlier)

    def action_preview(self) -> None:
        """Shows what the family gets of the notes as they stand."""
        self.attempt(self._preview)

    def action_open_link(self) -> None:
        """Opens the call link, and always shows it, since a browser may not be at hand.

        Of a running lesson whose call was opened, it asks first whether the call is lost. A lost call is back.
        """
        if self.desk.calls.lost is not None:
            self._note(self.desk.calls.note_back)
        elif self.desk.calls.may_be_lost(self.desk.day.shown) and not self._answers_call:
            self._ask_about_call()
        else:
            self.attempt(self._open_link)

    def action_note_call(self) -> None:
        """Answers what is asked about the call: it is lost, or it is back."""
        calls = self.desk.calls
        if calls.lost is not None:
            self._note(calls.note_back)
        elif self._note(calls.note_lost):
            self._call_question = self._stands_there

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:  # noqa: ARG002 as there
        """Whether an action can be done: enter answers nothing but what stands there, and was asked since she typed last."""
        return action != "note_call" or self._answers_call

    def action_show_next(self) -> None:
        """Goes to the next pane."""
        names = list(_PANES)
        here = next((name for name in names if self.has_class(f"show-{name}")), names[0])
        focused = next((name for name in names if self.query_one(f"#{name}").has_focus_within), here)
        self.show_pane(names[(names.index(focused) + 1) % len(names)])

    def action_show_notes(self) -> None:
        """Goes back to the notes."""
        self.show_pane("notes")

    def _arrange_chosen(self, purpose: Purpose) -> None:
        chosen = self.query_one(QueuePane).chosen
        typed = chosen.lesson.reason if chosen is not None and purpose is Purpose.REASON else None
        self.ask_for_line(purpose, chosen, typed or "")

    def _so_far(self) -> str:
        """Says what the notes of the running lesson hold; nothing where another lesson is shown."""
        return self.notes.so_far() if self._shows_running else ""

    def _typed_last(self) -> AnyArea | None:
        """The area of the assignment that was typed last in the running lesson; None where another lesson is shown."""
        return self.notes.area_typed_last if self._shows_running else None

    @property
    def _shows_running(self) -> bool:
        running = self.desk.day.running
        return running is not None and running.lesson.id == self.desk.day.shown_id

    def _retry_saving(self) -> None:
        if self.notes.retry():
            self.say(_SAVED_AGAIN)

    def _turn_over(self) -> None:
        """Goes on with the next day, if one has begun."""
        if self.desk.day.is_over():
            self.save_typed()
            self.desk.day.turn()
            self.show()

    def _of_chosen(self, step: Callable[[], str]) -> str:
        """Shows the chosen lesson and does a step to it; a step that is refused leaves what is shown."""
        day, chosen = self.desk.day, self.query_one(QueuePane).chosen
        before = day.shown_id
        if chosen is not None:
            day.go_to(chosen.lesson.id)
        try:
            return step()
        except CockpitError:
            day.shown_id = before
            raise

    def _chosen_lesson(self) -> "ScheduledLesson":
        chosen = self.query_one(QueuePane).chosen
        if chosen is None:
            raise Refused("There are no lessons on this day.")
        return chosen

    def _finish(self) -> str | None:
        if (question := self.desk.teaching.question()) is not None:
            return question
        if (booking := self.desk.teaching.not_begun()) is not None:
            self._ask_what_became_of(booking)
            return None
        if (found := self.desk.teaching.lost()) is not None:
            from cockpit.screens.lost_minutes import ask_at_finish  # when something was lost

            ask_at_finish(self, *found)
            return None
        return self._finished()

    def _ask_what_became_of(self, booking: "ScheduledLesson") -> None:
        from cockpit.screens.asking import AskingScreen, Choice  # when it is first asked

        finish = self.parts.commands["lesson.finish"].keys
        answers = (
            Choice(letter="t", word="Taught", does="finishes the lesson", keys=finish),
            Choice(letter="a", word="Absent", does="the student did not come"),
            Choice(letter="c", word="Canceled", does="in time or late, by your notice period"),
        )

        def became(letter: str | None) -> None:
            if letter == "t":
                self.step(self._finished)
            elif letter is not None:
                self.mark(Outcome.ABSENT if letter == "a" else Outcome.CANCELLED)

        question = f"{possessive(booking.student.name)} lesson was not begun. What became of it?"
        self.app.push_screen(AskingScreen(question, answers), became)

    def _finished(self) -> str:
        return self.finished(self.desk.teaching.finish())

    def _show_page(self) -> None:
        booking = self._chosen_lesson()
        self.show_page(booking.student.id, booking.lesson)

    def _show_earlier(self) -> None:
        booking = self._chosen_lesson()
        latest = self.desk.looking_back.before(booking.lesson)
        if latest is None:
            this = "this trial lesson" if booking.lesson.kind is Kind.TRIAL else "this one"
            self.say(f"{booking.student.name} has no lesson before {this}.")
        else:
            self.read_lesson(booking.student.name, latest, booking.lesson)

    def _show_history(self, given: "GivenAssignment") -> None:
        booking = self.desk.day.shown
        if booking is not None:
            history = self.desk.pages().history_with(booking.student.id, given.lesson_id, given.line.typed)
            self.show_history(booking.student, history.key)

    def _preview(self) -> None:
        from cockpit.screens.post.preview import PreviewScreen  # when it is first asked for

        booking = self.desk.day.shown
        if booking is None:
            raise Refused("There are no lessons on this day.")
        self.save_typed()
        preview = self.desk.previewing.of_lesson(booking)
        self.app.push_screen(PreviewScreen(self.parts, preview))

    @property
    def _answers_call(self) -> bool:
        """Whether the next key can answer what is said about the call."""
        return self.query_one(Notice).display and self._call_question == self._stands_there

    @property
    def _stands_there(self) -> tuple[str, int]:
        """What the notice says, and how often she has typed: a question is answered only while both are the same."""
        return self.query_one(Notice).sentence, self.notes.changes

    def _ask_about_call(self) -> None:
        booking = self.desk.day.shown
        has_link = booking is not None and booking.call_link is not None
        again = ", F12 to open it again." if has_link else "."
        self.say(f"Call lost? Press enter to note it{again}")
        self._call_question = self._stands_there

    def _note(self, take: Callable[[], str]) -> bool:
        self._call_question = None
        return self.step(take)

    def _open_link(self) -> None:
        self._call_question = None
        booking = self.desk.day.shown
        if booking is None or booking.call_link is None:
            raise Refused("This lesson has no call link. Add one in the roster column call_link.")
        self.desk.calls.note_opened(booking.lesson.id)
        self.say(open_call(booking.call_link))


def _strip_of(day: Day, commands: Mapping[str, Command], waits: Sequence[Waiting]) -> list[Command]:
    """The key strip; what waits stands behind its first key, with how much it is, and what is coming up behind the way to the panes."""
    names = list(_STRIP)
    names.remove("lesson.finish" if day.running is None else "lesson.begin")
    if day.on != day.going_on:
        names.insert(0, "day.show_today")
    words = {each.command: each.words for each in waits}
    names = [name for name in names if name not in words]
    names[1:1] = [name for name in words if name != _AHEAD]
    if _AHEAD in words:
        names.insert(names.index("pane.show_next") + 1, _AHEAD)
    names.append("app.show_help")
    return [replace(commands[name], short=words[name]) if name in words else commands[name] for name in names]
