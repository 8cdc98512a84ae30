"""What is asked of the database about what goes out to families."""

from collections.abc import Iterable
from datetime import datetime

from cockpit.store import rows
from cockpit.store.asking import Asking
from cockpit.store.rows import text_of
from cockpit.studio.lessons.lesson import LessonId
from cockpit.studio.post.outgoing import Fate, Outgoing, OutgoingId

_OPEN = "fate IN ('waiting', 'going', 'unsure', 'refused')"


class OutboxReading:
    """Narrow reads of the outbox, each in the order in which things were put into it."""

    _asking: Asking

    def open_outgoing(self) -> tuple[Outgoing, ...]:
        """Everything of which something is still to come."""
        return self._asking.made(rows.outgoing, f"SELECT * FROM outgoing WHERE {_OPEN} ORDER BY id")  # noqa: S608 a constant

    def outgoing_by_id(self, item_id: OutgoingId) -> Outgoing | None:
        """One entry, while it is there."""
        return next(iter(self._asking.made(rows.outgoing, "SELECT * FROM outgoing WHERE id = ?", (item_id,))), None)

    def open_fates(self) -> tuple[tuple[LessonId, Fate], ...]:
        """The fate of everything of which something is still to come, by its lesson."""
        asked = f"SELECT lesson_id, fate FROM outgoing WHERE {_OPEN} ORDER BY id"  # noqa: S608 a constant
        return self._asking.made(lambda row: (LessonId(row["lesson_id"]), Fate(row["fate"])), asked)

    def next_outgoing_at(self, after: datetime) -> datetime | None:
        """When the time of something that waits comes next, after a UTC moment; None where none does."""
        asked = "SELECT min(not_before) AS at FROM outgoing WHERE fate = 'waiting' AND not_before > ?"
        (at,) = self._asking.made(lambda row: rows.maybe_moment(row["at"]), asked, (text_of(after),))
        return at

    def outgoing_of(self, ids: Iterable[LessonId]) -> tuple[Outgoing, ...]:
        """Everything that went out of lessons, or is to."""
        return tuple(sorted(self._asking.of_lessons(rows.outgoing, "outgoing", ids), key=lambda each: each.id))

    def outgoing_since(self, at: datetime) -> tuple[Outgoing, ...]:
        """Everything that is open, and what was settled at a UTC moment or later."""
        asked = f"SELECT * FROM outgoing WHERE {_OPEN} OR settled_at >= ? ORDER BY id"  # noqa: S608 a constant
        return self._asking.made(rows.outgoing, asked, (text_of(at),))
