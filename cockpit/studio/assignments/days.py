"""Practice days in a line: `M W F`, `MWF`, `T/Th`, `Mon Wed Fri`, `Mon-Fri`, `weekends`, `daily`; and `in turns`.

"Daily" names all seven days: a plan drops those that are no practice days, and a review piece then comes every day.
"Every other day" does not say which day is the first, and stays text. A weekday alone may be a recital's or a title's,
"by Friday" is a date, M, T and F alone may be anything: none of them is claimed. Monday is 0. Days on which nothing is
to be done are told apart from these where the whole line is known.
"""

from cockpit.studio.assignments.assignment import Part
from cockpit.studio.assignments.tokens import DASHES, Claim, Tokens, words_in

_NAMES = {
    name: day
    for day, names in enumerate(
        ("mon monday", "tue tues tuesday", "wed weds wednesday", "thu thur thurs thursday", "fri friday", "sat saturday",
         "sun sunday")
    )
    for name in names.split()
}  # fmt: skip
# The same in German, French and Spanish; a short form such as "Di" or "mar" may be anything.
_OTHER_NAMES = {
    name: day
    for day, names in enumerate(
        ("montag lundi lunes", "dienstag mardi martes", "mittwoch mercredi miércoles miercoles", "donnerstag jeudi jueves",
         "freitag vendredi viernes", "samstag sonnabend samedi sábado sabado", "sonntag dimanche domingo")
    )
    for name in names.split()
}  # fmt: skip
_PLURALS = {f"{name}s": day for name, day in _NAMES.items() if name.endswith("day")} | {
    f"{name}s": day for name, day in _OTHER_NAMES.items()
}
_NAMES |= _OTHER_NAMES
# As typed: two letters are a day only with a capital, so that "th" and "su" stay what they are.
_INITIALS = {"M": 0, "T": 1, "Tu": 1, "W": 2, "Th": 3, "F": 4, "Sa": 5, "Su": 6}
_SETS = {"weekdays": range(5), "weekends": range(5, 7), "daily": range(7), "everyday": range(7)}
_FUSED_IN_SMALL = frozenset({"mwf", "tth"})
DAY_WORDS = frozenset({*_NAMES, *_PLURALS, *_SETS, *(each.lower() for each in _INITIALS), "every"})
TURNS_WORDS = frozenset({"in", "interleave", "interleaved", "interleaving"})
_BETWEEN = frozenset({",", "/", "&", "+", "and", "und", "et", "y", "e"})
_NOT_BEFORE = words_in(
    "by until till before due after since for next last this bis vor nach ab seit für nächsten avant après depuis pour à prochain hasta "
    "antes después desde para próximo"
)
_THROUGH_DAYS = frozenset({"a", "au"})  # de lunes a viernes, du lundi au vendredi
_ARTICLES_OF_DAYS = words_in("le el les los")
_EACH_OF_THEM = words_in("every each jeden jede chaque cada les los")
_EACH = _EACH_OF_THEM | {"on", "am", ""}
_ONLY = words_in("only nur seulement solo sólo")
_NEGATED = frozenset({"not", "never", "no", "without", "t"})
_EXCLUDING = words_in("not no except without skip nicht kein keine außer ausser pas sauf excepto salvo")
_OFF = words_in("off free frei libre")
_EXCEPT = frozenset({"except", "but", "not", "without"})
OTHER_NEGATIONS = words_in(
    "nicht kein keine keinen außer ausser ohne nie pas sauf sans jamais excepté no salvo excepto sin nunca menos"
)
_EXCEPT_IN_TWO = frozenset({("apart", "from"), ("aside", "from"), ("other", "than")})
_LONGEST_FUSED = 8


def read_days(tokens: Tokens, at: int) -> Claim | None:
    """The days that a line names, as numbers."""
    if not tokens.begins_clean(at) or tokens.word(at - 1) in _NOT_BEFORE or _is_in_a_list(tokens, at):
        return None
    word, ends = tokens.words[at], at + 1
    if tokens.word(at - 1) in _NEGATED and word in {"daily", "everyday", "every"}:  # "not daily" leaves no day out
        return None
    if word == "every":
        ends, word = at + 2, "daily" if tokens.word(at + 1) == "day" else ""
    if (days := _SETS.get(word)) is not None:
        past_sign = ends + 1 if tokens.word(ends) in {",", "("} else ends
        past_except = _past_excluding(tokens, past_sign, _EXCEPT)
        if past_except and (left_out := _days_left_out(tokens, past_except, is_sure=True)):
            kept = tuple(day for day in days if day not in left_out[0])
            return Claim(Part.DAYS, at, left_out[1], kept) if kept else None
        if past_except or not tokens.ends_clean(ends):
            return None
        return Claim(Part.DAYS, at, ends, () if _is_beside_a_day(tokens, ends) else tuple(days))
    return _named_days(tokens, at)


def read_fused_days(tokens: Tokens, at: int) -> Claim | None:
    """Days written as one word: `MWF`, `TTh`, `TuTh`. MF and FF are dynamics."""
    typed = tokens.typed[at]
    if typed[0] not in "MTWmt" or not 1 < len(typed) <= _LONGEST_FUSED:
        return None
    if not tokens.begins_clean(at) or not tokens.ends_clean(at + 1) or tokens.word(at - 1) in _NOT_BEFORE:
        return None
    days = _fused(typed.upper().replace("TTH", "TTh") if typed in _FUSED_IN_SMALL else typed)
    return Claim(Part.DAYS, at, at + 1, tuple(days)) if days and _is_clear(days) else None


def is_day(word: str) -> bool:
    """Whether a word in small letters is a weekday's name."""
    return word in _NAMES or word in _PLURALS


def read_in_turns(tokens: Tokens, at: int) -> Claim | None:
    """`in turns`, `interleave`, `interleaved`."""
    ends = at + 1
    if tokens.words[at] == "in":
        if tokens.word(at + 1) != "turns":
            return None
        ends = at + 2
    is_asked = tokens.begins_clean(at) and tokens.ends_clean(ends) and tokens.word(at - 1) not in _NEGATED
    return Claim(Part.IN_TURNS, at, ends, (1,)) if is_asked else None


def _is_in_a_list(tokens: Tokens, at: int) -> bool:
    """Whether days before this one were passed over: "by Mon, Wed & Fri" names none."""
    before = at - 2 if tokens.word(at - 1) in _BETWEEN else at - 1
    return before >= 0 and _day_at(tokens, before) is not None


def _day_at(tokens: Tokens, at: int) -> int | None:
    word = tokens.word(at)
    day = _NAMES.get(word, _PLURALS.get(word))
    return day if day is not None or not word else _INITIALS.get(tokens.typed[at])


def _named_days(tokens: Tokens, at: int) -> Claim | None:
    """Two days or more, or one that is clearly a practice day: "every Monday", "Sat only"."""
    first = _day_at(tokens, at)
    if first is None:
        return None
    days, ends, is_named = [first], at + 1, tokens.words[at] in _NAMES or tokens.words[at] in _PLURALS
    while (found := _next_days(tokens, ends, days[-1], is_named=is_named)) is not None:
        days, ends = [*days, *found[0]], found[1]
    in_order = sorted(set(days))
    if not tokens.ends_clean(ends) or len(days) > len(in_order) or not (is_named or days == in_order):
        return None
    is_range = tokens.past_range_sign(at + 1) is not None and not _is_chain(tokens, at + 1)
    is_clear_so = days[0] == 0 if is_range else _is_clear(days)  # M-F are days, T-F is true or false
    is_clear = _is_clear_alone(tokens, at) if len(days) == 1 else is_named or is_clear_so
    is_passing = is_named and not is_clear
    return Claim(Part.DAYS, at, ends, tuple(in_order), is_passing=is_passing) if is_clear or is_named else None


def _next_days(
    tokens: Tokens, at: int, last: int, *, is_named: bool, between: frozenset[str] = _BETWEEN
) -> tuple[list[int], int] | None:
    """The next day of a list, or all up to the end of a range, and the place behind."""
    after = tokens.past_dot(at) if is_named else at
    through = tokens.past_range_sign(after)
    if through is None and tokens.word(after) in _THROUGH_DAYS and is_named:
        through = after + 1
    if through is not None and _is_chain(tokens, after):
        day = _day_at(tokens, through)
        return ([day], through + 1) if day is not None else None
    if through is not None:
        day = _day_at(tokens, through)
        return (list(range(last + 1, day + 1)), through + 1) if day is not None and day > last else None
    for _ in range(2):  # a comma and an "and"
        after += tokens.word(after) in between
    after += tokens.word(after) in _ARTICLES_OF_DAYS
    day = _day_at(tokens, after)
    return ([day], after + 1) if day is not None else None


def _days_left_out(tokens: Tokens, at: int, *, is_sure: bool = False) -> tuple[list[int], int] | None:
    """The days of "daily except Sunday", and the place behind them; an initial alone is one only where days are sure.

    In "C major, not F" it is a key.
    """
    begins = at + (tokens.word(at) in {"on", "for", "not"})
    if tokens.word(begins) in {"daily", "everyday"}:
        return None
    if tokens.word(begins) in _SETS:
        return list(_SETS[tokens.word(begins)]), begins + 1
    first = _day_at(tokens, begins)
    if first is None:
        return None
    days, ends = [first], begins + 1
    while (found := _next_days(tokens, ends, days[-1], is_named=True, between=_BETWEEN | {"or", "nor"})) is not None:
        days, ends = [*days, *found[0]], found[1]
    is_named = is_sure or tokens.words[begins] in _NAMES or tokens.words[begins] in _PLURALS
    return (days, ends) if tokens.ends_clean(ends) and (is_named or _is_clear(days)) else None


def days_left_out(tokens: Tokens) -> frozenset[int]:
    """The days on which nothing is to be: "not on Wed", "no Sundays", "Sat and Sun off"."""
    found: set[int] = set()
    for at, word in enumerate(tokens.words):
        past_except = _past_excluding(tokens, at, _EXCLUDING) if tokens.typed[at].islower() else None
        if past_except and (left_out := _days_left_out(tokens, past_except)):
            found.update(left_out[0])
        is_first = word in DAY_WORDS and _day_at(tokens, at) is not None and not _is_in_a_list(tokens, at)
        if is_first and (left_out := _days_left_out(tokens, at)) and tokens.word(left_out[1]) in _OFF:
            found.update(left_out[0])
    return frozenset(found)


def _past_excluding(tokens: Tokens, at: int, words: frozenset[str]) -> int | None:
    """The place behind a word, or two, that leave out what follows: "except", "apart from"."""
    if tokens.word(at) in words:
        return at + 1
    return at + 2 if (tokens.word(at), tokens.word(at + 1)) in _EXCEPT_IN_TWO else None


def _is_beside_a_day(tokens: Tokens, at: int) -> bool:
    """Whether a day follows in the same clause, which may be left out, or the last: "daily save Thu", "daily until Thu"."""
    while not tokens.ends_clause(at):
        if is_day(tokens.words[at]):
            return True
        at += 1
    return False


def _is_chain(tokens: Tokens, at: int) -> bool:
    """Whether a dash is one of several: "M-W-F" is three days."""
    is_behind = tokens.word(at - 2) in DASHES and _day_at(tokens, at - 3) is not None
    is_before = tokens.word(at + 2) in DASHES and _day_at(tokens, at + 3) is not None
    return tokens.word(at) in DASHES and (is_behind or is_before)


def _is_clear_alone(tokens: Tokens, at: int) -> bool:
    word, before = tokens.words[at], tokens.word(at - 1)
    if word in _PLURALS:
        return before in _EACH
    return word in _NAMES and (before in _EACH_OF_THEM or not _ONLY.isdisjoint({before, tokens.word(at + 1)}))


def _is_clear(days: list[int]) -> bool:
    """Whether initials are days, and not a dynamic or notes: three of them, or one of W, Th and the weekend's."""
    return len(days) > 2 or any(day in days for day in (2, 3, 5, 6))


def _fused(typed: str) -> list[int] | None:
    """Days written as one word, in order; None where it is no such word."""
    days: list[int] = []
    at = 0
    while at < len(typed):
        width = 2 if typed[at : at + 2] in _INITIALS else 1
        day = _INITIALS.get(typed[at : at + width])
        if day is None or (days and day <= days[-1]):
            return None
        days, at = [*days, day], at + width
    return days
