"""What is done to the lesson that is shown: begun, finished, closed, lengthened, taken back."""

from datetime import date, datetime, timedelta
from pathlib import Path
from typing import TYPE_CHECKING

from cockpit.desk.day.calls import Calls
from cockpit.desk.day.day import Day
from cockpit.desk.ports import Clock, Reading
from cockpit.desk.post.paper_making import PaperMaking, WrittenOut, notices_of
from cockpit.desk.steps import Steps
from cockpit.studio.changes.records import Change, Edit
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.clocks.words import listed, minutes_of, possessive
from cockpit.studio.errors import NotSaved, Refused
from cockpit.studio.lessons import lesson as rules
from cockpit.studio.lessons.calls import LostMinutes
from cockpit.studio.lessons.lesson import Lesson, LessonId, Outcome, in_words, is_late
from cockpit.studio.lessons.scheduled import ScheduledLesson, are_together, together_with
from cockpit.studio.notes.notes import no_labels
from cockpit.studio.notes.telling import no_label_sentence
from cockpit.studio.values import Value, replace

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from cockpit.desk.post.posting import Posting
    from cockpit.studio.practice.notes import PracticeNotes

# The next lesson stands there when the key of a finish is pressed twice.
_A_SECOND_TAP = timedelta(seconds=3)
# An answer that comes later answers nothing: the question was asked by a slip, and the lesson went on.
_AN_ANSWER = timedelta(minutes=1)
_MINUTE = timedelta(minutes=1)


class Finished(Value):
    """A finished lesson: what was written out (None without notes), and a fault of the folder, if there was one.

    `for_clipboard` is what the clipboard gets, if it gets anything; `posted` says that something is in the outbox now.
    `notices` are about the plan that went out.
    """

    student: str
    path: Path | None = None
    for_clipboard: str | None = None
    posted: bool = False
    notices: tuple[str, ...] = ()
    fault: str | None = None


class Teaching:
    """The steps of a lesson day.

    A step means the lesson that is shown; one that only a running lesson can take (its finish, its full length) means
    the running one while there is one, whatever is shown. A lesson that was reopened is finished where it is shown.
    """

    def __init__(
        self,
        day: Day,
        reading: Reading,
        steps: Steps,
        paper_making: PaperMaking,
        posting: "Callable[[], Posting]",
        clock: Clock,
    ) -> None:
        self._day = day
        self._reading = reading
        self._steps = steps
        self._paper_making = paper_making
        self._posting = posting
        self._clock = clock
        self.calls = Calls(day, reading, steps, clock)
        self._named: set[tuple[LessonId, str]] = set()
        self._asked_at: dict[tuple[LessonId, str], datetime] = {}

    def begin(self) -> str:
        """Begins the lesson that is shown, or reopens it; returns a sentence.

        Raises:
            Refused: it is running, or another one is.
        """
        booking = self._wanted()
        after = rules.begin(booking.lesson, self._clock.now())
        running = self._day.running
        if after.is_live and running is not None and not are_together(running, booking):
            raise Refused(f"{possessive(running.student.name)} lesson is running. Finish it first.")
        if after.is_live and booking.lesson.began_at is None and (beside := self._to_begin_with(booking)):
            return self._begin_together(booking, beside)
        again = booking.lesson.began_at is not None or booking.lesson.outcome is not None
        made_up = _made_up(self._reading, booking.lesson, self._day.preferences.home) if again else None
        whose = possessive(booking.student.name)
        self._step(f"{'reopening' if again else 'beginning'} {whose} lesson", after)
        make_up = f" Its make-up is still booked: {made_up}." if made_up is not None else ""
        owed = self.calls.owed_to(booking.student.id) if after.is_live else None
        more = f" You owe {minutes_of(owed.minutes)} of a lost call: F3 gives them." if owed is not None else ""
        return f"{whose} lesson {'is open again' if again else 'has begun'}.{make_up}{more}"

    def _to_begin_with(self, booking: ScheduledLesson) -> list[ScheduledLesson]:
        """The lessons that share the time of one and were not begun."""
        beside = together_with(booking, self._day.bookings)
        return [each for each in beside if each.lesson.is_open and each.lesson.began_at is None]

    def _begin_together(self, booking: ScheduledLesson, beside: "Sequence[ScheduledLesson]") -> str:
        """Begins a lesson and those that share its time, as one step."""
        now, everyone = self._clock.now(), [self._day.recorded(each.lesson.id) for each in (booking, *beside)]
        whose = possessive(listed([each.student.name for each in everyone]))
        edits = (Edit(before=each.lesson, after=rules.begin(each.lesson, now)) for each in everyone)
        self._steps.take(f"beginning {whose} lesson", *edits, durable=True)
        self._day.reload()
        return f"{whose} lesson has begun. F5 shows the notes of the other."

    def mark_absent(self) -> str:
        """Notes that the student did not come; returns a sentence."""
        return self._close(Outcome.ABSENT)

    def mark_cancelled(self) -> str:
        """Notes that the lesson was cancelled, in time or late by the hours of notice; the other one, if it was noted so.

        Returns a sentence.
        """
        lesson = self._wanted().lesson
        if lesson.outcome in {Outcome.CANCELLED, Outcome.CANCELLED_LATE}:
            was_late = lesson.outcome is Outcome.CANCELLED_LATE
            return self._close(Outcome.CANCELLED if was_late else Outcome.CANCELLED_LATE)
        late = is_late(lesson.starts_at, self._clock.now(), self._day.preferences.notice_hours)
        return self._close(Outcome.CANCELLED_LATE if late else Outcome.CANCELLED)

    def mark(self, on: date, lesson_id: LessonId, outcome: Outcome) -> str:
        """Notes of a lesson of any day that it was not taught: the student was absent, or it was cancelled, in time or late.

        Returns a sentence.
        """
        with self._day.showing(on, lesson_id):
            return self.mark_absent() if outcome is Outcome.ABSENT else self.mark_cancelled()

    def give_full_length(self) -> str:
        """Moves the end of the running lesson: it began late, its call was lost, or the student is owed minutes of one before.

        Returns a sentence. Each of the three is a step of its own, in this order.
        """
        booking = self._day.running or self._wanted()
        lesson = booking.lesson
        if lesson.is_live and not rules.began_late(lesson):
            owed = self.calls.owed_to(booking.student.id)
            lost = self.calls.lost_in(lesson) or (owed.lost if owed is not None else None)
            if lost is not None:
                return self.calls.give(lost)
        after = rules.give_full_length(lesson)
        others = [each.lesson for each in self._day.all_running[1:] if rules.began_late(each.lesson)]
        edits = (Edit(before=each, after=rules.give_full_length(each)) for each in others)
        self._step(f"giving {booking.student.name} all the minutes", after, *edits)
        return f"{booking.student.name} gets all {booking.lesson.minutes} minutes."

    def question(self) -> str | None:
        """What she should know before a lesson is finished, all of it at once; None where there is nothing.

        That much of its time is left, and what looks like a label and is none, each of that once.

        Raises:
            Refused: the lesson is finished already, or was not taught.
        """
        lesson = self._finishable().lesson
        note = self._reading.notes([lesson.id]).get(lesson.id)
        labels = self._day.preferences.labels
        doubtful = no_labels(note.body, labels) if note is not None else ()
        fresh = [words for words in doubtful if (lesson.id, words) not in self._named]
        self._named |= {(lesson.id, words) for words in fresh}
        sentences = [no_label_sentence(fresh, labels)] if fresh else []
        left = (lesson.ends_at - self._clock.now()) // _MINUTE if lesson.is_live else 0
        if left > self._day.preferences.early_minutes and self._is_first_time(lesson.id, "finish"):
            return " ".join([f"{minutes_of(left)} left.", *sentences, "F9 again finishes the lesson."])
        return f"{sentences[0]} F9 again sends {'it' if len(fresh) == 1 else 'them'}." if fresh else None

    def not_begun(self) -> ScheduledLesson | None:
        """The lesson that a finish would mean, if its time has come and it was never begun: she is asked what became of it.

        Raises:
            Refused: it has not come yet, is finished already, or was not taught.
        """
        booking = self._finishable()
        lesson = booking.lesson
        return booking if lesson.is_open and lesson.began_at is None and not lesson.is_reopened else None

    def lost(self) -> tuple[ScheduledLesson, LostMinutes] | None:
        """The lesson that a finish would mean, with what it lost of its call: she is asked what becomes of that.

        Raises:
            Refused: it has not come yet, is finished already, or was not taught.
        """
        booking = self._finishable()
        lost = self.calls.lost_in(booking.lesson)
        return None if lost is None else (booking, lost)

    def finish(self, *, lets_be: bool = False) -> Finished:
        """Finishes a lesson: its practice notes into the folder and the outbox, all on the disk, the next one shown.

        A folder that refuses does not hold the lesson up: the notes are in the database, and finishing again after
        reopening writes them. That the notes are final and that they are in the outbox is one change. What was lost of
        the call is owed, unless she `lets_be`.

        Raises:
            Refused: it is finished already, or was not taught.
            NotSaved: the database refused; the lesson is not finished.
        """
        return self._finish(self._finishable(), lets_be=lets_be)

    def mark_taught(self, on: date, lesson_id: LessonId) -> Finished:
        """Finishes a lesson of any day, with all that a finish does; whatever is shown stays shown.

        Raises:
            Refused: it has not come yet, is finished already, or was not taught.
            NotSaved: the database refused; the lesson is not finished.
        """
        with self._day.showing(on, lesson_id):
            booking = self._day.booking(lesson_id)
            if booking.lesson.is_by_rule and booking.lesson.starts_at > self._clock.now():
                raise Refused(f"{possessive(booking.student.name)} lesson has not begun.")
            return self._finish(booking)

    def _finish(self, booking: ScheduledLesson, *, lets_be: bool = False) -> Finished:
        after = rules.finish(booking.lesson, self._clock.now(), is_rehearsal=self._clock.is_rehearsal)
        booking = self._day.recorded(booking.lesson.id)
        lesson_id = booking.lesson.id
        note = self._reading.notes([lesson_id]).get(lesson_id)
        board = self._cleared_board(lesson_id)
        edits = [
            Edit(before=booking.lesson, after=after),
            *board,
            *(self.calls.let_be(booking.lesson) if lets_be else ()),
        ]
        done = Finished(student=booking.student.name)
        if note is not None and note.body.strip():
            finished = replace(booking, lesson=after)
            paper = self._paper_making.paper(finished, note.body)
            written, fault = self._written_out(finished, paper)
            if written is not None:
                edits.append(Edit(before=self._reading.exports([lesson_id]).get(lesson_id), after=written.export))
            posting = self._posting()
            posted = posting.edits(finished, paper, self._clock.now())
            edits += posted
            done = Finished(
                student=booking.student.name,
                path=written.path if written is not None else None,
                for_clipboard=posting.for_clipboard(finished, paper),
                posted=bool(posted),
                notices=notices_of(paper),
                fault=fault,
            )
        self._steps.take(f"finishing {possessive(booking.student.name)} lesson", *edits, durable=True)
        self._day.show_after(lesson_id)
        return done

    def plan_notices(self, body: str) -> tuple[str, ...]:
        """What is told about the plan of the lesson that is shown, from its notes as they are typed."""
        booking = self._day.shown
        if booking is None or not booking.lesson.takes_notes:
            return ()
        return self._paper_making.plan_notices(booking, body)

    def undo(self) -> str:
        """Takes the last step back; returns a sentence. A lesson whose finish it was is shown again, with its notes."""
        change = self._steps.undo()
        self._day.reload()
        for lesson in _going_on(change):
            self._day.show_again(lesson)
        return f"Undone: {change.said}."

    def keep_drafts(self) -> WrittenOut | None:
        """Brings the drafts of lessons past their end up to date; the last one written, if any."""
        day = self._day
        bookings = day.bookings if day.on == day.going_on else (*day.bookings, *day.bookings_going_on)
        return self._paper_making.keep_drafts(bookings)

    def _wanted(self) -> ScheduledLesson:
        if self._day.shown is None:
            raise Refused("There are no lessons on this day.")
        return self._day.shown

    def _finishable(self) -> ScheduledLesson:
        shown = self._wanted()
        if shown.lesson.is_live or shown.lesson.is_reopened:
            return shown
        if self._day.running is not None:
            return self._day.running
        now = self._clock.now()
        has_not_begun = f"{possessive(shown.student.name)} lesson has not begun."
        if shown.lesson.is_open and shown.lesson.starts_at > now:
            raise Refused(has_not_begun)
        just_now = (b.lesson.finished_at for b in self._day.bookings if b.lesson.finished_at is not None)
        if shown.lesson.is_open and any(timedelta() <= now - at < _A_SECOND_TAP for at in just_now):
            raise Refused(f"{has_not_begun} To finish it anyway, press Finish (F9) again.")
        return shown

    def _is_first_time(self, lesson_id: LessonId, what: str) -> bool:
        """Whether a question was not asked within the last minute; it is asked now."""
        now, asked_at = self._clock.now(), self._asked_at.get((lesson_id, what))
        self._asked_at[lesson_id, what] = now
        return asked_at is None or now - asked_at > _AN_ANSWER

    def _close(self, outcome: Outcome) -> str:
        booking = self._wanted()
        marked = f"marked {in_words(outcome)}"
        lesson = booking.lesson
        if lesson.is_live and lesson.began_at is not None and self._is_first_time(lesson.id, marked):
            running = minutes_of((self._clock.now() - lesson.began_at) // _MINUTE)
            name = booking.student.name
            question = f"Press the key again to mark {name} {in_words(outcome)}."
            return f"{possessive(name)} lesson has been running for {running}. {question}"
        board = self._cleared_board(lesson.id)
        self._step(f"{booking.student.name} {marked}", rules.close_untaught(booking.lesson, outcome), *board)
        return f"{booking.student.name} is {marked}."

    def _cleared_board(self, lesson_id: LessonId) -> "Sequence[Edit]":
        return [Edit(before=line, after=None) for line in self._reading.board_lines(lesson_id)]

    def _step(self, said: str, after: Lesson, *more: Edit) -> None:
        before = self._day.recorded(after.id)
        was_over = before.lesson.finished_at is not None or before.lesson.outcome is not None
        # What has not gone of it is not what she means any more: a lesson that is taught again is finished again.
        taken_back = self._posting().taken_back(after.id, self._clock.now()) if was_over else ()
        step = Edit(before=_kept(self._reading, before.lesson), after=after)
        self._steps.take(said, step, *more, *taken_back, durable=True)
        self._day.reload()

    def _written_out(self, booking: ScheduledLesson, paper: "PracticeNotes") -> tuple[WrittenOut | None, str | None]:
        try:
            return self._paper_making.write_out(booking, paper, is_final=True), None
        except NotSaved as fault:
            return None, str(fault)


def _going_on(taken_back: Change) -> list[Lesson]:
    """The lesson that a finish ended, and that goes on when the finish is taken back."""
    lessons = [(e.before, e.after) for e in taken_back.edits if isinstance(e.after, Lesson)]
    if len(lessons) > 1:  # marked together, not finished
        return []
    return [
        before
        for before, after in lessons
        if isinstance(before, Lesson) and before.takes_notes and before.outcome is None and not after.takes_notes
    ]


def _made_up(reading: Reading, lesson: Lesson, home: TeacherClock) -> str | None:
    """When a called-off lesson is made up, on the teacher's clock; None where it is not."""
    closed = reading.closed_lessons() if lesson.outcome is not None else ()
    make_up = next((each for each in closed if each.makes_up == lesson.id and each.outcome is None), None)
    if make_up is None:
        return None
    return home.date_and_time(make_up.starts_at)


def _kept(reading: Reading, lesson: Lesson) -> Lesson:
    """A lesson as it is kept: one that its weekly time left behind is only shown as called off, and undo brings it back."""
    if lesson.outcome is None:
        return lesson
    kept = reading.lessons_between(lesson.starts_at, lesson.starts_at, [lesson.id])
    return next((each for each in kept if each.id == lesson.id and each.outcome is None), lesson)
