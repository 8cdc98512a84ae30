"""Minutes that come several times a day: `5 min twice a day`, `5 min x 2`, `2 sessions of 15 min`.

Their product is the day's. Where minutes stand beside repetitions and may be those of each ("3x 5 min") or of all
("10 min, 3x a day"), they are not claimed; the shorthand without spaces, `3x 5min`, is of all.
"""

from collections.abc import Sequence

from cockpit.studio.assignments.assignment import Part, Times
from cockpit.studio.assignments.reading_amounts import MOST_MINUTES
from cockpit.studio.assignments.reading_tokens import Found, Tokens, words_in

_MOST_SESSIONS = 12
_SESSIONS = words_in(
    "session sessions block blocks set sets round rounds slot slots chunk chunks bout bouts burst bursts sitting sittings"
)
_MORNING, _EVENING = (
    words_in("morning mornings am"), words_in("evening evenings night nights afternoon afternoons pm"),
)  # fmt: skip
_A = frozenset({"a", "per", "each", "every", "/"})
_WEEK = frozenset({"week", "wk"})


def with_products(tokens: Tokens, found: Sequence[Found]) -> list[Found]:
    """The same with a day's minutes, or without the values of minutes that may be those of a part of it."""
    every = [each for each in found if each.part is Part.MINUTES and not each.is_denied]
    if len(every) != 1 or not every[0].values or tokens.words[every[0].ends - 1] == "day":
        return list(found)
    minutes = _of_sessions(tokens, every[0])
    for each in found:
        if each.part is Part.TIMES and not each.is_denied:
            minutes = _times_said(tokens, minutes, each)
    if _is_of_parts(tokens):
        minutes = minutes._replace(values=())
    return [minutes if each is every[0] else each for each in found]


def _of_sessions(tokens: Tokens, minutes: Found) -> Found:
    before = minutes.begins - 1
    is_before = tokens.word(before) == "of" and tokens.word(before - 1) in _SESSIONS
    if not is_before and tokens.word(minutes.ends) not in _SESSIONS:
        return minutes
    at = before - 2 if is_before else before
    count = tokens.amount(at, 1, _MOST_SESSIONS)
    ends = minutes.ends if is_before else minutes.ends + 1
    return _multiplied(minutes, count)._replace(begins=at if count else minutes.begins, ends=ends)


def _times_said(tokens: Tokens, minutes: Found, times: Found) -> Found:
    """The minutes in the light of repetitions: times them, as they are, or without a value where it is not clear."""
    value = next((each for each in times.values if isinstance(each, Times)), None)
    is_behind = times.begins >= minutes.ends
    gap = tokens.words[minutes.ends : times.begins] if is_behind else tokens.words[times.ends : minutes.begins]
    is_beside = gap in ([], ["for"], ["."]) or (is_behind and gap == [","])
    is_signed = tokens.words[times.begins] in {"x", "×"} and is_behind and not gap
    if value is not None and is_beside and (value.is_daily or is_signed):
        return _multiplied(minutes, value.count)
    is_shorthand = tokens.is_glued(minutes.begins + 1)
    if value is None or value.is_daily:
        return minutes._replace(values=())
    return minutes._replace(values=()) if is_beside and "," not in gap and not is_shorthand else minutes


def _multiplied(minutes: Found, count: int | None) -> Found:
    product = [value * count for value in minutes.values if isinstance(value, int) and count]
    return minutes._replace(values=tuple(value for value in product if value <= MOST_MINUTES))


def _is_of_parts(tokens: Tokens) -> bool:
    """Whether the line speaks of mornings and evenings, or of times a week."""
    words = tokens.words
    is_both = not _MORNING.isdisjoint(words) and not _EVENING.isdisjoint(words)
    return (
        is_both
        or "weekly" in words
        or any(word in _WEEK and tokens.word(at - 1) in _A for at, word in enumerate(words))
    )
