"""Keys, octaves and hands in a line: `G maj`, `a min mel.`, `C#m`, `2 oct`, `HS`.

A key is read only where scales and theory are practiced: elsewhere it is a part of a piece's name. Keys that no key
signature has (G-sharp major) are not claimed, nor one of several.
"""

import re
from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

from cockpit.studio.assignments.assignment import Hands, Key, Part
from cockpit.studio.assignments.tokens import SPELLED, Claim, Tokens, words_in
from cockpit.studio.notes.notes import Area

_KEY_AREAS = frozenset({Area.SCALES, Area.TECHNIQUE, Area.WARM_UP, Area.THEORY, Area.EAR, Area.SIGHT_READING})
# Those of the 15 key signatures, from seven flats to seven sharps.
_MAJOR = words_in("Cb Gb Db Ab Eb Bb F C G D A E B F# C#")
_MINOR = words_in("Ab Eb Bb F C G D A E B F# C# G# D# A#")
_MODES = {"major": "major", "maj": "major", "minor": "minor", "min": "minor"}
_KINDS = {
    "harmonic": "harmonic", "harm": "harmonic", "melodic": "melodic", "mel": "melodic", "natural": "", "nat": "",
}  # fmt: skip
_ACCIDENTALS = {"#": "#", "♯": "#", "sharp": "#", "♭": "b", "flat": "b"}
_BETWEEN = frozenset({",", "/", "&", "+", "and", "or", "-", "–", ";"})
# Behind a letter alone these say that it is a scale.
_OF_A_SCALE = frozenset(
    {"scale", "scales", "arpeggio", "arpeggios", "arp", "hs", "ht", "rh", "lh", "q", "in", "up", "mm"}
)
# A letter alone in a line with one of these may be any scale's: "C, chromatic", "A, harmonic minor".
_OTHER_SCALES = words_in(
    "chromatic chromatics pentatonic blues octatonic wholetone diminished augmented dominant dom modal mode modes ionian "
    "dorian phrygian lydian mixolydian aeolian locrian bebop jazz minor minors harmonic harm melodic mel"
)
# German, French, and Spanish keys have their mode behind them, as a word that English does not have: B-Dur is B-flat major.
_LETTERS = {letter: letter.upper() for letter in "cdefga"} | {
    "h": "B", "b": "Bb", "cis": "C#", "dis": "D#", "fis": "F#", "gis": "G#", "ais": "A#",
    "ces": "Cb", "des": "Db", "es": "Eb", "ges": "Gb", "as": "Ab",
}  # fmt: skip
_SYLLABLES = {"do": "C", "ut": "C", "ré": "D", "re": "D", "mi": "E", "fa": "F", "sol": "G", "la": "A", "si": "B"}
_SPOKEN_SIGNS = {
    "dièse": "#", "diese": "#", "sostenido": "#", "#": "#", "♯": "#", "bémol": "b", "bemol": "b", "b": "b", "♭": "b",
}  # fmt: skip
_OTHER_MODES = {
    "dur": "major", "majeur": "major", "mayor": "major", "moll": "minor", "mineur": "minor", "menor": "minor",
}  # fmt: skip
_OTHER_KINDS = {
    "harmonisch": "harmonic", "harmonique": "harmonic", "armónica": "harmonic", "armonica": "harmonic", "armónico": "harmonic",
    "melodisch": "melodic", "mélodique": "melodic", "melódica": "melodic", "melodica": "melodic", "melódico": "melodic",
}  # fmt: skip
_OTHER_BETWEEN = _BETWEEN | {"und", "oder", "et", "ou", "y", "e", "o"}
_COMPOUNDS = words_in(
    "tonleiter tonleitern skala dreiklang dreiklänge arpeggio arpeggien akkord akkorde kadenz kadenzen"
)
_LETTER = re.compile(r"[A-GH](?:b|is|es|s)?m?|[a-gh](?:is|es|s)?")
_IN_A_ROW = _BETWEEN | words_in("und et y then dann to")
_OF_KEYS = frozenset({*_MODES, *_KINDS, *_OTHER_MODES, *_OTHER_KINDS, *_SPOKEN_SIGNS, "sharp", "flat", *_SYLLABLES})
_OCTAVES = words_in("oct octs octave octaves okt oktave oktaven octava octavas")
_HIGHER = frozenset({"higher", "lower", "up", "down", "apart", "above", "below"})
_MOST_OCTAVES = 8
_INITIALS = {"hs": Hands.SEPARATELY, "ht": Hands.TOGETHER, "lh": Hands.LEFT, "rh": Hands.RIGHT}
_HOW = {
    "separately": Hands.SEPARATELY, "separate": Hands.SEPARATELY, "sep": Hands.SEPARATELY, "apart": Hands.SEPARATELY,
    "alone": Hands.SEPARATELY,
    "together": Hands.TOGETHER, "tog": Hands.TOGETHER,
}  # fmt: skip
_BEFORE_HAND = {"left": Hands.LEFT, "right": Hands.RIGHT}
_BEFORE_HANDS = {"separate": Hands.SEPARATELY, "both": Hands.TOGETHER}
# A left-hand pizzicato and the left-hand position are about playing, not about who plays.
_OF_A_HAND = words_in(
    "pizz pizzicato position positions pos shape frame thumb finger fingers fingering technique muting tapping"
)
_NOT_YET = frozenset({"before", "until", "till", "toward", "towards"})
KEY_WORDS = frozenset({*"abcdefgh", "bb"})
HAND_WORDS = frozenset({*_INITIALS, *_BEFORE_HAND, *_BEFORE_HANDS, "hands", "l", "r", "h"})


class _Tonic(NamedTuple):
    name: str
    mode: str | None
    begins: int
    ends: int
    is_small: bool


def read_key(tokens: Tokens, at: int) -> Claim | None:
    """`D major`, `G maj`, `a min mel.`, `C#m`, `B flat minor`, `fis-Moll`, `ré majeur`; in scales also `Bb` and `D` alone."""
    is_in_row = tokens.word(at - 1) == "/" and _tonic_at(tokens, at - 2) is not None if at > 1 else False
    if tokens.area not in _KEY_AREAS or not (tokens.begins_clean(at) or is_in_row):
        return None
    return _other_key_at(tokens, at) or _english_key_at(tokens, at)


def _english_key_at(tokens: Tokens, at: int) -> Claim | None:
    tonic = _tonic_at(tokens, at)
    if tonic is None:
        return None
    key, ends = _key_from(tokens, tonic)
    if key is None or not tokens.ends_clean(ends) or tokens.word(ends) in {"7", "9", "="}:
        return None
    if tonic.name == "A" and tonic.is_small and not _is_no_article(tokens, at, key, ends):
        return None
    if _is_one_of_several(tokens, at, ends):
        return Claim(Part.KEY, at, ends)
    return Claim(Part.KEY, at, ends, (key,)) if key.tonic in (_MAJOR if key.mode == "major" else _MINOR) else None


def rows_of_keys(tokens: Tokens, keys: Sequence[Claim], found: Sequence[Claim]) -> list[tuple[int, int]]:
    """The places of keys and of all that stand in a row with them and are nothing else: "C, G and D major", "C F Bb Eb"."""
    within = {at for each in found if each.part is not Part.KEY for at in range(each.begins, each.ends)}
    rows: list[tuple[int, int]] = []
    begun = [(key.begins, key.ends) for key in keys]
    if tokens.area is Area.SCALES and not any(each.part is Part.KEY for each in found):
        begun = [(at, at + 1) for at in range(len(tokens.words)) if at not in within and _begins_row(tokens, at)]
    for begins, ends in begun:
        while begins > 0 and begins - 1 not in within and _is_in_a_row(tokens, begins - 1):
            begins -= 1
        while tokens.words[begins] in _IN_A_ROW:
            begins += 1
        while ends < len(tokens.words) and ends not in within and _is_in_a_row(tokens, ends):
            ends += 1
        while tokens.words[ends - 1] in _IN_A_ROW:
            ends -= 1
        if not rows or ends > rows[-1][1]:
            rows.append((begins, ends))
    return rows


def _begins_row(tokens: Tokens, at: int) -> bool:
    """Whether a tonic in capitals stands at a place, and another one right behind it."""
    behind = _past_accidental(tokens, at) or at + 1
    tonics = (at, behind) if behind < len(tokens.words) else ()
    return bool(tonics) and all(
        _LETTER.fullmatch(tokens.typed[each]) and tokens.typed[each][0].isupper() for each in tonics
    )


def _is_in_a_row(tokens: Tokens, at: int) -> bool:
    word = tokens.words[at]
    is_letter = _LETTER.fullmatch(tokens.typed[at]) is not None or (word == "m" and tokens.is_glued(at))
    return is_letter or word in _IN_A_ROW or word in _OF_KEYS


def _other_key_at(tokens: Tokens, at: int) -> Claim | None:
    """A key in German, French, or Spanish: `C-Dur`, `fis-Moll harmonisch`, `si bémol majeur`, `re menor`."""
    word, after = tokens.words[at], at + 1
    syllable = _SYLLABLES.get(word)
    if syllable is not None:
        sign = _SPOKEN_SIGNS.get(tokens.word(after), "")
        tonic, after = syllable + sign, after + bool(sign)
    elif (tonic := _LETTERS.get(word, "")) and tokens.word(after) == "-":
        after += 1
    mode = _OTHER_MODES.get(tokens.word(after)) if tonic else None
    if mode is None or (tokens.word(after) in {"dur", "moll"}) == (syllable is not None):
        return None
    kind = _OTHER_KINDS.get(tokens.word(after + 1)) if mode == "minor" else None
    ends = after + 2 if kind else after + 1
    if tokens.word(ends) == "-" and tokens.word(ends + 1) in _COMPOUNDS:
        ends += 2
    if not tokens.ends_clean(ends):
        return None
    is_known = tonic in (_MAJOR if mode == "major" else _MINOR) and not _is_one_of_others(tokens, at, ends)
    return Claim(Part.KEY, at, ends, (Key(tonic=tonic, mode=f"{kind} {mode}" if kind else mode),) if is_known else ())


def _is_one_of_others(tokens: Tokens, at: int, ends: int) -> bool:
    """Whether another tonic or key stands beside one: "C- und G-Dur", "ré et la majeur", "C-Dur, G-Dur"."""
    before = at - 3 if tokens.word(at - 2) == "-" else at - 2
    is_second = tokens.word(at - 1) in _OTHER_BETWEEN and tokens.word(before) in _LETTERS.keys() | _SYLLABLES.keys()
    behind = ends + 1
    is_first = (
        tokens.word(ends) in _OTHER_BETWEEN
        and behind < len(tokens.words)
        and (_other_key_at(tokens, behind) is not None or tokens.word(behind) in _OTHER_MODES)
    )
    return is_second or is_first


def read_octaves(tokens: Tokens, at: int) -> Claim | None:
    """`2 oct`, `2 8ve`, `two octaves`, `3-octave`."""
    count = tokens.amount(at, 1, _MOST_OCTAVES)
    after = at + 2 if tokens.word(at + 1) == "-" else at + 1
    if tokens.word(after) in _OCTAVES:
        ends = after + 1
    elif tokens.word(after) == "8" and tokens.word(after + 1) in {"ve", "ves"}:
        ends = after + 2
    else:
        return None
    past_dot = tokens.past_dot(ends)
    if count is None or not tokens.ends_clean(ends) or tokens.word(past_dot) in _HIGHER:
        return None
    return Claim(Part.OCTAVES, at, ends, (count,))


def read_hands(tokens: Tokens, at: int) -> Claim | None:
    """`HS`, `HT`, `LH`, `R.H.`, `hands together`, `left hand`, `both hands`."""
    found = _hands_at(tokens, at) if tokens.begins_clean(at) else None
    if found is None:
        return None
    hands, ends = found
    if not tokens.ends_clean(ends) or tokens.word(ends) in _OF_A_HAND:
        return None
    return Claim(Part.HANDS, at, ends, () if tokens.word(at - 1) in _NOT_YET else (hands,))


def _hands_at(tokens: Tokens, at: int) -> tuple[Hands, int] | None:
    word, after = tokens.words[at], tokens.word(at + 1)
    if hands := _INITIALS.get(word):
        return hands, at + 1
    if after == "." and tokens.word(at + 3) == "." and tokens.is_glued(at + 2):
        hands = _INITIALS.get(word + tokens.word(at + 2))
        return (hands, at + 4) if hands else None
    second = at + 2 if after == "-" else at + 1
    by_hand = {"hand": _BEFORE_HAND, "hands": _BEFORE_HANDS}.get(tokens.word(second), {})
    if hands := by_hand.get(word):
        return hands, second + 1
    hands = _HOW.get(after) if word == "hands" else None
    return (hands, at + 2) if hands else None


def _tonic_at(tokens: Tokens, at: int) -> _Tonic | None:
    """A letter with its accidental and what is glued to it: `C#m`, `Bb`, `Dmaj`, `F sharp`."""
    typed = tokens.typed[at]
    if typed[0].upper() not in "ABCDEFG" or len(typed) > len("Bbminor"):
        return None
    letter, rest, is_small, ends = typed[0].upper(), typed[1:], typed[0].islower(), at + 1
    if rest.startswith("b"):
        letter, rest = f"{letter}b", rest[1:]
    elif not rest and (after := _past_accidental(tokens, at)):
        letter += _ACCIDENTALS[tokens.words[after - 1]]
        is_mode_glued = tokens.is_glued(after) and tokens.word(after) in {"m", *_MODES}
        rest, ends = (tokens.typed[after], after + 1) if is_mode_glued else ("", after)
    mode = "minor" if rest == "m" and not is_small else _MODES.get(rest.lower())
    return _Tonic(letter, mode, at, ends, is_small) if mode or not rest else None


def _past_accidental(tokens: Tokens, at: int) -> int | None:
    after = at + 2 if tokens.word(at + 1) == "-" and tokens.word(at + 2) in {"sharp", "flat"} else at + 1
    sign = tokens.word(after)
    is_glued_sign = sign in {"#", "♯", "♭"} and tokens.is_glued(after)
    return after + 1 if is_glued_sign or sign in {"sharp", "flat"} else None


def _key_from(tokens: Tokens, tonic: _Tonic) -> tuple[Key | None, int]:
    """The key with its mode and the kind of minor, said before or behind it, and the place behind them."""
    kind, after = _kind_at(tokens, tonic.ends) if tonic.mode is None else (None, tonic.ends)
    mode = tonic.mode
    if mode is None:
        hyphen = after + 1 if tokens.word(after) == "-" and tokens.word(after + 1) in _MODES else after
        mode = _MODES.get(tokens.word(hyphen))
        ends = hyphen + 1 if mode else after
    else:
        ends = after
    if mode is None and kind is None:
        return (Key(tonic=tonic.name, mode="major"), ends) if _is_scale_alone(tokens, tonic) else (None, ends)
    if kind is None and mode == "minor":
        kind, behind = _kind_at(tokens, tokens.past_dot(ends))
        ends = ends if kind is None else behind
    is_minor = mode == "minor" or (mode is None and kind != "")
    if not is_minor and kind is not None:
        return None, ends
    return Key(tonic=tonic.name, mode=f"{kind or ''} minor".strip() if is_minor else "major"), ends


def _kind_at(tokens: Tokens, at: int) -> tuple[str | None, int]:
    kind = _KINDS.get(tokens.word(at))
    if kind is None:
        return None, at
    past_dot = tokens.past_dot(at + 1)
    return kind, past_dot if tokens.word(past_dot) in _MODES else at + 1


def _is_scale_alone(tokens: Tokens, tonic: _Tonic) -> bool:
    """Whether a capital letter without a mode is a scale: first in its line or behind a comma, nothing odd behind it."""
    is_between = tokens.word(tonic.begins - 1) in {"", ",", ";", "/", "&", "+", "and"}
    is_alone = tokens.area is Area.SCALES and not tonic.is_small and is_between and _is_plain(tokens, tonic.ends)
    return is_alone and not _names_another_scale(tokens)


def _names_another_scale(tokens: Tokens) -> bool:
    words = tokens.words
    if not _OTHER_SCALES.isdisjoint(words):
        return True
    pairs = pairwise(words)
    return any(
        (word == "min" and before == ",") or (word in {"tone", "tones"} and before in {"whole", "-"})
        for before, word in pairs
    )


def _is_plain(tokens: Tokens, after: int) -> bool:
    word = tokens.word(after)
    return not word.isalpha() or word in _OF_A_SCALE or word in SPELLED


def _is_no_article(tokens: Tokens, at: int, key: Key, ends: int) -> bool:
    """Whether a small "a" is the tonic: first in a line of scales, or a kind of minor behind it ("a min mel.")."""
    is_first = at == 0 or tokens.word(at - 1) in {",", ";"}
    is_kind_behind = tokens.word(ends - 1) in _KINDS and key.mode != "minor"
    return is_kind_behind or (is_first and tokens.area is Area.SCALES and _is_plain(tokens, ends))


def _is_one_of_several(tokens: Tokens, at: int, ends: int) -> bool:
    """Whether another tonic or mode stands beside a key: "D and G major", "D major, A", "D major/minor"."""
    before = tokens.word(at - 1) in _BETWEEN and _tonic_at(tokens, at - 2) is not None if at > 1 else False
    if before or _is_letter_of_a_row(tokens, at - 1) or _is_letter_of_a_row(tokens, ends):
        return True
    if tokens.word(ends) not in _BETWEEN or not tokens.word(ends + 1):
        return False
    if tokens.word(ends + 1) in _MODES or tokens.word(ends + 1) in _KINDS:
        return True
    beside = _tonic_at(tokens, ends + 1)
    return beside is not None and not beside.is_small


def _is_letter_of_a_row(tokens: Tokens, at: int) -> bool:
    """Whether a capital that may be a tonic stands at a place without a sign: "G D A major", "C G Am F".

    In "D major A string" it is none.
    """
    tonic = _tonic_at(tokens, at) if 0 <= at < len(tokens.words) else None
    if tonic is None or tonic.is_small:
        return False
    behind = tokens.word(tonic.ends)
    return not behind.isalpha() or behind in _MODES or _tonic_at(tokens, tonic.ends) is not None
