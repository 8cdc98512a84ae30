"""What will go wrong in a list of lessons: two at once, too little between two, a night, times that do not exist."""

from collections import Counter
from collections.abc import Collection, Iterable, Mapping, Sequence
from datetime import datetime, time, timedelta
from enum import StrEnum
from operator import itemgetter

from cockpit.studio.clocks.moments import Zone, local_time, moment, zone_on
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.clocks.zones import changes_of_clock
from cockpit.studio.lessons.lesson import Kind
from cockpit.studio.lessons.scheduled import Enrollment, ScheduledLesson, are_together
from cockpit.studio.lessons.weekly_times import StandingTime, StandingTimeId
from cockpit.studio.preferences import Preferences
from cockpit.studio.progress import Report, in_steps, unheard
from cockpit.studio.values import Value

_MIDNIGHT = time()
_MINUTE = timedelta(minutes=1)
# More than the weeks in which the clocks of two zones change apart; common practice, no source.
_FEW = 10
# Nobody gives so many lessons at once: what is more came in with a file, and every two of ten thousand are too many.
_MOST_AT_ONCE = 8


class Trouble(StrEnum):
    """What is wrong."""

    OVERLAP = "overlap"
    TOO_CLOSE = "too close"
    NIGHT = "night"
    OWN_NIGHT = "own night"
    NO_SUCH_TIME = "no such time"


class Meant(Value):
    """The local time (naive) that a weekly time names and that its clock, an IANA zone, never shows."""

    at: datetime
    zone: str


class SchedulingProblem(Value):
    """One trouble of one lesson; of two for OVERLAP and TOO_CLOSE, where `booking` begins first.

    `minutes` are those that the two share, rounded up, or those between them, rounded down. NO_SUCH_TIME alone has
    `meant`.
    """

    trouble: Trouble
    booking: ScheduledLesson
    other: ScheduledLesson | None = None
    minutes: int = 0
    meant: Meant | None = None

    @property
    def way(self) -> str:
        """How it goes wrong: by how many minutes, when on the family's clock and for how long; in the order of `ids`."""
        lessons = sorted(lessons_of(self), key=lambda each: str(lasting_id(each)))
        times = " and ".join(f"{_at(each)} for {each.lesson.minutes}" for each in lessons)
        return f"{self.trouble} by {self.minutes}, {times}"

    @property
    def ids(self) -> str:
        """What goes wrong: the weekly times, or lessons that stand alone."""
        return " + ".join(sorted(str(lasting_id(each)) for each in lessons_of(self)))

    @property
    def arises_at(self) -> datetime:
        """The UTC moment at which it goes wrong: the start of the later lesson."""
        return (self.other or self.booking).lesson.starts_at


class Group(Value):
    """The same trouble of the same weekly times, week after week: its findings in order, at least one."""

    findings: tuple[SchedulingProblem, ...]

    @property
    def first(self) -> SchedulingProblem:
        """The earliest of them."""
        return self.findings[0]

    @property
    def keys(self) -> frozenset[str]:
        """What is accepted where the group is: the ways in which it goes wrong, as often as they come."""
        return frozenset(key for way, count in self._ways() for key in self._keys(way, count))

    @property
    def keys_of_any_number(self) -> frozenset[str]:
        """The same, however often they come."""
        return frozenset(key for way, _ in self._ways() for key in self._keys(way, _FEW + 1))

    def parted(self, accepted: Collection[str]) -> "tuple[Group | None, Group | None]":
        """What is to be told of it, and what is accepted: that holds for a way in which it came no more often then."""
        # Most groups are not accepted in any way, and a way takes long to say.
        if not any(key.endswith(f": {self.first.ids}") for key in accepted):
            return self, None
        ways = [each.way for each in self.findings]
        holds = {way for way, count in Counter(ways).items() if self._keys(way, count)[-1] in accepted}
        news = tuple(each for each, way in zip(self.findings, ways, strict=True) if way not in holds)
        kept = tuple(each for each, way in zip(self.findings, ways, strict=True) if way in holds)
        return (Group(findings=news) if news else None), (Group(findings=kept) if kept else None)

    def _ways(self) -> Iterable[tuple[str, int]]:
        return Counter(each.way for each in self.findings).items()

    def _keys(self, way: str, count: int) -> tuple[str, ...]:
        """Where something comes often, it is accepted that it comes a few times, too."""
        times = ("a few times", "often") if count > _FEW else ("a few times",)
        return tuple(f"{way}, {each}: {self.first.ids}" for each in times)

    @property
    def last(self) -> SchedulingProblem:
        """The latest of them; the first again where there is one only."""
        return self.findings[-1]


def _at(booking: ScheduledLesson) -> str:
    local = local_time(booking.lesson.starts_at, booking.family.zone)
    return f"{local:%Y-%m-%d %H:%M}" if lasting_id(booking) == booking.lesson.id else f"{local.weekday()} {local:%H:%M}"


def parts_of(key: str) -> frozenset[str]:
    """The weekly times and lessons that the key of a group names."""
    return frozenset(key.partition(": ")[2].split(" + "))


def takes_place(booking: ScheduledLesson) -> bool:
    """Whether the lesson is still to be held, or is being held: one that is over collides with nothing any more."""
    return booking.lesson.outcome is None and booking.lesson.finished_at is None


def find_troubles(
    bookings: Sequence[ScheduledLesson],
    enrollments: Iterable[Enrollment],
    preferences: Preferences,
    report: Report = unheard,
) -> list[SchedulingProblem]:
    """All that goes wrong in bookings which are in order, by the moment at which it does.

    Every two that share time or lie too close are found, not neighbors alone; where more than nine are at once, each
    with eight of the others, and with those that last longest. `enrollments` are those that the weekly
    lessons were planned from: only a weekly time tells which local time was meant. `report` counts the bookings.
    """
    kept = {enrollment.standing.id: enrollment.standing for enrollment in enrollments}
    gap = timedelta(minutes=preferences.gap_minutes)
    found: list[SchedulingProblem] = []
    near: list[tuple[datetime, ScheduledLesson]] = []
    for booking in in_steps(bookings, report):
        if not takes_place(booking):
            continue
        starts_at, ends_at = booking.lesson.starts_at, booking.lesson.ends_at
        if (meant := _impossible_time(booking, kept, preferences.home)) is not None:
            found.append(SchedulingProblem(trouble=Trouble.NO_SUCH_TIME, booking=booking, meant=meant))
        if not fits_day(starts_at, ends_at, booking.family.zone, preferences):
            found.append(SchedulingProblem(trouble=Trouble.NIGHT, booking=booking))
        elif not fits_teaching(starts_at, ends_at, preferences):
            found.append(SchedulingProblem(trouble=Trouble.OWN_NIGHT, booking=booking))
        near = [each for each in near if each[0] > starts_at]
        found += [_between(earlier, booking) for _, earlier in near if not are_together(earlier, booking)]
        near.append((ends_at + gap, booking))
        if len(near) > _MOST_AT_ONCE:
            near.remove(min(near, key=itemgetter(0)))
    return found


def fits_day(starts_at: datetime, ends_at: datetime, zone: Zone, preferences: Preferences) -> bool:
    """Whether a lesson between two UTC moments lies within the hours of a day on a zone's clock."""
    if preferences.day_begins == preferences.day_ends == _MIDNIGHT:
        return True
    # Its last instant, so that a lesson which ends at midnight has all of itself on the day before.
    shown = [local_time(starts_at, zone), local_time(ends_at - datetime.resolution, zone)]
    if shown[0].utcoffset() != shown[1].utcoffset():
        # What a clock shows around a change, for one that is turned back may show a night once more.
        changes = changes_of_clock(zone, starts_at + datetime.resolution, ends_at)
        shown += [local_time(at, zone) for change in changes for at in (change.at - datetime.resolution, change.at)]
    if any(each.time() < preferences.day_begins or each.date() != shown[0].date() for each in shown):
        return False
    return preferences.day_ends == _MIDNIGHT or all(each.time() < preferences.day_ends for each in shown)


def fits_teaching(starts_at: datetime, ends_at: datetime, preferences: Preferences) -> bool:
    """Whether a lesson between two UTC moments lies within the teacher's hours on her own clock."""
    if not preferences.teaching.days:
        return fits_day(starts_at, ends_at, preferences.home.zone, preferences)
    begins, last = preferences.home.local(starts_at), preferences.home.local(ends_at - datetime.resolution)
    spans = preferences.teaching_on(begins.date())
    return begins.date() == last.date() and any(each.holds(begins.time(), last.time()) for each in spans)


def _between(earlier: ScheduledLesson, later: ScheduledLesson) -> SchedulingProblem:
    begins, ends = later.lesson.starts_at, min(earlier.lesson.ends_at, later.lesson.ends_at)
    if begins < ends:
        return SchedulingProblem(
            trouble=Trouble.OVERLAP, booking=earlier, other=later, minutes=-((begins - ends) // _MINUTE)
        )
    minutes = (begins - earlier.lesson.ends_at) // _MINUTE
    return SchedulingProblem(trouble=Trouble.TOO_CLOSE, booking=earlier, other=later, minutes=minutes)


def _impossible_time(
    booking: ScheduledLesson, kept: Mapping[StandingTimeId, StandingTime], home: TeacherClock
) -> Meant | None:
    """What a weekly lesson's weekly time names, where its clock shows another time at the lesson's moment."""
    lesson = booking.lesson
    standing = kept.get(lesson.standing_time_id) if lesson.standing_time_id is not None else None
    if standing is None or lesson.is_moved or lesson.kind is not Kind.WEEKLY or lesson.began_at is not None:
        return None
    zone = standing.clock(home, booking.family.zone)
    shown = local_time(lesson.starts_at, zone)
    if shown.time() == standing.at and shown.weekday() == standing.weekday:
        return None
    # No zone's date is more than two days from UTC's, and the weekday comes once in the seven days around it.
    days = (standing.weekday - lesson.starts_at.weekday() + 3) % 7 - 3
    meant = datetime.combine(lesson.starts_at.date() + timedelta(days=days), standing.at)
    # A lesson that is elsewhere for another reason, such as a change of its weekly time, is no wrong time.
    if moment(meant, zone) != lesson.starts_at:
        return None
    return Meant(at=meant, zone=zone_on(zone, meant.date()))


def grouped(findings: Iterable[SchedulingProblem]) -> list[Group]:
    """The findings with every week of one trouble together, in order of the first.

    Two lessons are of one group in whichever order they begin: a clock change can turn it around. A lesson that was
    moved, or that no weekly time names, stands for itself.
    """
    groups: dict[tuple[Trouble, frozenset[str | int]], list[SchedulingProblem]] = {}
    for finding in findings:
        key = (finding.trouble, frozenset(lasting_id(booking) for booking in lessons_of(finding)))
        groups.setdefault(key, []).append(finding)
    return [Group(findings=tuple(each)) for each in groups.values()]


def lasting_id(booking: ScheduledLesson) -> str | int:
    """What a lesson is in one week as in the next: its weekly time, or itself where it stands alone."""
    lesson = booking.lesson
    if lesson.standing_time_id is None or lesson.is_moved or lesson.kind is not Kind.WEEKLY:
        return lesson.id
    return lesson.standing_time_id


def lessons_of(finding: SchedulingProblem) -> tuple[ScheduledLesson, ...]:
    """The one or two lessons that it is about."""
    return (finding.booking,) if finding.other is None else (finding.booking, finding.other)
