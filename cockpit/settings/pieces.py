"""What settings.toml says of pieces: the sections [mix.strands] and [mix.limits], the gaps of repertoire, and marks on reports."""

from collections.abc import Iterable, Mapping

from cockpit.settings.reading import TomlTable
from cockpit.studio.notes.areas import AnyArea, Area
from cockpit.studio.pieces.rules import CHOSEN, LIMITS, ORIGIN, STRANDS, MixRules, PieceRules
from cockpit.studio.shown import can_be_shown

_USUAL = PieceRules()
_LONGEST_NAME = 40


def piece_rules(table: TomlTable, own: Iterable[AnyArea] = ()) -> PieceRules:
    """The rules about pieces; strands can have areas of her own.

    Raises:
        BadSettings: the file, the key, what was found and what would work.
    """
    areas = (*map(str, Area), *map(str, own))
    return PieceRules(
        mix=_mix(table.table("mix"), areas),
        gaps=table.numbers("repertoire_gaps", _USUAL.gaps, range(1, 105), "weeks in brackets, such as [2, 4, 8, 12]"),
        reports_marks=table.yes_or_no("report_marks", default=_USUAL.reports_marks),
    )


def _mix(table: TomlTable, areas: tuple[str, ...]) -> MixRules:
    table.only({"strands", "limits"}, "[mix.strands] or [mix.limits]")
    strands = _strands(table.table("strands"), areas) if table.has("strands") else STRANDS
    known = (*areas, *strands)
    if not table.has("limits"):
        return MixRules(strands=strands, limits={name: weeks for name, weeks in LIMITS.items() if name in known})
    limits = table.table("limits")
    limits.only(known, f"one of {', '.join(dict.fromkeys(known))}")
    weeks = {name: limits.number(name, 0, range(1, 105), "1 to 104 weeks") for name in table.section("limits")}
    return MixRules(strands=strands, limits=weeks)


def _strands(table: TomlTable, areas: tuple[str, ...]) -> Mapping[str, tuple[str, ...]]:
    words = (CHOSEN, ORIGIN, *areas)
    return {name: _strand(table, name, found, words) for name, found in table.all().items()}


def _strand(table: TomlTable, name: str, found: object, words: tuple[str, ...]) -> tuple[str, ...]:
    if not name.strip() or len(name) > _LONGEST_NAME or not can_be_shown(name):
        raise table.fault(name, f'"{name}"', f"a name of 1 to {_LONGEST_NAME} characters")
    expected = f"words in brackets, each one of {', '.join(words)}"
    if not isinstance(found, list) or not found:
        raise table.fault(name, found, expected)
    for each in found:
        if each not in words:
            raise table.fault(name, f'"{each}"', expected)
    return tuple(map(str, found))
