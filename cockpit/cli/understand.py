"""The reader without the deed: `cockpit understand` says what a typed line would mean in a studio, and does nothing.

A kind of line is a function from a question to its answers, one a line, and stands in `KINDS`.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from pathlib import Path
from types import MappingProxyType

from cockpit.cli.answers import LineAnswer, Question
from cockpit.cli.commands import asked, read_moment
from cockpit.cli.understand_times import TIME_KINDS
from cockpit.clock import RehearsalClock, SystemClock
from cockpit.studio.assignments.assignment import Assignment
from cockpit.studio.assignments.goals import TypedOn, goal_day
from cockpit.studio.assignments.reading import read_assignment
from cockpit.studio.assignments.summary import beat_name
from cockpit.studio.assignments.telling import goal_phrases, label_offer, sentence_of, warning_of
from cockpit.studio.clocks.moments import WEEKDAYS, local_time
from cockpit.studio.notes.notes import Line, NoteLine, read_rows, things_of
from cockpit.wiring import Studio


def understand(folder: Path, kind: str, question: Question, at: str | None, *, as_json: bool) -> tuple[str, bool]:
    """Says what each line would mean in a studio, one row a line, and whether all of them were understood.

    Raises:
        CockpitError: there is no studio, or no such student.
    """

    def ask(studio: Studio) -> list[LineAnswer]:
        if question.student is not None:
            studio.desk.finding.student(question.student)
        return KINDS[kind](studio, question)

    clock = None
    if at is not None:
        home = asked(folder, lambda studio: studio.preferences.home)
        clock = RehearsalClock(read_moment(at, local_time(SystemClock().now(), home.zone).date(), home))
    answers = asked(folder, ask, clock)
    rows = (answer.as_json if as_json else answer.as_text for answer in answers)
    return "\n".join(rows), all(answer.refused is None for answer in answers)


def _notes(studio: Studio, question: Question) -> list[LineAnswer]:
    """Reads lines of notes. As one text, a private label also covers the lines below it."""
    labels = studio.preferences.labels
    if question.is_whole:
        return [_note(row, studio) for row in read_rows("\n".join(question.lines), labels)]
    # A line of its own is one answer, also where a pasted one has a break in it.
    return [_note([each for row in read_rows(line, labels) for each in row], studio) for line in question.lines]


def _note(lines: Sequence[NoteLine], studio: Studio) -> LineAnswer:
    first, *others = lines
    labels = studio.preferences.labels
    offer = label_offer(first, labels) if not others else None
    preferences = studio.preferences
    typed = TypedOn(on=preferences.home.date_of(studio.desk.clock.now()), month_first=preferences.month_first)
    theory = [each for line in lines for each in _theory_of(line, studio)]
    told = [*(each for line in lines for each in goal_phrases(line, typed)), *theory]
    by_on = goal_day(first.text, typed).by_on if first.line is Line.GOAL else None
    behind = [f'"{each.typed.strip()}" is {each.line}, for you alone.' for each in others if each.line.is_kept_back]
    warnings = [*filter(None, (warning_of(each, offer if each is first else None, labels) for each in lines)), *behind]
    return LineAnswer(
        understood=" · ".join(("; ".join(map(sentence_of, lines)), *told))
        if first.typed.strip() or others
        else "an empty line",
        fields={
            "is": str(first.line),
            "label": first.label,
            "kept_back": [{"is": str(each.line), "text": each.text} for each in lines if each.line.is_kept_back]
            or None,
            **_parts(read_assignment(first) if first.line is Line.ASSIGNMENT else None),
            "to_get": [thing.text for thing in things_of(first)] or None,
            "by": by_on.isoformat() if by_on is not None else None,
            "theory": theory or None,
            "warning": " ".join(warnings) or None,
        },
    )


def _theory_of(line: NoteLine, studio: Studio) -> tuple[str, ...]:
    """What its braces are answered, or what would work in their place."""
    if "}" not in line.text:
        return ()
    from cockpit.wording.theory import told_of  # with 10 ms of patterns, which no other line waits for

    return tuple(told_of(line.text, studio.preferences.theory_for(None)))


def _parts(assignment: Assignment | None) -> Mapping[str, object]:
    """The parts of an assignment as JSON has them; all None where the line is none."""
    if assignment is None:
        names = (
            "area",
            "title",
            "measures",
            "tempo",
            "minutes",
            "times",
            "practice_days",
            "not_on",
            "pages",
            "by_heart",
        )
        return dict.fromkeys(names)
    tempo = assignment.tempo
    return {
        "area": str(assignment.area),
        "title": assignment.title,
        "measures": _ranges((each.first, each.last) for each in assignment.measures),
        "tempo": {"from": tempo.start, "to": tempo.goal, "beat": beat_name(tempo.beat)} if tempo is not None else None,
        "minutes": assignment.minutes,
        "times": assignment.times.count if assignment.times is not None else None,
        "practice_days": _weekdays(assignment.days or ()),
        "not_on": _weekdays(assignment.not_on),
        "pages": _ranges((each.first, each.last) for each in assignment.pages),
        "by_heart": assignment.by_heart or None,
    }


def _weekdays(days: Iterable[int]) -> list[str] | None:
    return [WEEKDAYS[day] for day in sorted(days)] or None


def _ranges(found: Iterable[tuple[int, int | None]]) -> list[list[int | None]] | None:
    return [list(each) for each in found] or None


KINDS: Mapping[str, Callable[[Studio, Question], list[LineAnswer]]] = MappingProxyType({"note": _notes, **TIME_KINDS})
KIND_NAMES = tuple(KINDS)
