"""What earlier lessons tell of an assignment that is given again: the tempo heard of it, and for how long it has been given."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from fractions import Fraction

from cockpit.studio.carrying import thread_of
from cockpit.studio.last_lesson import Place, TaughtNotes
from cockpit.studio.notes import Area, Line, NoteLine, read_notes
from cockpit.studio.reading import read_assignment
from cockpit.studio.records import Heard, MarkSet

_DAY = timedelta(days=1)


@dataclass(frozen=True, slots=True, kw_only=True)
class Earlier:
    """The notes of a student's earlier lessons, the newest first, and what was heard of what they gave."""

    taught: Sequence[TaughtNotes] = ()
    marks: Mapping[Place, MarkSet]
    heard: Mapping[Place, Heard]


def tempos_heard(lines: Iterable[NoteLine], earlier: Earlier) -> dict[str, int]:
    """The tempo heard last of each assignment that asks for one, by its line as typed; those never heard are not in it.

    In beats a minute of the line's own beat: what was heard in halves of a line in quarters counts twice.
    """
    asked = [line for line in lines if read_assignment(line).tempo is not None]
    if not asked:
        return {}
    newest: dict[str, Fraction] = {}
    for given, heard in _heard(earlier):
        newest.setdefault(thread_of(given), heard * _beat_of(given))
    threads = {line: thread_of(line) for line in asked}
    return {line.typed: round(newest[of] / _beat_of(line)) for line, of in threads.items() if of in newest}


def _heard(earlier: Earlier) -> Iterator[tuple[NoteLine, int]]:
    """The lines that were heard, and at which tempo; the newest first."""
    for notes in earlier.taught:
        tempos = {
            line: sound.tempo
            for (lesson_id, line), sound in earlier.heard.items()
            if lesson_id == notes.lesson_id and sound.tempo is not None
        }
        if tempos:
            yield from ((line, tempos[line.typed]) for line in _given(notes) if line.typed in tempos)


def _beat_of(line: NoteLine) -> Fraction:
    """The beat that a line counts in; a quarter where it asks for no tempo."""
    tempo = read_assignment(line).tempo
    return tempo.beat if tempo is not None else Fraction(1)


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
        for line in _given(notes):
            if line.area is not Area.REVIEW:
                continue
            thread, mark = thread_of(line), earlier.marks.get((notes.lesson_id, line.typed))
            if mark is not None and not mark.mark.is_open:
                closed.add(thread)
            if thread not in closed:
                since[thread] = notes.taught_on
    return since


def _between(first: date, last: date) -> Iterator[date]:
    """The days after the first and before the last."""
    return (first + n * _DAY for n in range(1, (last - first).days))


def _given(notes: TaughtNotes) -> Iterator[NoteLine]:
    return (line for line in read_notes(notes.body) if line.line is Line.ASSIGNMENT and line.text)
