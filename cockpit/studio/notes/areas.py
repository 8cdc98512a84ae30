"""What an assignment works on: the areas that everybody has, and those of her own."""

from enum import StrEnum

from cockpit.studio.values import Value


class Area(StrEnum):
    """What an assignment works on; `other` is what she calls homework and nothing else."""

    WARM_UP = "warm-up"
    SCALES = "scales"
    TECHNIQUE = "technique"
    ETUDE = "etude"
    METHOD_BOOK = "method book"
    PIECE = "piece"
    REVIEW = "review"
    THEORY = "theory"
    EAR = "ear"
    SIGHT_READING = "sight-reading"
    LISTENING = "listening"
    RHYTHM = "rhythm"
    IMPROVISATION = "improvisation"
    OTHER = "other"


class OwnArea(Value):
    """An area of her own, by its name in her settings. In a titled one a line begins with what is played."""

    name: str
    is_titled: bool = False

    def __str__(self) -> str:
        """Its name, as that of every area."""
        return self.name


AnyArea = Area | OwnArea
