"""Lessons moved, made up, added; weekly times changed from a date on; trials; breaks and pauses: proposed from a typed line, then done."""

from collections.abc import Sequence
from datetime import datetime
from typing import TYPE_CHECKING

from cockpit.desk.calendar.ahead import LookingAhead
from cockpit.desk.calendar.calling_off import CallingOff
from cockpit.desk.calendar.details import Details
from cockpit.desk.calendar.enlisting import Enlisting
from cockpit.desk.calendar.lines import Lines
from cockpit.desk.calendar.pausing import Pausing
from cockpit.desk.calendar.proposals import Proposal, Purpose
from cockpit.desk.calendar.reshaping import Reshaping
from cockpit.desk.lookup import Whose, is_where_its_rule_has_it, sharing
from cockpit.desk.ports import Reading
from cockpit.studio.calendar.collisions import Group
from cockpit.studio.calendar.year import is_unmarked
from cockpit.studio.changes.duties import DutyId
from cockpit.studio.changes.records import Accepted, Edit, Record, added
from cockpit.studio.clocks.moments import lesson_zone
from cockpit.studio.clocks.words import counted, listed, month_and_day, near_days, possessive, short_date
from cockpit.studio.errors import BadInput, Refused
from cockpit.studio.inquiries.inquiry import Inquiry
from cockpit.studio.lessons.breaks import Break, BreakId, TimeOff
from cockpit.studio.lessons.lesson import Kind, Lesson, LessonId, in_words, taught_as_planned
from cockpit.studio.lessons.scheduled import People, ScheduledLesson
from cockpit.studio.people.people import Family, FamilyId, Guardian, GuardianId, Student, StudentId, name_key
from cockpit.studio.roster.long_ended import LongEnded
from cockpit.studio.shown import can_be_shown
from cockpit.studio.typed_times.break_line import read_break
from cockpit.studio.typed_times.trial_line import TrialLine, read_trial
from cockpit.studio.typed_times.when import When
from cockpit.studio.values import replace

if TYPE_CHECKING:
    from collections.abc import Callable

    from cockpit.desk.post.letters import Letters

_NO_REASON = "-"
_NAMED = 2  # students whose names are said; of more, how many they are


class Arranging:
    """Arranges lessons. A proposal changes nothing; `do` carries it out."""

    def __init__(self, reading: Reading, ahead: LookingAhead, lines: Lines, letters: "Callable[[], Letters]") -> None:
        self._reading = reading
        self._ahead = ahead
        self._lines = lines
        self._letters = letters
        self._trials = Trials(lines)
        self._of_a_line = {
            Purpose.BREAK: DaysOff(reading, ahead, lines).propose,
            Purpose.TRIAL: self._trials.propose,
            Purpose.DUTY: self._duty,
        }
        self._call_off = CallingOff(reading, lines, letters).propose
        self._enlist = Enlisting(reading, ahead, lines).propose
        self._of_a_student = {
            Purpose.DETAILS: Details(reading, ahead, lines).propose,
            Purpose.PAUSE: Pausing(reading, ahead, lines).propose,
        }
        self._reshaping = Reshaping(reading, ahead, lines)
        self._of_a_lesson = {
            Purpose.CHANGE: self._reshaping.change,
            Purpose.REASON: self._reason,
        }

    def without_numbers(self) -> "Arranging":
        """The same for proposals that nobody carries out, also where nothing may be written."""
        return Arranging(self._reading, self._ahead, self._lines.without_numbers(), self._letters)

    def propose(self, purpose: Purpose, booking: ScheduledLesson | None, line: str) -> Proposal:
        """Reads a line for a purpose; `booking` is the lesson that it is about.

        Raises:
            BadInput: the line is not understood; the sentence says what would work.
            Refused: it cannot be done to this lesson.
        """
        if purpose in self._of_a_line:
            return self._of_a_line[purpose](line)
        if purpose is Purpose.CALL_OFF:
            return self._call_off(booking, line)
        if purpose is Purpose.STUDENT:
            return self._enlist(booking, line)
        if booking is None:
            raise Refused("There are no lessons on this day.")
        if purpose in self._of_a_student:
            return self._of_a_student[purpose](booking, line)
        if purpose in self._of_a_lesson:
            return self._of_a_lesson[purpose](booking, line)
        is_alone = purpose is Purpose.MOVE and line.casefold().rstrip().endswith(" alone")
        when = self._lines.when(line.rstrip()[: -len(" alone")] if is_alone else line, booking)
        return self._lesson(purpose, booking, when, is_alone=is_alone)

    def propose_instrument(self, booking: ScheduledLesson, instrument: str, since: str) -> Proposal:
        """The weekly time of a lesson with another instrument from a typed day on, at the same time.

        Raises:
            BadInput: the day is not understood.
            Refused: it cannot be done.
        """
        before = booking.lesson.instrument
        if before is not None and name_key(before) == name_key(instrument):
            raise Refused(f"{booking.student.name} has {instrument} already.")
        proposal = self._reshaping.change(booking, f"from {since}", instrument)
        ends = f"{before.capitalize()} ends, {instrument}" if before else instrument.capitalize()
        return replace(proposal, understood=f"{proposal.understood} {ends} begins at the same time.")

    def propose_of(self, purpose: Purpose, whose: Whose, line: str) -> Proposal:
        """Reads a line about a student, who need not have a lesson.

        Raises:
            BadInput: the line is not understood; the sentence says what would work.
            Refused: it cannot be done.
        """
        return self._enlist(whose, line) if purpose is Purpose.STUDENT else self._of_a_student[purpose](whose, line)

    def _reason(self, booking: ScheduledLesson, line: str) -> Proposal:
        before, name = booking.lesson, booking.student.name
        if before.outcome is None:
            raise Refused(
                f"{possessive(name)} lesson is not marked. Mark it absent (a) or canceled (c), and then say why."
            )
        words = " ".join(line.split())
        if not can_be_shown(words):
            raise BadInput("This has an invisible character. Type it again.")
        after = replace(before, reason=None if words == _NO_REASON else words)
        marked = in_words(before.outcome)
        said = (
            f"{name}, {marked}: {after.reason}. The reason is for you alone."
            if after.reason
            else f"{name}, {marked}, without a reason."
        )
        policy = self._lines.preferences.policy_for(before)
        if policy.owes(before) != policy.owes(after):
            said += (
                " By your policy a make-up is owed."
                if policy.owes(after)
                else " By your policy no make-up is owed then."
            )
        return Proposal(
            understood=said,
            edits=(Edit(before=before, after=after),),
            said=f"saying why {possessive(name)} lesson was not taught",
        )

    def _duty(self, line: str) -> Proposal:
        from cockpit.studio.day.duty_line import often_words, read_duty  # with the review that it is typed in

        lines = self._lines
        duty = read_duty(line, DutyId(lines.id_number()), lines.today(), month_first=lines.preferences.month_first)
        often = often_words(duty)
        when = f" by {lines.day(duty.by_on)}" if duty.by_on is not None else f" {often}" if often else ""
        return Proposal(
            understood=f"You owe: {duty.words}{when}. It stands in End of the day until you check it off.",
            edits=added(duty),
            said=f'noting "{duty.words}"',
        )

    def propose_trial(self, line: str, asked: Inquiry) -> Proposal:
        """A trial lesson for somebody who asked for one.

        Raises:
            BadInput: the line is not understood; the sentence says what would work.
        """
        return self._trials.propose(line, asked)

    def propose_at(self, purpose: Purpose, booking: ScheduledLesson, starts_at: datetime, minutes: int) -> Proposal:
        """The same at a moment (UTC) that was chosen, for as many minutes as the line said.

        Raises:
            Refused: it cannot be done to this lesson.
        """
        local = self._lines.preferences.home.local(starts_at)
        when = self._lines.when(f"{local:%Y-%m-%d %H:%M}", booking)
        return self._lesson(purpose, booking, replace(when, starts_at=starts_at, minutes=minutes))

    def propose_taught(self, bookings: Sequence[ScheduledLesson]) -> Proposal:
        """Proposes to mark the lessons among these as taught that are over, in order, and of which nobody said how they went.

        Raises:
            Refused: there is none. Notes go out at a finish, so a lesson that has some is finished by itself.
        """
        unmarked = [b for b in bookings if is_unmarked(b.lesson, self._lines.now())]
        notes = self._reading.notes([booking.lesson.id for booking in unmarked])
        with_notes = {lesson_id for lesson_id, note in notes.items() if note.body.strip()}
        meant = [b for b in unmarked if b.lesson.id not in with_notes]
        one_by_one = "is one with notes" if len(with_notes) == 1 else f"are {len(with_notes)} with notes"
        left = f"There {one_by_one}: finish (F9) {'it' if len(with_notes) == 1 else 'each'} in its lesson."
        if not meant:
            raise Refused(left if with_notes else "No lesson here is waiting to be marked.")
        names = list(dict.fromkeys(booking.student.name for booking in meant))
        whose = listed(names) if len(names) <= _NAMED else counted(len(names), "student")
        said = f"{counted(len(meant), 'lesson')} of {whose}"
        first, last = (self._lines.preferences.home.date_of(b.lesson.starts_at) for b in (meant[0], meant[-1]))
        days = month_and_day(first) if first == last else f"{month_and_day(first)} to {month_and_day(last)}"
        return Proposal(
            understood=f"Mark {said}, {days}, as taught?",
            edits=tuple(
                Edit(
                    before=each.lesson if each.is_recorded else None,
                    after=taught_as_planned(each.lesson, is_rehearsal=self._lines.is_rehearsal),
                )
                for each in meant
            ),
            said=f"marking {said} as taught",
            troubles=(left,) if with_notes else (),
        )

    def free_times(self, proposal: Proposal) -> list[datetime]:
        """Starts (UTC) in the week of a proposal that suit both clocks, the nearest first; none where the lesson is now."""
        if proposal.lesson is None:
            return []
        on = self._lines.preferences.home.date_of(proposal.lesson.lesson.starts_at)
        befores = (edit.before for edit in proposal.edits)
        now_at = frozenset(each.starts_at for each in befores if isinstance(each, Lesson))
        return self._ahead.free_times(proposal.lesson, on, now_at)

    def at(self, starts_at: datetime, booking: ScheduledLesson) -> str:
        """A moment (UTC) on both clocks: `Tue, December 8, 5:00 pm · 4:00 pm Phoenix`."""
        return self._lines.at(starts_at, booking)

    def do(self, proposal: Proposal) -> str:
        """Carries a proposal out, as a step that can be undone; returns a sentence.

        Raises:
            NotSaved: nothing was changed.
        """
        return self._lines.do(proposal)

    def accept(self, group: Group, *, is_accepted: bool) -> None:
        """Leaves what would collide as it is, or takes that back; a step that can be undone."""
        accepted = self._reading.accepted()
        keys = group.keys - accepted if is_accepted else group.keys_of_any_number & accepted
        self._lines.accept([Accepted(key=key) for key in sorted(keys)], is_accepted=is_accepted)

    def keep_ended(self, ended: LongEnded) -> str:
        """Asks no more about a family that ended long ago: a step that can be undone. Returns a sentence."""
        self._lines.keep_ended(ended)
        return f"You will not be asked about the {ended.family.name} family again."

    def let_go(self, lesson_id: LessonId, *, is_let_go: bool) -> str:
        """Owes no make-up for a lesson any more, or owes it again: a step that can be undone. Returns a sentence.

        Raises:
            Refused: the lesson is not among those that were not taught any more.
        """
        lesson = next((each for each in self._reading.closed_lessons() if each.id == lesson_id), None)
        if lesson is None:
            raise Refused("This lesson has changed. Look again.")
        name = self._reading.people().students[lesson.student_id].name
        self._lines.let_go(lesson, name, is_let_go=is_let_go)
        return f"{possessive(name)} make-up is {'let go' if is_let_go else 'owed again'}."

    def take_out(self, each: TimeOff) -> None:
        """Takes a break or a pause out again, as a step that can be undone.

        Raises:
            NotSaved: nothing was changed.
        """
        self._lines.take_out(each)

    def _lesson(self, purpose: Purpose, booking: ScheduledLesson, when: When, *, is_alone: bool = False) -> Proposal:
        name = booking.student.name
        if purpose is Purpose.MOVE:
            moved = self._moved(booking, when)
            return moved if is_alone else self._with_those_beside(moved, booking)
        if purpose is Purpose.MAKE_UP:
            owed = self._owed(booking)
            on = short_date(self._lines.preferences.home.date_of(owed.starts_at))
            lesson = self._lines.new_lesson(Kind.MAKE_UP, owed, when, makes_up=owed.id)
            return self._lines.proposal(
                replace(booking, lesson=lesson), when, f"Make-up for {name} (for {on})", added(lesson)
            )
        lesson = self._lines.new_lesson(Kind.EXTRA, booking.lesson, when)
        return self._lines.proposal(replace(booking, lesson=lesson), when, f"Extra lesson for {name}", added(lesson))

    def _moved(self, booking: ScheduledLesson, when: When) -> Proposal:
        before, name = booking.lesson, booking.student.name
        if before.outcome is not None or before.began_at is not None or before.finished_at is not None:
            raise Refused(f"{possessive(name)} lesson has begun. Only a lesson that has not begun can be moved.")
        minutes = when.minutes or before.minutes
        after = replace(before, starts_at=when.starts_at, minutes=minutes, is_moved=True, gives_full_length=False)
        after = replace(
            after, is_moved=not is_where_its_rule_has_it(self._reading, after, self._lines.preferences.home)
        )
        if (after.starts_at, after.minutes) == (before.starts_at, before.minutes):
            raise Refused(f"{possessive(name)} lesson is already at that time.")
        proposal = self._lines.proposal(
            replace(booking, lesson=after), when, f"Moved: {name}", (Edit(before=before, after=after),)
        )
        return proposal if booking.is_recorded else replace(proposal, first=before)

    def _with_those_beside(self, moved: Proposal, booking: ScheduledLesson) -> Proposal:
        """The move of a lesson with those that share it: they go along, unless the line says `alone`."""
        beside = sharing(self._reading, booking, self._lines.preferences.home)
        beside = [each for each in beside if each.lesson.is_open and each.lesson.began_at is None]
        if not beside or moved.lesson is None:
            return moved
        to = moved.lesson.lesson
        edits = tuple(
            Edit(
                before=each.lesson if each.is_recorded else None,
                after=replace(each.lesson, starts_at=to.starts_at, minutes=to.minutes, is_moved=to.is_moved),
            )
            for each in beside
        )
        names = listed([each.student.name for each in beside])
        return replace(
            moved,
            edits=(*moved.edits, *edits),
            understood=f"{moved.understood} {names} goes along; type alone at the end to leave {names} there.",
        )

    def _owed(self, booking: ScheduledLesson) -> Lesson:
        owed = self._ahead.make_ups_owed().get(booking.student.id, ())
        if not owed:
            raise Refused(
                f"{booking.student.name} is not owed a make-up. Only lessons canceled in time are made up. "
                "You can book an extra lesson instead."
            )
        return next((lesson for lesson in owed if lesson.id == booking.lesson.id), owed[0])


class DaysOff:
    """Proposes breaks."""

    def __init__(self, reading: Reading, ahead: LookingAhead, lines: Lines) -> None:
        self._reading = reading
        self._ahead = ahead
        self._lines = lines

    def propose(self, line: str) -> Proposal:
        """Days without lessons, and what was arranged on them and stays.

        Raises:
            BadInput: the line names none.
        """
        people = self._reading.people()
        read = read_break(line, self._lines.names(), self._lines.reference(self._lines.today())[0])
        new = Break(
            id=BreakId(self._lines.id_number()),
            family_id=read.family_id,
            from_on=read.from_on,
            until_on=read.until_on,
            reason=read.reason,
        )
        days = near_days(new.from_on, new.until_on, self._lines.today())
        falling, staying = self._ahead.lessons_in(new)
        how_many = counted(len(falling), "lesson") if falling else "No lesson"
        understood = f"No lessons for {self._whose(new, people, read.whom)}: {days}" + (
            f". Reason: {new.reason}" if new.reason else ""
        )
        return Proposal(
            understood=f"{understood}. {how_many} fall{'' if len(falling) > 1 else 's'} in this break.",
            edits=added(new),
            said="adding a break",
            whom=read.whom,
            troubles=self._lines.staying(staying, "break"),
        )

    def _whose(self, new: Break, people: People, whom: str) -> str:
        if new.family_id is None:
            return "the whole studio"
        family = people.families[new.family_id]
        is_elsewhere = lesson_zone(family.zone, new.from_on) != lesson_zone(
            self._lines.preferences.home.zone, new.from_on
        )
        of_one = f"{whom} of " if name_key(whom) != name_key(family.name) else ""
        return f"{of_one}the {family.name} family" + (" (days in the family's time zone)" if is_elsewhere else "")


class Trials:
    """Proposes trial lessons."""

    def __init__(self, lines: Lines) -> None:
        self._lines = lines

    def propose(self, line: str, asked: Inquiry | None = None) -> Proposal:
        """A trial lesson of somebody new, in a family of the studio or a new one; or of a student, which is asked about.

        What the line does not say is known from the inquiry that `asked` for it: the clock and the address of a new family, and
        the instrument.

        Raises:
            BadInput: the line names nobody, or no time that is understood.
        """
        read = read_trial(line, self._lines.names(), self._lines.reference(self._lines.today())[0])
        self._lines.refuse_past(read.when)
        family = read.family or self._new_family(read, asked)
        instrument = read.instrument or (asked.instrument if asked is not None else None)
        student = read.student or Student(id=StudentId(self._lines.id_number(2)), family_id=family.id, name=read.name)
        new: tuple[Record, ...] = (
            *(() if read.family is not None else (family,)),
            *(() if read.student is not None else (student,)),
        )
        if asked is not None and asked.email and read.family is None:
            new = (*new, self._new_guardian(family, asked))
        like = Lesson(
            id=LessonId(""),
            student_id=student.id,
            instrument=instrument,
            starts_at=read.when.starts_at,
            minutes=self._lines.preferences.inquiry.trial_minutes,
        )
        lesson = self._lines.new_lesson(Kind.TRIAL, like, read.when)
        booking = ScheduledLesson(lesson=lesson, student=student, family=family)
        title = f"Trial lesson for {student.name}" + (f", {instrument}" if instrument else "")
        if read.student is None:
            told = ["new student"]
            # A word that is no name would be the last one; the new family is called as the student is.
            told += [f"last name {read.last_name}"] if read.last_name else []
            told += [f"family {family.name}"] if read.family is not None or not read.last_name else []
            title += f" ({', '.join(told)})"
        proposal = self._lines.proposal(booking, read.when, title, (*added(*new), *added(lesson)))
        return replace(proposal, troubles=(*read.asks, *proposal.troubles))

    def _new_family(self, read: TrialLine, asked: Inquiry | None) -> Family:
        known = asked.zone if asked is not None and not read.when.is_away else None
        return Family(
            id=FamilyId(self._lines.id_number(1)),
            name=read.name,
            zone=known or read.when.zone,
        )

    def _new_guardian(self, family: Family, asked: Inquiry) -> Guardian:
        return Guardian(
            id=GuardianId(self._lines.id_number(3)), family_id=family.id, name=asked.name, email=asked.email
        )
