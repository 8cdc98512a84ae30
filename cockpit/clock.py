"""The only reader of the wall clock, and the place where the time-zone data is pinned."""

import sys
import time
import zoneinfo
from datetime import UTC, datetime, timedelta
from importlib import import_module
from pathlib import Path

from cockpit.studio.clocks.home import zone_named
from cockpit.studio.errors import NotFound


class SystemClock:
    """The computer's own clock."""

    is_rehearsal = False

    def now(self) -> datetime:
        """The moment it is, in UTC."""
        return datetime.now(UTC)


class RehearsalClock:
    """A clock set to another moment, from which it runs on at the usual pace, also while the computer sleeps."""

    is_rehearsal = True

    def __init__(self, starts_at: datetime) -> None:
        """Sets the clock to `starts_at` (aware)."""
        self._ahead = starts_at.astimezone(UTC) - datetime.now(UTC)

    def now(self) -> datetime:
        """The moment it would be, in UTC."""
        return datetime.now(UTC) + self._ahead


class SetClock:
    """A clock that stands still until it is set: for the sample's history and for tests."""

    def __init__(self, at: datetime, *, is_rehearsal: bool = False) -> None:
        """Sets the clock to `at` (UTC)."""
        self.at = at
        self.is_rehearsal = is_rehearsal

    def now(self) -> datetime:
        """The moment it was set to, in UTC."""
        return self.at

    def wind(self, **span: float) -> None:
        """Moves the clock on, by `hours=`, `minutes=` or `seconds=`."""
        self.at += timedelta(**span)


def monotonic() -> float:
    """Seconds of a clock that never goes back, for intervals."""
    return time.monotonic()


def pin_zone_data() -> None:
    """Makes zoneinfo read the `tzdata` package and not the system's files, which can be a year old.

    To be called before any zone is built: the rules of 2026 for Vancouver or Winnipeg would be an hour wrong.

    Raises:
        NotFound: the package is not installed.
    """
    try:
        package = import_module("tzdata")
    except ImportError as fault:
        raise NotFound(
            "The time zones are missing: the Python package tzdata is not installed beside the cockpit. "
            f"To install it: {sys.executable} -m pip install tzdata"
        ) from fault
    # As a folder: asked for as a package's resources, the first zone takes another 10 ms.
    zoneinfo.reset_tzpath(to=[str(Path(folder) / "zoneinfo") for folder in package.__path__])
    zoneinfo.ZoneInfo.clear_cache()
    zone_named.cache_clear()


def zone_data_version() -> str:
    """The version of the zone data, such as `2026f`."""
    from importlib import resources  # 3 ms, and only where a file names the version

    lines = (resources.files("tzdata") / "zoneinfo" / "tzdata.zi").read_text(encoding="utf-8")
    return lines.split("\n", 1)[0].removeprefix("# version ").strip()


def system_zone() -> str:
    """The IANA name of the computer's own zone, or `UTC` where it has none."""
    from pendulum.tz.local_timezone import get_local_timezone  # 40 ms, and only when a studio folder is new

    name = get_local_timezone().name
    return name if name in zoneinfo.available_timezones() else "UTC"
