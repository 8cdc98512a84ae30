"""What she types about a piece: `irish, her choice, composer dvorak, 96 measures, by dec 19`."""

import re
from collections.abc import Callable
from datetime import date
from typing import NamedTuple

from cockpit.studio.changes.pieces import Piece, PieceState
from cockpit.studio.clocks.words import long_date
from cockpit.studio.errors import BadInput
from cockpit.studio.typed_times.line_parts import parts_of, refuse_long
from cockpit.studio.values import replace

EXAMPLES = '"irish", "her choice", "composer dvorak", "96 measures", "by dec 19", "no date", "polished", "resting", or "learning"'
MOST_MEASURES = 9999
_LONGEST, _LONGEST_NAME = 300, 60
_CHOSEN = re.compile(
    r"(?P<no>not |no )?(?:(?:her|his|their|the student'?s?|own|student'?s) choice|chosen)", re.IGNORECASE
)
_COMPOSER = re.compile(r"(?:composer|composed by|written by):? (?P<value>.+)|no composer", re.IGNORECASE)
_ORIGIN = re.compile(r"(?:origin|from|style):? (?P<value>.+)|no origin", re.IGNORECASE)
_MEASURES = re.compile(r"(?P<value>\d+) (?:measures?|bars?|mm\.?)|no measures", re.IGNORECASE)
_DATE = re.compile(r"(?:wanted )?(?:by|for|until) (?P<value>.+)|(?:no|without a?) ?date", re.IGNORECASE)
_STATES = {
    **{str(state): state for state in PieceState},
    "kept": PieceState.KEPT_ALIVE, "keep alive": PieceState.KEPT_ALIVE, "rests": PieceState.RESTING, "rest": PieceState.RESTING,
}  # fmt: skip
_NOT_SAID = "not said"
_NOTHING = frozenset({"nothing", "none", "-", "–"})


def read_piece(line: str, piece: Piece, day: Callable[[str], date], today: date) -> tuple[Piece, tuple[str, ...]]:
    """What is said of a piece after a line, and the facts of the line in words. `day` reads a date.

    A state is so since `today`, where it was not already.

    A part that is nothing else is where the piece comes from: a country, a people, a style.

    Raises:
        BadInput: a part cannot be used, or two speak of one thing; the sentence names it.
    """
    refuse_long(line, _LONGEST)
    facts = [_fact(part, day, today) for part in parts_of(line)]
    abouts = [fact.about for fact in facts]
    for about in abouts:
        if abouts.count(about) > 1:
            raise BadInput(f"The line says the {about} twice. Keep one.")
    for fact in facts:
        piece = fact.change(piece)
    return piece, tuple(f"{fact.about}: {fact.words}" for fact in facts)


class _Fact(NamedTuple):
    """What a part of a line is about, what it says in words, and the piece after it."""

    about: str
    words: str
    change: Callable[[Piece], Piece]


def in_state(piece: Piece, state: PieceState, today: date) -> Piece:
    """A piece in a state, since today where it was in another one; one that was polished is kept alive since then."""
    if piece.state is state:
        return piece
    if state is PieceState.LEARNING:
        return replace(piece, state=state, state_since=None)
    is_polished = piece.state is PieceState.POLISHED and state is PieceState.KEPT_ALIVE
    return replace(piece, state=state, state_since=piece.state_since if is_polished else today)


def _fact(part: str, day: Callable[[str], date], today: date) -> _Fact:
    if (state := _STATES.get(part.casefold())) is not None:
        return _Fact("state", state, lambda piece: in_state(piece, state, today))
    if (match := _CHOSEN.fullmatch(part)) is not None:
        is_chosen = match["no"] is None
        words = "the student's own" if is_chosen else "not the student's own"
        return _Fact("choice", words, lambda piece: replace(piece, is_chosen=is_chosen))
    if (match := _MEASURES.fullmatch(part)) is not None:
        count = int(match["value"][:9]) if match["value"] else None
        if count is not None and not 1 <= count <= MOST_MEASURES:
            raise BadInput(f'"{part}": a piece has 1 to {MOST_MEASURES} measures.')
        return _Fact("measures", str(count or _NOT_SAID), lambda piece: replace(piece, measures=count))
    if (match := _DATE.fullmatch(part)) is not None:
        on = day(match["value"]) if match["value"] and match["value"].casefold() not in _NOTHING else None
        words = f"by {long_date(on)}" if on is not None else "none"
        return _Fact("date", words, lambda piece: replace(piece, wanted_on=on))
    if (match := _COMPOSER.fullmatch(part)) is not None:
        composer = _name(match["value"])
        return _Fact("composer", composer or _NOT_SAID, lambda piece: replace(piece, composer=composer))
    match = _ORIGIN.fullmatch(part)
    if match is None and any(map(str.isdigit, part)):
        raise BadInput(f'"{part}" is not understood. Type {EXAMPLES}.')
    origin = _name(match["value"] if match is not None else part)
    return _Fact("origin", origin or _NOT_SAID, lambda piece: replace(piece, origin=origin))


def _name(text: str | None) -> str | None:
    plain = " ".join((text or "").strip('" ').split())
    if len(plain) > _LONGEST_NAME:
        raise BadInput(f"{plain[:20]}… is too long. Use at most {_LONGEST_NAME} characters.")
    return plain if plain and plain.casefold() not in _NOTHING else None
