"""The desk as a whole: its parts, for whoever sits at it."""

from dataclasses import dataclass
from pathlib import Path

from cockpit.desk.ahead import LookingAhead
from cockpit.desk.arranging import Arranging
from cockpit.desk.day import Day
from cockpit.desk.finding import Finding
from cockpit.desk.note_taking import NoteTaking
from cockpit.desk.ports import Clock
from cockpit.desk.reviewing import Reviewing
from cockpit.desk.teaching import Teaching


@dataclass(frozen=True, slots=True, kw_only=True)
class Desk:
    """What a teacher can do. `why_read_only` says why nothing can be kept, where that is so."""

    day: Day
    teaching: Teaching
    notes: NoteTaking
    reviewing: Reviewing
    finding: Finding
    ahead: LookingAhead
    arranging: Arranging
    clock: Clock
    folder: Path
    why_read_only: str | None = None
