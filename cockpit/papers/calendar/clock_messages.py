"""What a family is told about a clock change, in its language: a subject, and a plain text."""

from collections.abc import Sequence
from datetime import datetime
from typing import TYPE_CHECKING

from cockpit.papers.words.dates import city, clock_time, long_date, weekday
from cockpit.papers.words.phrases import Phrases
from cockpit.studio.calendar.clock_changes import Concerned, FamilyMessage, Shift
from cockpit.studio.clocks.words import utc_offset

if TYPE_CHECKING:
    from cockpit.studio.lessons.weekly_times import StandingTimeId


def clock_message(concerned: Concerned, hours: int, phrases: Phrases) -> FamilyMessage:
    """The message for one family. Its times are on its own clock, in its habit of 12 or 24 hours, or else in `hours`."""
    family = concerned.family
    lessons: dict[StandingTimeId, list[Shift]] = {}
    for shift in sorted(concerned.shifts, key=lambda each: each.after.theirs):
        lessons.setdefault(shift.standing_time_id, []).append(shift)
    blocks = [_lesson(lesson, family.hours or hours, phrases) for lesson in lessons.values()]
    first = min(concerned.shifts, key=lambda each: each.after.theirs)
    on = long_date(first.after.theirs.date(), phrases, is_in_sentence=True)
    subject = (
        phrases.say("clocks.subject_one", lesson=_name(first, phrases), date=on)
        if len(lessons) == 1
        else phrases.say("clocks.subject_other", date=on)
    )
    opening = _opening(len(lessons), phrases, is_move=concerned.is_move)
    return FamilyMessage(family=family, subject=subject, text="\n\n".join([opening, *blocks]) + "\n")


def _opening(lessons: int, phrases: Phrases, *, is_move: bool) -> str:
    if is_move:  # the reason for a move of hers is for her to tell
        return phrases.say("clocks.moved_one" if lessons == 1 else "clocks.moved_other")
    moves = phrases.say("clocks.moves_one" if lessons == 1 else "clocks.moves_other")
    return f"{phrases.say('clocks.reason')} {moves}"


def _name(shift: Shift, phrases: Phrases) -> str:
    # A name goes into a mail's header here, where a line break would begin another one.
    whose = phrases.whose(" ".join(shift.student.name.split()))
    if not shift.instrument:
        return phrases.say("clocks.lesson", whose=whose)
    return phrases.say("clocks.lesson_of", whose=whose, instrument=" ".join(shift.instrument.split()))


def _lesson(shifts: Sequence[Shift], hours: int, phrases: Phrases) -> str:
    """A lesson's name, and a line for each time that it shifts; `shifts` are its own, in order."""
    said = [_name(shifts[0], phrases)]
    usual = (shifts[0].before.theirs.weekday(), shifts[0].before.theirs.time())
    for shift, following in zip(shifts, [*shifts[1:], None], strict=True):
        after, zone = shift.after.theirs, shift.after.zone
        place = phrases.say("clocks.place", city=city(zone, phrases), offset=utc_offset(after, zone))
        time = clock_time(after, hours, phrases)
        if shift is not shifts[0] and (after.weekday(), after.time()) == usual:
            new = phrases.say("clocks.again", time=time, place=place)
        else:
            new = phrases.say("clocks.instead", time=time, place=place, old=_old(shift, hours, phrases))
        said.append(_while(after, following, new, phrases))
    return "\n".join(said)


def _while(after: datetime, following: Shift | None, new: str, phrases: Phrases) -> str:
    first = long_date(after.date(), phrases, is_in_sentence=True)
    if following is None:
        return phrases.say("clocks.from", first=first, new=new)
    last = long_date(following.before.theirs.date(), phrases, is_in_sentence=True)
    if first == last:
        return phrases.say("clocks.only_on", date=first, new=new)
    return phrases.say("clocks.until", first=first, last=last, new=new)


def _old(shift: Shift, hours: int, phrases: Phrases) -> str:
    before, after = shift.before.theirs, shift.after.theirs
    time, offset = clock_time(before, hours, phrases), utc_offset(before, shift.before.zone)
    if before.weekday() == after.weekday():
        return phrases.say("clocks.old", time=time, offset=offset)
    return phrases.say("clocks.old_on", weekday=weekday(before.date(), phrases), time=time, offset=offset)
