"""A typed line that says what is owed, and behind that when; common practice, no source."""

import re
from calendar import monthrange
from collections.abc import Iterable
from datetime import date

from cockpit.studio.changes.duties import LAST, Cycle, Duty, DutyId
from cockpit.studio.clocks.calendar_words import MONTH_WORDS, WEEKDAY_PLURALS, WEEKDAY_WORDS
from cockpit.studio.clocks.moments import WEEKDAYS
from cockpit.studio.clocks.words import MONTHS
from cockpit.studio.errors import BadInput
from cockpit.studio.typed_times.days import Days, day_of
from cockpit.studio.typed_times.line_parts import refuse_long
from cockpit.studio.typed_times.words import read_parts

EXAMPLES = '"order strings every first monday", "statements on the 1st", or "tune the piano by dec 12"'
_LONGEST = 200
_NTH = {"first": 1, "1st": 1, "second": 2, "2nd": 2, "third": 3, "3rd": 3, "fourth": 4, "4th": 4, "last": LAST}
_SHORTEST = 3  # of a weekday's or a month's name: "every so often" is none


def _any_of(words: Iterable[str]) -> str:
    """A pattern for any of some words, the longest first."""
    return "|".join(sorted((re.escape(word) for word in words if len(word) >= _SHORTEST), key=len, reverse=True))


_WEEKDAYS = {**WEEKDAY_WORDS, **WEEKDAY_PLURALS}
_WEEKDAY, _MONTH = _any_of(_WEEKDAYS), _any_of(MONTH_WORDS)
_ORDINAL = r"(?P<day>[0-9]{1,2})(?:st|nd|rd|th)"
_ENDS = r"(?:\ of)?(?:\ (?:the|each|every))?(?:\ month)?"
_OFTEN = re.compile(
    rf"""(?:
      (?P<daily>(?:every|each)\ day|daily)
    | (?:every|each)\ (?P<nth>first|1st|second|2nd|third|3rd|fourth|4th|last)\ (?P<nth_day>{_WEEKDAY}){_ENDS}
    | (?:every|each)\ (?:(?P<other>other|second|2nd)\ )?(?P<weekday>{_WEEKDAY})
    | (?:every\ (?P<other_week>other|second|2nd)|every|each)\ (?P<weekly>week)
    | (?:(?:on|every|each)\ )(?:the\ )?{_ORDINAL}{_ENDS}
    | (?:every|each)\ (?P<monthly>month)
    | (?:every|each)(?:\ year\ on)?\ (?P<month>{_MONTH})\ (?P<date>[0-9]{{1,2}})(?:st|nd|rd|th)?
    )""",
    re.IGNORECASE | re.VERBOSE,
)
_SPOKEN = {1: "first", 2: "second", 3: "third", 4: "fourth", LAST: "last"}
_BY = re.compile(r"(?:by|until|before)\ (?P<day>.+)", re.IGNORECASE | re.VERBOSE)
_BEGINS = re.compile(r"(?:^|\s)(?=(?:every|each|daily|on the|by|until|before)\b)", re.IGNORECASE)


def read_duty(text: str, duty_id: DutyId, today: date, *, month_first: bool = True) -> Duty:
    """What a line says is owed: words, and behind them when.

    Raises:
        BadInput: it has no words, or says when in a way that is not understood.
    """
    line = " ".join(text.split())
    refuse_long(line, _LONGEST)
    places = [match.end() for match in _BEGINS.finditer(line)]
    for place in places:
        words, when = line[:place].strip(" ,:;"), line[place:].strip(" .,")
        often = _OFTEN.fullmatch(when)
        if often is not None:
            return _repeated(words or _refuse_without_words(line), often, duty_id, today)
        by = _BY.fullmatch(when)
        if by is not None and (day := _day(by["day"], today, month_first=month_first)) is not None:
            return Duty(id=duty_id, words=words or _refuse_without_words(line), made_on=today, by_on=day)
    often_said = [line[place:] for place in places if re.match(r"every|each|daily", line[place:], re.IGNORECASE)]
    if often_said:
        raise BadInput(f'"{often_said[0]}" is not understood. Type {EXAMPLES}.')
    return Duty(id=duty_id, words=line or _refuse_without_words(line), made_on=today)


def _refuse_without_words(line: str) -> str:
    raise BadInput(f'"{line}" does not say what you owe. Type {EXAMPLES}.' if line else f"Type {EXAMPLES}.")


def _day(text: str, today: date, *, month_first: bool) -> date | None:
    try:
        parts = read_parts(text, {})
    except BadInput:
        return None
    return day_of(parts, Days(today=today, around=today, month_first=month_first))


def _repeated(words: str, found: re.Match[str], duty_id: DutyId, today: date) -> Duty:
    duty = Duty(id=duty_id, words=words, made_on=today)
    made = {name: getattr(duty, name) for name in ("id", "words", "made_on")}
    if found["daily"]:
        return Duty(**made, every=Cycle.DAY)
    if found["nth"]:
        weekday = _WEEKDAYS[found["nth_day"].casefold()]
        return Duty(**made, every=Cycle.MONTH, nth=_NTH[found["nth"].lower()], weekday=weekday)
    if found["weekday"] or found["weekly"]:
        weekday = _WEEKDAYS[found["weekday"].casefold()] if found["weekday"] else today.weekday()
        return Duty(**made, every=Cycle.WEEK, weekday=weekday, weeks=2 if found["other"] or found["other_week"] else 1)
    if found["monthly"]:
        return Duty(**made, every=Cycle.MONTH, day=today.day)
    month = MONTH_WORDS[found["month"].casefold()] if found["month"] else None
    day = int(found["date"] or found["day"])
    longest = 31 if month is None else monthrange(2000, month)[1]  # a leap year
    if not 1 <= day <= longest:
        raise BadInput(f'"{found[0]}" is no day. Type a day from 1 to {longest}.')
    return Duty(**made, every=Cycle.MONTH if month is None else Cycle.YEAR, day=day, month=month)


def often_words(duty: Duty) -> str:
    """`every first Monday of the month`, `on day 15 of each month`; empty for what is owed once."""
    weekday = WEEKDAYS[duty.weekday] if duty.weekday is not None else ""
    match duty.every:
        case Cycle.DAY:
            return "every day"
        case Cycle.WEEK:
            return f"every other {weekday}" if duty.weeks > 1 else f"every {weekday}"
        case Cycle.MONTH if duty.nth is not None:
            return f"every {_SPOKEN[duty.nth]} {weekday} of the month"
        case Cycle.MONTH:
            return f"on day {duty.day} of each month"
        case Cycle.YEAR:
            return f"every {MONTHS[(duty.month or 1) - 1]} {duty.day}"
        case None:
            return ""
