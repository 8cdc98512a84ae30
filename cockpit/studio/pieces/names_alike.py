"""Pieces of one student whose names look alike: they are offered to her as one, and never joined in silence."""

from collections.abc import Iterable, Sequence
from difflib import SequenceMatcher

from cockpit.studio.changes.pieces import PieceAlias
from cockpit.studio.lessons.lineage import origin_of
from cockpit.studio.pieces.given import GivenLine
from cockpit.studio.values import replace

# So alike that it may be a slip: "gavote" and "gavotte" are 0.92; "old mill" and "old mile" are 0.88 and hers to refuse.
_ALIKE = 0.85
_MODES = frozenset(
    {"major", "minor", "harmonic", "melodic", "sharp", "flat", "dur", "moll", "majeur", "mineur", "mayor", "menor"}
)
_ROMAN = frozenset("ivx")
_TONIC = frozenset(f"{letter}{sign}" for letter in "abcdefg" for sign in ("b", "#", "♭", "♯"))
_THREAD = ":"  # in the key of a line without a name, and in no name


def near_names(keys: Sequence[str], known: Iterable[str], aliases: Iterable[PieceAlias]) -> tuple[tuple[str, str], ...]:
    """Pairs of one of some keys and another of all known ones that may mean one piece, which nobody answered yet.

    Those with another number, opus, key, or mode are never a pair. Two of `keys` are a pair once, in their order.
    """
    answered = {frozenset((each.key, each.piece)) for each in aliases}
    named = [(key, _telling(key)) for key in dict.fromkeys((*keys, *known)) if _THREAD not in key]
    matcher = SequenceMatcher(autojunk=False)
    found: list[tuple[str, str]] = []
    for place, (key, telling) in enumerate(named):
        if key not in keys:
            break
        matcher.set_seq2(key)
        for piece, other in named[place + 1 :]:
            if telling == other and frozenset((key, piece)) not in answered and _is_alike(matcher, piece):
                found.append((key, piece))
    return tuple(found)


def one_name(given: Sequence[GivenLine], aliases: Iterable[PieceAlias]) -> tuple[GivenLine, ...]:
    """A student's lines, the oldest first, with joined names under the key and the last title of the piece they are."""
    joined = {each.key: each.piece for each in aliases if each.is_one}
    if not joined:
        return tuple(given)
    titles = {each.read.piece: each.read.title for each in given}
    return tuple(_renamed(each, origin_of(each.read.piece, joined.get), titles) for each in given)


def _renamed(given: GivenLine, piece: str, titles: dict[str, str]) -> GivenLine:
    if piece == given.read.piece:
        return given
    return replace(given, read=replace(given.read, piece=piece, title=titles.get(piece, given.read.title)))


def _is_alike(matcher: SequenceMatcher[str], piece: str) -> bool:
    matcher.set_seq1(piece)
    return matcher.real_quick_ratio() >= _ALIKE and matcher.quick_ratio() >= _ALIKE and matcher.ratio() >= _ALIKE


def _telling(key: str) -> list[str]:
    """The words that tell two pieces apart which are alike otherwise: a number in any figures, a tonic, a mode."""
    return [
        word
        for word in key.split()
        if len(word) == 1 or word in _MODES | _TONIC or _ROMAN.issuperset(word) or any(map(str.isdigit, word))
    ]
