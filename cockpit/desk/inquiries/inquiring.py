"""Inquiries at the desk: taken in from a line or a mail, tried, put on the waiting list, closed. Answers have a room of their own."""

import re
from collections.abc import Callable
from datetime import date, datetime, timedelta
from pathlib import Path

from cockpit.desk.calendar.ahead import LookingAhead
from cockpit.desk.calendar.arranging import Arranging
from cockpit.desk.calendar.proposals import Proposal, Purpose
from cockpit.desk.inquiries.answering import Answering
from cockpit.desk.inquiries.known import KnownInquiries
from cockpit.desk.inquiries.waiting_list import WaitingList
from cockpit.desk.ports import Clock, Reading
from cockpit.desk.post.letters import Letters
from cockpit.desk.steps import Steps
from cockpit.studio.changes.records import Edit, added
from cockpit.studio.clocks.words import city, listed, possessive
from cockpit.studio.errors import BadInput, Refused
from cockpit.studio.inquiries.deadline import Deadline, TeachingDay, deadline, months_before
from cockpit.studio.inquiries.inquiry import (
    MOST_WORDS,
    Inquiry,
    InquiryCourse,
    InquiryId,
    InquiryState,
    StepKind,
    same_address,
)
from cockpit.studio.inquiries.line import line_of, read_came, read_inquiry
from cockpit.studio.inquiries.received import ReceivedMail
from cockpit.studio.inquiries.to_do import (
    InquiryCounts,
    InquiryStanding,
    InquiryTask,
    WhoFits,
    counted_inquiries,
    standing_of,
)
from cockpit.studio.inquiries.wishes import wishes_words
from cockpit.studio.lessons.scheduled import ScheduledLesson
from cockpit.studio.people.people import Family, Level, Student
from cockpit.studio.preferences import Preferences
from cockpit.studio.typed_times.when import Reference
from cockpit.studio.values import Value, replace

_SHOWN_CLOSED = timedelta(days=30)
_BEFORE_DELETED = timedelta(days=14)
_REASONS = (
    (re.compile(r"(?:there (?:was|is) )?no (?:answer|reply)|(?:never|not) (?:answered|replied)|silence"), StepKind.NO_ANSWER),
    (re.compile(r"(?:they )?(?:chose|found|took|went (?:with|to)) (?:somebody|someone|some one|another|an other)(?: else| teacher)?|declined|(?:they )?(?:said no|changed their minds?)"), StepKind.DECLINED),
    (re.compile(r"(?:i have |i had )?no (?:time|room|seats?|space)|(?:i am )?full|turned down"), StepKind.TURNED_DOWN),
)  # fmt: skip
_REASON_EXAMPLE = 'Type "no answer", "chose somebody else", or "i have no time".'


class InquiriesView(Value):
    """All inquiries: the open ones, the most urgent first; the waiting ones, the longest waiting first; and those closed.

    `students` became one. `leaving` are deleted soon. `counts` are those of the studio year.
    """

    open: tuple[InquiryStanding, ...]
    waiting: tuple[InquiryStanding, ...]
    closed: tuple[InquiryStanding, ...]
    students: tuple[InquiryStanding, ...]
    leaving: tuple[InquiryStanding, ...]
    openings: tuple[WhoFits, ...]
    counts: InquiryCounts
    since: date
    now: datetime

    @property
    def to_answer(self) -> int:
        """How many are not answered yet."""
        return sum(each.state is InquiryState.NEW for each in self.open)

    @property
    def due(self) -> tuple[InquiryStanding, ...]:
        """Those with which there is something to do today."""
        return tuple(each for each in self.open if each.is_due)


class Inquiring:
    """Looks over the inquiries and takes steps with them; `mail_of` reads a saved mail."""

    def __init__(
        self,
        reading: Reading,
        steps: Steps,
        clock: Clock,
        calendar: tuple[LookingAhead, Arranging],
        letters: Callable[[], Letters],
        mail_of: Callable[[Path], ReceivedMail],
    ) -> None:
        self._reading = reading
        self._steps = steps
        self._clock = clock
        ahead, self._arranging = calendar
        self._mail_of = mail_of
        self.preferences: Preferences = ahead.preferences
        self.known = KnownInquiries(reading, steps, clock, self.preferences)
        self.answering = Answering(self.known, reading, steps, ahead, letters)
        self._waiting_list = WaitingList(self.known, reading)

    @property
    def day(self) -> TeachingDay:
        """Her day, in which a deadline is shown."""
        return teaching_day(self.preferences)

    def view(self) -> InquiriesView:
        """All inquiries at this moment."""
        now, preferences, standings = self._clock.now(), self.preferences, self._standings()
        since = preferences.year_of(preferences.home.date_of(now))

        def of(*states: InquiryState) -> list[InquiryStanding]:
            return [each for each in standings if each.state in states]

        closed, waiting = of(InquiryState.CLOSED), of(InquiryState.WAITING)
        ended = {each.course.inquiry.id: each.course.steps[-1].at for each in closed}
        deleted = months_before(now + _BEFORE_DELETED, preferences.inquiry.months)
        asked = of(InquiryState.NEW, InquiryState.ANSWERED, InquiryState.TRIAL_BOOKED, InquiryState.TRIED)
        listed_ones = sorted(waiting, key=lambda each: _waiting_since(each.course))
        return InquiriesView(
            open=tuple(sorted((*asked, *(each for each in waiting if each.is_due)), key=lambda each: each.urgency)),
            waiting=tuple(each for each in listed_ones if not each.is_due),
            closed=tuple(each for each in closed if ended[each.course.inquiry.id] >= now - _SHOWN_CLOSED),
            students=tuple(of(InquiryState.STUDENT)),
            leaving=tuple(each for each in closed if ended[each.course.inquiry.id] < deleted),
            openings=self._waiting_list.openings([each.course.inquiry for each in listed_ones]),
            counts=counted_inquiries(standings, since, self.known.today, preferences.home),
            since=since,
            now=now,
        )

    def course(self, number: InquiryId) -> InquiryCourse:
        """One inquiry.

        Raises:
            NotFound: it is not there any more.
        """
        return self.known.course(number)

    def counts(self, first_on: date, last_on: date) -> InquiryCounts:
        """How many came on the days of her clock from one through another, and what became of them."""
        return counted_inquiries(self._standings(), first_on, last_on, self.preferences.home)

    def _standings(self) -> list[InquiryStanding]:
        now, rules = self._clock.now(), self.preferences.inquiry
        return [standing_of(each, now, rules, self.day) for each in self.known.all()]

    # Lines

    def line(self, number: InquiryId | None, purpose: Purpose) -> str:
        """What a line for a purpose begins with: what is known already."""
        return self._begun(self.course(number), purpose) if number is not None else ""

    def _begun(self, course: InquiryCourse, purpose: Purpose) -> str:
        inquiry = course.inquiry
        match purpose:
            case Purpose.INQUIRY:
                return line_of(inquiry)
            case Purpose.WAITING:
                return inquiry.wishes
            case Purpose.TRIAL:
                family = self._family_at(inquiry.email)
                return f"{inquiry.full_name}{f', family {family.name}' if family is not None else ''} "
            case Purpose.STUDENT if inquiry.trial_lesson_id is None:
                known = (inquiry.full_name, inquiry.instrument, inquiry.email)
                return "".join(f"{each}, " for each in known if each)
            case Purpose.CLOSE if self._is_let_go(course):
                return "no answer"
            case _:
                return ""

    def _is_let_go(self, course: InquiryCourse) -> bool:
        """Whether nothing more is expected of them, so that it is time to close it."""
        standing = standing_of(course, self._clock.now(), self.preferences.inquiry, self.day)
        return standing.is_due and standing.to_do is not None and standing.to_do.task is InquiryTask.CLOSE

    def propose(self, number: InquiryId | None, purpose: Purpose, line: str) -> Proposal:
        """Reads a line for a purpose: a new inquiry where `number` is None, else one that is there.

        Raises:
            BadInput: the line is not understood; the sentence says what would work.
            Refused: nothing can be changed here.
        """
        if number is None:
            return self._new(line)
        course = self.course(number)
        match purpose:
            case Purpose.TRIAL:
                return self._trial(course, line)
            case Purpose.STUDENT:
                return self._becomes(course, line)
            case Purpose.WAITING:
                return self._waiting(course.inquiry, line)
            case Purpose.CLOSE:
                return self._closing(course.inquiry, line)
            case _:
                return self._changed(course.inquiry, line)

    def do(self, proposal: Proposal) -> str:
        """Carries a proposal out, as a step that can be undone; returns a sentence.

        Raises:
            NotSaved: nothing was changed.
        """
        self.known.numbers.use()
        return self._arranging.do(proposal)

    def _new(self, line: str) -> Proposal:
        new = read_inquiry(line, self._reference()).told_of(
            Inquiry(id=InquiryId(self.known.numbers.at(0)), came_at=self._clock.now(), name="")
        )
        return self._proposal("New inquiry", new, added(new), f"adding {possessive(new.name)} inquiry")

    def _changed(self, before: Inquiry, line: str) -> Proposal:
        after = read_inquiry(line, self._reference()).told_of(before)
        if after == before:
            raise Refused("Nothing is changed yet.")
        edits = (Edit(before=before, after=after),)
        return self._proposal("Changed", after, edits, f"changing {possessive(before.name)} inquiry")

    def _trial(self, course: InquiryCourse, line: str) -> Proposal:
        inquiry = course.inquiry
        proposal = self._arranging.propose_trial(line, inquiry)
        if proposal.lesson is None:
            return proposal
        lesson = proposal.lesson.lesson
        after = replace(inquiry, trial_lesson_id=lesson.id, student_id=lesson.student_id)
        edits = (*proposal.edits, Edit(before=inquiry, after=after), *self.known.step(inquiry, StepKind.TRIAL))
        return replace(proposal, edits=edits, said=f"booking {possessive(inquiry.learner)} trial")

    def _becomes(self, course: InquiryCourse, line: str) -> Proposal:
        """A weekly time for who had the trial, or for somebody new; the age that was said goes, and the level stays."""
        inquiry, booking = course.inquiry, None
        people = self._reading.people()
        if course.trial is not None and course.trial.student_id in people.students:
            student = people.students[course.trial.student_id]
            family = people.families[student.family_id]
            booking = ScheduledLesson(lesson=course.trial, student=student, family=family, is_recorded=True)
        proposal = self._arranging.propose(Purpose.STUDENT, booking, line)
        new = (edit.after for edit in proposal.edits if edit.before is None and isinstance(edit.after, Student))
        number = next((each.id for each in new), inquiry.student_id)
        after = replace(inquiry, age=None, student_id=number)
        edits = (
            *_with_level(proposal.edits, booking.student if booking is not None else None, inquiry.level),
            *([Edit(before=inquiry, after=after)] if after != inquiry else []),
            *self.known.step(inquiry, StepKind.STUDENT),
        )
        return replace(proposal, edits=edits)

    def _waiting(self, inquiry: Inquiry, line: str) -> Proposal:
        after = replace(inquiry, wishes=" ".join(line.split()))
        said = wishes_words(self.known.wishes(after), self.preferences.home.hours, self.known.today)
        place = f" {city(inquiry.zone)}" if inquiry.zone is not None else " (their place is not known yet)"
        edits = (
            *([Edit(before=inquiry, after=after)] if after != inquiry else []),
            *self.known.step(inquiry, StepKind.WAITING),
        )
        return Proposal(
            understood=f"Waiting list: {inquiry.learner}, {said}{place}.",
            edits=edits,
            said=f"putting {inquiry.learner} on the waiting list",
        )

    def _closing(self, inquiry: Inquiry, line: str) -> Proposal:
        said = " ".join(line.casefold().split()).strip(".!")
        kind = next((kind for form, kind in _REASONS if form.fullmatch(said)), None)
        if kind is None:
            raise BadInput(f'"{line.strip()}" is no reason that is understood. {_REASON_EXAMPLE}')
        # An age was said for this answer alone.
        after = replace(inquiry, age=None)
        edits = (
            *([Edit(before=inquiry, after=after)] if after != inquiry else []),
            *self.known.step(inquiry, kind),
            *self.answering.taken_back(inquiry),
        )
        months = self.preferences.inquiry.months
        return Proposal(
            understood=f"{possessive(inquiry.name)} inquiry is {kind}. It is deleted in {months} months.",
            edits=edits,
            said=f"closing {possessive(inquiry.name)} inquiry",
        )

    def _proposal(self, title: str, inquiry: Inquiry, edits: tuple[Edit, ...], said: str) -> Proposal:
        return Proposal(
            understood=f"{title}: {self.told(inquiry)}.",
            edits=edits,
            said=said,
            troubles=tuple(self._doubts(inquiry)),
        )

    def told(self, inquiry: Inquiry) -> str:
        """An inquiry in words: who, for whom, what, where, when, from where, and by when it is to be answered."""
        home, rules = self.preferences.home, self.preferences.inquiry
        age = [str(inquiry.age)] if inquiry.age is not None else ["adult"] if inquiry.is_adult else []
        who = f"{inquiry.name} for {inquiry.child}" if inquiry.child else inquiry.name
        wishes = wishes_words(self.known.wishes(inquiry), home.hours, self.known.today)
        minutes = inquiry.proposed_length(rules)
        until = deadline(inquiry.came_at, rules, self.day)
        facts = (
            ", ".join([who, *age]),
            " and ".join(inquiry.instruments),
            inquiry.level or "",
            city(inquiry.zone) if inquiry.zone is not None else "",
            f"{wishes}{' their time' if inquiry.zone is not None else ''}" if wishes else "",
            inquiry.email or "",
            f"from {inquiry.source}" if inquiry.source else "",
            f"{minutes} minutes proposed" if minutes is not None else "",
            f"answer by {home.date_and_time(until.by)}",
        )
        return "; ".join(filter(None, facts))

    def _doubts(self, inquiry: Inquiry) -> list[str]:
        """What is told before it is kept: the same address, a present family, two instruments."""
        said = []
        family = self._family_at(inquiry.email)
        if family is not None:
            said.append(
                f"{inquiry.email} is the {family.name} family's address. A trial can add a student to that family."
            )
        others = [
            each
            for each in self._reading.inquiries()
            if each.id != inquiry.id and same_address(each.email, inquiry.email)
        ]
        if others and family is None:
            names = listed(list(dict.fromkeys(each.learner for each in others)))
            said.append(f"{inquiry.email} has asked before, for {names}. A trial of both can make them one family.")
        if len(inquiry.instruments) > 1:
            said.append("Two instruments: consider one step more than the minutes proposed.")
        return said

    # Mails

    def mail(self, path: Path) -> ReceivedMail:
        """A saved mail.

        Raises:
            BadInput: it is none, or cannot be read.
        """
        return self._mail_of(path)

    def came(self, typed: str) -> datetime:
        """When something came (UTC), as she types it.

        Raises:
            BadInput: it is no moment, or is to come.
        """
        return read_came(typed, self._reference())

    def take_mail(self, mail: ReceivedMail, came_at: datetime) -> str:
        """Keeps a mail that came at a moment (UTC) as an inquiry, as a step that can be undone; returns sentences.

        Raises:
            BadInput: the moment is to come.
            Refused: the mail is an inquiry already.
        """
        if came_at > self._clock.now():
            raise BadInput(
                f"The email is dated {self.preferences.home.date_and_time(came_at)}, which is still to come."
            )
        new = mail.inquiry(InquiryId(self.known.numbers.at(0)), came_at)
        if any(
            (each.came_at, each.email, each.words) == (came_at, new.email, new.words)
            for each in self._reading.inquiries()
        ):
            raise Refused(f"This email from {new.name} is an inquiry already.")
        proposal = self._proposal("New inquiry", new, added(new), f"adding {possessive(new.name)} inquiry")
        cut = [f"Of its words, {MOST_WORDS:,} characters are kept."] if mail.is_cut else []
        return " ".join([self.do(proposal), *proposal.troubles, *mail.notices, *cut])

    def they_wrote(self, number: InquiryId) -> str:
        """Notes that they wrote again, as a step that can be undone; a closed inquiry is open again."""
        inquiry = self.course(number).inquiry
        self._take(f"a reply of {inquiry.name}", *self.known.step(inquiry, StepKind.THEY_WROTE))
        return f"{inquiry.name} wrote again. It is your turn."

    def keep_words(self, number: InquiryId, words: str) -> str:
        """Keeps what they wrote, as a step that can be undone; returns a sentence.

        Raises:
            Refused: it is more than is kept; nothing was changed.
        """
        inquiry = self.course(number).inquiry
        if len(words) > MOST_WORDS:
            raise Refused(f"Their words are longer than {MOST_WORDS:,} characters. Leave out what you do not need.")
        if words.rstrip() == inquiry.words:
            return ""
        after = replace(inquiry, words=words.rstrip())
        self._take(f"their words in {possessive(inquiry.name)} inquiry", Edit(before=inquiry, after=after))
        return f"Their words are in {possessive(inquiry.name)} inquiry."

    # What stands behind it

    def _take(self, said: str, *edits: Edit) -> None:
        self._steps.take(said, *edits, durable=True)
        self.known.numbers.use()

    def _reference(self) -> Reference:
        preferences = self.preferences
        return Reference(
            now=self._clock.now(),
            around=self.known.today,
            home_zone=preferences.home.zone,
            month_first=preferences.month_first,
        )

    def _family_at(self, email: str | None) -> Family | None:
        """The family of the studio that an address belongs to."""
        home = next((each.family_id for each in self._reading.guardians() if same_address(email, each.email)), None)
        return self._reading.people().families[home] if home is not None else None


def teaching_day(preferences: Preferences) -> TeachingDay:
    """Her day, as her settings have it."""
    return TeachingDay(home=preferences.home, begins=preferences.day_begins, ends=preferences.day_ends)


def deadlines(reading: Reading, preferences: Preferences) -> tuple[Deadline, ...]:
    """Until when each inquiry is to be answered that is not answered yet."""
    day = teaching_day(preferences)
    return tuple(deadline(each.came_at, preferences.inquiry, day) for each in reading.unanswered_inquiries())


def _waiting_since(course: InquiryCourse) -> datetime:
    step = next((each for each in course.steps if each.what is StepKind.WAITING), None)
    return step.at if step is not None else course.inquiry.came_at


def _with_level(edits: tuple[Edit, ...], tried: Student | None, level: Level | None) -> tuple[Edit, ...]:
    """The edits by which somebody becomes a student, with the level that the inquiry has; `tried` is who had the trial."""
    if level is None:
        return edits
    if tried is not None and all(edit.before != tried for edit in edits):
        edits = (*edits, Edit(before=tried, after=tried))
    return tuple(
        replace(edit, after=replace(edit.after, level=level)) if isinstance(edit.after, Student) else edit
        for edit in edits
    )
