"""What a memory for completing notes is made of: values that a thread of its own can work on."""

from collections.abc import Mapping
from typing import TYPE_CHECKING

from cockpit.studio.notes.vocabulary import BUILT_IN, Labels
from cockpit.studio.values import Value, field

if TYPE_CHECKING:
    from cockpit.studio.completion.memory import Memory


class Remembered(Value):
    """Notes of this student, the newest first, lines that are open, notes by other student, names that are kept out."""

    bodies: tuple[str, ...] = ()
    open_lines: tuple[str, ...] = ()
    others: tuple[tuple[str, ...], ...] = ()
    names: tuple[str, ...] = ()
    abbreviations: Mapping[str, str] = field(default_factory=dict)
    labels: Labels = BUILT_IN

    def memory(self) -> "Memory":
        """The memory of it; about 25 ms for a usual student, with its imports 60 at first."""
        from cockpit.studio.completion.memory import memory_of

        return memory_of(
            bodies=self.bodies,
            open_lines=self.open_lines,
            others=self.others,
            names=self.names,
            abbreviations=self.abbreviations,
            labels=self.labels,
        )
