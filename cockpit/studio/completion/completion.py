"""The rest of the line that is being typed, as far as it can be told from what was typed before.

A proposal is for the end of a line; it never changes what was typed, and whoever types on is not hindered. It goes as
far as it is sure, so that the whole of it can be taken. Lines that are kept from the family are completed from their
like, of this student only, and only once their label stands.
"""

import re
from collections import Counter
from collections.abc import Sequence

from cockpit.studio.completion.memory import Memory
from cockpit.studio.completion.ngrams import known, likely
from cockpit.studio.completion.places import LinePlace, Topics, base_words, further, tokens_at
from cockpit.studio.completion.tokens import (
    END,
    START,
    LineOpening,
    opening_contexts,
    opening_of,
    shape_of,
    tokens_of,
    word_of,
)
from cockpit.studio.notes.vocabulary import Labels
from cockpit.studio.values import Value

_LINES_ABOVE, _TAIL, _LONGEST_WHOLE, _LONGEST_FIRST = 40, 64, 200, 24
_LEAST_LIKELY = 0.5  # shown only where it is likelier right than wrong: tests/bench/keystrokes.py has the curve
_USED_UP = 0.03
# A capital behind the end of a sentence begins one, as a line does: "mm. 8" and "op. 3" do not.
_SENTENCE = re.compile(r"[.!?]+ +(?=[A-Z][^\W\d_]*\Z)")
_BREAK = re.compile(r"[\n\r\x0b\x0c\x1c-\x1e\x85\u2028\u2029]")
_NEXT_WORD = re.compile(r"\s*(?:[^\s,;!?]+?(?:\s|(?=[,;!?])|(?=\.\Z)|\Z)|\S+\s?)")
_LAST_WORD = re.compile(r"[^\W_]+\Z")
_REMARK = LineOpening()
_DAYS = frozenset(("mon", "tue", "wed", "thu", "fri", "sat", "sun"))


class _Above(Value):
    """What the lines above say about this one: the opening before it, the labels and topics that were there."""

    last: LineOpening
    labels: Counter[str]
    topics: Topics


def ghost(memory: Memory, lines_above: Sequence[str], line: str) -> str:
    """What is proposed behind a line of which the cursor is at the end; "" where nothing is likely enough."""
    if _BREAK.search(line):
        return ""
    above = _above(lines_above, memory.labels)
    opening = opening_of(line, memory.labels)
    if not opening.label and len(line) <= _LONGEST_FIRST and len(tokens_of(line)) <= 2:
        first = _first_token(memory, above, line)
        if first:
            return first.removesuffix(END)
    rest = _rest(memory, above, opening, line).removesuffix(END)
    return f" {rest}" if rest and opening.typed == line and line.endswith(":") else rest


def next_word(proposal: str) -> str:
    """The part of a proposal that one key takes: a word with the space behind it, but without signs.

    Of the last word the space is left too: who wants it takes the whole.
    """
    found = _NEXT_WORD.match(proposal)
    word = found[0] if found else ""
    return word.rstrip() or word if word == proposal else word


def abbreviation(memory: Memory, line: str) -> tuple[int, str] | None:
    """The characters before the cursor that the accepting key replaces, and what they stand for; None if for nothing."""
    word = _LAST_WORD.search(line)
    long = memory.abbreviations.get(word[0].lower()) if word else None
    return (len(word[0]), long) if word and long else None


def _above(lines: Sequence[str], labels: Labels) -> _Above:
    openings = [opening_of(f"{line[:80]} ", labels) for line in lines[-_LINES_ABOVE:] if line.strip()]
    return _Above(
        last=openings[-1] if openings else START,
        labels=Counter(each.label for each in openings),
        topics=frozenset((each.label, each.topic) for each in openings if each.topic),
    )


def _first_token(memory: Memory, above: _Above, line: str) -> str:
    """The rest of a line of which not even the first token is whole; "" where nothing is likely enough."""
    following = known((memory.stock.habits, memory.common.habits, memory.own), opening_contexts(above.last))
    found = likely(following, line, base_words(memory, _REMARK, line))
    total = sum(found.values())
    for token in found:
        label = opening_of(token, memory.labels).label
        if label and above.labels[label] >= max(1, memory.usual.get(label, 0)):
            found[token] *= _USED_UP
    likelihood, token = max(
        ((each, token) for token, each in found.items() if len(token) > len(line)), default=(0.0, "")
    )
    if not token or likelihood < _LEAST_LIKELY * total:
        return ""
    opening = opening_of(token, memory.labels)
    place = LinePlace(opening=opening, tokens=(), whole="")
    if not opening.label:
        place = place.behind(token)
    return token[len(line) :] + further(memory, above.topics, place, token)


def _rest(memory: Memory, above: _Above, opening: LineOpening, line: str) -> str:
    """The rest of a line whose first token is whole: of the token that is begun, or behind it if it is whole."""
    place, begun = _place_in(opening, line)
    found = tokens_at(memory, above.topics, place, begun)
    # "Mon Wed Fri" is whole, and "Friend" is not what it begins.
    longer = () if word_of(begun) in _DAYS else found.items()
    ways = [(likelihood, token, 0) for token, likelihood in longer if len(token) > len(begun)]
    if begun[-1:].isalnum():
        exact = max((each for token, each in found.items() if len(token) == len(begun)), default=0.0) if found else 1.0
        following = tokens_at(memory, above.topics, place.behind(begun), "")
        ways += [(exact * each, token, 1) for token, each in following.items()]
    likelihood, token, is_behind = max(ways, default=(0.0, "", 0))
    if likelihood < _LEAST_LIKELY:
        return ""
    if is_behind:
        return token + further(memory, above.topics, place.behind(begun).behind(token), token)
    return token[len(begun) :] + further(memory, above.topics, place.behind(token), token)


def _place_in(opening: LineOpening, line: str) -> tuple[LinePlace, str]:
    """Where the last token of a line begins, and that token as far as it is typed."""
    text = line[len(opening.typed) :]
    is_whole = len(text) <= _LONGEST_WHOLE
    if not is_whole:
        text = text[-_TAIL:].partition(" ")[2]
    *tokens, begun = tokens_of(text) or [""]
    if sentence := _SENTENCE.match(begun):
        return LinePlace(opening=opening, tokens=(), whole=None), begun[sentence.end() :]
    whole = "".join(map(shape_of, tokens)) if is_whole else None
    return LinePlace(opening=opening, tokens=tuple(tokens), whole=whole, topic=opening.topic if tokens else ""), begun
