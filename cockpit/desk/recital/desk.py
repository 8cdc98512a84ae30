"""What the teacher can do with recitals: read them, type about them, take steps, and run one."""

from cockpit.desk.recital.lines import RecitalLines
from cockpit.desk.recital.live import LiveRecital
from cockpit.desk.recital.recitals import Recitals
from cockpit.desk.recital.steps import RecitalSteps
from cockpit.studio.values import Value


class RecitalDesk(Value):
    """The parts of the desk that are about recitals."""

    reading: Recitals
    lines: RecitalLines
    steps: RecitalSteps
    live: LiveRecital
