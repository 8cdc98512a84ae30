"""The lines of what lies ahead."""

from collections.abc import Callable, Iterable
from datetime import datetime

from textual.content import Content
from textual.widgets.option_list import Option

from cockpit.desk.ahead import Outlook
from cockpit.screens.show import role
from cockpit.studio.booking import Booking, People
from cockpit.studio.breaks import Break
from cockpit.studio.calendar import WEEKDAYS, Zone, local_time
from cockpit.studio.clock_changes import Ahead, Meeting, Shift
from cockpit.studio.collisions import Group, group_sentence
from cockpit.studio.lesson import Lesson
from cockpit.studio.words import city, clock_time, counted, long_date, short_date


def trouble_row(group: Group, free: list[str], home_zone: Zone, hours: int) -> Content:
    """What goes wrong, and times that would suit."""
    parts = [("! ", role("warning", "bold")), (group_sentence(group, home_zone, hours), "")]
    if free:
        parts.append((f"\n    free that week: {'; '.join(free)}", role("quiet")))
    return Content.assemble(*parts)


def change_row(ahead: Ahead, home_zone: Zone) -> Content:
    """Whose clocks change, and when."""
    own = [ahead.own] if ahead.own is not None else []
    on = local_time(ahead.at, home_zone).date()
    places = ", ".join(dict.fromkeys(city(change.zone) for change in [*own, *ahead.others]))
    yours = " (yours too)" if own and ahead.others else " (yours)" if own else ""
    kept = f"\n    {counted(len(ahead.unaffected), 'lesson')} at the same time on both clocks"
    return Content.assemble((long_date(on), "bold"), f"  {places}{yours}", (kept, role("quiet")))


def shift_row(shift: Shift, hours: int) -> Content:
    """A lesson that shifts: from what to what, on both clocks."""
    what = f"{shift.student.name}, {shift.instrument}" if shift.instrument else shift.student.name
    return Content.assemble(
        "  ",
        (what, "bold"),
        f" from {short_date(shift.after.ours.date())}",
        (f"\n    {_both(shift.before, shift.after, shift.family.zone, hours)}", role("quiet")),
    )


def _both(before: Meeting, after: Meeting, zone: str, hours: int) -> str:
    sides = (("you", before.ours, after.ours), (city(zone), before.theirs, after.theirs))
    said = []
    for name, was, will_be in sides:
        old, new = (f"{WEEKDAYS[at.weekday()][:3]} {clock_time(at, hours)}" for at in (was, will_be))
        said.append(f"{name} {old}" if old == new else f"{name} {old} → {new}")
    return " · ".join(said)


def owed_row(lesson: Lesson, people: People, home_zone: Zone) -> Content:
    """A lesson to be made up."""
    on = short_date(local_time(lesson.starts_at, home_zone).date())
    return Content.assemble((people.students[lesson.student_id].name, "bold"), f"  for {on}, {lesson.minutes} min")


def break_row(each: Break, people: People) -> Content:
    """Days without lessons."""
    days = short_date(each.from_on) + ("" if each.from_on == each.until_on else f" to {short_date(each.until_on)}")
    whose = "" if each.family_id is None else f"family {people.families[each.family_id].name}  "
    return Content.assemble((days, "bold"), f"  {whose}{each.reason}")


def headings(outlook: Outlook) -> tuple[str, str, str, str]:
    """What stands over the four parts."""
    troubles, changes = len(outlook.troubles), len(outlook.changes)
    return (
        f"To settle in the next year: {troubles}" if troubles else "Nothing collides in the next year",
        f"Clock changes in {outlook.weeks} weeks · w writes to families"
        if changes
        else f"No clock changes in {outlook.weeks} weeks",
        "Make-ups owed · enter books one" if outlook.owed else "No make-up is owed",
        "Breaks · delete takes one out" if outlook.breaks else "No break is planned",
    )


def ahead_options(
    outlook: Outlook, at: Callable[[datetime, Booking], str], home_zone: Zone, hours: int
) -> Iterable[Option]:
    """All lines with their headings; `at` says a moment on both clocks. Ids are the kind and a number."""
    settle, changes, owed, breaks = headings(outlook)
    yield _heading(settle)
    for number, group in enumerate(outlook.troubles):
        wanted = group.first.other or group.first.booking
        free = [at(starts_at, wanted) for starts_at in outlook.free[number]]
        yield Option(trouble_row(group, free, home_zone, hours), id=f"trouble:{number}")
    yield _heading(changes)
    for number, ahead in enumerate(outlook.changes):
        yield Option(change_row(ahead, home_zone), id=f"change:{number}")
        for place, shift in enumerate(ahead.shifts):
            yield Option(shift_row(shift, hours), id=f"shift:{number}.{place}")
    yield _heading(owed)
    for number, lesson in enumerate(outlook.owed):
        yield Option(owed_row(lesson, outlook.people, home_zone), id=f"owed:{number}")
    yield _heading(breaks)
    for number, each in enumerate(outlook.breaks):
        yield Option(break_row(each, outlook.people), id=f"break:{number}")


def _heading(text: str) -> Option:
    return Option(Content.assemble((text, "bold underline")), disabled=True)
