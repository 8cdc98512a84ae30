"""What a line speaks of without asking for it: "no practice on Tue and Thu", "without RH", "mm. 1-8 are great".

A few words turn a claim around. They are looked for on both sides of it and within its clause: right beside it, but
for words that only lead from one to the other, and for days farther before it too.
"""

from collections.abc import Sequence

from cockpit.studio.assignments.assignment import Part
from cockpit.studio.assignments.reading_denying import (
    DENYING,
    LAST_WEEK,
    LEADING_FROM,
    LEADING_TO,
    NOTHING_ON,
    OR_MORE,
    PRACTICE,
    Denying,
)
from cockpit.studio.assignments.reading_finished import finished_before, finished_behind
from cockpit.studio.assignments.reading_tokens import DASHES, ENDS_CLAUSE, Found, Tokens, words_in

_APOSTROPHES = frozenset({"'", "’", "`"})
_NO, _SHORT_NOT = words_in("no not never dont"), frozenset({"n't"})
# "Once mm. 1-8 are easy, mm. 9-16" asks for both.
_CONDITIONS = words_in("when once if unless after until till")
_LAST, _UNITS = words_in("last previous past"), words_in("week time lesson month year night session")
_MORE_OR_LESS = words_in("more less up above below under over beyond slower faster higher lower")
_OPENS_ASIDE = frozenset({",", "(", "["}) | DASHES


def with_denied(tokens: Tokens, found: Sequence[Found]) -> list[Found]:
    """The same with a mark on what the line says is not to be; a day named in passing counts only so."""
    marked: list[Found] = []
    for at, each in enumerate(found):
        until = found[at + 1].begins if at + 1 < len(found) else len(tokens.words)
        denied = _denied(tokens, each, marked, until) if each.part in DENYING else None
        if denied or not each.is_passing:
            marked.append(denied or each)
    is_asked = any(each.part is Part.DAYS and not each.is_denied for each in marked)
    return [each for each in marked if is_asked or not each.is_passing]


def _denied(tokens: Tokens, found: Found, marked: Sequence[Found], until: int) -> Found | None:
    """What a line denies, with the words that do so; None where it does not."""
    words = DENYING[found.part]
    begins = _denying_before(tokens, found.begins - 1, marked, words)
    ends = None if begins is not None else _denied_behind(tokens, found.ends, until, words)
    if begins is None and ends is None:
        return None
    first, last = found.begins if begins is None else begins, found.ends if ends is None else ends
    if _is_conditional(tokens, first - 1, marked[-1].ends if marked else 0):
        return found._replace(begins=first, ends=last, values=())
    return found._replace(begins=first, ends=last, is_denied=True)


def _is_conditional(tokens: Tokens, at: int, stops: int) -> bool:
    while at >= stops and tokens.words[at] not in ENDS_CLAUSE:
        if tokens.words[at] in _CONDITIONS:
            return True
        at -= 1
    return False


def _denying_before(tokens: Tokens, at: int, marked: Sequence[Found], words: Denying) -> int | None:
    """The place of the word before a claim that turns it around: beside it, or far before it.

    What stands between the two may be denied itself: "no LH on Tue and Thu".
    """
    beside = marked[-1].ends if marked else 0
    if words.is_finishable and (finished := finished_before(tokens, at, beside)) is not None:
        return finished
    begins = None
    while at >= beside:
        if _is_one_of(tokens, at, words.before):
            begins = max(at - 2, beside) if tokens.words[at] == "t" else at  # don't
        elif tokens.words[at] not in LEADING_TO:
            break
        at -= 1
    if begins is not None:
        return begins
    return _denying_far_before(tokens, at, marked, words.far_before) if words.far_before else None


def _denying_far_before(tokens: Tokens, at: int, marked: Sequence[Found], words: frozenset[str]) -> int | None:
    stops = next((one.ends for one in reversed(marked) if not one.is_denied), 0)
    while at >= stops and tokens.words[at] not in ENDS_CLAUSE:
        if _is_one_of(tokens, at, words):
            return at
        at -= 1
    return None


def _denied_behind(tokens: Tokens, at: int, until: int, words: Denying) -> int | None:
    """The place behind the word behind a claim that turns it around."""
    if words.is_finishable and (finished := finished_behind(tokens, at, until)) is not None:
        return finished
    if tokens.word(at) in _OPENS_ASIDE and at + 1 < until and _is_all_of_aside(tokens, at + 1, words.behind):
        return at + 2
    while at < until:
        if _is_one_of(tokens, at, words.behind) or _is_no_behind(tokens, at):
            return at + 1
        if tokens.words[at] not in LEADING_FROM:
            return None
        at += 1
    return None


def _is_all_of_aside(tokens: Tokens, at: int, words: frozenset[str]) -> bool:
    """Whether a clause says that there is nothing, and nothing more: "Sat Sun (off)", "Sat Sun, no practice"."""
    ends = at + 1 + (tokens.word(at + 1) in {"day", "days"})
    is_off = tokens.word(at) in words & NOTHING_ON and _is_clause_over(tokens, ends)
    return is_off or _is_no_behind(tokens, at)


def _is_no_behind(tokens: Tokens, at: int) -> bool:
    """Whether a "no" denies what stands before it: "Sat Sun no", "don't practice". In "no pedal" it does not."""
    behind = at + 1
    if tokens.word(at) in {"do", "don"} and (tokens.word(behind) == "not" or _is_one_of(tokens, at + 2, _SHORT_NOT)):
        behind += 1 if tokens.word(behind) == "not" else 2
    elif tokens.word(at) not in _NO or (tokens.is_glued(behind) and tokens.word(behind + 1).isdigit()):
        return False
    while tokens.word(behind) in {"yet", "on"} or tokens.word(behind) in PRACTICE:
        behind += 1
    return _is_clause_over(tokens, behind)


def _is_clause_over(tokens: Tokens, at: int) -> bool:
    return not tokens.word(at) or tokens.words[at] in ENDS_CLAUSE


def _is_one_of(tokens: Tokens, at: int, words: frozenset[str]) -> bool:
    return at < len(tokens.words) and _sense(tokens, at) in words


def _sense(tokens: Tokens, at: int) -> str:
    """A word, or what it is together with the one beside it."""
    word, before, behind = tokens.words[at], tokens.word(at - 1), tokens.word(at + 1)
    if word == "t" and before in _APOSTROPHES:
        return "n't"
    if word == "no" and behind == "." and tokens.is_glued(at + 1):
        return "no."
    if word in {"or", "and"} and behind in _MORE_OR_LESS:
        return OR_MORE
    is_past = (word in _UNITS and before in _LAST) or (word in _LAST and behind in _UNITS)
    return LAST_WEEK if is_past else word
