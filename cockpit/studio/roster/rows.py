"""What a roster file comes to: rows, faults and notices."""

from dataclasses import dataclass
from datetime import date, time

from cockpit.studio.lessons.weekly_times import KeptIn

NEEDED_COLUMNS = ("student", "weekday", "time", "minutes")
COLUMNS = (
    *NEEDED_COLUMNS,
    "family", "email", "instrument", "zone", "kept_in", "from", "until", "daily_minutes", "call_link", "remark",
    "clock", "every_weeks", "practice_days", "send_by", "language",
)  # fmt: skip
_SHOWN = 60


@dataclass(frozen=True, slots=True, kw_only=True)
class RosterFault:
    """What cannot be used in a roster: on which line, in which column if it is one cell, and what was found.

    `wanted` is what would work, as an imperative (`write ...`).
    """

    line: int
    column: str | None = None
    found: str
    wanted: str

    def __str__(self) -> str:
        """The fault as one sentence."""
        place = f"Line {self.line}" if self.column is None else f"Line {self.line}, {self.column}"
        return f"{place}: found {self.found}; {self.wanted}."


@dataclass(frozen=True, slots=True, kw_only=True)
class RosterRow:
    """A standing time as the roster has it; None for what the file leaves blank.

    `weekday` is 0 on Monday; `at`, `from_on` and `until_on` are on the clock that `kept_in` names; `zone` is an IANA
    name; `hours` is the family's clock, 12 or 24; `practice_days` are weekdays. `email`, `send_by` and `language` are the
    family's addresses, ways and language, as it keeps them. `event_uid` is the lasting name of the event, in a calendar.
    """

    line: int
    student: str
    weekday: int
    at: time
    minutes: int
    family: str | None = None
    email: str | None = None
    instrument: str | None = None
    zone: str | None = None
    kept_in: KeptIn | None = None
    from_on: date | None = None
    until_on: date | None = None
    daily_minutes: int | None = None
    call_link: str | None = None
    remark: str | None = None
    hours: int | None = None
    every_weeks: int | None = None
    practice_days: frozenset[int] | None = None
    send_by: str | None = None
    language: str | None = None
    event_uid: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class RosterReading:
    """A roster as it was read: the rows without a fault, the faults, and what was not used.

    `columns` are those that the file has, by our names: a blank cell in one of them says something, a column that is
    not there says nothing. With a fault, nothing of it should be imported.
    """

    rows: tuple[RosterRow, ...]
    columns: frozenset[str]
    faults: tuple[RosterFault, ...] = ()
    notices: tuple[str, ...] = ()


def quoted(text: str) -> str:
    """A text of the file in quotes, on one line, and cut where it is long."""
    shown = "".join(
        letter if letter.isprintable() else "\N{REPLACEMENT CHARACTER}" for letter in " ".join(text.split())
    )
    return f'"{shown}"' if len(shown) <= _SHOWN else f'"{shown[: _SHOWN - 1]}…"'
