"""settings.toml of a studio folder: what differs between teachers."""

import re
import tomllib
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import date, datetime
from pathlib import Path
from types import MappingProxyType
from zoneinfo import ZoneInfo

from cockpit.settings_text import FIRST
from cockpit.studio.calendar import Zone
from cockpit.studio.errors import BadSettings
from cockpit.studio.home import Home, Stay

CUES: Mapping[int, int] = MappingProxyType({30: 3, 45: 4, 60: 5})
_NAME = "settings.toml"
_KEY = re.compile(r"\S+")
# These are heard in the notes too: a letter of theirs could not be typed any more.
_WHILE_TYPING = ("app.", "day.", "lesson.", "pane.", "student.", "theme.")


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """The teacher's settings: her zone (IANA), clock hours (12 or 24), minutes and theme; `keys` by command id."""

    home_zone: str
    hours: int = 12
    family_hours: int = 12
    theme: str = "ebony"
    wait_minutes: int = 15
    notice_hours: int = 24
    gap_minutes: int = 0
    day_begins: int = 7
    day_ends: int = 21
    month_first: bool = True
    promised_lessons: int = 36
    year_begins: str = "09-01"
    wrap_up_minutes: Mapping[int, int] = field(default_factory=lambda: CUES)
    keys: Mapping[str, str] = field(default_factory=dict)
    away: tuple[Stay, ...] = ()

    @property
    def home(self) -> Zone:
        """Her own clock: her zone, and where she moves to or travels."""
        return Home(zone=self.home_zone, stays=self.away) if self.away else self.home_zone


def read_settings(folder: Path, zone_if_new: Callable[[], str]) -> tuple[Settings, str | None]:
    """The settings of a studio folder, and a sentence to tell if the file was missing and was made.

    Raises:
        BadSettings: the file, the key, what was found and what would work.
    """
    path = folder / _NAME
    if path.exists():
        return parse_settings(_text_of(path), str(path)), None
    zone = zone_if_new()
    try:
        path.write_text(FIRST.format(zone=zone), encoding="utf-8")
        path.chmod(0o600)
    except OSError as fault:
        return Settings(home_zone=zone), f"{path} could not be made ({fault.strerror}): your zone is taken as {zone}."
    return Settings(home_zone=zone), f"Your time zone is taken from this computer: {zone}. It can be changed in {path}."


def _text_of(path: Path) -> str:
    try:
        return path.read_text(encoding="utf-8-sig")
    except UnicodeDecodeError as fault:
        raise BadSettings(f"{path} is not UTF-8 at byte {fault.start + 1}. Save it again as UTF-8.") from fault


def parse_settings(text: str, source: str) -> Settings:
    """The settings in a TOML text; `source` names it in errors.

    Raises:
        BadSettings: the file, the key, what was found and what would work.
    """
    return _Reader(read_table(text, source), source).settings()


def read_table(text: str, source: str) -> dict[str, object]:
    """The table of a TOML text; `source` names it in errors.

    Raises:
        BadSettings: the file, and where it cannot be read.
    """
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as fault:
        raise BadSettings(f"{source} is not readable as TOML: {fault}. Mend that line, or remove the file.") from fault


class _Reader:
    """Takes one key after another out of a table, and knows where it stands."""

    def __init__(self, table: dict[str, object], source: str) -> None:
        self._table = table
        self._source = source

    def settings(self) -> Settings:
        known = set(Settings.__slots__)
        for key in self._table:
            if key not in known:
                raise self._fault(key, "a key that is not known", f"one of {', '.join(sorted(known))}")
        return Settings(
            home_zone=self._zone("home_zone"),
            hours=self._number("hours", 12, {12, 24}, "12 or 24"),
            family_hours=self._number("family_hours", 12, {12, 24}, "12 or 24"),
            theme=self._word("theme", "ebony"),
            wait_minutes=self._number("wait_minutes", 15, range(241), "minutes, 0 to 240"),
            notice_hours=self._number("notice_hours", 24, range(24 * 14 + 1), "hours, 0 to 336"),
            gap_minutes=self._number("gap_minutes", 0, range(121), "minutes, 0 to 120"),
            day_begins=self._number("day_begins", 7, range(24), "an hour, 0 to 23"),
            day_ends=self._number("day_ends", 21, range(1, 25), "an hour, 1 to 24"),
            month_first=self._yes_or_no("month_first", default=True),
            promised_lessons=self._number("promised_lessons", 36, range(1, 367), "a number of lessons, 1 to 366"),
            year_begins=self._month_and_day("year_begins", "09-01"),
            away=self._away("away"),
            wrap_up_minutes=self._cues("wrap_up_minutes"),
            keys=self._words("keys"),
        )

    def _fault(self, key: str, found: object, expected: str) -> BadSettings:
        shown = found if isinstance(found, str) else repr(found)
        return BadSettings(f"{self._source}, {key}: found {shown}, expected {expected}.")

    def _zone(self, key: str) -> str:
        name = self._word(key, None)
        try:
            ZoneInfo(name)
        except (KeyError, ValueError, OSError) as fault:
            raise self._fault(key, f'"{name}"', 'an IANA zone such as "America/Chicago"') from fault
        return name

    def _word(self, key: str, default: str | None) -> str:
        value = self._table.get(key, default)
        if not isinstance(value, str) or not value.strip():
            raise self._fault(key, "nothing" if value is None else value, "a word in quotes")
        return value.strip()

    def _number(self, key: str, default: int, allowed: set[int] | range, expected: str) -> int:
        value = self._table.get(key, default)
        if not isinstance(value, int) or isinstance(value, bool) or value not in allowed:
            raise self._fault(key, value, expected)
        return value

    def _yes_or_no(self, key: str, *, default: bool) -> bool:
        value = self._table.get(key, default)
        if not isinstance(value, bool):
            raise self._fault(key, value, "true or false")
        return value

    def _month_and_day(self, key: str, default: str) -> str:
        value = self._word(key, default)
        try:
            date.fromisoformat(f"2001-{value}")  # a year without 29 February
        except ValueError as fault:
            raise self._fault(key, f'"{value}"', 'a month and a day such as "09-01"') from fault
        return value

    def _away(self, key: str) -> tuple[Stay, ...]:
        stays = self._table.get(key, [])
        if not isinstance(stays, list) or not all(isinstance(stay, dict) for stay in stays):
            raise self._fault(key, stays, "sections [[away]] with zone, from and until")
        return tuple(_Reader(stay, f"{self._source}, away {n}").stay() for n, stay in enumerate(stays, start=1))

    def stay(self) -> Stay:
        for key in self._table:
            if key not in {"zone", "from", "until"}:
                raise self._fault(key, "a key that is not known", "zone, from or until")
        from_on, until_on = self._date("from"), self._date("until")
        if from_on is None:
            raise self._fault("from", "nothing", "a date such as 2027-02-01")
        if until_on is not None and until_on < from_on:
            raise self._fault("until", until_on, f"a day on or after {from_on}")
        return Stay(zone=self._zone("zone"), from_on=from_on, until_on=until_on)

    def _date(self, key: str) -> date | None:
        value = self._table.get(key)
        if value is not None and (not isinstance(value, date) or isinstance(value, datetime)):
            raise self._fault(key, value, "a date such as 2027-02-01, without quotes")
        return value

    def _mapping(self, key: str) -> dict[str, object]:
        value = self._table.get(key, {})
        if not isinstance(value, dict):
            raise self._fault(key, value, f"a section [{key}]")
        return value

    def _words(self, key: str) -> Mapping[str, str]:
        found: dict[str, str] = {}
        for name, value in self._mapping(key).items():
            if not isinstance(value, str) or not all(_KEY.fullmatch(one.strip()) for one in value.split(",")):
                raise self._fault(f"{key}.{name}", value, 'keys in quotes, such as "f9,ctrl+s"')
            if name.startswith(_WHILE_TYPING) and any(len(one.strip()) == 1 for one in value.split(",")):
                raise self._fault(f"{key}.{name}", value, 'keys that type no letter, such as "f9,ctrl+s"')
            found[name] = value
        return found

    def _cues(self, key: str) -> Mapping[int, int]:
        cues: dict[int, int] = {}
        for length, cue in self._mapping(key).items():
            if not length.isdigit() or not isinstance(cue, int) or isinstance(cue, bool):
                raise self._fault(f"{key}.{length}", cue, "a lesson length and minutes, such as 45 = 4")
            if not 0 <= cue < int(length):
                raise self._fault(f"{key}.{length}", cue, f"fewer than the lesson's {length} minutes")
            cues[int(length)] = cue
        return cues or CUES
