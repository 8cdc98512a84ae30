"""What looks like a label in a line that a family reads, and is none.

Its patterns take 8 ms to compile, and the first screen needs them only where notes are typed already: `NoteLine.no_label`
imports this module.
"""

import re
from functools import lru_cache

from cockpit.studio.notes.kept_back import COLON, bare_label, speaks_of_next_time
from cockpit.studio.notes.labels import NUMBER_BEHIND
from cockpit.studio.notes.spelling import folded, with_plain_signs, without_unseen

_LETTERS = r"[^\W\d_]+(?:(?:[\s\u00a0]?[&/+,][\s\u00a0]?|[\s\u00a0'-])[^\W\d_]+){0,5}"
_LOOKS = re.compile(
    rf"(?:^[\W_]*(?:[^\W_]{{1,3}}[.)][\W_]*)?|(?<=[.!?)-])\s+(?=[^\W\d_a-z]))(?P<words>{_LETTERS})(?P<number>{NUMBER_BEHIND}?)(?:\s?[(\[][^()\[\]]{{0,60}}[)\]])?"
    rf"\.?(?:\s?{COLON}(?=\s|$)|{COLON}(?=[^\W_]))"
)
# Behind a sign in the middle of a line a single word is one also in small letters: "Gavotte, mum: she is tired".
_ASIDE = re.compile(rf"(?:[,;|/(\[]\s*|\s-+\s+)(?P<words>[^\W\d_]{{2,}})\s?{COLON}(?=\s*[^\W\d])")
# "[P] she is tired": a line that begins with words in brackets.
_TAG = re.compile(rf"[^\w(\[]*(?P<tag>[(\[](?P<words>{_LETTERS})[)\]])\s*(?=\w)")
# A label that says who is not to read it may be long: "Not to be sent:", "ne pas dire aux parents :".
_NEGATIONS = frozenset(("no", "not", "never", "dont", "ne", "pas", "nicht", "nie", "kein", "keine", "nunca"))
# "Keep it to yourself:", "this stays between you and me:".
_KEPT = re.compile(
    r"\b(?:keep|kept|stays?)\b.*\b(?:yourself|yourselves|ourselves|us|me|between|private|secret|quiet|confidential|here)\b",
    re.IGNORECASE,
)
# Behind a dash the name of somebody, or of money, is a label too: "Mum - owes 40", "Ilse's dad – called".
_ABOUT = re.compile(
    r"^[\W_]*(?P<words>(?:[^\W\d_]+(?:'s)?\s){0,2}(?:mum|mom|mama|mummy|mommy|mother|mutter|maman|mère|madre|dad|daddy|papa|father|vater|père|"
    r"padre|parents?|eltern|padres|grandma|gran|nana|granny|grandpa|oma|opa|abuela|guardian|nanny|step-?(?:mum|mom|dad|mother|father)|"
    r"sister|brother|fees?|invoices?|payments?|paid|unpaid|bill|billing|money|owed|owes|admin|health|me|her|him)"
    r"\s?-+)\s",
    re.IGNORECASE,
)
_BETWEEN_WORDS = re.compile(r"[\s&/+,]+")
_MOST_WORDS, _LONGEST = 3, 25
# Theory at hand begins so (`studio/theory/`), and is no try to keep words back; prose in braces is told of.
_THEORY = re.compile(
    r"""\s*\{\s*(?:
      (?:rhythm|takadimi|count|chords?|interval|key|circle|chromatic|whole|keyboard|open|concert|written)[ ]
      | (?:perfect|major|minor|augmented|diminished)[ ]\w+[ ](?:above|below)[ ]
      | [A-G](?:[#b♯♭]|[ ]sharp|[ ]flat)?[ ](?:major|maj|minor|min|natural|harmonic|melodic|dorian|phrygian|lydian|mixolydian|locrian|blues
        |whole|pentatonic|dom7)\b
      | [A-G][^\s{}]*(?:[ ][A-G][#b♯♭]?)?\s*\}
    )""",
    re.IGNORECASE | re.VERBOSE,
)


@lru_cache(maxsize=2000)  # of all lines one changes at a key
def no_label(typed: str, begins: int, *, is_assigned: bool) -> str | None:
    """What looks like a label in a line that a family reads, behind its own, and is none: `Mum:`, `Private` without a colon, `//`.

    A label has three words at the most, or a negation, or speaks of the next time; it begins the line, or stands with a
    capital behind the end of a sentence. One word is one behind any sign, and words in brackets that begin a line.
    """
    word = bare_label(typed[begins:], is_assigned=is_assigned)
    if word is not None and not (word == "{" and _THEORY.match(typed, begins)):
        return word
    seen, _ = without_unseen(typed)
    line = with_plain_signs(seen)
    for found in _LOOKS.finditer(line):
        words = found["words"]
        is_of_music = bool(found["number"]) and is_assigned  # "Piece: Gavotte. Page 5: slowly"
        is_one = _is_short(words) or speaks_of_next_time(words) or _is_forbidding(words)
        if found.start("words") >= begins and not is_of_music and is_one:
            return f"{seen[found.start('words') : found.end('number')]}:"
    if not begins and (about := _ABOUT.match(line)):
        return seen[slice(*about.span("words"))]
    if not begins and (tag := _TAG.match(line)) and _is_short(tag["words"]):
        return seen[slice(*tag.span("tag"))]
    return f"{aside['words']}:" if (aside := _ASIDE.search(line, begins)) else None


def _is_short(words: str) -> bool:
    return len(words) <= _LONGEST and len(_BETWEEN_WORDS.split(words)) <= _MOST_WORDS


def _is_forbidding(words: str) -> bool:
    return _KEPT.search(words) is not None or not _NEGATIONS.isdisjoint(map(folded, words.split()))
