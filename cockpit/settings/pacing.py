"""How the minutes of a lesson are shared out, as settings.toml says it: `pacing = false`, or a section [pacing]."""

import re
from collections.abc import Mapping

from cockpit.settings.reading import TomlTable
from cockpit.studio.lessons.pacing import USUAL, Pacing

_PART = re.compile(r"\s*(\S(?:.*\S)?)\s+(\d{1,3})\s*")
_EXPECTED = 'parts and minutes in quotes, such as 45 = "hello 3, scales 8, piece 30, wrap-up 4"'


def pacing_plans(table: TomlTable) -> Mapping[int, Pacing]:
    """The plan of a lesson by its length in minutes; what the section does not name is as usual.

    Raises:
        BadSettings: the file, the key, what was found and what would work.
    """
    if not table.is_section("pacing"):
        return USUAL if table.yes_or_no("pacing", default=True) else {}
    own = table.by_length("pacing", _EXPECTED)
    return {**USUAL, **{minutes: _plan(table, minutes, parts) for minutes, parts in own.items()}}


def _plan(table: TomlTable, minutes: int, parts: object) -> Pacing:
    key = f"pacing.{minutes}"
    if not isinstance(parts, str):
        raise table.fault(key, parts, _EXPECTED)
    plan: list[tuple[str, int]] = []
    for part in parts.split(","):
        fits = _PART.fullmatch(part)
        if fits is None or not fits[1].isprintable():
            raise table.fault(key, f'"{part.strip()}"', _EXPECTED)
        plan.append((fits[1], int(fits[2])))
    if (total := sum(share for _, share in plan)) != minutes:
        raise table.fault(key, f"{total} minutes in all", f"parts that add up to {minutes}")
    return tuple(plan)
