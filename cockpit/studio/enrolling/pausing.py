"""What a roster says of the pauses of students: of each the one that lasts, or is the next."""

from collections import defaultdict
from collections.abc import Callable, Container, Iterable, Mapping, Sequence
from datetime import date

from cockpit.studio.changes.records import Edit
from cockpit.studio.lessons.breaks import Pause, PauseId
from cockpit.studio.people.people import Student, StudentId
from cockpit.studio.roster.columns import PAUSED_FROM, PAUSED_UNTIL, RosterFault, RosterRow
from cockpit.studio.values import replace


def pauses_told(
    rows_of: Mapping[Student, Sequence[RosterRow]],
    known: Iterable[Pause],
    columns: Container[str],
    new_id: Callable[[], int],
) -> tuple[list[Edit], list[RosterFault]]:
    """The edits of pauses that a file with some `columns` makes, and what cannot be; a student without a first day has none.

    A pause that begins on that day, or else one with a day in common, gets the days of the file; what was said of the
    time and why stays. A new one keeps the time.
    """
    edits, faults = [], []
    by_student = defaultdict[StudentId, list[Pause]](list)
    for pause in known:
        by_student[pause.student_id].append(pause)
    for student, rows in rows_of.items():
        from_on = next((row.paused_from for row in rows if row.paused_from is not None), None)
        until_on = next((row.paused_until for row in rows if row.paused_until is not None), None)
        if from_on is None or (until_on is not None and until_on < from_on):
            faults += [_fault(rows, from_on, until_on)] if until_on is not None else []
            continue
        before = _meant(by_student[student.id], from_on, until_on)
        if PAUSED_UNTIL.name not in columns and before is not None:
            until_on = before.until_on
        pause = before or Pause(id=PauseId(new_id()), student_id=student.id, from_on=from_on)
        edits.append(Edit(before=before, after=replace(pause, from_on=from_on, until_on=until_on)))
    return [edit for edit in edits if edit.before != edit.after], faults


def _meant(pauses: Sequence[Pause], from_on: date, until_on: date | None) -> Pause | None:
    same = (each for each in pauses if each.from_on == from_on)
    near = (each for each in pauses if each.from_on <= (until_on or date.max) and from_on <= each.last_on)
    return next(same, None) or next(near, None)


def _fault(rows: Sequence[RosterRow], from_on: date | None, until_on: date) -> RosterFault:
    row = next(row for row in rows if row.paused_until is not None)
    if from_on is None:
        wanted = f"Write the first day of the pause in the column {PAUSED_FROM.name}, or leave both empty"
        return RosterFault(line=row.line, column=PAUSED_UNTIL.name, found=f'"{until_on}" alone', wanted=wanted)
    found = f'"{until_on}", which is before "{from_on}" in the column {PAUSED_FROM.name}'
    return RosterFault(
        line=row.line, column=PAUSED_UNTIL.name, found=found, wanted="Write a later day or leave it empty"
    )
