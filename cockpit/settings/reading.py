"""A table of a settings file, read key by key: each fault names the file, the key, what was found and what would work."""

import tomllib
from collections.abc import Container, Iterable
from datetime import date, datetime
from zoneinfo import ZoneInfo

from cockpit.studio.clocks.words import number_in
from cockpit.studio.errors import BadSettings
from cockpit.studio.shown import can_be_shown, shown


def read_table(text: str, source: str) -> dict[str, object]:
    """The table of a TOML text; `source` names it in errors.

    Raises:
        BadSettings: the file, and where it cannot be read.
    """
    try:
        return tomllib.loads(text)
    except (ValueError, RecursionError) as fault:  # ValueError: a number of thousands of digits, too
        raise BadSettings(f"{source} could not be read as TOML: {fault}. Fix that line or delete the file.") from fault


class TomlTable:
    """Takes one key after another out of a table, and knows where it stands; each method raises BadSettings."""

    def __init__(self, table: dict[str, object], source: str) -> None:
        self._table = table
        self._source = source

    def only(self, known: Iterable[str], expected: str) -> None:
        """Refuses keys that are not known."""
        known = frozenset(known)
        for key in self._table:
            if key not in known:
                raise self.fault(key, "an unknown key", expected)

    def fault(self, key: str, found: object, expected: str) -> BadSettings:
        """The error of a key."""
        said = found if isinstance(found, str) else repr(found)
        return BadSettings(shown(f"{self._source}, {key}: found {said}. Use {expected}."))

    def word(self, key: str, default: str | None = None) -> str:
        """A text that is not blank."""
        value = self._table.get(key, default)
        if not isinstance(value, str) or not value.strip() or not can_be_shown(value):
            raise self.fault(key, "nothing" if value is None else value, "a word in quotes")
        return value.strip()

    def words(self, key: str) -> str:
        """A text that may be blank, or not there."""
        value = self._table.get(key, "")
        if not isinstance(value, str) or not can_be_shown(value):
            raise self.fault(key, value, "words in quotes")
        return value.strip()

    def choice(self, key: str, default: str, allowed: tuple[str, ...]) -> str:
        """One of some words."""
        value = self.word(key, default)
        if value not in allowed:
            raise self.fault(key, f'"{value}"', f"one of {', '.join(allowed)}")
        return value

    def zone(self, key: str) -> str:
        """The IANA name of a zone."""
        expected = 'an IANA zone such as "America/Chicago"'
        if key not in self._table:
            raise self.fault(key, "nothing", expected)
        name = self.word(key)
        try:
            ZoneInfo(name)
        except (KeyError, ValueError, OSError) as fault:
            raise self.fault(key, f'"{name}"', expected) from fault
        return name

    def number(self, key: str, default: int, allowed: Container[int], expected: str) -> int:
        """A whole number among those allowed."""
        value = self._table.get(key, default)
        if not isinstance(value, int) or isinstance(value, bool) or value not in allowed:
            raise self.fault(key, value, expected)
        return value

    def numbers(self, key: str, default: tuple[int, ...], allowed: Container[int], expected: str) -> tuple[int, ...]:
        """Whole numbers in brackets, one at least."""
        value = self._table.get(key, list(default))
        if not isinstance(value, list) or not value:
            raise self.fault(key, value, expected)
        found = tuple(each for each in value if isinstance(each, int) and not isinstance(each, bool))
        if len(found) < len(value) or not all(each in allowed for each in found):
            raise self.fault(key, value, expected)
        return found

    def yes_or_no(self, key: str, *, default: bool) -> bool:
        """Whether it is true or false."""
        value = self._table.get(key, default)
        if not isinstance(value, bool):
            raise self.fault(key, value, "true or false")
        return value

    def month_and_day(self, key: str, default: str) -> tuple[int, int]:
        """A day of any year, `09-01`, as its month and its day."""
        value = self.word(key, default)
        try:
            return _day_of_a_year(value)
        except ValueError as fault:
            raise self.fault(key, f'"{value}"', 'a month and a day such as "09-01"') from fault

    def months_and_days(
        self, key: str, default: tuple[tuple[int, int], ...], expected: str
    ) -> tuple[tuple[int, int], ...]:
        """Days of any year in brackets, `["09-01", "01-08"]`, one at least, each as its month and its day."""
        if key not in self._table:
            return default
        value = self._table[key]
        try:
            found = tuple(map(_day_of_a_year, value)) if isinstance(value, list) else ()
        except ValueError as fault:
            raise self.fault(key, value, expected) from fault
        if not found:
            raise self.fault(key, value, expected)
        return found

    def date(self, key: str) -> date | None:
        """A date without quotes; None where there is none."""
        value = self._table.get(key)
        if value is not None and (not isinstance(value, date) or isinstance(value, datetime)):
            raise self.fault(key, value, "a date such as 2027-02-01, without quotes")
        return value

    def says(self, key: str, value: str) -> bool:
        """Whether it says this very word."""
        return self._table.get(key) == value

    def has(self, key: str) -> bool:
        """Whether it says anything of a key."""
        return key in self._table

    def is_section(self, key: str) -> bool:
        """Whether it is a section, and no single value."""
        return isinstance(self._table.get(key), dict)

    def all(self) -> dict[str, object]:
        """All that it says, by key."""
        return self._table

    def section(self, key: str) -> dict[str, object]:
        """A section by its keys; empty where there is none."""
        value = self._table.get(key, {})
        if not isinstance(value, dict):
            raise self.fault(key, value, f"a section [{key}]")
        return value

    def by_length(self, key: str, expected: str) -> dict[int, object]:
        """A section whose keys are lengths of a lesson, in minutes."""
        found: dict[int, object] = {}
        for length, value in self.section(key).items():
            minutes = number_in(length)
            if minutes is None:
                raise self.fault(f"{key}.{length}", f'"{length}" = {value}', expected)
            found[minutes] = value
        return found

    def table(self, key: str) -> "TomlTable":
        """A section to be read key by key."""
        return TomlTable(self.section(key), f"{self._source}, {key}")

    def tables(self, key: str, expected: str) -> list["TomlTable"]:
        """Sections that may stand more than once."""
        found = self._table.get(key, [])
        if not isinstance(found, list) or not all(isinstance(each, dict) for each in found):
            raise self.fault(key, found, expected)
        return [TomlTable(each, f"{self._source}, {key} {n}") for n, each in enumerate(found, start=1)]


def _day_of_a_year(said: object) -> tuple[int, int]:
    on = date.fromisoformat(f"2001-{said}")  # a year without 29 February
    return on.month, on.day
