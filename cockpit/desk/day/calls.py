"""The call of a lesson: opened, lost, and back; and the minutes that are owed for it."""

from datetime import datetime

from cockpit.desk.day.day import Day
from cockpit.desk.lookup import guardians_of, owed_minutes
from cockpit.desk.ports import Clock, Reading
from cockpit.desk.steps import Steps
from cockpit.studio.changes.records import Edit, added
from cockpit.studio.clocks.words import minutes_of, possessive
from cockpit.studio.errors import Refused
from cockpit.studio.lessons import lesson as rules
from cockpit.studio.lessons.calls import (
    CallLoss,
    LostMinutes,
    OwedMinutes,
    Settled,
    lost_in,
    minutes_lost,
    open_loss,
)
from cockpit.studio.lessons.lesson import Lesson, LessonId
from cockpit.studio.lessons.scheduled import ScheduledLesson
from cockpit.studio.people.people import Guardian, StudentId
from cockpit.studio.values import Value, replace


class LostCall(Value):
    """The call of the running lesson while it is lost: since when (UTC), for how many minutes, and whom to telephone."""

    lost_at: datetime
    minutes: int
    phones: tuple[Guardian, ...]


class Calls:
    """Notes when the call of the running lesson is lost and back, whatever is shown, and settles what is owed for that."""

    def __init__(self, day: Day, reading: Reading, steps: Steps, clock: Clock) -> None:
        self._day = day
        self._reading = reading
        self._steps = steps
        self._clock = clock
        self._opened: set[LessonId] = set()
        self._since = clock.now()

    @property
    def lost(self) -> LostCall | None:
        """The call that is lost now."""
        running = self._day.running
        loss = self._open_loss(running)
        if running is None or loss is None:
            return None
        guardians = guardians_of(self._reading, running.family.id)
        return LostCall(
            lost_at=loss.lost_at,
            minutes=minutes_lost(loss, self._clock.now()),
            phones=tuple(each for each in guardians if each.phone),
        )

    def note_opened(self, lesson_id: LessonId) -> None:
        """Remembers that the call of a lesson was opened."""
        self._opened.add(lesson_id)

    def may_be_lost(self, booking: ScheduledLesson | None) -> bool:
        """Whether a lesson runs whose call was opened: here, by a cockpit before this one, or by herself where it has no link."""
        if booking is None or not booking.lesson.is_live or booking.lesson.began_at is None:
            return False
        was_running = booking.lesson.began_at < self._since
        return was_running or booking.lesson.id in self._opened or booking.call_link is None

    def note_lost(self) -> str:
        """Notes that the call of the running lesson is lost; returns a sentence.

        Raises:
            Refused: no lesson runs, or its call is lost already.
        """
        running = self._running()
        if self._open_loss(running) is not None:
            raise Refused("This call is lost already. Press F12 when it is back.")
        now = self._clock.now()
        losses = (CallLoss(lesson_id=each.lesson.id, lost_at=now) for each in self._day.all_running)
        said = f"call lost at {self._time(now)}"
        self._steps.take(f"{possessive(running.student.name)} {said}", *added(*losses), durable=True)
        return f"{said[0].upper()}{said[1:]}. Press F12 or enter when it is back."

    def note_back(self) -> str:
        """Notes that the call of the running lesson is back; returns a sentence.

        Raises:
            Refused: no lesson runs, or its call is not lost.
        """
        running = self._running()
        loss = self._open_loss(running)
        if loss is None:
            raise Refused("This call is not lost.")
        now = self._clock.now()
        open_losses = filter(None, map(self._open_loss, self._day.all_running))
        edits = (Edit(before=each, after=replace(each, back_at=now)) for each in open_losses)
        said = f"back at {self._time(now)}"
        self._steps.take(f"{possessive(running.student.name)} call {said}", *edits, durable=True)
        minutes = minutes_lost(loss, now)
        return f"{said[0].upper()}{said[1:]}: {minutes_of(minutes) if minutes else 'less than a minute'} lost."

    def lost_in(self, lesson: Lesson) -> LostMinutes | None:
        """What a running lesson lost and nothing became of yet; None where that is nothing."""
        return lost_in(lesson, self._reading.call_losses(lesson.id)) if lesson.is_live else None

    def owed_to(self, student_id: StudentId) -> OwedMinutes | None:
        """What one student is owed for lost calls."""
        return next((each for each in owed_minutes(self._reading) if each.student.id == student_id), None)

    def give(self, lost: LostMinutes) -> str:
        """Gives the running lesson lost minutes, of its own or of lessons before it; returns a sentence.

        Those who share the lesson share them.

        Raises:
            Refused: no lesson runs, or its call is still lost.
        """
        running = self._running()
        lesson = running.lesson
        if self._open_loss(running) is not None:
            raise Refused("The call is still lost. Press F12 when it is back.")
        after = rules.give_more(lesson, lost.minutes)
        said = f"{minutes_of(lost.minutes)} more"
        edits = [Edit(before=lesson, after=after), *_edits(lost, Settled.GIVEN, lesson.id)]
        for each in self._day.all_running[1:]:
            edits.append(Edit(before=each.lesson, after=rules.give_more(each.lesson, lost.minutes)))
            own = self.lost_in(each.lesson) if lesson in lost.lessons else None
            edits += _edits(own, Settled.GIVEN, each.lesson.id) if own is not None else ()
        self._steps.take(f"giving {running.student.name} {said}", *edits, durable=True)
        self._day.reload()
        return f"{running.student.name} gets {said}: the lesson ends at {self._time(after.ends_at)}."

    def settle(self, owed: OwedMinutes, how: Settled) -> str:
        """Notes that owed minutes were given, or that nobody asks for them; returns a sentence."""
        said = f"{minutes_of(owed.minutes)} for {owed.student.name}"
        word = "given" if how is Settled.GIVEN else "let be"
        self._steps.take(f"{said} {word}", *_edits(owed.lost, how))
        return f"{said}: {word}. Nothing is owed for them now."

    def let_be(self, lesson: Lesson) -> tuple[Edit, ...]:
        """The edits that ask for nothing of what a lesson lost."""
        lost = self.lost_in(lesson)
        return _edits(lost, Settled.LET_BE) if lost is not None else ()

    def _running(self) -> ScheduledLesson:
        running = self._day.running
        if running is None:
            raise Refused("No lesson is running.")
        return running

    def _open_loss(self, running: ScheduledLesson | None) -> CallLoss | None:
        return None if running is None else open_loss(self._reading.call_losses(running.lesson.id))

    def _time(self, at: datetime) -> str:
        return self._day.preferences.home.time(at)


def _edits(lost: LostMinutes, how: Settled, given_in: LessonId | None = None) -> tuple[Edit, ...]:
    return tuple(Edit(before=before, after=after) for before, after in lost.settled(how, given_in))
