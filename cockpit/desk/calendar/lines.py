"""Typed lines of the teacher that arrange something, and what they were understood as before it is done."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from datetime import date, datetime, time
from itertools import count

from cockpit.desk.calendar.ahead import LookingAhead
from cockpit.desk.calendar.proposals import Proposal
from cockpit.desk.lookup import Whose, owed_minutes
from cockpit.desk.ports import Clock, Reading
from cockpit.desk.steps import ReservedNumbers, Steps
from cockpit.studio.calendar.collisions import Group, lessons_of
from cockpit.studio.changes.records import Accepted, Change, Edit, Record, added
from cockpit.studio.clocks.moments import WEEK, Zone, local_time
from cockpit.studio.clocks.words import (
    city,
    clock_time,
    counted,
    long_date,
    minutes_of,
    near_date,
    near_days,
    possessive,
)
from cockpit.studio.errors import BadInput
from cockpit.studio.lessons.breaks import LeftOut, Pause, TimeOff, break_of, is_for_all, without_breaks
from cockpit.studio.lessons.lesson import Kind, Lesson, LessonId
from cockpit.studio.lessons.scheduled import ScheduledLesson, called
from cockpit.studio.people.people import Student, name_key
from cockpit.studio.roster.long_ended import LongEnded
from cockpit.studio.typed_times.studio_names import StudioNames
from cockpit.studio.typed_times.when import Reference, When, clock_note, when_of
from cockpit.studio.typed_times.words import read_parts
from cockpit.studio.values import replace
from cockpit.wording.problems import problem_sentence

# One of every other week meets within it.
_BACK = 2 * WEEK
_WHOSE = (
    *("her", "his", "their", "family", "family's", "the family", "the family's"),
    *("student", "student's", "the student's", "child's", "the child's", "kid's", "the kid's"),
)


def _still_owed(what: str, count: int, days: str) -> str:
    """`2 make-ups are still owed, for ...`; the days may be left out."""
    return f"{what} {'is' if count == 1 else 'are'} still owed{f', for {days}' if days else ''}." if count else ""


def _clock_names(whose: Iterable[str], zone: Zone) -> dict[str, Zone]:
    """The names by which a line can mean the clock of somebody: her time, Wren's local time."""
    return {f"{each} {clock}": zone for each in whose for clock in ("time", "local time", "clock", "time zone")}


class Lines:
    """Reads lines, and makes proposals of what they say."""

    def __init__(
        self,
        reading: Reading,
        steps: Steps,
        clock: Clock,
        ahead: LookingAhead,
        new_id: Callable[[], int] | None = None,
    ) -> None:
        self._reading = reading
        self._steps = steps
        self._clock = clock
        self._ahead = ahead
        self.preferences = ahead.preferences
        self._numbers = ReservedNumbers(new_id or steps.new_id)

    @property
    def is_rehearsal(self) -> bool:
        """Whether what is done is only tried."""
        return self._clock.is_rehearsal

    def without_numbers(self) -> "Lines":
        """The same for proposals that nobody carries out, also where nothing may be written."""
        return Lines(self._reading, self._steps, self._clock, self._ahead, count(1).__next__)

    def now(self) -> datetime:
        """The moment it is, in UTC."""
        return self._clock.now()

    def today(self) -> date:
        """The date on the teacher's clock."""
        return self.preferences.home.date_of(self._clock.now())

    def id_number(self, place: int = 0) -> int:
        """A number for a new record, the same until it is used."""
        return self._numbers.at(place)

    def at(self, starts_at: datetime, whose: Whose) -> str:
        """A moment (UTC) on both clocks: `Tue, December 8, 5:00 pm · 4:00 pm Phoenix`."""
        home = self.preferences.home
        there = home.there(starts_at, whose.family.zone)
        return f"{self.day(home.date_of(starts_at))}, {home.time(starts_at)}" + (f" · {there}" if there else "")

    def day(self, on: date) -> str:
        """A date of the teacher's clock; one of another year with that: a line without one can mean the next January."""
        return near_date(on, self.today())

    def when(self, line: str, booking: ScheduledLesson | None) -> When:
        """The moment that a line names, for a lesson that is there or for a new one.

        Raises:
            BadInput: it is not understood, or is past.
        """
        now, home = self._clock.now(), self.preferences.home
        local = home.local(booking.lesson.starts_at if booking is not None else now)
        around = max(local.date(), home.date_of(now))
        reference, also = self.reference(around, local.time() if booking is not None else None, booking)
        when = when_of(read_parts(line, also), reference)
        self.refuse_past(when)
        return when

    def names(self) -> StudioNames:
        """The people of the studio as a line can name them."""
        people = self._reading.people()
        return StudioNames(people.families.values(), people.students.values())

    def reference(
        self, around: date, same: time | None = None, booking: ScheduledLesson | None = None
    ) -> tuple[Reference, Mapping[str, Zone]]:
        """What a line is read against, for a lesson on a day and at a time of her clock; and the clocks of the families.

        Those of whom the lesson `booking` is are meant by "her time", too.
        """
        people = self._reading.people()
        reference = Reference(
            now=self._clock.now(),
            around=around,
            home_zone=self.preferences.home.zone,
            month_first=self.preferences.month_first,
            same=same,
            lived_in=tuple(family.zone for family in people.families.values()),
        )
        also = {name_key(family.name): family.zone for family in people.families.values()}
        # A student's name alone may be whom she means to move, and not whose clock.
        for student in people.students.values():
            also[f"{student.name}'s time"] = also[f"{student.name} time"] = people.families[student.family_id].zone
        if booking is not None:
            own = (*_WHOSE, booking.student.name, f"{booking.student.name}'s")
            also |= {**_clock_names(own, booking.family.zone), "there": booking.family.zone}
        return reference, also

    def refuse_past(self, when: When) -> None:
        """Refuses a moment that is over.

        Raises:
            BadInput.
        """
        if when.is_past:
            raise BadInput(
                f"{long_date(when.local.date())}, {clock_time(when.local, self.preferences.home.hours)} has passed."
            )

    def new_lesson(self, kind: Kind, like: Lesson, when: When, makes_up: LessonId | None = None) -> Lesson:
        """A lesson at a moment that a line named, of a student like another one's; it lasts as that, if the line says nothing."""
        return Lesson(
            id=LessonId(f"s{self.id_number()}"),
            student_id=like.student_id,
            kind=kind,
            instrument=like.instrument,
            starts_at=when.starts_at,
            minutes=when.minutes or like.minutes,
            makes_up=makes_up,
        )

    def proposal(
        self,
        lesson: ScheduledLesson,
        when: When,
        title: str,
        edits: tuple[Edit, ...],
        troubles: Sequence[str] | None = None,
    ) -> Proposal:
        """What would come of a lesson at a moment that a line named; `troubles` are those of that lesson alone, if not given."""
        home = self.preferences.home
        note = clock_note(when, home.hours)
        if troubles is None:
            troubles = [problem_sentence(finding, home) for finding in self._ahead.troubles_of([lesson])]
            troubles = [*self._break_on_its_day(lesson), *troubles]
        understood = f"{title}, {self.at(lesson.lesson.starts_at, lesson)}, {minutes_of(lesson.lesson.minutes)}."
        return Proposal(
            understood=" ".join(filter(None, [understood, self._whose_clock(when, lesson), when.counted])),
            edits=edits,
            said=f"arranging {possessive(lesson.student.name)} lesson",
            troubles=(note, *troubles) if note else tuple(troubles),
            lesson=lesson,
            zone=when.zone,
        )

    def _whose_clock(self, when: When, lesson: ScheduledLesson) -> str:
        """A sentence on the clock that a line was read on, where it names a place or the family's clock shows another time."""
        home, at = self.preferences.home, lesson.lesson.starts_at
        if when.is_away:
            return f"{clock_time(local_time(at, when.zone), home.hours)} is {city(when.zone)} time."
        return f"{home.time(at)} is your time." if home.there(at, lesson.family.zone) else ""

    def in_break(self, lesson: LeftOut, then: str) -> str:
        """A sentence on a lesson whose day is in a break; `then` says what comes of that."""
        each = lesson.because
        why = f", {each.reason}" if each.reason else ""
        if isinstance(each, Pause):
            return f"{lesson.booking.student.name} is paused then, {self.days_of(each)}{why}. {then}"
        whose = "the whole studio" if is_for_all(each) else f"the {lesson.booking.family.name} family"
        return f"This is during a break for {whose}, {self.days_of(each)}{why}. {then}"

    def days_of(self, each: TimeOff) -> str:
        """The days of a break or a pause: `Tue, June 1, through Tue, August 31`, or `from Tue, June 1, on`."""
        if each.until_on is None:
            return f"from {self.day(each.from_on)}, on"
        return near_days(each.from_on, each.until_on, self.today())

    def of_pauses(self, groups: Sequence[Group], lessons: Sequence[ScheduledLesson], student: Student) -> Iterator[str]:
        """Sentences on pauses where lessons of a student would be in another's time: until when it looks free, or for whom it is kept.

        `groups` are the problems of the lessons, which are in order.
        """
        home = self.preferences.home
        for first, on in [(group.first, home.date_of(group.first.arises_at)) for group in groups]:
            for other in (each.student for each in lessons_of(first) if each.student.id != student.id):
                for pause in self._ahead.pauses_of(other.id):
                    if pause.until_on is not None and pause.until_on < on <= pause.until_on + _BACK:
                        yield (
                            f"{other.name} is paused through {self.day(pause.until_on)}, and has this time again "
                            f"from {self.day(on)}, on."
                        )
        kept = self._ahead.kept_for(lessons)
        if kept is not None:
            yield f"This time is kept for {kept.booking.student.name}, paused {self.days_of(kept.because)}."

    def staying(self, lessons: Sequence[ScheduledLesson], what: str) -> tuple[str, ...]:
        """A sentence on the lessons that were put on the days of a break or a pause, and that it does not take away."""
        if not lessons:
            return ()
        names, said = called(lessons), []
        for each in lessons:
            kind = "moved" if each.lesson.kind is Kind.WEEKLY else each.lesson.kind
            said.append(f"{names[each.lesson.id]}, {kind}, {self.at(each.lesson.starts_at, each)}")
        return (f"Lessons in the {what} that you arranged yourself will still take place: {'; '.join(said)}.",)

    def still_owed(self, whose: Whose, again: int = 0) -> str | None:
        """Sentences on what a student is owed: make-ups, so many `again`, and minutes of lost calls; None where that is nothing."""
        owed = self._ahead.make_ups_owed().get(whose.student.id, ())
        days = "; ".join(self.at(lesson.starts_at, whose) for lesson in owed)
        said = [_still_owed(counted(len(owed) + again, "make-up"), len(owed) + again, days)]
        for each in owed_minutes(self._reading):
            if each.student.id == whose.student.id:
                lost_on = (self.preferences.home.date_of(lesson.starts_at) for lesson in each.lost.lessons)
                what = f"{minutes_of(each.minutes)} of lost calls"
                said.append(_still_owed(what, each.minutes, "; ".join(map(self.day, lost_on))))
        return " ".join(filter(None, said)) or None

    def noted(self, lessons: Iterable[Lesson]) -> str | None:
        """A sentence on the notes that were typed ahead into weekly lessons that will not be; None where there are none."""
        weekly = [lesson for lesson in lessons if lesson.is_by_rule]
        notes = self._reading.notes([lesson.id for lesson in weekly])
        days = [
            self.day(self.preferences.home.date_of(lesson.starts_at))
            for lesson in weekly
            if lesson.id in notes and notes[lesson.id].body.strip()
        ]
        if not days:
            return None
        return f"You have already typed notes for {'; '.join(days)}. They stay there, but there will be no lesson."

    def _break_on_its_day(self, lesson: ScheduledLesson) -> list[str]:
        home = self.preferences.home
        because = break_of(lesson, self._reading.breaks(), home)
        if because is None:
            return []
        # One that is where its weekly time has it, such as one that is moved back, is taken away.
        is_held = bool(without_breaks([lesson], [because], home)[0])
        then = "The lesson will still take place." if is_held else "The lesson will not take place."
        return [self.in_break(LeftOut(booking=lesson, because=because), then)]

    def take_out(self, record: Record) -> None:
        """Deletes a record, as a step that can be undone."""
        said = "removing a pause" if isinstance(record, Pause) else "removing a break"
        self._steps.take(said, Edit(before=record, after=None), durable=True)

    def accept(self, each: Sequence[Accepted], *, is_accepted: bool) -> None:
        """Keeps what is accepted, or forgets it again, as a step that can be undone."""
        edits = added(*each)
        edits = edits if is_accepted else Change(said="", edits=edits).turned_around().edits
        said = "leaving a scheduling problem as is" if is_accepted else "warning about a scheduling problem again"
        self._steps.take(said, *edits, durable=True)

    def keep_ended(self, ended: LongEnded) -> None:
        """Keeps that a family which ended long ago is asked about no more, as a step that can be undone."""
        self._steps.take(f"keeping the {ended.family.name} family", *added(Accepted(key=ended.key)), durable=True)

    def let_go(self, lesson: Lesson, whose: str, *, is_let_go: bool) -> None:
        """Owes no make-up for a lesson any more, or owes it again, as a step that can be undone."""
        said = f"{'letting go' if is_let_go else 'owing'} {possessive(whose)} make-up"
        self._steps.take(said, Edit(before=lesson, after=replace(lesson, is_let_go=is_let_go)), durable=True)

    def do(self, proposal: Proposal) -> str:
        """Carries a proposal out, as a step that can be undone; returns a sentence.

        Raises:
            NotSaved: nothing was changed.
        """
        if proposal.first is not None:
            self._steps.keep(None, proposal.first)
        self._steps.take(proposal.said, *proposal.edits, durable=True)
        self._numbers.use()
        return proposal.understood
