"""Weekly events that a calendar file marks as cancelled, against what the studio has of them."""

from collections.abc import Callable, Sequence
from dataclasses import replace

from cockpit.studio.calendar.events import WeeklyEvent
from cockpit.studio.changes.records import Edit
from cockpit.studio.clocks.words import counted
from cockpit.studio.enrolling.event_times import event_number, event_of
from cockpit.studio.enrolling.roster_differences import described
from cockpit.studio.enrolling.roster_times import is_followed, is_over, meet
from cockpit.studio.lessons.booking import People
from cockpit.studio.lessons.file_rows import FileRow, followed_up, spoken_of
from cockpit.studio.lessons.later_times import Clocks, ended_now
from cockpit.studio.lessons.weekly_times import StandingTime
from cockpit.studio.people.people import StudentId


class CalledOff:
    """Ends what came from a cancelled event, in `edits`.

    A standing time that did not come from it is left so and told, where it is at the event's very weekday and time,
    or took its place here. Of the events in `unknown` there is nothing in the studio.
    `remembered` is what files said before: what ends is to be kept as said, so that a file can take it up again.
    """

    def __init__(
        self,
        known: Sequence[StandingTime],
        remembered: Sequence[FileRow],
        clocks_of: Callable[[StandingTime], Clocks],
    ) -> None:
        self._known = known
        self._remembered = remembered
        self._clocks_of = clocks_of
        self._ended: dict[StandingTime, StandingTime] = {}
        self._told: dict[FileRow, FileRow] = {}
        self._left: dict[StandingTime, None] = {}
        self.unknown: set[str] = set()

    @property
    def edits(self) -> tuple[Edit, ...]:
        """The ends of standing times."""
        return tuple(Edit(before=before, after=after) for before, after in self._ended.items())

    @property
    def told(self) -> tuple[Edit, ...]:
        """What the cancelled events said of what they end."""
        return tuple(Edit(before=before, after=after) for before, after in self._told.items())

    def take(self, event: WeeklyEvent, student_id: StudentId | None) -> None:
        """Takes in a cancelled event; `student_id` is whom its title stands for."""
        own = self._own(event_number(event.uid))
        for standing in own:
            ended = ended_now(standing, self._clocks_of(standing))
            if ended != standing:
                self._ended[standing] = ended
        self._tell(event_number(event.uid))
        left = [
            standing
            for standing in self._known
            if standing.student_id == student_id
            and event_of(standing) is None
            and not is_over(standing, self._clocks_of(standing).today)
            and (_is_at(standing, event) or any(is_followed(each, [standing]) for each in own))
        ]
        self._left |= dict.fromkeys(left)
        if not own and not left:
            self.unknown.add(event.uid)

    def _own(self, event: int) -> list[StandingTime]:
        """What came from an event, and what it took over of another one."""
        said = followed_up((row.standing_time_id for row in self._remembered if row.event == event), self._known)
        return [each for each in self._known if (came := event_of(each)) == event or (came and each.id in said)]

    def _tell(self, event: int) -> None:
        for row in self._remembered:
            pieces = spoken_of(row, self._known) if row.event == event else ()
            if pieces and (ended := self._ended.get(pieces[-1])) is not None:
                self._told[row] = replace(row, until_on=ended.until_on)

    def said(self, people: People, hours: int) -> list[str]:
        """Sentences on what is left so, and on what is not known."""
        left = "cancelled in the file, and still in the studio, left so"
        said = [f"{left}: {described(standing, people, hours)}" for standing in self._left]
        if self.unknown:
            said.append(f"{counted(len(self.unknown), 'event')} cancelled in the file, and not in the studio")
        return said


def _is_at(standing: StandingTime, event: WeeklyEvent) -> bool:
    return (standing.weekday, standing.at) == (event.row.weekday, event.row.at) and meet(event.row, standing)
