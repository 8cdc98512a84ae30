"""A student's page: what is worked on and how far it is, the mix, attendance, and the latest notes."""

from collections.abc import Collection, Mapping
from datetime import date, datetime, timedelta
from itertools import dropwhile

from cockpit.desk.calendar.proposals import Proposal
from cockpit.desk.day.looking_back import EarlierLesson, LookingBack
from cockpit.desk.lookup import bookings_between, next_of
from cockpit.desk.pieces.looking import Index, LookingOver
from cockpit.desk.pieces.mixing import given_so_far
from cockpit.desk.pieces.searching import FoundPiece, SearchingNotes
from cockpit.desk.ports import Clock, Reading
from cockpit.desk.post.paper_making import taught_by_instrument
from cockpit.desk.steps import Steps
from cockpit.studio.assignments.goals import TypedOn, goal_day
from cockpit.studio.assignments.last_lesson import GivenAssignment, still_open
from cockpit.studio.calendar.attendance import Attendance, attendance
from cockpit.studio.changes.pieces import Piece, PieceAlias, PieceState
from cockpit.studio.changes.records import Edit
from cockpit.studio.errors import BadInput, NotFound, Refused
from cockpit.studio.lessons.lesson import LessonId
from cockpit.studio.lessons.scheduled import ScheduledLesson
from cockpit.studio.lessons.weekly_times import StandingTime
from cockpit.studio.notes.notes import Line
from cockpit.studio.people.people import Family, Student, StudentId
from cockpit.studio.pieces.given import read_lines
from cockpit.studio.pieces.history import PieceHistory, PieceTime, done_times, histories
from cockpit.studio.pieces.kept_alive import KeptAlive, kept_alive
from cockpit.studio.pieces.mix import WEEKS, Mix, mix_of
from cockpit.studio.pieces.names_alike import near_names
from cockpit.studio.pieces.pace import MeasuresProgress, PieceProgress, measures_progress, tempo_progress
from cockpit.studio.pieces.piece_line import in_state, read_piece
from cockpit.studio.preferences import Preferences
from cockpit.studio.typed_times.days import Days, day_of
from cockpit.studio.typed_times.words import read_parts
from cockpit.studio.values import Value, replace
from cockpit.wording.pieces import kept_alive_words

_DAY = timedelta(days=1)
_LATELY = timedelta(weeks=WEEKS)
_LESSONS = 3  # on the page itself; `n` goes through all


class PieceOnPage(Value):
    """A piece that is open: how its tempo comes along, its measures where she said how many there are, when it is due."""

    history: PieceHistory
    tempo: PieceProgress
    measures: MeasuresProgress | None = None
    due: KeptAlive | None = None

    @property
    def key(self) -> str:
        """What tells it from the student's other pieces."""
        return self.history.key


class DonePiece(Value):
    """A piece that was done, the time that it was, and when it is due where it is kept alive."""

    history: PieceHistory
    time: PieceTime
    due: KeptAlive | None = None


class OpenGoal(Value):
    """A goal that is neither met nor dropped, and the day that it is to be met by, where its line names one."""

    given: GivenAssignment
    by_on: date | None = None

    def is_past(self, on: date) -> bool:
        """Whether its day has passed."""
        return self.by_on is not None and self.by_on < on


class StudentPage(Value):
    """All that the page of a student shows on a day. `attended` counts the lessons of this studio year from the day `since`.

    `open` are the pieces that were given in the last eight weeks, `older` those that were not. `alike` are pairs of keys
    of pieces that may be one. `goals` are open. `unread` lessons are left out until their notes were read.
    """

    student: Student
    family: Family
    times: tuple[StandingTime, ...]
    following: ScheduledLesson | None
    on: date
    since: date
    attended: Attendance
    open: tuple[PieceOnPage, ...]
    older: tuple[PieceOnPage, ...]
    done: tuple[DonePiece, ...]
    alike: tuple[tuple[str, str], ...]
    mix: Mix
    lessons: tuple[EarlierLesson, ...]
    goals: tuple[OpenGoal, ...] = ()
    unread: int = 0

    def piece(self, key: str) -> PieceHistory | None:
        """The piece of a key."""
        pieces = (*(each.history for each in (*self.open, *self.older)), *(each.history for each in self.done))
        return next((each for each in pieces if each.key == key), None)

    def alike_to(self, key: str) -> str | None:
        """The key of another piece that may be this one."""
        return next((other for pair in self.alike if key in pair for other in pair if other != key), None)


class StudentPages:
    """Makes students' pages, and keeps what she says of their pieces."""

    def __init__(
        self, reading: Reading, index: Index, steps: Steps, clock: Clock, preferences: Preferences, back: LookingBack
    ) -> None:
        self.looking = LookingOver(reading, index, clock, preferences)
        self.searching = SearchingNotes(reading, index, self.looking, clock, preferences)
        self._reading = reading
        self._steps = steps
        self._clock = clock
        self._preferences = preferences
        self._back = back

    def name_of(self, student_id: StudentId) -> str:
        """What a student is called."""
        return self._reading.people().students[student_id].name

    def page(self, student_id: StudentId) -> StudentPage:
        """The page of a student at this moment."""
        now, home, reading = self._clock.now(), self._preferences.home, self._reading
        people = reading.people()
        student = people.students[student_id]
        today = home.date_of(now)
        since = self._preferences.year_of(today)
        look, said = self.looking.look(student_id), self.said(student_id)
        given = look.given
        pieces = [each for each in histories(given, said) if each.is_named]
        shown = [self._on_page(each, today) for each in pieces if each.now.is_open]
        recent_from = today - _LATELY
        counted_from, attended = self._attended(student_id, since, now)
        return StudentPage(
            student=student,
            family=people.families[student.family_id],
            times=tuple(each for each in reading.standing_times(today) if each.student_id == student_id),
            following=next_of(reading, student_id, now, home),
            on=today,
            since=counted_from,
            attended=attended,
            open=tuple(each for each in shown if each.history.now.last_on >= recent_from),
            older=tuple(each for each in shown if each.history.now.last_on < recent_from),
            done=tuple(self._done(history, time) for history, time in done_times(pieces)),
            alike=near_names(
                [each.key for each in shown], [each.key for each in pieces], reading.piece_aliases(student_id)
            ),
            mix=mix_of(given_so_far(reading, student, look, today, {}), today, self._preferences.pieces.mix),
            lessons=tuple(self._back.latest(student_id, now, _LESSONS)),
            goals=self._goals(student_id, now, today),
            unread=look.left_out,
        )

    def history(self, student_id: StudentId, key: str) -> PieceHistory:
        """One piece of a student.

        Raises:
            NotFound: there is none of the key any more.
        """
        found = self.histories(student_id, (key,)).get(key)
        if found is None:
            raise NotFound("This piece is in no notes any more.")
        return found

    def histories(self, student_id: StudentId, keys: Collection[str]) -> Mapping[str, PieceHistory]:
        """Pieces of a student by their keys; those that are in no notes are left out."""
        found = histories(self.looking.given(student_id, keys), self.said(student_id))
        return {each.key: each for each in found if each.key in keys}

    def history_with(self, student_id: StudentId, lesson_id: LessonId, line: str) -> PieceHistory:
        """The piece of a student that a line of a lesson, as it was typed, is about.

        Raises:
            NotFound: the line is in no notes any more.
        """
        pieces = {each.piece for each in read_lines(line, self._preferences.labels)}
        for each in histories(self.looking.given(student_id, pieces), self.said(student_id)):
            if any((given.lesson_id, given.read.line) == (lesson_id, line) for given in each.lines):
                return each
        raise NotFound("This line is in no notes any more.")

    def key_of(self, found: FoundPiece) -> str:
        """The key that a piece which was found has here, by the book that its number is of, and by the name it was joined to.

        Raises:
            NotFound: it is in no notes any more.
        """
        newest = found.history.lines[0]
        return self.history_with(found.student.id, newest.lesson_id, newest.read.line).key

    def propose(self, student_id: StudentId, history: PieceHistory, line: str) -> Proposal:
        """Reads a line about a piece: where it comes from, who chose it, its measures, a date.

        Raises:
            BadInput: a part is not understood.
            Refused: nothing would change.
        """
        before, fresh = self._said_of(student_id, history)
        after, facts = read_piece(line, fresh, self._day, self._today)
        if after == fresh:
            raise Refused("That is so already.")
        return Proposal(
            understood=f"{history.title}: {'; '.join(facts)}.",
            edits=(Edit(before=before, after=after),),
            said=f"what you say of {history.title}",
        )

    def keep_alive(self, student_id: StudentId, history: PieceHistory) -> str:
        """Keeps a piece alive, polished today or when she said so; or lets it rest. Returns a sentence."""
        _, said = self._said_of(student_id, history)
        if said.state is PieceState.KEPT_ALIVE:
            return self.let_rest(student_id, history)
        after = self._put(student_id, history, PieceState.KEPT_ALIVE, f"keeping {history.title} alive")
        due = kept_alive(replace(history, said=after), self._preferences.pieces.gaps)
        return f"{history.title} is kept alive{f': {kept_alive_words(due, self._today)}' if due is not None else ''}."

    def let_rest(self, student_id: StudentId, history: PieceHistory) -> str:
        """Lets a piece rest; returns a sentence."""
        self._put(student_id, history, PieceState.RESTING, f"letting {history.title} rest")
        return f"{history.title} is resting: no longer kept alive."

    def _put(self, student_id: StudentId, history: PieceHistory, state: PieceState, words: str) -> Piece:
        before, fresh = self._said_of(student_id, history)
        after = in_state(fresh, state, self._today)
        self._steps.take(words, Edit(before=before, after=after))
        return after

    def answer_alike(self, student_id: StudentId, key: str, other: str, *, is_one: bool) -> str:
        """Has two names of a student be one piece from now on, the `other` one, or two for good; returns a sentence.

        What she said of the one goes along, as far as she did not say it of the other.
        """
        alias = PieceAlias(student_id=student_id, key=key, piece=other, is_one=is_one)
        words = f"joining {key} and {other}" if is_one else f"telling {key} and {other} apart"
        edits = [Edit(before=None, after=alias)]
        said = self.said(student_id)
        if is_one and key in said:
            edits += [
                Edit(before=said[key], after=None),
                Edit(before=said.get(other), after=_joined(said[key], other, said.get(other))),
            ]
        self._steps.take(words, *edits)
        return "They are one piece now." if is_one else "They stay two pieces. You will not be asked again."

    @property
    def _today(self) -> date:
        return self._preferences.home.date_of(self._clock.now())

    def _day(self, text: str) -> date:
        """The date that a part of a line names.

        Raises:
            BadInput: it names none, or one that is past.
        """
        today = self._today
        days = Days(today=today, around=today, month_first=self._preferences.month_first)
        try:
            parts = read_parts(text, {})
        except BadInput:
            parts = ()
        on = day_of(parts, days)
        if on is None:
            raise BadInput(f'"{text}" is no date. Type one such as dec 19.')
        return on

    def said(self, student_id: StudentId) -> dict[str, Piece]:
        """What she says of a student's pieces, by key."""
        return {each.key: each for each in self._reading.pieces_said(student_id)}

    def _said_of(self, student_id: StudentId, history: PieceHistory) -> tuple[Piece | None, Piece]:
        """What is kept of a piece, and what a change of it begins with."""
        before = self.said(student_id).get(history.key)
        return before, before or Piece(student_id=student_id, key=history.key)

    def _on_page(self, history: PieceHistory, today: date) -> PieceOnPage:
        said = history.said
        by_on = said.wanted_on if said is not None else None
        count = said.measures if said is not None else None
        return PieceOnPage(
            history=history,
            tempo=tempo_progress(history.now, today, by_on),
            measures=measures_progress(history.now, count, today, by_on) if count else None,
            due=kept_alive(history, self._preferences.pieces.gaps),
        )

    def _done(self, history: PieceHistory, time: PieceTime) -> DonePiece:
        return DonePiece(history=history, time=time, due=kept_alive(history, self._preferences.pieces.gaps))

    def _goals(self, student_id: StudentId, now: datetime, today: date) -> tuple[OpenGoal, ...]:
        """The open goals of a student on all instruments, that with the next day first; those without a day are last."""
        preferences, goals = self._preferences, []
        for taught in taught_by_instrument(self._reading, student_id, now, preferences):
            marks = self._reading.marks([each.lesson_id for each in taught])
            for each in still_open(taught, marks, today):
                if each.line.line is Line.GOAL:
                    typed = TypedOn(on=each.given_on, month_first=preferences.month_first)
                    goals.append(OpenGoal(given=each, by_on=goal_day(each.line.text, typed).by_on))
        return tuple(sorted(goals, key=lambda each: (each.by_on is None, each.by_on or today, each.given.since)))

    def _attended(self, student_id: StudentId, since: date, now: datetime) -> tuple[date, Attendance]:
        """The attendance from the first lesson of a studio year of which anything was noted, and the day of that lesson."""
        home = self._preferences.home
        kept, _ = bookings_between(self._reading, home.day_bounds(since)[0], now + _DAY, home, student_id)
        noted = list(dropwhile(lambda each: not each.is_recorded, kept))
        first = home.date_of(noted[0].lesson.starts_at) if noted else since
        return first, attendance([each.lesson for each in noted if not each.lesson.is_live], now)


def _joined(said: Piece, key: str, other: Piece | None) -> Piece:
    """What is said of a piece under another key, where something may be said of that one: this goes first."""
    if other is None:
        return replace(said, key=key)
    state_of = said if other.state is PieceState.LEARNING else other
    return replace(
        other,
        composer=other.composer or said.composer,
        origin=other.origin or said.origin,
        is_chosen=other.is_chosen or said.is_chosen,
        measures=other.measures or said.measures,
        wanted_on=other.wanted_on or said.wanted_on,
        state=state_of.state,
        state_since=state_of.state_since,
    )
