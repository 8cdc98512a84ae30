"""Measures, pages, numbers and opus numbers in a line: `mm. 17-32`, `pp. 12-13`, `no. 5`, `op. 59/2`.

A range is completed when its end is elided as style guides have it (117-24, 323-25, 101-7, from 100 on). One that
goes down is not claimed, nor is a list with such a range in it.
"""

from typing import NamedTuple

from cockpit.studio.assignments import tempo
from cockpit.studio.assignments.assignment import Measures, Pages, Part
from cockpit.studio.assignments.tokens import ARTICLES, DASHES, SPELLED, Claim, Tokens, words_in
from cockpit.studio.notes.notes import Area

_MEASURE = {"m": False, "mm": True, "b": False, "bb": True} | {
    word: word.endswith("s") for word in ("bar", "bars", "measure", "measures", "meas", "ms")
}
# The same in German, French and Spanish.
_MEASURE |= {"takt": False, "takte": True, "takten": True, "mes": True, "mesure": False, "mesures": True} | {
    "compás": False, "compas": False, "compases": True,
}  # fmt: skip
_PAGE = {"p": False, "pp": True, "pg": False, "pgs": True, "page": False, "pages": True}
_NUMBER = {"no": False, "nr": False, "number": False, "№": False} | dict.fromkeys(
    ("nos", "numbers", "#", "ex", "exs", "exercise", "exercises"), True
)
_EXERCISE = frozenset({"ex", "exs", "exercise", "exercises"})
_OPUS = {"op": "op.", "opus": "op.", "bwv": "BWV", "hwv": "HWV", "k": "K.", "kv": "KV", "rv": "RV", "woo": "WoO"}
COUNTED_IN_LETTERS = frozenset(word for word in {**_MEASURE, **_PAGE} if len(word) > len("pgs"))
MEASURE_WORDS, PAGE_WORDS, NUMBER_WORDS, OPUS_WORDS = (
    frozenset(_MEASURE), frozenset(_PAGE), frozenset({*_NUMBER, "/"}), frozenset(_OPUS),
)  # fmt: skip
# m3, p5 and #5 are a minor third, a perfect and a raised fifth where these are spoken of.
_INTERVALS = frozenset({Area.THEORY, Area.EAR, Area.SCALES, Area.TECHNIQUE})
_WIDEST_INTERVAL, _WIDEST_PERFECT = 13, 8
_LEFT_OUT = frozenset({"except", "without", "omit", "skip", "not", "minus", "but"})
_BESIDE = frozenset({"until", "till", "before", "after"})
# "The slur at m. 9", "pickup to m. 9", "from m. 9": where something is or begins, not what is to be played.
_POINTED_AT = _BESIDE | {"to", "from", "at", "by", "since", "past", "into", "near"}
# "Rit. in m. 32", "trill at m. 5", "careful near mm. 9-12": named in passing.
_IN_PASSING = _BESIDE | {"in", "at", "near", "around"}
_WHOLE, _OF_THE_WHOLE = (
    frozenset({"whole", "entire", "all"}),
    frozenset({"piece", "thing", "song", "movement", "way", "it"}),
)
_THROUGH = frozenset({"through", "thru"})
_ON = frozenset({"on", "onward", "onwards", "forward"})
_UNTIL = frozenset({"until", "till"})
# "Coda - m. 60" goes from where nobody knows.
_SECTIONS = words_in(
    "coda trio bridge verse chorus refrain theme development exposition recapitulation reprise cadenza repeat section"
)
BEGINNING_WORDS = words_in(
    "opening intro introduction beginning start top anfang beginn début debut principio comienzo"
)
_END, _TO_THE, _OF = words_in("end ende schluss fin"), ARTICLES | {"zum"}, words_in("of de der du des")
# "T. 33 ff." goes on, and "m. 33 ff" is loud there.
_FOLLOWING = frozenset({"f", "ff"})
_OPENS, _CLOSES = frozenset("(["), frozenset(")]")
_AND = frozenset({",", ";", "&", "+", "and", "then"})
_LAST_MEASURE, _LAST_PAGE = 9999, 999


class _Range(NamedTuple):
    first: int
    last: int | None
    ends: int

    @property
    def is_single(self) -> bool:
        return self.first == self.last


def read_measures(tokens: Tokens, at: int) -> Claim | None:
    """`m. 5`, `mm. 1-8, 17-24`, `bars 117-24`, `m. 32 to end`."""
    begins = _after_measure_word(tokens, at)
    if not begins:
        return None
    is_plural = _MEASURE[tokens.words[at]]
    ranges = (_slashed(tokens, begins) if is_plural else None) or _list_at(tokens, begins, is_plural, _LAST_MEASURE)
    if not ranges:
        return None
    before = tokens.word(at - 2) if tokens.word(at - 1) == "the" else tokens.word(at - 1)
    is_up_to = tokens.is_spaced_dash(at - 1) and tokens.word(at - 2) in _SECTIONS and ranges[0].is_single
    if before in _LEFT_OUT or is_up_to:
        return Claim(Part.MEASURES, at, ranges[-1].ends)
    ranges = _opened(tokens, ranges, before)
    is_pointed_at = all(each.is_single for each in ranges) and before in _POINTED_AT
    if is_pointed_at or before in _IN_PASSING or _is_aside(tokens, at, ranges[-1].ends) or _is_of_the_whole(tokens, at):
        return None
    values = tuple(Measures(first=each.first, last=each.last) for each in ranges)
    return Claim(Part.MEASURES, at, ranges[-1].ends, values)


def read_from_beginning(tokens: Tokens, at: int) -> Claim | None:
    """`opening - m. 33`, `from the top to m. 16`: from the first measure on. With a capital, first in a line, it is a title."""
    through = tokens.past_range_sign(at + 1) or _past_until(tokens, at + 1)
    if through is None or not tokens.begins_clean(at) or (at == 0 and tokens.is_capital(at)):
        return None
    word = through + 1 if tokens.word(through) in _TO_THE else through
    begins = _after_measure_word(tokens, word) if tokens.word(word) in _MEASURE else None
    ranges = _list_at(tokens, begins, is_plural=True, limit=_LAST_MEASURE) if begins else None
    if not ranges or not ranges[0].is_single:
        return None
    values = tuple(Measures(first=each.first if place else 1, last=each.last) for place, each in enumerate(ranges))
    return Claim(Part.MEASURES, at, ranges[-1].ends, values)


def read_following(tokens: Tokens, at: int) -> Claim | None:
    """`45ff` without a word before it: from measure 45 on."""
    before = tokens.word(at - 2) if tokens.word(at - 1) == "." else tokens.word(at - 1)
    is_counted = before in _MEASURE or before in _PAGE or before in _NUMBER or before in _OPUS
    found = _range_at(tokens, at, _LAST_MEASURE) if tokens.begins_clean(at) and not is_counted else None
    if found is None or found.last is not None or tokens.typed[at + 1] != "ff":
        return None
    return Claim(Part.MEASURES, at, found.ends, (Measures(first=found.first, last=None),))


def _opened(tokens: Tokens, ranges: list[_Range], before: str) -> list[_Range]:
    """One measure as a range where words make it one: "from m. 50 on", "m. 50 onward", "through m. 16"."""
    only = ranges[0]
    if len(ranges) > 1 or not only.is_single:
        return ranges
    if before == "ab":  # "ab Takt 33" is to the end
        return [_Range(only.first, None, only.ends)]
    ends = only.ends + (tokens.word(only.ends) in _AND and tokens.word(only.ends + 1) in _ON)
    behind = tokens.word(ends)
    if behind in _ON and (before == "from" or behind != "on" or ends > only.ends):
        return [_Range(only.first, None, ends + 1)]
    return [_Range(1, only.first, only.ends)] if before in _THROUGH else ranges


def _slashed(tokens: Tokens, at: int) -> list[_Range] | None:
    """`1/3/5`: measures one by one; two with a stroke between them may be a fraction or a date."""
    ends, found = at, [tokens.number(at, 1, _LAST_MEASURE)]
    while tokens.word(ends + 1) == "/" and tokens.is_glued(ends + 1) and tokens.is_glued(ends + 2):
        ends += 2
        found.append(tokens.number(ends, 1, _LAST_MEASURE))
    numbers = [number for number in found if number is not None]
    is_list = len(found) > 2 and numbers == sorted(set(numbers)) and len(numbers) == len(found)
    return [_Range(each, each, ends + 1) for each in numbers] if is_list and tokens.ends_clean(ends + 1) else None


def _is_aside(tokens: Tokens, at: int, ends: int) -> bool:
    """Whether measures stand within brackets with other words: "(m. 7: 4th finger)", and not "(mm. 17-32)"."""
    if tokens.word(at - 1) in _OPENS and tokens.word(ends) in _CLOSES:
        return False
    depth = 0
    for word in tokens.words[:at]:
        depth += (word in _OPENS) - (word in _CLOSES)
    return depth > 0


def _is_of_the_whole(tokens: Tokens, at: int) -> bool:
    """Whether a line asks for all of a piece, so that a measure in it is only spoken of: "whole piece, m. 32 slow"."""
    for place, word in enumerate(tokens.words):
        behind = tokens.word(place + 1)
        of_it = behind == "of" and tokens.word(place + 2) == "it"
        if word in _WHOLE and place + 1 != at and (behind in _OF_THE_WHOLE or not behind.isalnum() or of_it):
            return True
        if word in {"play", "run", "straight"} and behind in _THROUGH and at != place + 2:
            return True
    return False


def read_pages(tokens: Tokens, at: int) -> Claim | None:
    """`p. 12`, `p12`, `pp. 12-13`, `pages 12, 15`. A p or pp alone is a dynamic, and so it may be in "p 12"."""
    after = tokens.past_dot(at + 1)
    word, typed = tokens.words[at], tokens.typed[at]
    if word in {"p", "pp"} and after == at + 1:
        is_glued = tokens.is_glued(after) and typed.islower() and not _is_interval(tokens, after, _WIDEST_PERFECT)
        if not is_glued and not (typed == "pp" and tokens.past_range_sign(after + 1)):
            return None
    ranges = _list_at(tokens, after, _PAGE[word], _LAST_PAGE) if tokens.begins_clean(at) else None
    if not ranges or (ranges[-1].is_single and _is_one_end_of_pages(tokens, at, ranges[-1].ends)):
        return None
    values = tuple(Pages(first=each.first, last=each.last) for each in ranges if each.last is not None)
    return Claim(Part.PAGES, at, ranges[-1].ends, values) if len(values) == len(ranges) else None


def _is_one_end_of_pages(tokens: Tokens, at: int, ends: int) -> bool:
    """Whether others go on from a page, or up to it: "from p. 8 on", "up to p. 12"."""
    before, behind = tokens.word(at - 1), tokens.word(ends)
    is_up_to = before == "to" and tokens.word(at - 2) == "up"
    is_on = behind in _ON and (behind != "on" or tokens.ends_clause(ends + 1))
    is_and_on = behind in _AND and tokens.word(ends + 1) in _ON
    return is_up_to or before in _BESIDE or is_on or is_and_on or _past_until(tokens, ends) is not None


def read_number(tokens: Tokens, at: int) -> Claim | None:
    """`no. 5`, `#5`, `nos. 5-7`, `ex. 3`, `no. 12b`; behind an opus its number too, `/2` or `no. 2`."""
    word = tokens.words[at]
    if word == "/":
        return _number_of_opus(tokens, at)
    after = tokens.past_dot(at + 1)
    if not _is_number_word(tokens, at, after):
        return None
    lettered = _with_letter(tokens, after)
    if lettered:
        return Claim(Part.NUMBER, at, after + 2, (_numbered(word, lettered),))
    ranges = _list_at(tokens, after, is_plural=True, limit=_LAST_MEASURE)
    if not ranges or (len(ranges) > 1 and not _NUMBER[word]) or ranges[-1].last is None:
        return None
    text = ", ".join(str(each.first) if each.is_single else f"{each.first}-{each.last}" for each in ranges)
    return Claim(Part.NUMBER, at, ranges[-1].ends, (_numbered(word, text),))


def read_opus(tokens: Tokens, at: int) -> Claim | None:
    """`Op. 27`, `BWV 846`, `BWV Anh. 114`, `K. 331`."""
    word, after = tokens.words[at], tokens.past_dot(at + 1)
    name = _OPUS[word]
    if word == "bwv" and tokens.word(after) == "anh":
        after, name = tokens.past_dot(after + 1), "BWV Anh."
    is_loose = word == "k" and (tokens.typed[at] != "K" or (after == at + 1 and not tokens.is_glued(after)))
    if is_loose or not tokens.begins_clean(at) or tokens.number(after, 1, _LAST_MEASURE) is None:
        return None
    if lettered := _with_letter(tokens, after):
        return Claim(Part.OPUS, at, after + 2, (f"{name} {lettered}",))
    is_counted = tokens.counts_something(after + 1) or not (
        tokens.ends_clean(after + 1) or _is_stroke(tokens, after + 1)
    )
    return None if is_counted else Claim(Part.OPUS, at, after + 1, (f"{name} {int(tokens.words[after])}",))


def _number_of_opus(tokens: Tokens, at: int) -> Claim | None:
    head = at - 3 if tokens.word(at - 2) == "." else at - 2
    if tokens.word(head) not in _OPUS or not _is_stroke(tokens, at) or not tokens.ends_clean(at + 2):
        return None
    number = tokens.number(at + 1, 1, _LAST_PAGE)
    return Claim(Part.NUMBER, at, at + 2, (str(number),)) if number is not None else None


def _is_stroke(tokens: Tokens, at: int) -> bool:
    return tokens.word(at) == "/" and tokens.is_glued(at) and tokens.is_glued(at + 1) and tokens.word(at + 1).isdigit()


def _is_number_word(tokens: Tokens, at: int, after: int) -> bool:
    word, is_clean = tokens.words[at], tokens.begins_clean(at)
    if word == "#":  # C7(#5) speaks of a chord though a bracket opens before it
        return is_clean and not tokens.is_glued(at) and not _is_interval(tokens, after)
    is_number = word not in {"no", "nr"} or after > at + 1
    return is_clean and (is_number or (tokens.is_capital(at) and not tokens.counts_something(at + 2)))


def _numbered(word: str, number: str) -> str:
    return f"ex. {number}" if word in _EXERCISE else number


def _with_letter(tokens: Tokens, at: int) -> str | None:
    """A number with a letter behind it: `12b`, `846a`."""
    letter = tokens.word(at + 1)
    is_letter = tokens.is_glued(at + 1) and len(letter) == 1 and "a" <= letter <= "d" and tokens.ends_clean(at + 2)
    number = tokens.number(at, 1, _LAST_MEASURE)
    return f"{number}{letter}" if is_letter and number is not None else None


def _is_interval(tokens: Tokens, at: int, widest: int = _WIDEST_INTERVAL) -> bool:
    return tokens.area in _INTERVALS and tokens.number(at, 1, widest) is not None


def _after_measure_word(tokens: Tokens, at: int) -> int | None:
    """The place behind a word for measures, or None where it may mean something else.

    "MM 72" is a tempo, M may be Monday, b a flat and bb B-flat minor.
    """
    typed, after = tokens.typed[at], tokens.past_dot(at + 1)
    is_dotted = after > at + 1
    match typed:
        case "m":
            is_word = is_dotted or not (tokens.is_glued(after) and _is_interval(tokens, after))
        case "M" | "b" | "bb":
            is_word = is_dotted
        case "MM" | "mM" | "B" | "BB" | "Bb" | "bB":
            is_word = False
        case _:
            is_word = True
    return after if is_word and tokens.begins_clean(at) else None


def _list_at(tokens: Tokens, at: int, is_plural: bool, limit: int) -> list[_Range] | None:  # noqa: FBT001 the word's
    """The ranges from a place on: `1-8, 17-24`. None where one of them is not clear."""
    first = _range_at(tokens, at, limit)
    ranges = [first] if first and not tokens.counts_something(first.ends) else []
    while ranges and (begins := _after_and(tokens, ranges[-1].ends)):
        if tokens.is_arrow(begins + 1):  # 60 -> 92 is a tempo
            break
        found = _range_at(tokens, begins, limit)
        if found is None or tokens.counts_something(found.ends):
            return ranges if _is_something_else(tokens, begins) else None
        is_second_of_plural = is_plural and len(ranges) == 1 and ranges[0].is_single
        if found.is_single and not is_second_of_plural and not tokens.goes_on(found.ends):
            break
        ranges.append(found)
    return ranges or None


def _after_and(tokens: Tokens, at: int) -> int | None:
    """The place of a number behind a comma, an and, or both."""
    after = at
    while after < at + 2 and tokens.word(after) in _AND:
        after += 1
    is_number = tokens.word(after).isdigit() or (tokens.word(after) in SPELLED and tokens.word(at - 1) in SPELLED)
    return after if after > at and is_number else None


def _is_something_else(tokens: Tokens, at: int) -> bool:
    """Whether a number behind a list is no part of it: 5 min, 3-4 times, 12/3, 2nd ending."""
    sign = tokens.past_range_sign(at + 1)
    after = at + 1 if sign is None else sign + 1
    return tokens.counts_something(after) or (
        tokens.is_glued(after) and tokens.word(after) not in DASHES | {","} and sign is None
    )


def _range_at(tokens: Tokens, at: int, limit: int) -> _Range | None:
    first = _number_at(tokens, at, limit)
    second = tokens.past_range_sign(at + 1) or _past_until(tokens, at + 1)
    if first is None or (
        tokens.typed[at + 1 : at + 2] and tokens.typed[at + 1] in _FOLLOWING and not tokens.is_glued(at + 1)
    ):
        return None
    if second is None and tokens.word(at + 1) == "ff" and tokens.is_glued(at + 1) and tokens.ends_clean(at + 2):
        return _Range(first, None, tokens.past_dot(at + 2))
    if second is None:
        return _Range(first, first, at + 1) if tokens.ends_clean(at + 1) and tokens.word(at + 1) != "beat" else None
    if tokens.word(second) in _MEASURE or tokens.word(second) in _PAGE or tokens.word(second) in _NUMBER:
        second = tokens.past_dot(second + 1)
    end = second + 1 if tokens.word(second) in _TO_THE else second
    is_end = tokens.word(end) in _END or (tokens.word(end) == "final" and end > second)  # "hasta el final"
    if is_end:  # the end of a line or a page is not the piece's
        return _Range(first, None, end + 1) if tokens.word(end + 1) not in _OF else None
    last = _completed(first, str(SPELLED.get(tokens.word(second), tokens.word(second))), limit)
    if last is not None and tokens.ends_clean(second + 1):
        return _Range(first, last, second + 1)
    is_aside = tokens.is_spaced_dash(at + 1) and not tokens.word(at + 2).isdigit()
    return _Range(first, first, at + 1) if is_aside else None


def _number_at(tokens: Tokens, at: int, limit: int) -> int | None:
    """A number in digits, or in letters behind "measures" and in a list of such: "measures one, two and five"."""
    if tokens.word(at) not in SPELLED:
        return tokens.number(at, 1, limit)
    through = tokens.past_range_sign(at + 1)
    ends = at + 1 if through is None else through + 1
    is_first = tokens.word(at - 1) in _MEASURE and len(tokens.word(at - 1)) > len("mm")
    is_another = _is_spelled_list(tokens, at) and (tokens.ends_clause(ends) or tokens.word(ends) in _AND)
    return SPELLED[tokens.word(at)] if is_another or (is_first and tokens.goes_on(ends)) else None


def _is_spelled_list(tokens: Tokens, at: int) -> bool:
    before = at - 1
    while tokens.word(before) in _AND:
        before -= 1
    return before < at - 1 and tokens.word(before) in SPELLED


def _past_until(tokens: Tokens, at: int) -> int | None:
    """The place behind "until", or behind "up to" where no tempo follows that."""
    if tokens.word(at) in _UNTIL:
        return at + 1
    is_up_to = tokens.word(at) == "up" and tokens.word(at + 1) == "to"
    return (
        at + 2
        if is_up_to and tokens.word(at + 2) not in tempo.BEAT_WORDS and not tokens.word(at + 2).isdigit()
        else None
    )


def _completed(first: int, typed: str, limit: int) -> int | None:
    """The end of a range, completed where it is elided; None where it does not lie behind its beginning."""
    if not typed.isascii() or not typed.isdigit() or len(typed) > len(str(limit)):
        return None
    beginning = str(first)
    is_elided = len(typed) < len(beginning) and first >= 100
    last = int(beginning[: -len(typed)] + typed) if is_elided else int(typed)
    return last if first <= last <= limit else None
