"""A year of a 60-student studio, with breaks and all collisions, against two libraries that expand the same rules.

`python tests/bench/year_of_lessons.py [ROUNDS]`: the three in turn, each round in a new process, without its imports and without
writing the rules down; cold is the first time there, warm the best of five more. Goal: ours at most 50 ms cold.
The libraries only expand: they are asked for neither breaks nor collisions, and have their zones loaded before the count.
"""

import statistics
import subprocess
import sys
from collections.abc import Callable
from datetime import UTC, date, datetime, time, timedelta
from pathlib import Path
from time import perf_counter
from zoneinfo import ZoneInfo

sys.path.insert(0, str(Path(__file__).parents[1]))

from support.studio import CLOCK, HOME, family, preferences, standing, student, utc

from cockpit.clock import pin_zone_data
from cockpit.studio.calendar.clock_changes import changes_ahead
from cockpit.studio.calendar.collisions import find_troubles, grouped
from cockpit.studio.lessons.breaks import Break, BreakId, without_breaks
from cockpit.studio.lessons.scheduled import Enrollment, planned
from cockpit.studio.lessons.weekly_times import KeptIn
from cockpit.studio.people.people import FamilyId

BEGINS, ENDS = utc("2026-09-01"), utc("2027-09-01")
LAST = ENDS - datetime.resolution
MONDAY = date(2026, 8, 31)
# The lessons of a day on her clock, and on the family's of a zone, as they are in September.
SLOTS = (
    (time(8), "Europe/London", time(14)),
    (time(8, 50), "Asia/Kolkata", time(19, 20)),
    (time(9, 40), "Europe/Berlin", time(16, 40)),
    (time(14), "America/St_Johns", time(16, 30)),
    (time(14, 50), "America/Halifax", time(16, 50)),
    (time(15, 40), "America/New_York", time(16, 40)),
    (time(16, 30), "America/Chicago", time(16, 30)),
    (time(17, 20), "America/Phoenix", time(15, 20)),
    (time(18, 10), "America/Los_Angeles", time(16, 10)),
    (time(19), "Pacific/Honolulu", time(14)),
)
BREAKS = [
    Break(id=BreakId(1), from_on=date(2026, 11, 26), until_on=date(2026, 11, 28)),
    Break(id=BreakId(2), from_on=date(2026, 12, 24), until_on=date(2027, 1, 2)),
    Break(id=BreakId(3), family_id=FamilyId(8), from_on=date(2027, 2, 15), until_on=date(2027, 2, 20)),
]
Round = tuple[dict[str, float], list[datetime]]


def studio() -> list[Enrollment]:
    """Monday to Saturday; every second lesson on the family's clock, every seventh in every second week only."""
    found = []
    for number in range(60):
        ours, zone, theirs = SLOTS[number % 10]
        kept_in = KeptIn.FAMILY if number % 2 else KeptIn.TEACHER
        kept = standing(
            id=number,
            student_id=number,
            weekday=number // 10,
            at=ours if kept_in is KeptIn.TEACHER else theirs,
            minutes=45 if number % 3 else 30,
            kept_in=kept_in,
            from_on=MONDAY + timedelta(days=number // 10),
            every_weeks=2 if number % 7 == 3 else 1,
        )
        pupil = student(id=number, family_id=number, name=f"Student {number}")
        found.append(Enrollment(standing=kept, student=pupil, family=family(id=number, zone=zone)))
    return found


def timed(times: dict[str, float], step: str, work):
    begins = perf_counter()
    found = work()
    times[step] = (perf_counter() - begins) * 1000
    return found


def ours() -> Callable[[], Round]:
    enrollments, wishes = studio(), preferences(gap_minutes=5)

    def work() -> Round:
        times: dict[str, float] = {}
        by_rule = timed(times, "rules", lambda: planned(enrollments, CLOCK, BEGINS, ENDS))
        held, _ = timed(times, "breaks", lambda: without_breaks(by_rule, BREAKS, CLOCK))
        timed(times, "collisions", lambda: grouped(find_troubles(held, enrollments, wishes)))
        timed(times, "clocks", lambda: changes_ahead(held, CLOCK, BEGINS, ENDS))
        return times, [booking.lesson.starts_at for booking in by_rule]

    return work


def first_starts() -> list[tuple[datetime, int, int]]:
    """Each rule as the first start on its own clock, every how many weeks, and minutes."""
    found = []
    for each in studio():
        kept, zone = each.standing, HOME if each.standing.kept_in is KeptIn.TEACHER else each.family.zone
        assert kept.from_on is not None
        start = datetime.combine(kept.from_on, kept.at, tzinfo=ZoneInfo(zone))
        found.append((start, kept.every_weeks, kept.minutes))
    return found


def dateutil() -> Callable[[], Round]:
    from dateutil.rrule import WEEKLY, rrule

    starts = first_starts()

    def expand() -> list[datetime]:
        rules = (rrule(WEEKLY, dtstart=start, interval=weeks) for start, weeks, _ in starts)
        return sorted(at.astimezone(UTC) for rule in rules for at in rule.between(BEGINS, LAST, inc=True))

    def work() -> Round:
        times: dict[str, float] = {}
        return times, timed(times, "rules", expand)

    return work


def recurring() -> Callable[[], Round]:
    import recurring_ical_events
    from icalendar import Calendar, Event

    calendar = Calendar()
    for number, (start, weeks, minutes) in enumerate(first_starts()):
        event = Event()
        event.add("uid", f"{number}@example.org")
        event.add("dtstart", start)
        event.add("dtend", start + timedelta(minutes=minutes))
        event.add("rrule", {"freq": "weekly", "interval": weeks})
        calendar.add_component(event)

    def expand() -> list[datetime]:
        events = recurring_ical_events.of(calendar).between(BEGINS, ENDS)
        return sorted(each.start.astimezone(UTC) for each in events)

    def work() -> Round:
        times: dict[str, float] = {}
        return times, timed(times, "rules", expand)

    return work


PROGRAMS = {"ours": ours, "dateutil": dateutil, "recurring-ical-events": recurring}


def one_round(program: str) -> None:
    """Prints the steps' milliseconds cold, the whole's warm, and what tells whether all found the same lessons."""
    pin_zone_data()
    work = PROGRAMS[program]()
    cold, moments = work()
    warm = min(sum(work()[0].values()) for _ in range(5))
    print(*(f"{step}={spent}" for step, spent in cold.items()), f"warm={warm}")
    print(len(moments), sum(at.timestamp() for at in moments))


def main() -> None:
    rounds = int(sys.argv[1]) if len(sys.argv) > 1 else 10
    spent: dict[str, list[dict[str, float]]] = {program: [] for program in PROGRAMS}
    lessons = set()
    for _ in range(rounds):
        for program, found in spent.items():
            command = [sys.executable, __file__, "--round", program]
            steps, moments = subprocess.run(command, capture_output=True, text=True, check=True).stdout.splitlines()
            found.append({step: float(value) for step, _, value in (each.partition("=") for each in steps.split())})
            lessons.add(moments)
    assert len(lessons) == 1, f"the three do not find the same lessons: {lessons}"
    print(f"{lessons.pop().split()[0]} lessons a year")
    whole = {}
    for program, found in spent.items():
        median = {step: statistics.median(each[step] for each in found) for step in found[0]}
        warm = median.pop("warm")
        cold = statistics.median(sum(each.values()) - each["warm"] for each in found)
        whole[program] = cold, warm
        steps = ", ".join(f"{step} {spent:.1f}" for step, spent in median.items())
        print(f"{program}: cold {cold:.1f} ms ({steps}), warm {warm:.1f} ms")
    for program in list(PROGRAMS)[1:]:
        cold, warm = (mine / theirs for mine, theirs in zip(whole["ours"], whole[program], strict=True))
        print(f"ours, with breaks, collisions and clock changes, against {program}: cold {cold:.2f}, warm {warm:.2f}")


if __name__ == "__main__":
    if sys.argv[1:2] == ["--round"]:
        one_round(sys.argv[2])
    else:
        main()
