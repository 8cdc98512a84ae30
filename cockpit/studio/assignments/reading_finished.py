"""What a line says has been reached: "mm. 1-16 are great", "mm. 1-8 done!", "worked on p. 12", "HS is solid".

Good and easy say so only behind "are" or at the end of their clause: in "mm. 1-8 good tone" they ask for something.
"""

from cockpit.studio.assignments.reading_tokens import DASHES, ENDS_CLAUSE, Tokens, words_in

_DONE = words_in("done finished completed mastered learned learnt passed ✓ ✔ ✅ √")
_DID = words_in("did worked played covered heard knows had already") | _DONE
_GOOD = words_in(
    "great good fine perfect solid secure easy ok okay excellent super wonderful fluent comfortable ready memorized "
    "memorised lovely beautiful nice"
)
_COPULAS = words_in(
    "is are was were be been being sound sounds sounded sounding look looks looked feel feels felt going went s re"
)
_WELL = words_in("well better there")
_BETWEEN = _COPULAS | words_in(
    "now all already both very so really pretty quite mostly have has got it they that this you he she we i the ' ’ : - – —"
)
_MOVES_ON = ENDS_CLAUSE | DASHES | words_in("now next so and work already again :")
_WORK = words_in("job work progress practice practicing playing")
_LEADING = words_in("on in with at the your of through : we i you today all this") | DASHES


def finished_behind(tokens: Tokens, at: int, until: int) -> int | None:
    """The place behind the words that say what stands before them is reached; None where they do not."""
    is_aside = tokens.word(at) in {",", "("}
    at, is_said = at + is_aside, False
    while at < until and tokens.words[at] in _BETWEEN:
        is_said = is_said or tokens.words[at] in _COPULAS
        at += 1
    word, behind = tokens.word(at), tokens.word(at + 1)
    is_over = not behind or behind in (ENDS_CLAUSE if is_aside else _MOVES_ON)
    if at >= until:
        return None
    is_finished = (word in _DONE and (is_over or not is_aside)) or (
        (is_said and (word in _GOOD or word in _WELL)) or (word in _GOOD and is_over)
    )
    return at + 1 if is_finished else None


def finished_before(tokens: Tokens, at: int, stops: int) -> int | None:
    """The place of the word that says what stands behind it is reached: "finished", "great job on"."""
    while at >= stops and tokens.words[at] in _LEADING:
        at -= 1
    if at < stops:
        return None
    if tokens.words[at] in _DID:
        return at
    is_praised = tokens.words[at] in _WORK and at > stops and tokens.words[at - 1] in _GOOD
    return at - 1 if is_praised else None
