"""What a line speaks of without asking for it: "no practice on Tue and Thu", "mm. 1-8 are great", "10 on weekends".

One rule: where a negation, or a second amount of one kind, stands in a clause, nothing of that kind is claimed in it.
A negation reaches everything behind it in its clause. Where no word of its own follows it, it reaches what stands right
before it, as words such as "off", "done" and "last week" do, on both sides of them and over words that only lead on.
"""

from collections.abc import Sequence
from typing import NamedTuple

from cockpit.studio.assignments.assignment import Part
from cockpit.studio.assignments.days import OTHER_NEGATIONS
from cockpit.studio.assignments.tokens import DASHES, ENDS_CLAUSE, SPELLED, Claim, Tokens, words_in

NEGATIONS = words_in(
    "no not never without except excluding skip omit minus avoid neither nor instead than leave drop n't dont cant cannot wont"
)
_NO = words_in("no not never dont")
_APOSTROPHES = frozenset({"'", "’", "`"})
# "Once mm. 1-8 are easy, mm. 9-16" asks for both.
_CONDITIONS = words_in("when once if unless after until till")
_PRACTICE = words_in("practice practise practicing practising play playing music work lesson lessons")
_WORK = words_in("job work progress practice practicing playing")
_COPULAS = words_in(
    "is are was were be been being sound sounds sounded sounding seems look looks looked feel feels felt going went s re"
)
# Words that only lead from one thing to the other: "no practice at all on Tue", "Sat and Sun are rest days".
_LEADING_FROM = (
    _COPULAS
    | DASHES
    | words_in(
        "a an the all both at on in for can do don this that has have had got will would it he she they we i you day days "
        "always usually now my your his her already very so really pretty quite mostly : = ’ '"
    )
)
_LEADING_TO = (
    _LEADING_FROM
    | _PRACTICE
    | _WORK
    | words_in(
        "any of to with from by and or only just ever does use using try add out yet week either through today / &"
    )
)
# Behind a negation, and behind praise, these are no words of its own: "Sat and Sun no practice", "mm. 1-8 good now".
_AFTER_NO = _PRACTICE | {"need", "yet", "on"}
_SILENT = _NO | _LEADING_FROM | _AFTER_NO
_AFTER_PRAISE = ENDS_CLAUSE | DASHES | words_in("now next so and work already again :") | {""}

# What two words make together: last week or last time, "or more" and "and up", "great job on", "half of" and "80% of".
_LAST_WEEK, _OR_MORE, _GOOD_WORK, _PART_OF = "last week", "or more", "good work", "part of"
_OPENS_ASIDE = frozenset({",", "(", "["}) | DASHES
_LAST, _UNITS = words_in("last previous past"), words_in("week time lesson month year night session")
_MORE_OR_LESS = words_in("more less up above below under over beyond slower faster higher lower")
_PAST = frozenset({_LAST_WEEK, "yesterday"})
_LATER = words_in("later optional")
_DUE, _FRACTIONS = words_in("by for until till before"), words_in("half third thirds quarter quarters % percent")
_DONE = words_in("done finished completed mastered learned learnt passed ✓ ✔ ✅ √")
_DID = words_in("did worked played covered heard knows had already")
_WELL = words_in("well better there")
_PRAISE = _WELL | words_in(
    "great good fine perfect solid secure easy ok okay excellent super wonderful fluent comfortable ready memorized "
    "memorised lovely beautiful nice"
)
_WITH_ANOTHER = _LAST | _UNITS | _PRAISE | {"t", "no", "or", "and", "next", "of"}
_REACHED_BEFORE, _REACHED = _DONE | _DID | {_GOOD_WORK}, _DONE | _PRAISE
# Recitals are no practice, and "more on weekends" speaks of the other days as well.
_OTHER_DAYS = words_in(
    "off rest rests resting free none nothing away busy break more less longer shorter double extra half harder "
    "recital recitals concert concerts exam exams lesson lessons rehearsal rehearsals orchestra band choir camp trip "
    "vacation holiday holidays travel traveling travelling performance performing competition audition party "
    "closed sick ill frei libre repos descanso ferien vacances vacaciones schule école escuela soccer football swimming ballet gym "
    "gymnastics tennis hockey basketball baseball volleyball karate judo scouts chess riding skiing tutoring class classes club match "
    "matches game games tournament tournaments guests tests finals church birthday wedding dentist doctor sleepover visit visitors"
)


class _Denying(NamedTuple):
    """The words that deny a kind of thing: right before it, right behind it, or anywhere before it in its clause."""

    before: frozenset[str] = _PAST
    behind: frozenset[str] = _PAST
    anywhere: frozenset[str] = NEGATIONS


_NOTHING_ON = NEGATIONS | OTHER_NEGATIONS | words_in("off rest rests resting none nothing away busy frei libre")
_OF_A_PASSAGE = _Denying(_PAST | _REACHED_BEFORE | {"later"}, _PAST | _REACHED | _LATER)
_DENYING = {
    Part.DAYS: _Denying(
        _PAST | _OTHER_DAYS | {"but"},
        _PAST | _OTHER_DAYS | _LATER | words_in("excepted except unavailable n't cannot cant wont"),
        _NOTHING_ON,
    ),
    Part.HANDS: _Denying(
        _PAST | _REACHED_BEFORE | words_in("less but rest resting later"),
        _PAST | _REACHED | _LATER | words_in("rest rests resting silent tacet off out if"),
    ),
    Part.MEASURES: _OF_A_PASSAGE,
    Part.PAGES: _OF_A_PASSAGE,
    Part.KEY: _Denying(),
    Part.OCTAVES: _Denying(),
    Part.TIMES: _Denying(),
    Part.BY_HEART: _Denying(),
    # "It took 20 minutes", "20 minutes is too much" tell of them.
    Part.MINUTES: _Denying(
        _PAST | words_in("under below over above is are was took takes lasted lasts spent practiced practised") | _DID,
        _PAST | {"off"} | (_COPULAS - {"s", "re"}),
    ),
    Part.TEMPO: _Denying(
        _PAST
        | _REACHED_BEFORE
        | words_in("below under above over beyond slower faster least most minimum exceed past was were today")
        | {_PART_OF},
        _PAST | _REACHED | _LATER | words_in("was were too today least minimum") | {_OR_MORE},
    ),
}
# A line without any of these denies nothing.
_TELLING = (
    frozenset().union(*(words for each in _DENYING.values() for words in each))
    | _LAST
    | _MORE_OR_LESS
    | {"t", "next", "of"}
)

_AMOUNTS = frozenset({Part.MINUTES, Part.TIMES, Part.TEMPO})
_MOST = 240
# A number from here on may be a second tempo: "q = 60 M W F, 72 on weekends".
_LEAST_TEMPO = 40
_TO_DAYS = words_in("on at for over each every the only")


class _Clause(NamedTuple):
    """What was understood between two ends of clauses; the sign or word of the first belongs to it."""

    begins: int
    ends: int
    found: list[Claim]


def with_denied(tokens: Tokens, found: Sequence[Claim]) -> list[Claim]:
    """The same with a mark on what the line says is not to be; a day named in passing counts only so."""
    is_told = not _TELLING.isdisjoint(tokens.words)
    if not is_told and not any(each.part is Part.DAYS for each in found):
        return list(found)
    by_heart = {at for each in found if each.part is Part.BY_HEART for at in range(each.begins, each.ends)}
    if by_heart:  # "without the music" denies nothing else
        words = [word if at not in by_heart or word not in NEGATIONS else "by" for at, word in enumerate(tokens.words)]
        tokens = tokens._replace(words=words)
    clauses = _clauses_of(tokens, found)
    unclear = _said_anew(tokens, clauses)
    behind = [each.begins for each in found[1:]] + [len(tokens.words)]
    marked: list[Claim] = []
    for clause in clauses:
        for each in clause.found:
            until, beside = behind.pop(0), marked[-1].ends if marked else 0
            denied = _denied(tokens, each, clause.begins, (beside, until)) if is_told else None
            if denied or not each.is_passing:
                marked.append(denied or each)
    is_asked = any(each.part is Part.DAYS and not each.is_denied for each in marked)
    return [
        each._replace(values=()) if each.part in unclear else each for each in marked if is_asked or not each.is_passing
    ]


def days_off(tokens: Tokens, found: Sequence[Claim]) -> frozenset[int]:
    """The days that a line denies because there is nothing to be done on them, and not because there is more."""
    denied = (each for each in found if each.part is Part.DAYS and each.is_denied)
    off = (each for each in denied if not _NOTHING_ON.isdisjoint(tokens.words[each.begins : each.ends]))
    return frozenset(value for each in off for value in each.values if isinstance(value, int))


def _clauses_of(tokens: Tokens, found: Sequence[Claim]) -> list[_Clause]:
    clauses = [_Clause(0, len(tokens.words), [])]
    at, left = 0, list(found)
    while at < len(tokens.words):
        if left and left[0].begins == at:
            clauses[-1].found.append(left[0])
            at = left.pop(0).ends
            continue
        if tokens.words[at] in ENDS_CLAUSE:
            clauses[-1:] = [clauses[-1]._replace(ends=at), _Clause(at, len(tokens.words), [])]
        at += 1
    return clauses


def _denied(tokens: Tokens, found: Claim, clause: int, gap: tuple[int, int]) -> Claim | None:
    """What a line denies, with the words that do so; None where it does not. The gap lies between what else it says.

    Without values where it may deny something else: "no pedal mm. 1-8", "once mm. 1-8 are easy".
    """
    words = _DENYING.get(found.part)
    if words is None:
        return None
    before, ends = range(clause, found.begins), found.ends
    begins, is_reached = _denied_from(tokens, before, gap[0], words)
    if begins == found.begins:
        ends = _denied_until(tokens, range(ends, gap[1]), words.behind)
        is_reached = ends > found.ends
    if (begins, ends) == (found.begins, found.ends):
        return None
    is_sure = is_reached and _CONDITIONS.isdisjoint(tokens.words[before.start : before.stop])
    return found._replace(begins=begins, ends=ends, values=found.values if is_sure else (), is_denied=is_sure)


def _denied_from(tokens: Tokens, places: range, beside: int, words: _Denying) -> tuple[int, bool]:
    """The place of the first word in a clause that denies what stands behind it, and whether one does right before it."""
    begins, is_reached, is_beside = places.stop, False, True
    for at in reversed(places):
        word = _sense(tokens, at)
        is_beside = is_beside and at >= beside
        if word in words.anywhere or (is_beside and word in words.before):
            begins = at - 2 if tokens.words[at] == "t" else at  # don't
            is_reached = is_reached or is_beside
        elif word not in _LEADING_TO:
            is_beside = False
    return begins, is_reached


def _denied_until(tokens: Tokens, places: range, words: frozenset[str]) -> int:
    """The place behind the word that denies what stands right before it; without one the place behind that."""
    is_said = False
    for at in places:
        word = _sense(tokens, at)
        if _is_said_back(tokens, at, words, is_said=is_said):
            return at + 1
        is_one_clause = word in _OPENS_ASIDE and _goes_on_behind(tokens, at + 1, places, words)
        if word not in _LEADING_FROM and not is_one_clause:
            break
        is_said = is_said or word in _COPULAS
    return places.start


def _is_said_back(tokens: Tokens, at: int, words: frozenset[str], *, is_said: bool) -> bool:
    """Whether a word denies what stands before it, and speaks of nothing behind it as "good tone" and "no pedal" do."""
    word = tokens.words[at] if tokens.words[at] in _PRAISE else _sense(tokens, at)
    if word in _PRAISE and not is_said:
        is_done = tokens.word(at + 1) in _DONE  # "mm. 1-8 well done"
        return word in words and (is_done or (word not in _WELL and tokens.word(at + 1) in _AFTER_PRAISE))
    return word in words or (word in _NO and _is_over(tokens, at + 1, _AFTER_NO))


def _goes_on_behind(tokens: Tokens, at: int, places: range, words: frozenset[str]) -> bool:
    """Whether a clause says nothing of its own: "Sat Sun (off)", "Sat Sun, no practice", "mm. 1-8, is good"."""
    if tokens.word(at) in _COPULAS:
        return True
    while at in places and ((word := _sense(tokens, at)) in _SILENT or word in words):
        at += 1
    return _is_over(tokens, at)


def _is_over(tokens: Tokens, at: int, leading: frozenset[str] = frozenset()) -> bool:
    while tokens.word(at) in leading:
        at += 1
    return not tokens.word(at) or tokens.words[at] in ENDS_CLAUSE


def _sense(tokens: Tokens, at: int) -> str:
    """A word, or what it is together with the one beside it."""
    word = tokens.words[at]
    if word not in _WITH_ANOTHER:
        return word
    before, behind = tokens.word(at - 1), tokens.word(at + 1)
    if word == "t" and before in _APOSTROPHES:
        return "dont" if tokens.word(at - 2) == "don" else "n't"
    if word == "no" and tokens.word(at + 1 + (behind == ".")).isdigit() and (behind == "." or tokens.is_capital(at)):
        return "no."
    senses = {
        _OR_MORE: word in {"or", "and"} and behind in _MORE_OR_LESS,
        _GOOD_WORK: word in _PRAISE and behind in _WORK,
        _PART_OF: word == "of" and (before in _FRACTIONS or before.isdigit()),
        _LAST_WEEK: (word in _UNITS and before in _LAST) or (word in _LAST and behind in _UNITS),
        "later": word == "next" and behind in _UNITS and before not in _DUE,
    }
    return next((sense for sense, is_meant in senses.items() if is_meant), word)


def _said_anew(tokens: Tokens, clauses: Sequence[_Clause]) -> set[Part]:
    """What is said of some days only and of the other days too, and these days."""
    unclear: set[Part] = set()
    for clause in clauses:
        if not any(each.part is Part.DAYS for each in clause.found):
            continue
        elsewhere = [each for other in clauses if other is not clause for each in other.found]
        again = {each.part for each in clause.found} & {part for each in elsewhere for part in _kinds(tokens, each)}
        if clause.begins or elsewhere or len(clause.found) > 1:
            again |= _said_by_number(tokens, clause)
        if again - {Part.DAYS}:
            unclear |= {Part.DAYS, *(again & _AMOUNTS)}
        if _speaks_of_the_others(tokens):
            unclear |= {Part.DAYS, Part.MINUTES, Part.TIMES}
    return unclear


def _kinds(tokens: Tokens, found: Claim) -> set[Part]:
    """What a claim says anew: "5 min a day" says how often, too."""
    is_of_a_day = found.part is Part.MINUTES and tokens.words[found.ends - 1] == "day"
    return {found.part, Part.TIMES} if is_of_a_day else {found.part}


def _said_by_number(tokens: Tokens, clause: _Clause) -> set[Part]:
    """What a number that was not understood may say anew beside days: "10 min, 15 on weekends"."""
    within = {at for each in clause.found for at in range(each.begins, each.ends)}
    behind = {each.begins for each in clause.found}
    numbers = [
        tokens.number(at, 1, _MOST) or SPELLED.get(tokens.words[at], 0)
        for at in range(clause.begins, clause.ends)
        if at not in within and (at + 1 in behind or tokens.word(at + 1) in _TO_DAYS or tokens.goes_on(at + 1))
    ]
    most = max(numbers, default=0)
    return {*_AMOUNTS} - ({Part.TEMPO} if most < _LEAST_TEMPO else set()) if most else set()


def _speaks_of_the_others(tokens: Tokens) -> bool:
    words = tokens.words
    return "otherwise" in words or any(
        words[at : at + 2] in (["other", "days"], ["rest", "of"])
        for at, word in enumerate(words)
        if word in {"other", "rest"}
    )
