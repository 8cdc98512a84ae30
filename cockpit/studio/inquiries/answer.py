"""The answer to an inquiry, made of the teacher's own words: what stands in braces is filled in, all else stays."""

import re
from collections.abc import Sequence
from datetime import date, datetime, timedelta

from cockpit.studio.clocks.moments import local_time
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.clocks.words import city, clock_time, near_date
from cockpit.studio.inquiries.inquiry import Inquiry
from cockpit.studio.inquiries.rules import FIELDS
from cockpit.studio.inquiries.wishes import Wishes

BY_PHONE = "by phone"
"""What she types instead of an answer when she has given it on the telephone."""
OFFERED = 3
DAYS_AHEAD = 10
_FIELD = re.compile(rf"\{{({'|'.join(FIELDS)})\}}")
_BLANK_LINES = re.compile(r"\n{3,}")
_NO_TIMES = "(no free time was found in the next ten days)"


def is_by_phone(text: str) -> bool:
    """Whether what she typed says that she has answered on the telephone."""
    return text.strip().casefold().startswith(BY_PHONE)


def answer_text(words: str, inquiry: Inquiry, times: Sequence[str], signature: str) -> str:
    """The answer in her `words`; `times` are lines, one for each time that is offered."""
    values = {
        "name": inquiry.name.split()[0],
        "child": inquiry.child or "you",
        "instrument": " and ".join(inquiry.instruments) or "music",
        "times": "\n".join(times) or _NO_TIMES,
        "signature": signature,
    }
    filled = _FIELD.sub(lambda found: values[found[1]], words)
    return _BLANK_LINES.sub("\n\n", filled).strip() + "\n"


def offered_time(starts_at: datetime, zone: str | None, home: TeacherClock, hours: int) -> str:
    """A time (UTC) on their clock with its city, and on hers where that shows another: `Thu, December 3, 4:00 pm Phoenix (5:00 pm my time)`.

    `hours` are 12 or 24. Without their IANA zone it is hers, with her city.
    """
    ours = home.local(starts_at)
    theirs = local_time(starts_at, zone) if zone is not None else ours
    # Her own zone moves with her: its city is that of the moment.
    place = city(zone or str(ours.tzinfo))
    said = f"{near_date(theirs.date(), ours.date())}, {clock_time(theirs, hours)} {place}"
    if ours.replace(tzinfo=None) == theirs.replace(tzinfo=None):
        return said
    day = "" if ours.date() == theirs.date() else f"{near_date(ours.date(), theirs.date())}, "
    return f"{said} ({day}{clock_time(ours, hours)} my time)"


def chosen_times(
    by_day: Sequence[Sequence[datetime]], wishes: Wishes, zone: str | None, minutes: int
) -> list[datetime]:
    """Up to three of the free times (UTC) of each day: in the wishes where any is, on as many days as there are; in order."""
    suiting = [[at for at in day if zone is None or wishes.hold(at, zone, minutes)] for day in by_day]
    pool = suiting if any(suiting) else by_day
    rounds = max((len(day) for day in pool), default=0)
    found = [day[number] for number in range(rounds) for day in pool if number < len(day)]
    return sorted(_apart(found, minutes)[:OFFERED])


def _apart(times: Sequence[datetime], minutes: int) -> list[datetime]:
    """The times of which none lies within another."""
    kept: list[datetime] = []
    for at in times:
        if all(abs(at - other) >= timedelta(minutes=minutes) for other in kept):
            kept.append(at)
    return kept


def days_offered(today: date) -> tuple[date, ...]:
    """The days whose free times are offered: the ten after today."""
    return tuple(today + timedelta(days=number) for number in range(1, DAYS_AHEAD + 1))
