"""Standing times that were ended in the studio, while a calendar that is read again lets them go on."""

from dataclasses import replace

from cockpit.studio.calendar import WEEKDAYS, StandingTime
from cockpit.studio.calendar_events import EventsReading, WeeklyEvent
from cockpit.studio.people import StudentId, name_key
from cockpit.studio.roll import Known
from cockpit.studio.words import long_date


def with_ends_of_here(events: EventsReading, known: Known) -> tuple[EventsReading, tuple[str, ...]]:
    """The events, those that go on ended where the studio ended them; and a sentence on each.

    A change from a date on ends a standing time here: to read the file again must not bring the old one back.
    """
    students: dict[str, set[StudentId]] = {}
    for student in known.students:
        students.setdefault(name_key(student.name), set()).add(student.id)
    weekly: list[WeeklyEvent] = []
    told: list[str] = []
    for event in events.weekly:
        own = students.get(name_key(event.row.student), set())
        ended = next((each for each in known.standing_times if _is_same(each, event, own)), None)
        if ended is None or ended.until_on is None:
            weekly.append(event)
            continue
        until = ended.until_on
        weekly.append(
            replace(
                event,
                row=replace(event.row, until_on=until),
                cancelled=tuple(on for on in event.cancelled if on <= until),
                moved=tuple(each for each in event.moved if each.taught_on <= until),
            )
        )
        told.append(f"ended here, left so: {event.row.student}, {WEEKDAYS[ended.weekday]}, until {long_date(until)}")
    return replace(events, weekly=tuple(weekly)), tuple(told)


def _is_same(standing: StandingTime, event: WeeklyEvent, own: set[StudentId]) -> bool:
    row = event.row
    return (
        standing.student_id in own
        and (standing.weekday, standing.at, standing.from_on) == (row.weekday, row.at, row.from_on)
        and standing.until_on is not None
        and (row.until_on is None or row.until_on > standing.until_on)
    )
