"""What a student brings to a lesson: what was given and is still open, how it went, and what to remember."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from cockpit.studio.assignments.carrying import thread_of
from cockpit.studio.changes.records import Heard, MarkSet
from cockpit.studio.lessons.lesson import LessonId
from cockpit.studio.notes.notes import Line, Mark, NoteLine, next_time, read_notes
from cockpit.studio.notes.vocabulary import BUILT_IN, Labels

LineKey = tuple[LessonId, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class TaughtNotes:
    """The typed notes of a lesson that was taught; its date is that of the teacher's clock."""

    lesson_id: LessonId
    taught_on: date
    body: str
    labels: Labels = BUILT_IN

    @property
    def given(self) -> tuple[NoteLine, ...]:
        """The lines that assign something, each once."""
        lines = read_notes(self.body, self.labels)
        return tuple(dict.fromkeys(line for line in lines if line.line is Line.ASSIGNMENT and line.text))


@dataclass(frozen=True, slots=True, kw_only=True)
class GivenAssignment:
    """An assignment of an earlier lesson, and how it went, once that is known.

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

    def weeks(self, on: date) -> int:
        """For how many weeks, begun ones counted, it has been worked on by a date."""
        return max(0, -(-(on - self.since).days // 7))


@dataclass(frozen=True, slots=True, kw_only=True)
class LastLesson:
    """The lesson before this one: its date on the teacher's clock, what was given, what to remember.

    `earlier` are the assignments of lessons before it that are open still, the newest first.
    """

    lesson_id: LessonId
    taught_on: date
    assignments: tuple[GivenAssignment, ...]
    next_time: tuple[str, ...]
    earlier: tuple[GivenAssignment, ...] = ()

    def given(self, place: LineKey) -> GivenAssignment | None:
        """One of its assignments."""
        return next((each for each in (*self.assignments, *self.earlier) if each.place == place), None)


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """What lies before the teacher for a lesson: the text so far, and the last lesson if there was one."""

    body: str
    last: LastLesson | None


def last_lesson(
    taught: Sequence[TaughtNotes], marks: Mapping[LineKey, MarkSet], heard: Mapping[LineKey, Heard]
) -> LastLesson | None:
    """The last lesson, from the notes of those that were taught, the newest first; None without any.

    An assignment that was given again stands once, where it was given last. One that is marked done or dropped is not
    open any more, and neither is what was given before it; the last lesson's own are all named. Equal lines of a lesson share a mark.
    """
    if not taught:
        return None
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
    newest = taught[0]
    own = [each for each in found.values() if each.lesson_id == newest.lesson_id]
    return LastLesson(
        lesson_id=newest.lesson_id,
        taught_on=newest.taught_on,
        assignments=tuple(own),
        next_time=next_time(newest.body),
        earlier=tuple(each for each in found.values() if each.lesson_id != newest.lesson_id),
    )


def given_in(
    notes: TaughtNotes, marks: Mapping[LineKey, MarkSet], heard: Mapping[LineKey, Heard]
) -> tuple[GivenAssignment, ...]:
    """All that a lesson assigned, in its order, and how it went."""
    return tuple(given for _, given in _given(notes, marks, heard))


def _given(
    notes: TaughtNotes, marks: Mapping[LineKey, MarkSet], heard: Mapping[LineKey, Heard]
) -> Iterable[tuple[str, GivenAssignment]]:
    for line in notes.given:
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
