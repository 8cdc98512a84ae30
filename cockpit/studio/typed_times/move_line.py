"""A typed line that says where a family lives: "denver", "denver from 3 march", "denver from june 1 to aug 31", "no move".

The days are read as those of a break; common practice, no source.
"""

import re
from datetime import date

from cockpit.studio.clocks.zones import zone_of_place
from cockpit.studio.errors import BadInput
from cockpit.studio.typed_times.break_line import DaysAsked, read_break
from cockpit.studio.typed_times.line_parts import zone_of
from cockpit.studio.typed_times.studio_names import StudioNames
from cockpit.studio.typed_times.when import Reference
from cockpit.studio.values import Value

_MOVES = re.compile(r"(?:they |the family )?(?:moves?|moving|moved) (?:house )?to (?P<place>.+)", re.IGNORECASE)
_STAYS = re.compile(r"(?:no move|(?:they )?(?:do not|don['’]t|does not|doesn['’]t) move|not moving)", re.IGNORECASE)
_DATED = re.compile(
    r"(?P<place>.+?),?\s+(?:from|since|on|as of|starting|beginning)\s+(?P<days>.+)|(?P<alone>.+)", re.IGNORECASE
)
_MOVE = DaysAsked(
    noun="move",
    examples=('"zone denver from march 3"', '"zone denver from june 1 to aug 31"'),
    can_be_open=True,
)


class MoveLine(Value):
    """Where a line says that a family lives (IANA): from a day on, until another, or without a day from the beginning.

    Without a zone it says that they do not move.
    """

    zone: str | None = None
    from_on: date | None = None
    until_on: date | None = None


def read_move(part: str, reference: Reference) -> MoveLine | None:
    """What a part of a line says of a move in a sentence of its own; None where it is about anything else.

    Raises:
        BadInput: it names no place that is known, or no day.
    """
    if _STAYS.fullmatch(part):
        return MoveLine()
    match = _MOVES.fullmatch(part)
    if match is None:
        return None
    read = read_place(match["place"], reference)
    if read.from_on is None:
        raise BadInput(f'The line has no first day of the move. Type "{part} from march 3".')
    return read


def read_place(text: str, reference: Reference) -> MoveLine:
    """A place, and the days on which a family lives there.

    Raises:
        BadInput: it names no place that is known, or the days are not understood.
    """
    match = _DATED.fullmatch(text)
    if match is None:
        raise BadInput(f"Type a place, and the first day of a move: {_MOVE.example}.")
    place = match["place"] or match["alone"]
    zone = zone_of(place) or zone_of_place(place)
    if match["days"] is None:
        return MoveLine(zone=zone)
    days = read_break(f"from {match['days']}", StudioNames([], []), reference, _MOVE)
    if days.reason:
        raise BadInput(f'"{days.reason}" is not understood. Type {_MOVE.example}.')
    return MoveLine(zone=zone, from_on=days.from_on, until_on=None if days.until_on == date.max else days.until_on)
