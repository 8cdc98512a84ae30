"""What a teacher may set about pieces and the mix; every default is common practice or our own choice, without a source."""

from collections.abc import Mapping
from types import MappingProxyType

from cockpit.studio.values import Value, field

CHOSEN = "chosen"
ORIGIN = "origin"
_BY_WORD = frozenset({CHOSEN, ORIGIN})
STRANDS: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "pieces they love": (CHOSEN,),
        "method book": ("method book", "etude"),
        "technique": ("warm-up", "scales", "technique"),
        "theory": ("theory", "rhythm", "ear", "sight-reading", "listening"),
        "music of the world": (ORIGIN,),
    }
)
LIMITS: Mapping[str, int] = MappingProxyType({"theory": 3, "music of the world": 6})


class MixRules(Value):
    """Strands by name, each with the areas that are in it, or `chosen` and `origin` for pieces of which that was said.

    `limits` are weeks, by the name of an area or of a strand; what is longer ago is mentioned. One name of both means the area.
    """

    strands: Mapping[str, tuple[str, ...]] = field(default_factory=lambda: STRANDS)
    limits: Mapping[str, int] = field(default_factory=lambda: LIMITS)

    def is_by_word(self, name: str) -> bool:
        """Whether nothing but what she says of pieces tells of a strand: without a word it is not known, which is not "never"."""
        return name in self.strands and _BY_WORD.issuperset(self.strands[name])


class PieceRules(Value):
    """The mix; the `gaps` in weeks after which a piece that is kept alive is due, the last of which repeats.

    A progress sheet has marks of what needs more work only with `reports_marks`.
    """

    mix: MixRules = field(default_factory=MixRules)
    gaps: tuple[int, ...] = (2, 4, 8, 12)
    reports_marks: bool = False
