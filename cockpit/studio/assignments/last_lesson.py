"""What a student brings to a lesson: what was given and is still open, how it went, what is still to get, and what to remember."""

from collections.abc import Iterator, Mapping, Sequence
from datetime import date

from cockpit.studio.assignments.carrying import thread_of
from cockpit.studio.changes.records import Heard, MarkSet
from cockpit.studio.lessons.lesson import LessonId
from cockpit.studio.notes.notes import Line, Mark, NoteLine, for_family, next_time, read_notes
from cockpit.studio.notes.vocabulary import BUILT_IN, Labels
from cockpit.studio.values import Value, replace

LineKey = tuple[LessonId, str]


class TaughtNotes(Value):
    """The typed notes of a lesson that was taught, which was planned for so many `minutes`; its date is that of the teacher's clock."""

    lesson_id: LessonId
    taught_on: date
    body: str
    minutes: int
    labels: Labels = BUILT_IN

    @property
    def given(self) -> tuple[NoteLine, ...]:
        """The lines that assign something, each once."""
        lines = read_notes(self.body, self.labels)
        return tuple(dict.fromkeys(line for line in lines if line.line is Line.ASSIGNMENT and line.text))

    @property
    def lasting(self) -> tuple[NoteLine, ...]:
        """A line for each thing to get, and the goals."""
        seen = for_family(self.body, self.labels)
        return (*seen.to_get, *seen.goals)


class GivenAssignment(Value):
    """An assignment of an earlier lesson, or a thing to get, or a goal, and how it went, once that is known.

    `since` is when it was first given: the same one may have been given week after week. `tempo` is the one it was
    heard at last, in its own beat a minute.
    """

    lesson_id: LessonId
    line: NoteLine
    given_on: date
    since: date
    mark: Mark | None = None
    tempo: int | None = None
    clean_runs: int = 0

    @property
    def place(self) -> LineKey:
        """What tells it from all others."""
        return self.lesson_id, self.line.typed

    @property
    def is_open(self) -> bool:
        """Whether it is neither done nor dropped."""
        return self.mark is None or self.mark.is_open

    @property
    def is_assignment(self) -> bool:
        """Whether it is something to practice, and no thing to get and no goal."""
        return self.line.line is Line.ASSIGNMENT

    def weeks(self, on: date) -> int:
        """For how many weeks, begun ones counted, it has been worked on by a date."""
        return max(0, -(-(on - self.since).days // 7))


class LastLesson(Value):
    """The lesson before this one: its date on the teacher's clock, what was given, what to remember.

    `earlier` are the assignments of lessons before it that are open still, the newest first; `lasting` are the things to get
    and behind them the goals: its own, and those that are open still.
    """

    lesson_id: LessonId
    taught_on: date
    assignments: tuple[GivenAssignment, ...]
    next_time: tuple[str, ...]
    earlier: tuple[GivenAssignment, ...] = ()
    lasting: tuple[GivenAssignment, ...] = ()


class Sheet(Value):
    """What lies before the teacher for a lesson: the text so far, the last lesson if there was one, and all that were `taught` before.

    They are the newest first, as far as was looked back.
    """

    body: str
    last: LastLesson | None
    taught: Sequence[TaughtNotes] = ()


def last_lesson(
    taught: Sequence[TaughtNotes], marks: Mapping[LineKey, MarkSet], heard: Mapping[LineKey, Heard]
) -> LastLesson | None:
    """The last lesson, from the notes of those that were taught, the newest first; None without any.

    An assignment that was given again stands once, where it was given last. One that is marked done or dropped is not
    open any more, and neither is what was given before it; the last lesson's own are all named. Equal lines of a lesson share a mark.
    """
    if not taught:
        return None
    found = _found(taught, marks, heard)
    newest = taught[0]
    assignments = [each for each in found if each.is_assignment]
    return LastLesson(
        lesson_id=newest.lesson_id,
        taught_on=newest.taught_on,
        assignments=tuple(each for each in assignments if each.lesson_id == newest.lesson_id),
        next_time=next_time(newest.body),
        earlier=tuple(each for each in assignments if each.lesson_id != newest.lesson_id),
        lasting=tuple(sorted((each for each in found if not each.is_assignment), key=_is_goal)),
    )


def still_open(
    taught: Sequence[TaughtNotes], marks: Mapping[LineKey, MarkSet], until_on: date
) -> tuple[GivenAssignment, ...]:
    """The things to get and the goals that are open of all that were named up to a date, from the notes of lessons, the newest first.

    The lessons after that date say what was got or met since.
    """
    lasting = (each for each in _found(taught, marks, {}) if not each.is_assignment and each.is_open)
    return tuple(each for each in lasting if each.since <= until_on)


def _is_goal(given: GivenAssignment) -> bool:
    return given.line.line is Line.GOAL


def _found(
    taught: Sequence[TaughtNotes], marks: Mapping[LineKey, MarkSet], heard: Mapping[LineKey, Heard]
) -> tuple[GivenAssignment, ...]:
    """All that is open, and what the newest lesson gave: what was given again stands once, where it was given last."""
    found: dict[str, GivenAssignment] = {}
    closed: set[str] = set()
    for number, notes in enumerate(taught):
        for thread, given in _given(notes, marks, heard):
            if thread in closed:
                continue
            if thread in found:
                found[thread] = replace(found[thread], since=given.since) if given.is_open else found[thread]
            elif given.is_open or number == 0:
                found[thread] = given
            if not given.is_open:
                closed.add(thread)
    return tuple(found.values())


def given_in(
    notes: TaughtNotes, marks: Mapping[LineKey, MarkSet], heard: Mapping[LineKey, Heard]
) -> tuple[GivenAssignment, ...]:
    """All that a lesson assigned, named to get, and set as goals, each in its order, and how it went."""
    return tuple(given for _, given in _given(notes, marks, heard))


def _given(
    notes: TaughtNotes, marks: Mapping[LineKey, MarkSet], heard: Mapping[LineKey, Heard]
) -> Iterator[tuple[str, GivenAssignment]]:
    for line in (*notes.given, *notes.lasting):
        place = (notes.lesson_id, line.typed)
        mark, sound = marks.get(place), heard.get(place)
        given = GivenAssignment(
            lesson_id=notes.lesson_id,
            line=line,
            given_on=notes.taught_on,
            since=notes.taught_on,
            mark=mark.mark if mark is not None else None,
            tempo=sound.tempo if sound is not None else None,
            clean_runs=sound.clean_runs if sound is not None else 0,
        )
        yield thread_of(line), given
