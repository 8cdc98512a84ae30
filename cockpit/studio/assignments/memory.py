"""By heart in a line: `by heart`, `from memory`, `memorized`, `w/o music`, `auswendig`; it is no part of a title."""

from cockpit.studio.assignments.assignment import Part
from cockpit.studio.assignments.tokens import Claim, Tokens, words_in

# Common practice, no source. The longer one first, where one begins another.
_PHRASES = tuple(
    tuple(phrase.split())
    for phrase in (
        "by heart", "by memory", "from memory", "off by heart", "memorized", "memorised", "memorize", "memorise", "memorizing", "memory",
        "without music", "without the music", "without score", "no music", "off book",
        "auswendig", "aus dem kopf", "par cœur", "par coeur", "de mémoire", "sans partition", "de memoria", "sin partitura",
    )
)  # fmt: skip
_BY_LENGTH = tuple(sorted(_PHRASES, key=len, reverse=True))
MEMORY_WORDS = frozenset(phrase[0] for phrase in _PHRASES)
_DONE_BEFORE = words_in("is are was were s re already now got has have nearly almost")
# "Memory Lane", "memory stick", "memory game": a name goes on behind it.
_GOES_ON = frozenset({"lane", "stick", "game", "card", "of", "slip", "slips", "palace"})


def read_memory(tokens: Tokens, at: int) -> Claim | None:
    """`by heart`, `from memory`, `memorized`."""
    for phrase in _BY_LENGTH:
        ends = at + len(phrase)
        if tuple(tokens.words[at:ends]) == phrase:
            break
    else:
        return None
    is_asked = tokens.begins_clean(at) and tokens.ends_clean(ends)
    is_done = tokens.word(at - 1) in _DONE_BEFORE  # "mm. 1-8 are memorized" asks for nothing
    is_name = tokens.word(ends) in _GOES_ON and phrase == ("memory",)
    return Claim(Part.BY_HEART, at, ends, (1,)) if is_asked and not is_name and not is_done else None
