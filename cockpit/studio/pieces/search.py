"""What she types to find something in all notes: words, words together in quotes, a student, and from when until when.

`ilse bow`, `"open strings"`, `gavotte since march`, `canon before 2025`. Whatever is no such thing is a word to look for.
"""

import re
import unicodedata
from collections.abc import Mapping
from datetime import date, datetime

from cockpit.studio.clocks.calendar_words import MONTH_WORDS
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.people.people import StudentId
from cockpit.studio.searching import plain, searched_words
from cockpit.studio.values import Value

_PARTS = re.compile(r'"(?P<together>[^"]*)"?|(?P<word>[^\s"]+)')
_YEARS = range(1900, 2200)
_LONGEST_NUMBER = 5  # "2025,"
_LIMITS = frozenset({"since", "before"})


class Search(Value):
    """What is looked for in notes: each of the `words`, which may be several that stand together; all of them.

    The last `goes_on` where it may be the beginning of a word. `since` and `before` are moments in UTC. Without `students`
    those of everybody are looked through.
    """

    words: tuple[str, ...] = ()
    goes_on: bool = False
    since: datetime | None = None
    before: datetime | None = None
    students: tuple[StudentId, ...] = ()

    @property
    def has_words(self) -> bool:
        """Whether there is anything to look for."""
        return bool(self.words)


def search_of(typed: str, names: Mapping[StudentId, str], home: TeacherClock, today: date) -> Search:
    """What is meant by what is typed; `names` are the students', of whom the first word may name some.

    A month without a year is the last that has begun by `today`. A student is meant by any whole word of the name, where
    other words follow.
    """
    parts = [(each["word"], each["together"]) for each in _PARTS.finditer(typed)]
    limits: dict[str, datetime] = {}
    said: list[tuple[str, bool]] = []
    at = 0
    while at < len(parts):
        word, together = parts[at]
        on, behind = _limit(parts, at, today)
        if on is not None:
            limits[plain(word)] = home.day_bounds(on)[0]
        elif any(unicodedata.category(sign)[0] in "LN" for sign in word or together or ""):
            said.append((word or together, bool(word)))
        at = behind
    students = _named(said, names)
    said = said[1:] if students else said
    return Search(
        words=tuple(words for words, _ in said),
        goes_on=bool(said) and said[-1][1],
        since=limits.get("since"),
        before=limits.get("before"),
        students=students,
    )


def words_of(search: Search) -> tuple[str, ...]:
    """The single words of a search, plain, to mark them in what was found."""
    return tuple(dict.fromkeys(word for words in search.words for word in searched_words(words)))


def _named(said: list[tuple[str, bool]], names: Mapping[StudentId, str]) -> tuple[StudentId, ...]:
    if len(said) < 2 or not said[0][1]:
        return ()
    first = _apart(said[0][0])  # "Anne-Marie" is two of the name
    return tuple(number for number, name in names.items() if first in _apart(name))


def _apart(text: str) -> str:
    """The plain words of a text, with a blank before and behind each."""
    return f" {' '.join(searched_words(text))} "


def _limit(parts: list[tuple[str, str]], at: int, today: date) -> tuple[date | None, int]:
    """The day that `since` or `before` names at a place, and the place behind it; no day where there is no such word."""
    words = [plain(word or "") for word, _ in parts[at : at + 4]]
    if words[0] not in _LIMITS:
        return None, at + 1
    for count in (3, 2, 1):
        on = _day(words[1 : 1 + count], today) if len(words) > count else None
        if on is not None:
            return on, at + 1 + count
    return None, at + 1


def _day(words: list[str], today: date) -> date | None:
    """The first day of a year, a month, or a date: `2025`, `march`, `march 2025`, `march 3`, `3 march 2025`, `2025-03-01`."""
    months = [MONTH_WORDS[each.strip(",.")] for each in words if each.strip(",.") in MONTH_WORDS]
    numbers = [int(each.strip(",.")) for each in words if each.strip(",.").isdecimal() and len(each) <= _LONGEST_NUMBER]
    years = [each for each in numbers if each in _YEARS]
    days = [each for each in numbers if each not in _YEARS]
    if len(months) + len(numbers) < len(words):
        return _iso(words)
    if len(months) > 1 or len(years) > 1 or len(days) > len(months):
        return None
    month, day = (months or [1])[0], (days or [1])[0]
    try:
        if years:
            return date(years[0], month, day)
        on = date(today.year, month, day) if months else None
        return on.replace(year=on.year - 1) if on is not None and on > today else on
    except ValueError:
        return None


def _iso(words: list[str]) -> date | None:
    try:
        on = date.fromisoformat(words[0]) if len(words) == 1 else None
    except ValueError:
        return None
    return on if on is not None and on.year in _YEARS else None
