"""Parts of a line that leave a strand of the mix out for a student: "without theory", and "with theory" again."""

import re
from collections.abc import Iterable, Sequence

from cockpit.studio.clocks.words import listed
from cockpit.studio.errors import BadInput
from cockpit.studio.people.people import name_key

_LEFT = re.compile(r"(?P<how>without|with) (?P<name>.+?)(?: again)?", re.IGNORECASE)


def read_left(parts: Sequence[str], names: Iterable[str]) -> tuple[dict[str, bool], tuple[str, ...]]:
    """The areas and strands, of all `names`, that the parts of a line leave out (True) or take up again; and the other parts.

    Raises:
        BadInput: a part leaves out what is none, or two speak of one.
    """
    known = {name_key(name): name for name in names}
    said: dict[str, bool] = {}
    others: list[str] = []
    for part in parts:
        match = _LEFT.fullmatch(part)
        name = known.get(name_key(match["name"])) if match is not None else None
        is_left = match is not None and match["how"].casefold() == "without"
        if name is None and is_left:
            raise BadInput(f'"{part}" leaves out nothing of the mix. Type one of {listed([*known.values()])}.')
        if name is None:
            others.append(part)
        elif name in said:
            raise BadInput(f'The line says "{name}" twice. Keep one.')
        else:
            said[name] = is_left
    return said, tuple(others)
