"""What each family is told about a clock change: only those whose own time changes, and only about their lessons."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime

from cockpit.studio.calendar import WEEKDAYS, StandingTimeId
from cockpit.studio.clock_changes import Ahead, Shift, Whom
from cockpit.studio.people import Family, FamilyId
from cockpit.studio.words import city, clock_time, long_date, possessive, utc_offset

_CLOCKS = "Clocks do not change everywhere on the same day, and in some places not at all. That moves"


@dataclass(frozen=True, slots=True, kw_only=True)
class FamilyMessage:
    """What to send to one family: a subject of one line, and a plain text."""

    family: Family
    subject: str
    text: str


def messages(ahead: Iterable[Ahead], hours: int) -> list[FamilyMessage]:
    """A message for each family whose own time changes, all of its students in one; the first concerned goes first.

    Dates and times are on the family's clock, in its own habit of 12 or 24 hours, or else in `hours`.
    """
    shifts: dict[FamilyId, list[Shift]] = {}
    moved: set[FamilyId] = set()
    for each in ahead:
        for shift in each.shifts:
            if shift.whom is not Whom.TEACHER:
                shifts.setdefault(shift.family.id, []).append(shift)
                moved |= {shift.family.id} if each.is_move else set()
    # The reason for a move of hers is for her to tell.
    return [_message(theirs, hours, "" if family in moved else _CLOCKS) for family, theirs in shifts.items()]


def _message(shifts: Sequence[Shift], hours: int, reason: str) -> FamilyMessage:
    lessons: dict[StandingTimeId, list[Shift]] = {}
    for shift in sorted(shifts, key=lambda each: each.after.theirs):
        lessons.setdefault(shift.standing_time_id, []).append(shift)
    family = shifts[-1].family
    is_one = len(lessons) == 1
    what = "this lesson" if is_one else "these lessons"
    opening = f"{reason} {what} on your clock:" if reason else f"{what.capitalize()} move{'s' * is_one} on your clock:"
    blocks = [_lesson(lesson, family.hours or hours) for lesson in lessons.values()]
    first = min(shifts, key=lambda each: each.after.theirs)
    subject = f"{_name(first)}: another time" if is_one else "Lessons at another time"
    return FamilyMessage(
        family=family,
        subject=f"{subject} from {long_date(first.after.theirs.date())}",
        text="\n\n".join([opening, *blocks]) + "\n",
    )


def _name(shift: Shift) -> str:
    lesson = f"{shift.instrument} lesson" if shift.instrument else "lesson"
    # A name goes into a mail's header here, where a line break would begin another one.
    return " ".join(f"{possessive(shift.student.name)} {lesson}".split())


def _lesson(shifts: Sequence[Shift], hours: int) -> str:
    """A lesson's name, and a line for each time that it shifts; `shifts` are its own, in order."""
    said = [_name(shifts[0])]
    usual = (shifts[0].before.theirs.weekday(), shifts[0].before.theirs.time())
    for shift, following in zip(shifts, [*shifts[1:], None], strict=True):
        after = shift.after.theirs
        zone = shift.family.zone
        place = f"{city(zone)} time ({utc_offset(after, zone)})"
        if shift is not shifts[0] and (after.weekday(), after.time()) == usual:
            new = f"at {clock_time(after, hours)} again, {place}"
        else:
            new = f"at {clock_time(after, hours)} {place} instead of {_old(shift, hours)}"
        said.append(f"{_while(after, following)} it begins {new}.")
    return "\n".join(said)


def _while(after: datetime, following: Shift | None) -> str:
    first = long_date(after.date())
    if following is None:
        return f"From {first} on,"
    last = long_date(following.before.theirs.date())
    return f"Only on {first}," if first == last else f"From {first} up to and including {last},"


def _old(shift: Shift, hours: int) -> str:
    before, after = shift.before.theirs, shift.after.theirs
    day = "" if before.weekday() == after.weekday() else f"{WEEKDAYS[before.weekday()]} at "
    return f"{day}{clock_time(before, hours)} ({utc_offset(before, shift.family.zone)})"
