"""At what time of a day a recital over a call suits everybody: the starts that do, whom the others find at night, and sittings.

All starts lie on a grid of a quarter of an hour on her clock, within one date of hers.
"""

from collections.abc import Mapping, Sequence
from datetime import date, datetime, timedelta
from itertools import combinations, groupby

from cockpit.studio.calendar.collisions import fits_day
from cockpit.studio.clocks.moments import Zone
from cockpit.studio.people.people import FamilyId
from cockpit.studio.preferences import Preferences
from cockpit.studio.values import Value

_GRID = timedelta(minutes=15)


class StartWindow(Value):
    """Starts from the first to the last (UTC), both included, each a quarter of an hour after the one before."""

    first: datetime
    last: datetime


class Sitting(Value):
    """Starts at which the same families have the whole recital in their day, and those that would have it at night."""

    starts: StartWindow
    suited: frozenset[FamilyId]
    at_night: frozenset[FamilyId]


class RecitalDay(Value):
    """A date of the teacher's clock on which a recital of some seconds may be, for families on their clocks."""

    on: date
    seconds: int
    zones: Mapping[FamilyId, Zone]
    preferences: Preferences

    def at_night(self, starts_at: datetime) -> frozenset[FamilyId]:
        """The families that would have some of the recital at night, if it started at a UTC moment."""
        ends_at = starts_at + timedelta(seconds=self.seconds)
        is_day = {
            zone: fits_day(starts_at, ends_at, zone, self.preferences) for zone in dict.fromkeys(self.zones.values())
        }
        return frozenset(family_id for family_id, zone in self.zones.items() if not is_day[zone])

    def starts(self) -> tuple[datetime, ...]:
        """The starts of the grid at which the whole recital lies in her own day (UTC)."""
        home = self.preferences.home
        midnight, next_midnight = home.day_bounds(self.on)
        length = timedelta(seconds=self.seconds)
        grid = (midnight + number * _GRID for number in range((next_midnight - midnight) // _GRID + 1))
        return tuple(
            each for each in grid if each < next_midnight and fits_day(each, each + length, home.zone, self.preferences)
        )


def sittings_of(day: RecitalDay) -> tuple[Sitting, ...]:
    """All starts of a day, in order; those behind one another that suit the same families are together."""
    everybody, found = frozenset(day.zones), []
    # Starts that follow one another lie as far behind the grid of their numbers. A clock that is turned back shows a time
    # before her day again: her starts have a gap there.
    numbered = groupby(enumerate(day.starts()), key=lambda each: (day.at_night(each[1]), each[1] - each[0] * _GRID))
    for (at_night, _), together in numbered:
        starts = [start for _, start in together]
        window = StartWindow(first=starts[0], last=starts[-1])
        found.append(Sitting(starts=window, suited=everybody - at_night, at_night=at_night))
    return tuple(found)


def windows_of(family_id: FamilyId, sittings: Sequence[Sitting]) -> tuple[StartWindow, ...]:
    """The starts that suit one family, in order."""
    return joined_windows([each.starts for each in sittings if family_id in each.suited])


def joined_windows(windows: Sequence[StartWindow]) -> tuple[StartWindow, ...]:
    """Windows in order, those that follow one another as one."""
    joined: list[StartWindow] = []
    for each in windows:
        if joined and each.first == joined[-1].last + _GRID:
            joined[-1] = StartWindow(first=joined[-1].first, last=each.last)
        else:
            joined.append(each)
    return tuple(joined)


def best_sittings(sittings: Sequence[Sitting]) -> tuple[Sitting, ...]:
    """Those that suit all families, or all but the fewest."""
    fewest = min((len(each.at_night) for each in sittings), default=0)
    return tuple(each for each in sittings if len(each.at_night) == fewest)


def out_of_reach(sittings: Sequence[Sitting]) -> frozenset[FamilyId]:
    """The families that no start of the day suits."""
    return frozenset.intersection(*(each.at_night for each in sittings)) if sittings else frozenset()


def fewest_sittings(sittings: Sequence[Sitting]) -> tuple[Sitting, ...]:
    """The fewest sittings that reach every family which any reaches, in order.

    Of as few, those that suit most families at once, the earlier ones first. One that suits only families which another
    one suits too is never needed, so that few are left to be tried, each with each.
    """
    useful = [
        each for number, each in enumerate(sittings)
        if not any(each.suited < other.suited for other in sittings)
        and not any(each.suited == other.suited for other in sittings[:number])
    ]  # fmt: skip
    reached = frozenset[FamilyId]().union(*(each.suited for each in useful))
    for count in range(len(useful) + 1):
        enough = [
            chosen for chosen in combinations(useful, count)
            if frozenset[FamilyId]().union(*(each.suited for each in chosen)) == reached
        ]  # fmt: skip
        if enough:
            return max(enough, key=lambda chosen: sum(len(each.suited) for each in chosen))
    return ()
