"""How the minutes of a lesson are shared out between its parts: a plan to look at, which nothing that she does changes."""

from collections.abc import Mapping, Sequence
from datetime import datetime, timedelta
from types import MappingProxyType

from cockpit.studio.lessons.lesson import Lesson

Pacing = Sequence[tuple[str, int]]
"""The parts of a lesson in their order, each with its minutes; the last of them keeps its length."""


def _usual(*minutes: int) -> Pacing:
    return tuple(zip(("hello", "scales", "etude", "piece", "sight", "theory", "wrap-up"), minutes, strict=True))


USUAL: Mapping[int, Pacing] = MappingProxyType(
    {30: _usual(2, 5, 6, 10, 2, 2, 3), 45: _usual(3, 8, 8, 15, 4, 3, 4), 60: _usual(4, 12, 10, 20, 5, 4, 5)}
)
"""The plan of a lesson by its length in minutes. Common practice, no source."""


def paced(plan: Pacing, minutes: int) -> Pacing:
    """A plan in so many whole minutes: the last part keeps its length, the others share what is left in proportion.

    They get whole minutes by the largest remainder, the earlier one where two are equal. Where less than the last part
    is left, it gets all of it. A part without a minute is left out.
    """
    *parts, (last, least) = plan
    rest, whole = max(0, minutes - least), sum(length for _, length in parts)
    if not whole:
        return ((last, minutes),) if minutes > 0 else ()
    exact = [divmod(length * rest, whole) for _, length in parts]
    spare = rest - sum(each for each, _ in exact)
    first = sorted(range(len(parts)), key=lambda place: -exact[place][1])[:spare]
    shares = [(name, exact[place][0] + (place in first)) for place, (name, _) in enumerate(parts)]
    return tuple((name, share) for name, share in (*shares, (last, min(minutes, least))) if share > 0)


def pacing_of(lesson: Lesson, plans: Mapping[int, Pacing]) -> list[tuple[str, datetime]]:
    """The parts of a lesson that has begun, with the moment (UTC) when each of them begins; none where there is no plan.

    The plan is that of its length, or of the next longer one, or else the longest; it is scaled to the whole minutes that
    there are from the lesson's beginning to its end.
    """
    if not plans or lesson.began_at is None:
        return []
    begins = max(lesson.began_at, lesson.starts_at)
    plan = plans[min((length for length in plans if length >= lesson.minutes), default=max(plans))]
    found: list[tuple[str, datetime]] = []
    for name, share in paced(plan, max(0, int((lesson.ends_at - begins).total_seconds() // 60))):
        found.append((name, begins))
        begins += timedelta(minutes=share)
    return found
