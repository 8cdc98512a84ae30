"""Which measures of a line are its passage, and which it only names in passing: "Gavotte, fix m. 5", "m. 12 has a C natural".

One rule: measures are the passage where nothing stands before them in their clause but words that say to play them or which
part of the piece they are; a title may stand before the first. A single measure is a passage less often than several, so
that a word behind a title ("Gavotte crescendo m. 5") or a verb behind it makes it one in passing. Where the rule is wrong, nothing
is claimed, and the measures are named as not read. Practice days follow the rule too, but in the clause of a title: "Gavotte,
grandma visits Sat and Sun" asks for all days.
"""

from collections.abc import Sequence

from cockpit.studio.assignments.assignment import Measures, Part
from cockpit.studio.assignments.measures import MEASURE_WORDS
from cockpit.studio.assignments.tokens import ARTICLES, DASHES, ENDS_CLAUSE, JOINERS, SPELLED, Claim, Tokens, words_in

# Common practice, no source: what is said before the measures that are asked for, in four languages.
_PLAY = words_in(
    "play practice practise practicing practising work rehearse learn memorize memorise repeat loop drill review polish isolate "
    "study read start begin continue finish do go keep add try please spend focus üben spielen lernen wiederholen ab jouer travailler apprendre "
    "répéter tocar practicar estudiar repetir"
)
_PART = words_in(
    "section sections part parts passage passages spot spots phrase phrases line lines theme variation var verse chorus refrain bridge "
    "coda intro introduction ending exposition development recapitulation trio minore maggiore measures bars first second third last "
    "new old middle beginning opening end whole entire all both half page"
)
_HOW = words_in(
    "only just now also again next then up down through thru out at be so hs ht lh rh hands hand slow fast loud soft legato staccato "
    "pizz arco together separately apart alone nur jetzt noch seulement encore solo ahora"
)
_ALLOWED = _PLAY | _PART | _HOW | ARTICLES | JOINERS | frozenset(SPELLED)
_BEFORE_DAYS = words_in("every each this week day days minutes min with it")
_DAYS_OF_A_WEEK = 7
# "Especially m. 5" stresses one measure of all.
_STRESSING = words_in("especially particularly mainly mostly notably chiefly primarily")
_CONDITIONS = words_in("if when where whenever wherever unless like see watch")
_BESIDE = words_in("with within during as than like")
_AND = frozenset({",", "&", "+", "and"})
_IN_A_LIST = _AND | DASHES | {"."}
_VERBS = words_in("is was has have had can could may might must should will would does did gets got were are")
_NO_VERBS = words_in("hands always as plus twice times this his sempre perhaps")
_SHORTEST_VERB = 4


def without_passing(tokens: Tokens, found: Sequence[Claim]) -> list[Claim]:
    """The same without the measures and the days that are only named."""
    if not any(each.part in {Part.MEASURES, Part.DAYS} for each in found):
        return list(found)
    within = {at for each in found for at in range(each.begins, each.ends)}
    kept: list[Claim] = []
    behind = 0  # the last passage, behind which no title stands
    for each in found:
        if each.part is Part.DAYS and not each.is_denied and _are_days_of_something_else(tokens, each, within):
            continue
        is_passage = each.part is not Part.MEASURES or each.is_denied or not each.values
        is_passing = _is_in_passing(tokens, each, within, behind) if not is_passage else False
        if is_passage or not (is_passing or _goes_on_from_passing(tokens, each, kept)):
            kept.append(each)
            behind = each.ends if each.part is Part.MEASURES and not is_passage else behind
    return kept


def _is_in_passing(tokens: Tokens, measures: Claim, within: set[int], behind_others: int) -> bool:
    is_single = all(isinstance(each, Measures) and each.first == each.last for each in measures.values)
    if _is_spoken_of(tokens, measures.ends, is_single=is_single) and measures.ends not in within:
        return True
    begins = max(_clause_begin(tokens, measures.begins, within), behind_others)
    before = [at for at in range(begins, measures.begins) if at not in within and tokens.words[at].isalpha()]
    if not before:
        return False
    if tokens.words[before[-1]] in _BESIDE or any(
        tokens.words[at] in _CONDITIONS and tokens.typed[at].islower() for at in before
    ):
        return True
    behind = _behind_title(tokens, before, is_first=begins == 0, is_single=is_single)
    return any(not _is_allowed(tokens.words[at]) for at in behind)


def _are_days_of_something_else(tokens: Tokens, days: Claim, within: set[int]) -> bool:
    """Whether words that do not say to play stand before some days in their clause; that of a title may be anything."""
    begins = _clause_begin(tokens, days.begins, within)
    words = (tokens.words[at] for at in range(begins, days.begins) if at not in within and tokens.words[at].isalpha())
    is_of_some = 0 < len(days.values) < _DAYS_OF_A_WEEK
    is_of_another = tokens.word(begins - 1) not in {"", "but", "then"}
    return is_of_another and is_of_some and any(word not in _BEFORE_DAYS and not _is_allowed(word) for word in words)


def _goes_on_from_passing(tokens: Tokens, measures: Claim, kept: Sequence[Claim]) -> bool:
    """Whether measures go on a list that began in passing: the second ones of "lift in m. 5, m. 9"."""
    at = measures.begins - 1
    if tokens.word(at) not in _AND:
        return False
    while at >= 0 and (tokens.words[at].isdigit() or tokens.words[at] in _IN_A_LIST):
        at -= 1
    is_claimed = any(each.begins <= at < each.ends for each in kept)
    return at >= 0 and tokens.words[at] in MEASURE_WORDS and not is_claimed


def _behind_title(tokens: Tokens, before: list[int], *, is_first: bool, is_single: bool) -> list[int]:
    """The words of a clause that are none of a title: those behind its last capital, and none before several measures."""
    if is_first and not is_single:
        return []
    if not is_first and is_single:
        return before
    capitals = [at for at in before if not tokens.typed[at].islower()]
    title = capitals[-1] if capitals else before[0] if is_first else -1
    return [at for at in before if at > title]


def _is_allowed(word: str) -> bool:
    return word in _ALLOWED or (word.endswith("ly") and word not in _STRESSING)


def _is_spoken_of(tokens: Tokens, behind: int, *, is_single: bool) -> bool:
    """Whether a verb follows that makes measures what a sentence speaks of: "m. 12 starts on an up-bow", "mm. 5-6 have ties"."""
    word = tokens.word(behind)
    if is_single and word == ":":  # "m. 5: F sharp"
        return True
    if not is_single or not word.isalpha() or not tokens.typed[behind].islower():
        return word in {"has", "have", "had"}
    is_third_person = len(word) >= _SHORTEST_VERB and word.endswith("s") and not word.endswith(("ss", "us"))
    return word in _VERBS or (is_third_person and word not in _NO_VERBS)


def _clause_begin(tokens: Tokens, ends: int, within: set[int]) -> int:
    """The place behind the last sign that ends a clause; a dot behind a small word shortens it: "cresc. m. 5"."""
    for at in range(ends - 1, -1, -1):
        word = tokens.words[at]
        is_short_form = word == "." and tokens.is_glued(at) and tokens.typed[at - 1].islower()
        is_end = word in ENDS_CLAUSE or word == ":" or tokens.is_spaced_dash(at)
        if is_end and not is_short_form and at not in within:
            return at + 1
    return 0
