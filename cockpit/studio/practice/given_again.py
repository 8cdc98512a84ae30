"""What earlier lessons tell of an assignment that is given again: the tempo heard of it, and for how long it has been given."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date, timedelta
from fractions import Fraction

from cockpit.studio.assignments.carrying import thread_of
from cockpit.studio.assignments.last_lesson import LineKey, TaughtNotes
from cockpit.studio.assignments.reading import read_assignment
from cockpit.studio.changes.records import Heard, MarkSet
from cockpit.studio.notes.notes import Area, NoteLine
from cockpit.studio.practice.rules import HealthLine
from cockpit.studio.values import Value

_DAY = timedelta(days=1)


class Earlier(Value):
    """The notes of a student's earlier lessons, the newest first, and what was heard of what they gave."""

    taught: Sequence[TaughtNotes] = ()
    marks: Mapping[LineKey, MarkSet]
    heard: Mapping[LineKey, Heard]


class _Hearing(Value):
    """A tempo that was heard, in quarters a minute, and the lessons from the newest to the one that it was heard of."""

    tempo: Fraction
    since: Sequence[TaughtNotes]


def tempos_heard(lines: Iterable[NoteLine], earlier: Earlier) -> dict[str, int]:
    """The tempo heard last of each assignment that asks for one, by its line as typed; those never heard are not in it.

    In beats a minute of the line's own beat: what was heard in halves of a line in quarters counts twice. A start that
    was typed since ("60 to 92"), or of something that was done or dropped since, is her newer word: then the tempo that
    was heard before is left out too.
    """
    tempos = {line: tempo for line in lines if (tempo := read_assignment(line).tempo) is not None}
    if not tempos:
        return {}
    newest: dict[str, _Hearing] = {}
    for given, heard in _heard(earlier):
        newest.setdefault(thread_of(given), heard)
    return {
        line.typed: round(hearing.tempo / tempo.beat)
        for line, tempo in tempos.items()
        if (hearing := newest.get(thread_of(line))) is not None
        and not (tempo.start is not None and _is_newer(line, hearing.since, earlier.marks))
    }


def _heard(earlier: Earlier) -> Iterator[tuple[NoteLine, _Hearing]]:
    """The lines that were heard, and at which tempo; the newest first."""
    for number, notes in enumerate(earlier.taught):
        tempos = {
            line: sound.tempo
            for (lesson_id, line), sound in earlier.heard.items()
            if lesson_id == notes.lesson_id and sound.tempo is not None
        }
        for line in notes.given if tempos else ():
            if line.typed in tempos:
                tempo = tempos[line.typed] * _beat_of(line)
                yield line, _Hearing(tempo=tempo, since=earlier.taught[: number + 1])


def _is_newer(line: NoteLine, since: Iterable[TaughtNotes], marks: Mapping[LineKey, MarkSet]) -> bool:
    """Whether the start of a line was not typed in one of some lessons, or what it asks for was closed in one."""
    thread, start = thread_of(line), _start_of(line)
    return any(
        thread_of(given) == thread and (_start_of(given) != start or _is_closed(given, notes, marks))
        for notes in since
        for given in notes.given
        if given.area == line.area
    )


def _start_of(line: NoteLine) -> Fraction | None:
    """The start that was typed, in quarters a minute."""
    tempo = read_assignment(line).tempo
    return tempo.start * tempo.beat if tempo is not None and tempo.start is not None else None


def _is_closed(line: NoteLine, notes: TaughtNotes, marks: Mapping[LineKey, MarkSet]) -> bool:
    mark = marks.get((notes.lesson_id, line.typed))
    return mark is not None and not mark.mark.is_open


def _beat_of(line: NoteLine) -> Fraction:
    """The beat that a line counts in; a quarter where it asks for no tempo."""
    tempo = read_assignment(line).tempo
    return tempo.beat if tempo is not None else Fraction(1)


def has_health_line(wanted: HealthLine, lesson_on: date, earlier: Earlier) -> bool:
    """Whether the line about health is on the sheet of a lesson: where it is monthly, on a student's first of a month."""
    if wanted is not HealthLine.MONTHLY:
        return wanted is HealthLine.ALWAYS
    months = {(notes.taught_on.year, notes.taught_on.month) for notes in earlier.taught if notes.body.strip()}
    return (lesson_on.year, lesson_on.month) not in months


def practice_days_passed(
    lines: Iterable[NoteLine], earlier: Earlier, lesson_on: date, weekdays: frozenset[int]
) -> dict[str, int]:
    """The practice days since each review piece was first given, by its line as typed; new ones are not in it.

    Days of lessons are no practice days, as in a plan. One that was done or dropped since begins anew.
    """
    reviews = {line.typed: thread_of(line) for line in lines if line.area is Area.REVIEW}
    if not reviews:
        return {}
    since = _first_given(earlier)
    lessons = {notes.taught_on for notes in earlier.taught}
    return {
        typed: sum(on.weekday() in weekdays and on not in lessons for on in _between(since[thread], lesson_on))
        for typed, thread in reviews.items()
        if thread in since
    }


def _first_given(earlier: Earlier) -> dict[str, date]:
    since: dict[str, date] = {}
    closed: set[str] = set()
    for notes in earlier.taught:
        for line in notes.given:
            if line.area is not Area.REVIEW:
                continue
            thread = thread_of(line)
            if _is_closed(line, notes, earlier.marks):
                closed.add(thread)
            if thread not in closed:
                since[thread] = notes.taught_on
    return since


def _between(first: date, last: date) -> Iterator[date]:
    """The days after the first and before the last."""
    return (first + n * _DAY for n in range(1, (last - first).days))
