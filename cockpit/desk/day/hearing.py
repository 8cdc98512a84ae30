"""Hearing what was given: how each assignment went, at which tempo, and how often it came out clean."""

from dataclasses import replace

from cockpit.desk.ports import Reading
from cockpit.desk.steps import Steps
from cockpit.studio.assignments.last_lesson import GivenAssignment
from cockpit.studio.changes.records import Edit, Heard, MarkSet
from cockpit.studio.errors import BadInput
from cockpit.studio.notes.notes import Mark

SLOWEST, FASTEST = 20, 400


class Hearing:
    """Keeps what is heard of an assignment; each a step that can be undone."""

    def __init__(self, reading: Reading, steps: Steps) -> None:
        self._reading = reading
        self._steps = steps

    def mark(self, given: GivenAssignment, mark: Mark | None) -> str:
        """Sets how an assignment went, or takes the mark away; returns a sentence."""
        lesson_id, line = given.place
        before = self._reading.marks([lesson_id]).get(given.place)
        after = MarkSet(lesson_id=lesson_id, line=line, mark=mark) if mark is not None else None
        if before != after:
            self._steps.take(f"mark {line!r} {mark or 'as open'}", Edit(before=before, after=after))
        return f"{line}: {mark or 'not marked'}."

    def keep_tempo(self, given: GivenAssignment, tempo: int) -> str:
        """Keeps the tempo (beats a minute) that an assignment was heard at; returns a sentence.

        Raises:
            BadInput: no metronome beats so.
        """
        if not SLOWEST <= tempo <= FASTEST:
            raise BadInput(f"{tempo} is no tempo: {SLOWEST} to {FASTEST} beats a minute can be kept.")
        self._keep(given, replace(self._heard(given), tempo=tempo), f"tempo {tempo} for {given.line.typed!r}")
        return f"{given.line.typed}: heard at {tempo}."

    def count_clean_run(self, given: GivenAssignment) -> str:
        """Counts one more clean run-through of an assignment; returns a sentence."""
        heard = self._heard(given)
        fresh = replace(heard, clean_runs=heard.clean_runs + 1)
        self._keep(given, fresh, f"a clean run-through of {given.line.typed!r}")
        return f"{given.line.typed}: {fresh.clean_runs} clean."

    def _heard(self, given: GivenAssignment) -> Heard:
        lesson_id, line = given.place
        return self._reading.heard([lesson_id]).get(given.place) or Heard(lesson_id=lesson_id, line=line)

    def _keep(self, given: GivenAssignment, after: Heard, said: str) -> None:
        before = self._reading.heard([given.lesson_id]).get(given.place)
        if before != after:
            self._steps.take(f"keep {said}", Edit(before=before, after=after))
