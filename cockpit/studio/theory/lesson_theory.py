"""What the theory of a lesson goes by; nothing of how it is read, which takes longer to load."""

from enum import StrEnum

from cockpit.studio.values import Value


class CountingSystem(StrEnum):
    """How rhythms are counted: by the numbers of beats, or by ta ka di mi."""

    NUMBERS = "numbers"
    TAKADIMI = "takadimi"


class LessonTheory(Value):
    """What the theory of a lesson goes by: its instrument, and how rhythms are counted."""

    instrument: str | None = None
    counting: CountingSystem = CountingSystem.NUMBERS


ANY_LESSON = LessonTheory()
