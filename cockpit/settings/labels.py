"""The sections [labels] and [areas] of settings.toml: labels of her own for what families read, and areas of her own."""

import re
from collections.abc import Iterable, Mapping

from cockpit.settings.reading import TomlTable
from cockpit.studio.notes.areas import AnyArea, Area, OwnArea
from cockpit.studio.notes.kept_back import is_kept_back
from cockpit.studio.notes.spelling import folded
from cockpit.studio.notes.vocabulary import BUILT_IN, Labels, Meaning

_NAME = re.compile(r"[^\W\d_](?:[^\W_]|[ &/'’-]){0,23}[^\W_]")
_REMARK, _GET, _GOAL = "remark", "get", "goal"
_LIKE = "one to four words of letters, such as hymn"
_USUAL_WEIGHT = 4


def own_areas(table: TomlTable) -> Mapping[AnyArea, int]:
    """The areas of her own, each with its weight in a plan.

    Raises:
        BadSettings: the file, the key, what was found and what would work.
    """
    areas = table.table("areas")
    found: dict[AnyArea, int] = {}
    for name in table.section("areas"):
        _check_name(areas, name)
        if name in set(Area):
            raise areas.fault(name, f'"{name}", an area that is built in', "[practice.weights] to change its weight")
        area = areas.table(name)
        area.only({"weight", "titled"}, "weight or titled")
        weight = area.number("weight", _USUAL_WEIGHT, range(101), "a weight from 0 to 100")
        found[OwnArea(name=name, is_titled=area.yes_or_no("titled", default=False))] = weight
    return found


def studio_labels(table: TomlTable, areas: Iterable[AnyArea]) -> Labels:
    """The labels of a studio: her own words first, then all that are built in.

    Raises:
        BadSettings: the file, the key, what was found and what would work; a label that is kept from families stays so.
    """
    named: dict[str, AnyArea] = {str(each): each for each in (*Area, *areas)}
    own = {folded(str(area)): Meaning(area) for area in areas}
    labels = table.table("labels")
    for label in table.section("labels"):
        _check_name(labels, label)
        said = labels.choice(label, "", (*named, _REMARK, _GET, _GOAL))
        is_by_heart = (BUILT_IN.meaning(label) or Meaning(None)).is_by_heart
        own[folded(label)] = Meaning(
            named.get(said),
            is_by_heart=is_by_heart and said == Area.PIECE,
            is_to_get=said == _GET and said not in named,
            is_goal=said == _GOAL and said not in named,
        )
    return Labels(own=own, names=(*map(str, areas), *table.section("labels"))) if own else BUILT_IN


def _check_name(table: TomlTable, name: str) -> None:
    if is_kept_back(name):
        kept = "another word; Private, Follow-up, Next time, and what is spelled like them stay private"
        raise table.fault(name, f'"{name}", a label that is kept from families', kept)
    if not _NAME.fullmatch(name):
        raise table.fault(name, f'"{name}"', _LIKE)
