"""The answer to an inquiry at the desk: written, and sent by way of the outbox, copied, or given on the telephone."""

from collections.abc import Callable
from datetime import date, datetime, timedelta

from cockpit.desk.calendar.ahead import LookingAhead
from cockpit.desk.inquiries.known import KnownInquiries
from cockpit.desk.ports import Reading
from cockpit.desk.post.letters import Letters
from cockpit.desk.steps import Steps
from cockpit.studio.changes.records import Edit
from cockpit.studio.clocks.moments import moment
from cockpit.studio.clocks.words import possessive
from cockpit.studio.day.posting import Letter, taken_back
from cockpit.studio.errors import Refused
from cockpit.studio.inquiries.answer import BY_PHONE, answer_text, chosen_times, days_offered, offered_time
from cockpit.studio.inquiries.inquiry import Inquiry, InquiryId, StepKind
from cockpit.studio.lessons.lesson import Kind, Lesson, LessonId
from cockpit.studio.lessons.scheduled import ScheduledLesson
from cockpit.studio.people.people import Family, FamilyId, Student, StudentId
from cockpit.studio.post.outgoing import DeliveryStatus, Outgoing, answer_name

_WANTED_HOUR = 16  # where nothing is wished: after school; common practice, no source
_ON_ITS_WAY = frozenset({DeliveryStatus.WAITING, DeliveryStatus.GOING, DeliveryStatus.UNSURE})


class Answering:
    """Writes answers to inquiries. Nothing goes by itself, and nothing to another address than the inquiry's own."""

    def __init__(
        self, known: KnownInquiries, reading: Reading, steps: Steps, ahead: LookingAhead, letters: Callable[[], Letters]
    ) -> None:
        self._known = known
        self._reading = reading
        self._steps = steps
        self._ahead = ahead
        self._letters = letters

    def letter(self, number: InquiryId) -> Letter:
        """Her answer to an inquiry, to be read and changed: three free times of the next ten days stand in it.

        Raises:
            Refused: an answer is in the outbox, and has not gone.
        """
        inquiry, preferences = self._known.course(number).inquiry, self._known.preferences
        if any(each.fate in _ON_ITS_WAY for each in self._answers(inquiry)):
            raise Refused(
                f"An answer to {inquiry.name} is still in the outbox. Take it back with F4, or see the outbox."
            )
        times = [
            offered_time(at, inquiry.zone, preferences.home, preferences.family_hours)
            for at in self.free_times(inquiry)
        ]
        words = preferences.sending.words.get(preferences.sending.language)
        signature = words.signature if words is not None else ""
        return self._letters().reply(inquiry, answer_text(preferences.inquiry.answer, inquiry, times, signature))

    def way_of(self, letter: Letter) -> str:
        """How the outbox would send it: `by email`; empty where she is to copy it herself."""
        return self._letters().way_of(letter)

    def put_out(self, number: InquiryId, letter: Letter, text: str) -> str:
        """Puts the answer into the outbox with her words in it and marks the inquiry as answered, as a step; returns a sentence.

        Raises:
            Refused: there are no words.
            NotSaved: it is not there.
        """
        step = self._step(number, text, StepKind.ANSWERED)
        said = self._letters().put_out(letter, text, *step, about=answer_name(self._known.next_step))
        self._known.numbers.use()
        return said

    def copied(self, number: InquiryId, text: str) -> str:
        """Marks an inquiry as answered with words that she sends herself, as a step that can be undone; returns a sentence.

        Raises:
            Refused: there are no words.
        """
        inquiry = self._take(number, self._step(number, text, StepKind.ANSWERED))
        to = f" Paste it into an email to {inquiry.email}." if inquiry.email else ""
        return f"{possessive(inquiry.name)} answer is on the clipboard and marked as answered.{to}"

    def by_phone(self, number: InquiryId) -> str:
        """Marks an inquiry as answered by telephone, as a step that can be undone; returns a sentence."""
        inquiry = self._take(number, self._step(number, BY_PHONE, StepKind.BY_PHONE))
        return f"{inquiry.name} is answered by phone."

    def taken_back(self, inquiry: Inquiry) -> tuple[Edit, ...]:
        """What takes an answer out of the outbox that has not gone, when its inquiry is closed."""
        return taken_back(self._answers(inquiry), self._known.now, "the inquiry was closed")

    def free_times(self, inquiry: Inquiry) -> list[datetime]:
        """Up to three starts (UTC) for a trial in the next ten days that suit both clocks, and the wishes where any does."""
        wishes, days = self._known.wishes(inquiry), days_offered(self._known.today)
        minutes = self._known.preferences.inquiry.trial_minutes
        by_day = self._ahead.free_times_for(self._wanted(inquiry, days[0], minutes), days)
        return chosen_times(by_day, wishes, inquiry.zone, minutes)

    def _step(self, number: InquiryId, text: str, what: StepKind) -> tuple[Edit, ...]:
        if not text.strip():
            raise Refused(f'There is no answer yet. Type one, or "{BY_PHONE}".')
        return self._known.step(self._known.course(number).inquiry, what)

    def _take(self, number: InquiryId, edits: tuple[Edit, ...]) -> Inquiry:
        inquiry = self._known.course(number).inquiry
        self._steps.take(f"answering {inquiry.name}", *edits, durable=True)
        self._known.numbers.use()
        return inquiry

    def _answers(self, inquiry: Inquiry) -> list[Outgoing]:
        return [each for each in self._reading.answers() if each.inquiry_id == inquiry.id]

    def _wanted(self, inquiry: Inquiry, on: date, minutes: int) -> ScheduledLesson:
        """The trial as nobody has booked it yet: at the first time that was wished, else after school on their clock."""
        wish = next((each for each in self._known.wishes(inquiry).times if each.begins is not None), None)
        home = self._known.preferences.home
        begins = home.day_bounds(on)[0] + timedelta(hours=_WANTED_HOUR)
        if wish is not None and wish.begins is not None and inquiry.zone is not None:
            begins = moment(datetime.combine(on, wish.begins), inquiry.zone)
        # Without a place it is her own clock, as it is on that day.
        zone = inquiry.zone or str(home.local(begins).tzinfo)
        family = Family(id=FamilyId(-1), name=inquiry.name, zone=zone)
        student = Student(id=StudentId(-1), family_id=family.id, name=inquiry.learner)
        lesson = Lesson(id=LessonId(""), student_id=student.id, kind=Kind.TRIAL, starts_at=begins, minutes=minutes)
        return ScheduledLesson(lesson=lesson, student=student, family=family)
