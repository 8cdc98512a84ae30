"""What a student is to the studio on a day: it follows from weekly times, pauses, and lessons, and is never entered."""

from collections.abc import Iterable, Sequence
from datetime import date
from enum import StrEnum

from cockpit.studio.lessons.breaks import Pause
from cockpit.studio.lessons.lesson import NOT_HELD, Kind, Lesson
from cockpit.studio.lessons.weekly_times import StandingTime, ends_before_it_begins, holds_on


class Status(StrEnum):
    """ASKED has neither a weekly time nor a lesson; TRIAL has had a trial lesson or has one to come, and no weekly time ever.

    BEGINS has a weekly time to come and none that holds, ENDED had one.
    """

    ASKED = "asked"
    TRIAL = "trial"
    BEGINS = "begins"
    ACTIVE = "active"
    PAUSED = "paused"
    ENDED = "ended"


def status_of(
    on: date, standing_times: Iterable[StandingTime], pauses: Iterable[Pause] = (), lessons: Iterable[Lesson] = ()
) -> Status:
    """The status of one student on a date of the clocks that the weekly times are kept on.

    All three are that student's own. A weekly time that never meets counts for nothing, nor does a trial lesson that was
    called off.
    """
    times = [each for each in standing_times if not ends_before_it_begins(each)]
    if any(holds_on(each, on) for each in times):
        is_paused = any(each.from_on <= on <= each.last_on for each in pauses)
        return Status.PAUSED if is_paused else Status.ACTIVE
    if any(each.from_on is not None and each.from_on > on for each in times):
        return Status.BEGINS
    if times:
        return Status.ENDED
    return _without_weekly_times(list(lessons))


def _without_weekly_times(lessons: Sequence[Lesson]) -> Status:
    """Of one who never had a weekly time: lessons by themselves are no status of their own, but for a trial."""
    held = [each for each in lessons if each.outcome not in NOT_HELD]
    if any(each.kind is Kind.TRIAL for each in held):
        return Status.TRIAL
    return Status.ACTIVE if held else Status.ASKED
