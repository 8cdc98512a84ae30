"""What a teacher promises whoever asks, and how long a lesson she proposes; all of it common practice, no source."""

from collections.abc import Mapping
from types import MappingProxyType

from cockpit.studio.people.people import Level
from cockpit.studio.values import Value, field

ADULT = 18
AGES = ("under 7", "7 to 9", "10 to 12", "13 to 17", "adult")
"""What the columns of the table of lengths stand for."""
_FIRST_AGES = (7, 10, 13, ADULT)
# Teachers' pages agree on 30 minutes for beginners and under ten, 45 from about ten, 60 for the advanced; none is a standard.
LENGTHS: Mapping[Level, tuple[int, ...]] = MappingProxyType(
    {
        Level.BEGINNER: (30, 30, 30, 45, 45),
        Level.ELEMENTARY: (30, 45, 45, 45, 60),
        Level.INTERMEDIATE: (30, 45, 45, 45, 60),
        Level.ADVANCED: (45, 45, 60, 60, 60),
    }
)
ANSWER = (
    "Hello {name},\n\nThank you for asking about {instrument} lessons for {child}. I would be glad to meet you in a free trial "
    "lesson by video call. These times would suit me:\n\n{times}\n\nDoes one of them suit you? If not, tell me which days "
    "and times would.\n\n{signature}"
)
FIELDS = ("name", "child", "instrument", "times", "signature")
"""What an answer can name in braces."""


class InquiryRules(Value):
    """An inquiry is answered within `reply_hours`; asked again so many days after the answer; and deleted `months` after it was closed."""

    reply_hours: int = 48
    follow_up_days: tuple[int, ...] = (5, 12)
    trial_minutes: int = 30
    months: int = 12
    answer: str = ANSWER
    lengths: Mapping[Level, tuple[int, ...]] = field(default_factory=lambda: LENGTHS)

    def length(self, age: int, level: Level | None) -> int:
        """The minutes of a lesson that are proposed by age and level, a beginner's where no level was said."""
        return self.lengths[level or Level.BEGINNER][sum(age >= first for first in _FIRST_AGES)]
