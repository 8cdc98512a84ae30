"""The lines of what lies ahead."""

from collections.abc import Iterable, Sequence
from datetime import date, datetime

from textual.content import Content
from textual.widgets.option_list import Option

from cockpit.desk.calendar.ahead import Outlook
from cockpit.screens.look.show import role
from cockpit.studio.calendar.clock_changes import ChangeAhead, Shift
from cockpit.studio.calendar.collisions import Group
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.clocks.words import (
    city,
    counted,
    long_date,
    near_date,
    near_days,
)
from cockpit.studio.lessons.breaks import Break
from cockpit.studio.lessons.lesson import Lesson
from cockpit.studio.lessons.scheduled import People
from cockpit.wording.clock_changes import shift_readings
from cockpit.wording.problems import days_ahead, group_sentence


def trouble_row(group: Group, free: Sequence[datetime], home: TeacherClock, today: date) -> Content:
    """What goes wrong, and times (UTC) that would suit."""
    parts = [("! ", role("warning", "bold")), (group_sentence(group, home, today), "")]
    if free:
        family = (group.first.other or group.first.booking).family
        parts.append((f"\n    Free: {_free(free, home, family.zone, today)}", role("quiet")))
    return Content.assemble(*parts)


def _free(free: Sequence[datetime], home: TeacherClock, family_zone: str, today: date) -> str:
    """The times day by day: `Tue 16 March 3:30 pm (8:30 pm London), 3:15 pm (8:15 pm London)`."""
    said: list[str] = []
    day = None
    for starts_at in free:
        on = home.date_of(starts_at)
        when = "" if on == day else f"{near_date(on, today)} "
        day = on
        said.append(f"{when}{home.both(starts_at, family_zone)}")
    return ", ".join(said)


def change_row(ahead: ChangeAhead) -> Content:
    """Whose clocks change, and on which day of the place that changes; of her own, if it is among them."""
    places = ", ".join(dict.fromkeys(city(change.zone) for change in ahead.changes))
    yours = "" if ahead.own is None else " (yours, too)" if ahead.others else " (yours)"
    kept = f"\n    {counted(len(ahead.unaffected), 'lesson')} not affected"
    return Content.assemble((long_date(ahead.changed_on), "bold"), f"  {places}{yours}", (kept, role("quiet")))


def shift_row(shift: Shift, hours: int, today: date) -> Content:
    """A lesson that shifts: from what to what, on both clocks."""
    what = f"{shift.student.name}, {shift.instrument}" if shift.instrument else shift.student.name
    return Content.assemble(
        "  ",
        (what, "bold"),
        f" from {near_date(shift.after.ours.date(), today)}",
        (f"\n    {_both(shift, hours)}", role("quiet")),
    )


def _both(shift: Shift, hours: int) -> str:
    return " · ".join(f"{name} {' → '.join(readings)}" for name, readings in shift_readings(shift, hours))


def owed_row(lesson: Lesson, people: People, home: TeacherClock, today: date) -> Content:
    """A lesson to be made up."""
    on = near_date(home.date_of(lesson.starts_at), today)
    return Content.assemble((people.students[lesson.student_id].name, "bold"), f"  for {on}, {lesson.minutes} min")


def break_row(each: Break, people: People, today: date) -> Content:
    """Days without lessons, as they are called on a date."""
    days = near_days(each.from_on, each.until_on, today)
    whose = "" if each.family_id is None else f"family {people.families[each.family_id].name}  "
    return Content.assemble((days, "bold"), f"  {whose}{each.reason}")


def headings(outlook: Outlook) -> tuple[str, str, str, str]:
    """What stands over the four parts."""
    troubles, changes = len(outlook.troubles) + outlook.later, len(outlook.changes)
    ahead = days_ahead(outlook.days)
    return (
        f"Scheduling problems in {ahead}: {troubles}" if troubles else f"No scheduling problems in {ahead}",
        f"Clock changes in the next {outlook.weeks} weeks · press w to write to families"
        if changes
        else f"No clock changes in the next {outlook.weeks} weeks",
        "Make-ups owed · press enter to book one" if outlook.owed else "No make-ups owed",
        "Breaks · press delete to remove one" if outlook.breaks else "No breaks planned",
    )


def ahead_options(outlook: Outlook, home: TeacherClock) -> Iterable[Option]:
    """All lines with their headings. Ids are the kind and a number."""
    settle, changes, owed, breaks = headings(outlook)
    yield _heading(settle)
    yield from _troubles(outlook, home)
    yield _heading(changes)
    for number, ahead in enumerate(outlook.changes):
        yield Option(change_row(ahead), id=f"change:{number}")
        for place, shift in enumerate(ahead.shifts):
            yield Option(shift_row(shift, home.hours, outlook.today), id=f"shift:{number}.{place}")
    yield _heading(owed)
    for number, lesson in enumerate(outlook.owed):
        yield Option(owed_row(lesson, outlook.people, home, outlook.today), id=f"owed:{number}")
    yield _heading(breaks)
    for number, each in enumerate(outlook.breaks):
        yield Option(break_row(each, outlook.people, outlook.today), id=f"break:{number}")


def _troubles(outlook: Outlook, home: TeacherClock) -> Iterable[Option]:
    for number, group in enumerate(outlook.troubles):
        yield Option(trouble_row(group, outlook.free[number], home, outlook.today), id=f"trouble:{number}")
    if outlook.later:
        yield Option(Content.styled(f"and {outlook.later} more later", role("quiet")), disabled=True)
    if outlook.accepted:
        yield _heading("Left as is · press x to undo")
    for number, group in enumerate(outlook.accepted):
        said = group_sentence(group, home, outlook.today)
        yield Option(Content.styled(said, role("quiet")), id=f"accepted:{number}")


def _heading(text: str) -> Option:
    return Option(Content.assemble((text, "bold underline")), disabled=True)
