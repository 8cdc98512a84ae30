"""A family moves house, or lives elsewhere than was thought: what a line makes of its clock, and what that does to lessons."""

from datetime import date, datetime, timedelta

from cockpit.desk.calendar.ahead import LookingAhead
from cockpit.desk.calendar.lines import Lines
from cockpit.studio.calendar.clock_changes import FamilyMove, Whom
from cockpit.studio.clocks.home import Home, Stay
from cockpit.studio.clocks.moments import Zone, parted, zone_on
from cockpit.studio.clocks.moves import with_stay, without_stays_to_come
from cockpit.studio.clocks.words import city, places
from cockpit.studio.lessons.scheduled import reads_otherwise
from cockpit.studio.people.people import Family
from cockpit.studio.typed_times.move_line import MoveLine
from cockpit.wording.clock_changes import shift_words
from cockpit.wording.problems import group_sentence

_DAY = timedelta(days=1)


class Moving:
    """Says what becomes of a family that moves."""

    def __init__(self, ahead: LookingAhead, lines: Lines) -> None:
        self._ahead = ahead
        self._lines = lines

    def clock_after(self, read: MoveLine, zone: Zone) -> Zone:
        """The clock of a family as a line has it: with a move, without those to come, or another one from the beginning."""
        if read.zone is None:
            return without_stays_to_come(zone, self._lines.today())
        if read.from_on is None:
            return read.zone
        stay = Stay(zone=read.zone, from_on=read.from_on, until_on=read.until_on)
        return with_stay(zone, stay, self._lines.today())

    def words(self, before: Zone, after: Zone) -> str:
        """Where a family lives, and where it was said to live: `Phoenix; Denver from Mon, March 1, 2027`."""
        today = self._lines.today()
        said = places(after, today)
        if isinstance(after, Home) and isinstance(before, str):
            return said
        if isinstance(after, str):
            is_corrected = after != zone_on(before, date.min)
            said += " from the beginning, a correction and not a move" if is_corrected else ", no move"
        return f"{said} (was {places(before, today)})"

    def told(self, before: Family, after: Family) -> list[str]:
        """Sentences on the lessons: around each move that is new, or the next one where none is."""
        moves = self._ahead.moves_of(after, {on for on, _ in _arrivals(after.zone) - _arrivals(before.zone)})
        if said := list(filter(None, map(self._of_move, moves))):
            return said
        lesson = self._ahead.next_with(after)
        return [] if lesson is None else [f"The next lesson is {self._lines.at(lesson.lesson.starts_at, lesson)}."]

    def troubles(self, before: Family, after: Family) -> list[str]:
        """Sentences on new scheduling problems, and on lessons that she arranged: those keep her time, not the family's."""
        since, home = self._since(before.zone, after.zone), self._lines.preferences.home
        groups = self._ahead.troubles_with(after, before, since)
        said = [group_sentence(group, home, self._lines.today()) for group in groups]
        kept = [
            f"{each.student.name}, {self._lines.at(each.lesson.starts_at, each)}"
            for each in self._ahead.arranged_with(after, since)
            if reads_otherwise(each, before.zone)
        ]
        if kept:
            said.append(f"Lessons that you arranged yourself keep your time: {'; '.join(kept)}.")
        return said

    def _of_move(self, move: FamilyMove) -> str:
        if not move.lessons:
            return ""
        hours, on = self._lines.preferences.home.hours, self._lines.day(move.change.local_date)
        shifts = "; ".join(shift_words(each, hours) for each in move.lessons)
        is_told = any(each.whom in {Whom.FAMILY, Whom.BOTH} for each in move.lessons)
        letter = " Coming up can write to the family about it." if is_told else ""
        return f"From {on}, in {city(move.change.zone)}: {shifts}.{letter}"

    def _since(self, before: Zone, after: Zone) -> datetime:
        """The moment (UTC) from which a clock is another one; now, where it is from the beginning or from an earlier day."""
        now, days = self._lines.now(), {on for on, _ in _arrivals(before) ^ _arrivals(after)}
        if zone_on(before, date.min) != zone_on(after, date.min) or not days:
            return now
        return max(now, self._lines.preferences.home.day_bounds(min(days) - _DAY)[0])


def _arrivals(zone: Zone) -> set[tuple[date, str]]:
    """The days on which a clock becomes that of another zone, each with that zone."""
    _, stays = parted(zone)
    days = {stay.from_on for stay in stays} | {stay.until_on + _DAY for stay in stays if stay.until_on}
    return {(day, zone_on(zone, day)) for day in days if zone_on(zone, day - _DAY) != zone_on(zone, day)}
