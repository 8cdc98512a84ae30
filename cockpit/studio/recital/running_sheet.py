"""What the teacher runs a recital by: its program with what was noted of each item. It is hers alone."""

from collections.abc import Mapping

from cockpit.studio.changes.recital import RecitalItemId
from cockpit.studio.recital.program import RecitalProgram
from cockpit.studio.recital.readiness import Readiness
from cockpit.studio.values import Value


class RunningSheet(Value):
    """A recital and what was noted of its items."""

    program: RecitalProgram
    readiness: Mapping[RecitalItemId, Readiness]
