"""The notice that a family gives when it cancels, in hours that really pass.

Counted in UTC: 24 hours before a lesson on the Sunday of a clock change, the wall clock shows an hour more or less than
at the lesson.
"""

from datetime import UTC, datetime, timedelta


def last_free_moment(starts_at: datetime, notice_hours: int) -> datetime:
    """The UTC moment up to and at which a lesson can still be cancelled in time. `starts_at` is aware."""
    return starts_at.astimezone(UTC) - timedelta(hours=notice_hours)


def is_late(starts_at: datetime, now: datetime, notice_hours: int) -> bool:
    """Whether a cancellation at `now` comes with less than the notice; both moments are aware."""
    return now > last_free_moment(starts_at, notice_hours)
