"""settings.toml of a studio folder: what differs between teachers."""

import re
import tomllib
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from types import MappingProxyType
from zoneinfo import ZoneInfo

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
    wrap_up_minutes: Mapping[int, int] = field(default_factory=lambda: CUES)
    keys: Mapping[str, str] = field(default_factory=dict)
    away: tuple[Stay, ...] = ()

    @property
    def home(self) -> Zone:
        """Her own clock: her zone, and where she moves to or travels."""
        return Home(zone=self.home_zone, stays=self.away) if self.away else self.home_zone


_FIRST = """\
# Your studio's settings. Change a line, save, and open the cockpit again.

# Your own time zone, by its IANA name. It was taken from this computer.
home_zone = "{zone}"

# Your clock, and the families' where they have said nothing else: 12 or 24 hours.
hours = 12
family_hours = 12

# One of ivory, ebony, rosin, spruce, footlights, or one of your own from the folder "themes" beside this file.
theme = "ebony"

# How long to wait for a late student.
wait_minutes = 15

# How many minutes before the end the wrap-up cue comes, by the length of the lesson.
[wrap_up_minutes]
30 = 3
45 = 4
60 = 5

# Your own keys: a command's id and its keys; `cockpit keys` lists them.
[keys]
# "lesson.finish" = "f9,ctrl+s"
"""


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
        path.write_text(_FIRST.format(zone=zone), encoding="utf-8")
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
