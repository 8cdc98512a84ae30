"""The forms in which people write days, times and lengths, as patterns with their readers.

The order matters: the first form that fits is the one that is meant. Lines are casefolded, with single spaces.
"""

import re
from collections.abc import Callable, Iterable

from cockpit.studio.clocks.calendar_words import MONTH_WORDS, WEEKDAY_PLURALS, WEEKDAY_WORDS
from cockpit.studio.errors import BadInput
from cockpit.studio.typed_times.parts import (
    After,
    Dated,
    DayCount,
    DayPart,
    Edge,
    Every,
    FromToday,
    Joint,
    Length,
    Link,
    Number,
    Part,
    SameDay,
    SameTime,
    Slashed,
    TimeOfDay,
    TimeShift,
    Weekday,
    WeekOf,
)
from cockpit.studio.values import replace

_Match = re.Match[str]
_Forms = tuple[tuple[str, Callable[[_Match], tuple[Part, ...]]], ...]
Rules = tuple[tuple[re.Pattern[str], Callable[[_Match], tuple[Part, ...]]], ...]
_COUNTS = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")


def _number(text: str) -> int:
    if text in {"a", "an"}:
        return 1
    return _COUNTS.index(text) + 1 if text in _COUNTS else int(text)


def _year(text: str | None) -> int | None:
    if text is None:
        return None
    return int(text) + (2000 if len(text) == 2 else 0)


def _numbered_date(match: _Match) -> tuple[Part, ...]:
    text, month, year = match[0], int(match["month"]), match.groupdict().get("year")
    # "18.00." is a time at the end of a sentence.
    if year is None and not 1 <= month <= 12:
        return ()
    return (Dated(text=text, day=int(match["day"]), month=month, year=_year(year)),)


def _slashed(match: _Match) -> tuple[Part, ...]:
    return (Slashed(text=match[0], first=int(match[1]), second=int(match[2]), year=_year(match[3])),)


def _named_date(match: _Match) -> tuple[Part, ...]:
    month = MONTH_WORDS[match["month"]]
    return (Dated(text=match[0], day=int(match["day"]), month=month, year=_year(match.groupdict().get("year"))),)


def _day_number(match: _Match) -> tuple[Part, ...]:
    return (Dated(text=match[0], day=int(match["day"])),)


def _noon(match: _Match) -> tuple[Part, ...]:
    return (TimeOfDay(text=match[0], hour=12, half="p"),)


def _clock(match: _Match) -> tuple[TimeOfDay]:
    return _clock_of(match, "")


def _clock_of(match: _Match, which: str) -> tuple[TimeOfDay]:
    said = match.groupdict()
    hour: str = match[f"{which}hour"]
    return (
        TimeOfDay(
            text=_bare(match),
            hour=_number(hour),
            minute=int(said.get(f"{which}minute") or 0),
            half=said.get(f"{which}half"),
            has_zero=hour.startswith("0"),
        ),
    )


def _beside(match: _Match) -> tuple[Part, ...]:
    by, is_before = match["by"], match["side"] not in {"past", "after"}
    # "5 to 6" is rather an hour than 5:55.
    if is_before and (by == "half" or (by.isdigit() and int(by) <= 12 and not match["unit"])):
        return ()
    minutes = {"half": 30, "quarter": 15, "a quarter": 15, "twenty": 20, "twenty-five": 25}.get(by) or _number(by)
    if minutes > 59:
        return ()
    shift = -minutes if is_before else minutes
    return (TimeOfDay(text=_bare(match), hour=_number(match["hour"]), half=match["half"], shift=shift),)


def _bare(match: _Match) -> str:
    return match[0].removeprefix("at ").removeprefix("@").strip()


def _minutes(match: _Match) -> tuple[Part, ...]:
    return (Length(text=match[0], minutes=int(match["minutes"])),)


def _hours(match: _Match) -> tuple[Part, ...]:
    said = match.groupdict()
    hours = match["hours"]
    count = float(hours) if hours[0].isdigit() else _number(hours)
    return (
        Length(
            text=match[0], minutes=round(count * 60, 3) + int(said.get("minutes") or 0) + 30 * bool(said.get("half"))
        ),
    )


def _half_hour(match: _Match) -> tuple[Part, ...]:
    return (Length(text=match[0], minutes=30),)


def _shift(match: _Match) -> tuple[Part, ...]:
    hours, minutes = match["hours"], match["minutes"]
    whole = float(hours) * 60 if hours and hours[0].isdigit() else _number(hours) * 60 if hours else 0
    count = whole + int(minutes or 0) + 30 * bool(match["half"]) + (15 if match["quarter"] else 0)
    sign = -1 if match.groupdict().get("side") in {"earlier", "sooner"} else 1
    return (TimeShift(text=match[0], minutes=sign * round(count), from_now=match[0].startswith("in ")),)


def _listed(match: _Match) -> tuple[Part, ...]:
    """Refuses a later number beside a date: the second day of a list, or an hour."""
    first, second = (min(map(int, re.findall("[0-9]+", match[which]))) for which in ("first", "second"))
    if not first < second <= 31:
        return ()
    raise BadInput(
        f'"{match[0]}" could be two days, or a day and a time. Type one day a line, and a time such as "5 pm" or "17:00".'
    )


def _after(match: _Match) -> tuple[Part, ...]:
    return (After(text=match[0], days=_number(match["count"]) * (1 if match["unit"].startswith("d") else 7)),)


def _ahead(match: _Match) -> tuple[Part, ...]:
    count, is_days = _number(match["count"]), match["unit"].startswith("d")
    from_lesson = match[0].startswith("+") or match[0].endswith("later")
    days, weeks = (count, 0) if is_days else (0, count)
    return (FromToday(text=match[0], days=days, weeks=weeks, from_lesson=from_lesson, is_counted=True),)


def _by_lesson(match: _Match) -> tuple[Part, ...]:
    said = match.groupdict()
    count = _number(said.get("count") or "one")
    count *= -1 if match["side"] in {"earlier", "sooner", "early", "before", "previous"} else 1
    unit = match["unit"]
    days, weeks = (count, 0) if unit.startswith("d") else (0, 2 * count if unit.startswith("f") else count)
    return (FromToday(text=match[0], days=days, weeks=weeks, from_lesson=True, is_counted=True),)


def _fortnight(match: _Match) -> tuple[Part, ...]:
    return (FromToday(text=match[0], weeks=2 * _number(match["count"]), is_counted=True),)


def _same_day(match: _Match) -> tuple[Part, ...]:
    return (SameDay(text=match[0]),)


def _no_direction(match: _Match) -> tuple[Part, ...]:
    span = match["span"]
    raise BadInput(f'"{match[0]}" could be earlier or later. Type "{span} earlier" or "{span} later".')


_OF_TODAY = frozenset(["today", "heute", "aujourd'hui", "aujourd’hui", "hoy", "tonight", "this"])


def _day(match: _Match) -> tuple[Part, ...]:
    days = -1 if match["day"] == "yesterday" else 0 if match["day"] in _OF_TODAY else 1
    part = "night" if match["day"] == "tonight" else match.groupdict().get("part")
    ahead = FromToday(text=match[0], days=days)
    return (ahead, _part_of(match[0], part)) if part else (ahead,)


def _after_tomorrow(match: _Match) -> tuple[Part, ...]:
    return (FromToday(text=match[0], days=2),)


def _day_part(match: _Match) -> tuple[Part, ...]:
    return (_part_of(match[0], match["part"]),)


def _part_of(text: str, part: str) -> DayPart:
    hours = {"morning": range(1, 12), "afternoon": range(1, 7), "evening": range(4, 12)}.get(part, range(5, 12))
    return DayPart(text=text, half="a" if part == "morning" else "p", hours=hours)


def _week(match: _Match) -> tuple[Part, ...]:
    weeks = {"this week": 0, "week after next": 2, "the week after next": 2}.get(match[0], 1)
    return (FromToday(text=match[0], weeks=weeks, is_week=True),)


def _weekday(match: _Match) -> tuple[Part, ...]:
    day = Weekday(text=match["weekday"], weekday=WEEKDAY_WORDS[match["weekday"]])
    return (FromToday(text=match[0], weeks=1, is_week=True), day) if match["next"] else (day,)


def _plural_weekday(match: _Match) -> tuple[Part, ...]:
    return (Weekday(text=match["weekday"], weekday=WEEKDAY_PLURALS[match["weekday"]]),)


def _every(weeks: int) -> Callable[[_Match], tuple[Part, ...]]:
    return lambda match: (Every(text=match[0], weeks=weeks),)


def _other_rhythm(match: _Match) -> tuple[Part, ...]:
    raise BadInput(f'"{match[0]}" cannot be planned. A weekly time is every week, or "every other week".')


def _from_month(match: _Match) -> tuple[Part, ...]:
    first = Dated(text=match[0], day=1, month=MONTH_WORDS[match["month"]], year=_year(match["year"]))
    return (Link(text="from", joint=Joint.FROM), first)


def _month_edge(match: _Match) -> tuple[Part, ...]:
    said = match.groupdict()
    month, which = said.get("month"), said.get("which")
    is_end = match["edge"] not in {"beginning", "start", "first day", "first", "1st"}
    return (
        Dated(
            text=match[0],
            day=31 if is_end else 1,
            edge=Edge.LAST if is_end else Edge.FIRST,
            month=MONTH_WORDS[month] if month else None,
            year=_year(said.get("year")),
            months=None if which is None else int(which == "next"),
        ),
    )


def _month_ahead(match: _Match) -> tuple[Part, ...]:
    return (Dated(text=match[0], day=1, months=0 if match["which"] == "this" else 1, edge=Edge.NONE),)


def _year_edge(match: _Match) -> tuple[Part, ...]:
    is_end = "end" in match[0]
    edge = Edge.LAST if is_end else Edge.FIRST
    return (Dated(text=match[0], day=31 if is_end else 1, month=12 if is_end else 1, edge=edge),)


def _same(match: _Match) -> tuple[Part, ...]:
    return (SameTime(text=match[0]),)


def _count_of(works: str) -> Callable[[_Match], tuple[Part, ...]]:
    """Refuses a number of lessons, which would be read as an hour."""

    def refuse(match: _Match) -> tuple[Part, ...]:
        raise BadInput(f'"{match[0]}" could be a time or a number of lessons. {works}')

    return refuse


def _numbered_weekday(match: _Match) -> tuple[Part, ...]:
    raise BadInput(f'"{match[0]}" could be a date, or a weekday counted in a month. Type a date such as "dec 3".')


def _alone(match: _Match) -> tuple[Part, ...]:
    return (Number(text=match[0], value=_number(match[0])),)


def _offset(match: _Match) -> tuple[Part, ...]:
    # The database's "Etc/GMT+5" lies west of Greenwich, "UTC+5" in speech lies east.
    raise BadInput(f'"{match[0]}" is an offset, not a place. Type a city instead, such as "4 pm phoenix".')


def _spoken_quarter(match: _Match) -> tuple[Part, ...]:
    raise BadInput(f'"{match[0]}" is not understood. Type the time in digits, such as "4:30 pm" or "16:30".')


def _midnight(match: _Match) -> tuple[Part, ...]:
    raise BadInput(f'"{match[0]}" could be the start or the end of a day. Type "12 am" and the day that starts then.')


def _from_to(match: _Match) -> tuple[Part, ...]:
    """A start and an end: the start, and the minutes between; of the two the one with am or pm tells it for both."""
    begins, ends = match["begins"], match["ends"]
    (start,), (end,) = _clock(match), _clock_of(match, "end_")
    if not (start.hour <= 23 and end.hour <= 23 and start.minute <= 59 and end.minute <= 59):
        return ()
    if begins.isdigit() and ends.isdigit():
        raise BadInput(f'"{match[0]}" has two times. Type the start and the length: "4:30 pm 45 min".')
    whole = 1440 if max(start.hour, end.hour) > 12 and not (start.half or end.half) else 720
    minutes = (end.hour * 60 + end.minute - start.hour * 60 - start.minute) % whole
    half = start.half
    if half is None and end.half is not None and start.hour <= 12:
        half = "p" if (end.hour % 12 * 60 + end.minute + 720 * (end.half == "p") - minutes) % 1440 >= 720 else "a"
    if half is None and end.hour > 12 >= start.hour and not start.has_zero and minutes > 720:
        minutes, half = minutes - 720, "p"
    return (replace(start, text=match[0], half=half), Length(text=match[0], minutes=minutes))


def _any_of(words: Iterable[str]) -> str:
    """A pattern of words, the longest first; "do" and "so" are weekdays only where German, or a row of days, goes on."""
    german = {
        each: rf"(?:{each}(?=.* uhr\b|\.? ?[0-9]{{1,2}}\.)|(?:(?<=bis )|(?<= - )){each})" for each in ("do", "so")
    }
    return "|".join(german.get(word, word) for word in sorted(words, key=len, reverse=True))


_END = r"(?=[.]?(?:[ ,;]|$))"
_COUNT = rf"(?:[0-9]{{1,2}}|{'|'.join(_COUNTS)})"
# "in and" is no day that is written together.
_SPACED = rf"(?:[0-9]{{1,2}}|(?:an?|{'|'.join(_COUNTS)})(?= ))"
_AT = r"(?:at |@ ?)?"
_FOR = r"(?:for )?"
_HALF = r"(?: ?(?P<half>[ap])(?:\.? ?m)?\.?(?!\w))"
_NO_HALF = r"(?! ?[ap](?:\.? ?m)?\.?(?!\w))"
_O_CLOCK = r"(?: ?(?:o['’ ]?clock|uhr))"
_MONTH = rf"(?P<month>{_any_of(MONTH_WORDS)})\.?"
_NUMBERED = r"(?:the )?(?P<day>[0-9]{1,2})"
_SUFFIX = r"(?:st|nd|rd|th|(?<=\b1)er)"
_OF = r"(?:of |de )?"
_IN_YEAR = rf"(?:(?:,| del?)? (?P<year>20[0-9]{{2}}){_NO_HALF}(?![^ ,;.]))?"
_MIN = r"m(?:in(?:ute)?s?)?"
_PART = r"(?P<part>morning|afternoon|evening|night)"
_UNIT = r"(?P<unit>d(?:ays?)?|w(?:(?:ee)?ks?)?)"
_NO_DATE = rf"(?!{_SUFFIX}\b| ?(?:[./-]|{_OF}(?:{_any_of(MONTH_WORDS)})\b))"


def _time_in_range(which: str) -> str:
    return rf"(?P<{which}hour>[0-9]{{1,2}})(?:[:.h](?P<{which}minute>[0-9]{{2}}))?(?: ?(?P<{which}half>[ap])\.?m?\.?(?!\w))?"


_RANGE = rf"(?:from |at |@ ?)?(?P<begins>{_time_in_range('')}) ?(?:-|–|—|to|until|till?) ?(?P<ends>{_time_in_range('end_')}){_NO_DATE}"
_SPOKEN_QUARTERS: _Forms = (
    # "Halb fünf" is 4:30, and "half five" 5:30.
    (r"(?:halb|viertel|dreiviertel|drei viertel)(?: (?:vor|nach))? [^ ,;]+", _spoken_quarter),
)
_OFFSETS: _Forms = (
    (r"(?:etc/)?(?:utc|gmt) ?[+−-] ?[0-9][0-9:]*", _offset),
    (r"(?:at )?midnight", _midnight),
)
_DATES: _Forms = (
    (r"(?P<year>[0-9]{4})([/-])(?P<month>[0-9]{1,2})\2(?P<day>[0-9]{1,2})", _numbered_date),
    (r"([0-9]{1,2})/([0-9]{1,2})(?:/([0-9]{4}|[0-9]{2}))?", _slashed),
    (r"(?P<day>[0-9]{1,2})\.(?P<month>[0-9]{1,2})\.(?P<year>[0-9]{4}|[0-9]{2})?", _numbered_date),
    (rf"{_MONTH} {_NUMBERED}{_SUFFIX}?{_NO_HALF}{_IN_YEAR}", _named_date),
    (rf"{_NUMBERED}(?:{_SUFFIX}|\.)? {_OF}{_MONTH}{_IN_YEAR}", _named_date),
    (rf"(?:the )?[1-5]{_SUFFIX} (?:{_any_of(WEEKDAY_WORDS)})s?", _numbered_weekday),
    (rf"{_NUMBERED}{_SUFFIX}", _day_number),
)
# "dec 21, 23", "12/21, 23", "21, 23 dec"; but "dec 3, 5 pm" is a time.
_LISTED: _Forms = (
    (
        rf"(?P<first>(?:{_any_of(MONTH_WORDS)})\.? [0-9]{{1,2}}{_SUFFIX}?|[0-9]{{1,2}}(?:/|\.)[0-9]{{1,2}}\.?|"
        rf"[0-9]{{1,2}}(?:{_SUFFIX}|\.)? {_OF}(?:{_any_of(MONTH_WORDS)})\.?), ?(?P<second>[0-9]{{1,2}})"
        rf"(?! ?(?:[ap]\b|[ap]\.?m|{_MIN}\b|h\b|hours?|hrs?|uhr|o['’ ]?clock|noon|(?:in the |at )?(?:morning|afternoon|evening|night)))",
        _listed,
    ),
    (
        rf"(?P<first>[0-9]{{1,2}})\.?, ?(?P<second>[0-9]{{1,2}})(?:{_SUFFIX}|\.)? {_OF}(?:{_any_of(MONTH_WORDS)})",
        _listed,
    ),
)
_NOON: _Forms = ((rf"{_AT}(?:(?:12 )?noon|midday)", _noon),)
_AHEAD: _Forms = (
    (rf"(?:in )?(?P<count>an?|{_COUNT}) {_UNIT} (?:from (?:today|now)|later)", _ahead),
    (rf"in (?P<count>{_SPACED}) ?{_UNIT}", _ahead),
    (rf"\+ ?(?P<count>{_SPACED}) ?{_UNIT}", _ahead),
)
_SPAN_UNIT = r"(?P<unit>days?|weeks?|wks?|fortnights?)"
# "a day after thursday" counts from that day.
_ALL_SAID = r"(?=$|[,;.]| (?:at|@|same|the same|in the|for)\b)"
_BY_LESSON: _Forms = (
    (rf"(?:by )?(?P<count>an?|{_COUNT}) {_SPAN_UNIT} (?P<side>later|earlier|sooner|early)", _by_lesson),
    (rf"(?P<count>an?|{_COUNT}) {_SPAN_UNIT} (?P<side>after|before|on){_ALL_SAID}", _by_lesson),
    (rf"(?:on )?(?:the )?(?P<unit>day|week) (?P<side>after|before){_ALL_SAID}", _by_lesson),
    (r"(?:on )?(?:the )?(?P<side>following|previous) (?P<unit>day|week)", _by_lesson),
    (r"(?:on )?(?:the )?(?P<side>next) (?P<unit>day)", _by_lesson),
    (rf"in (?P<count>an?|{_COUNT}) fortnights?", _fortnight),
)
_SAME_DAY: _Forms = ((r"(?:on )?(?:the )?same (?:day|weekday)", _same_day),)
_STRETCH = (
    rf"(?:(?P<hours>an?|one|two|three|four|[0-9]{{1,2}}(?:\.[0-9]{{1,2}})?)[ -]?(?:hours?|hrs?|h)(?:(?: and)? (?P<half>a half))?"
    rf"(?:(?: and)? ?(?P<minutes>[0-9]{{1,2}}) ?{_MIN})?|(?P<quarter>(?:a )?quarter (?:of an )?hour))"
)
_SHIFTS: _Forms = (
    (rf"(?:by )?{_STRETCH} (?P<side>later|earlier|sooner)", _shift),
    (rf"in {_STRETCH}", _shift),
    (
        rf"(?:by )?(?P<minutes>[0-9]{{1,3}})[ -]?{_MIN} (?P<side>later|earlier|sooner)(?P<hours>)(?P<half>)(?P<quarter>)",
        _shift,
    ),
    (rf"in (?P<minutes>[0-9]{{1,3}})[ -]?{_MIN}(?P<hours>)(?P<half>)(?P<quarter>)", _shift),
    (
        r"(?:by )?(?P<half>half (?:an )?hour) (?P<side>later|earlier|sooner)(?P<hours>)(?P<minutes>)(?P<quarter>)",
        _shift,
    ),
    (r"in (?P<half>half (?:an )?hour)(?P<hours>)(?P<minutes>)(?P<quarter>)", _shift),
)
_OF_HOURS = rf"{_STRETCH}|[0-9]{{1,3}}[ -]?{_MIN}|half (?:an )?hour"
_SPAN = rf"(?P<span>(?:an?|{_COUNT}) {_SPAN_UNIT}|{_OF_HOURS})"
# In American English "forward" and "back" are each used for both.
_UNDIRECTED: _Forms = (
    (rf"(?:back|forwards?|up|out|ahead|over)(?: by)? {_SPAN}(?! (?:later|earlier|sooner)\b)", _no_direction),
    (
        rf"(?:move|push|shift)(?: it)?(?: by)? (?P<span>{_OF_HOURS})(?! (?:later|earlier|sooner)\b)",
        _no_direction,
    ),
    (rf"(?:by )?{_SPAN} (?:back|forwards?|ahead|over)", _no_direction),
    (
        rf"(?:by )?(?P<span>(?:an?|{_COUNT}) {_SPAN_UNIT})(?! (?:later|earlier|sooner|early|late|from|after|before|on)\b)",
        _no_direction,
    ),
)
_AFTERS: _Forms = (
    (
        rf"(?P<count>an?|{_COUNT}) {_UNIT} (?:from|after|on)(?= (?:next |this |the )?(?:(?:{_any_of(WEEKDAY_WORDS)})(?:\b)|"
        rf"(?:{_any_of(MONTH_WORDS)})\b|[0-9]|tomorrow))",
        _after,
    ),
)
_BESIDE: _Forms = (
    (
        rf"{_AT}(?P<by>half|(?:a )?quarter|twenty(?:-five)?|{_COUNT})(?P<unit> ?{_MIN})? "
        rf"(?P<side>past|after|to|before|till?) (?P<hour>{_COUNT}){_HALF}?{_O_CLOCK}?",
        _beside,
    ),
    (_RANGE, _from_to),
)
_LENGTHS: _Forms = (
    (rf"{_FOR}(?P<minutes>[0-9]{{1,3}})[ -]?{_MIN}", _minutes),
    (rf"{_FOR}half (?:an )?hour", _half_hour),
    (
        rf"{_FOR}(?P<hours>an?|one|two|three|four|[0-9]{{1,2}}(?:\.[0-9]{{1,2}})?)[ -]?(?:hrs?|hours?)"
        rf"(?:(?: and)? (?P<minutes>[0-9]{{1,2}}) ?{_MIN}|(?P<half> and a half))?",
        _hours,
    ),
    (rf"{_FOR}(?P<hours>[1-4](?:\.[0-9]{{1,2}})?) ?h(?: ?(?P<minutes>[0-9]{{2}}) ?(?:{_MIN})?)?", _hours),
    (r"for (?P<minutes>[0-9]{1,3})", _minutes),
)
_CLOCKS: _Forms = (
    (rf"{_AT}(?P<hour>[0-9]{{1,2}})[:.h](?P<minute>[0-9]{{2}})(?::00)?(?:{_HALF}| uhr)?", _clock),
    (rf"(?P<hour>[0-9]{{1,2}}) ?uhr (?P<minute>[0-9]{{2}})(?! ?{_MIN}\b)", _clock),
    # Up to 4 it could be how long the lesson lasts.
    (rf"(?P<hour>[5-9]|[0-9]{{2}})(?: h| ?heures?| ?horas?)(?: (?P<minute>[0-9]{{2}})(?! ?{_MIN}\b))?", _clock),
    (rf"{_AT}(?P<hour>[0-9]{{1,2}}) ?(?P<minute>[0-9]{{2}}){_HALF}", _clock),
    (r"(?:at |@ ?)(?P<hour>[0-9]{1,2})(?P<minute>[0-9]{2})", _clock),
    (rf"{_AT}(?P<hour>{_COUNT})(?:{_O_CLOCK}|{_HALF}| ?h)", _clock),
    (rf"(?:at |@ ?)(?P<hour>{_COUNT})", _clock),
)
_WEEKDAYS: _Forms = (
    (rf"(?:in the |at )?{_PART}", _day_part),
    (rf"(?P<day>today|tomorrow|tmrw|yesterday|this) {_PART}", _day),
    (r"(?P<day>today|tomorrow|tmrw|yesterday|tonight|heute|morgen|aujourd['’]hui|demain|hoy|^ma[ñn]ana)", _day),
    (r"(?:this|next|(?:the )?coming) week|(?:the )?week after next", _week),
    (r"(?:the )?day after tomorrow|übermorgen|après-demain|pasado ma[ñn]ana", _after_tomorrow),
    (rf"(?P<next>next )?(?:this |coming )*(?P<weekday>{_any_of(WEEKDAY_WORDS)})", _weekday),
)
_SAME: _Forms = ((r"(?:the )?same(?: time)?", _same),)
_ALONE: _Forms = ((rf"[0-9]{{1,4}}|{'|'.join(_COUNTS)}", _alone),)


def _compiled(forms: _Forms) -> Rules:
    return tuple((re.compile(f"(?:{form}){_END}"), reader) for form, reader in forms)


RULES = _compiled(
    (
        *_OFFSETS,
        *_LISTED,
        *_DATES,
        *_NOON,
        *_AHEAD,
        *_AFTERS,
        *_SHIFTS,
        *_SPOKEN_QUARTERS,
        *_BESIDE,
        *_LENGTHS,
        *_CLOCKS,
        *_WEEKDAYS,
        *_SAME,
        *_ALONE,
    )
)
"""How a line that names a moment is read."""
_A_LESSON: _Forms = (
    (rf"{_COUNT} (?:more )?lessons?", _count_of('Type a time such as "4:30 pm" or "16:30", one lesson a line.')),
)
LESSON_RULES = _compiled((*_UNDIRECTED, *_BY_LESSON, *_SAME_DAY, *_A_LESSON)) + RULES
"""How a line that names a moment for a lesson is read: its day may be counted from that of the lesson."""


def _link(joint: Joint) -> Callable[[_Match], tuple[Part, ...]]:
    return lambda match: (Link(text=match[0], joint=joint),)


def _day_count(match: _Match) -> tuple[Part, ...]:
    weeks = 14 if match["unit"].startswith("f") else 7 if match["unit"].startswith("w") else 1
    return (DayCount(text=match[0], days=_number(match["count"]) * weeks),)


def _week_of(match: _Match) -> tuple[Part, ...]:
    return (WeekOf(text=match[0]),)


def _whole_week(match: _Match) -> tuple[Part, ...]:
    return (FromToday(text=match[0], weeks=int(match["week"].startswith("next")), is_week=True),)


def _weekend(match: _Match) -> tuple[Part, ...]:
    which = match.groupdict().get("which")
    weekend = WeekOf(text=match[0], is_weekend=True)
    return (weekend, FromToday(text=match[0], weeks=int(which == "next"), is_week=True)) if which else (weekend,)


_DAY_COUNT = rf"(?P<count>an?|[0-9]{{1,3}}|{'|'.join(_COUNTS)})[ -](?P<unit>days?|weeks?|wks?|fortnights?)"
_WITHOUT_A_TIME: _Forms = (
    (rf"{_MONTH} {_NUMBERED}{_SUFFIX}?(?= ?[ap]\.?m)", _named_date),
    (r"(?:all|(?:the )?(?:whole|entire|rest))(?: of)?(?: the)? (?P<week>(?:this |next )?week)", _whole_week),
    (r"(?:the )?(?:whole |entire |full )?week (?:of|beginning|starting|with)", _week_of),
    (r"(?P<which>this|next|(?:the )?coming) weekend", _weekend),
    (r"(?:the )?weekend of", _weekend),
    (rf"for (?:the )?{_DAY_COUNT}", _day_count),
    (_DAY_COUNT, _day_count),
)  # fmt: skip
_DOTTED: _Forms = ((r"(?P<day>[0-9]{1,2})\.(?P<month>0?[1-9]|1[0-2])", _numbered_date),)
_LINKS: _Forms = (
    (
        r"to|until|till?|'til|through|thru|up to|bis(?: zum)?|hasta(?: el)?|jusqu['’]?(?:au|à)|[-–—→]|->|"
        rf"(?<= )(?:au|al)(?= (?:[0-9]|{_any_of(WEEKDAY_WORDS)}))",
        _link(Joint.TO),
    ),
    (r"from|between|starting|beginning|ab(?: dem)?|vom|du|del|[àa] partir d(?:u|el?)|desde(?: el)?|dès(?: le)?", _link(Joint.FROM)),
    (r"(?:and )?(?:on(?= *$)|onwards?|forwards?)|and on", _link(Joint.ON)),
    (r"and|[&+]|plus|or|as well as|also|then|und|oder|et|ou|y|o", _link(Joint.AND)),
    (
        r"except(?:ing)?(?: for)?|excluding|excl|without|not|no(?! school)|never|but(?: not)?|minus|unless|besides|"
        r"ohne|nicht|außer|ausser|sauf|sans|excepto|salvo|sin",
        _link(Joint.EXCEPT),
    ),
    (r"only|just|nur|seulement|solamente", _link(Joint.ONLY)),
)  # fmt: skip
_LIMITS: _Forms = (
    (
        r"half(?![ -]term)(?:-day)?|after|before|part(?:ial|ially)?|early|earlier|late|later|during|since|mid|some|most|all|every|"
        r"each|both|either|first|last|second|third|next|other|another|rest|remainder|several|few|"
        r"weeks?|weekends?|weekdays?|days|months?|years?|fortnights?|hours?|minutes?|[ap]m|o['’]clock|lunch(?:time)?|"
        r"dinner|mornings|afternoons|evenings|nights|lessons?|nach|vor|vormittags?|nachmittags?|abends?|halb|halber",
        _link(Joint.PART),
    ),
)  # fmt: skip
DAY_RULES = _compiled(
    (
        *_WITHOUT_A_TIME,
        *_DATES,
        *_DOTTED,
        *_NOON,
        *_AHEAD,
        *_LINKS,
        *_CLOCKS[:4],
        *_CLOCKS[5:6],
        *_WEEKDAYS,
        *_ALONE,
        *_LIMITS,
    )
)
"""How a line that names days without their hours is read: a number is none of a clock."""
_SINCE = (
    r"(?:(?:from|starting|beginning|effective|as of|since)(?: from| on| in)?|ab(?: dem)?|vom|[àa] partir d(?:u|el?)|dès(?: le)?|"
    r"desde(?: el)?)"
)
_WHICH_MONTH = r"(?P<which>this|next|the) month"
_EDGE = r"(?:the )?(?P<edge>(?:very )?end|last day|beginning|start|first day|first|1st) of (?:the month of )?"
_MONTHS: _Forms = (
    (rf"{_EDGE}{_MONTH}{_IN_YEAR}", _month_edge),
    (rf"(?:la |dem )?(?P<edge>ende|fin(?:al(?:es)?|es)?) (?:de |des )?{_MONTH}{_IN_YEAR}", _month_edge),
    (rf"{_EDGE}{_WHICH_MONTH}", _month_edge),
    (r"(?P<which>this|next) month", _month_ahead),
    (r"(?:the )?end of (?:the |this )?year|(?:the |in the )?new year", _year_edge),
)
_NAMED_DAY = rf"(?:{_any_of(WEEKDAY_WORDS)})s?\b"
_WEEKLY: _Forms = (
    (_RANGE, _from_to),
    (
        rf"{_COUNT} (?:more )?(?:lessons?|{'|'.join(WEEKDAY_PLURALS)})",
        _count_of('Type a time such as "4:30 pm", or a last day such as "until mar 30".'),
    ),
    *_SAME_DAY,
    *_MONTHS,
    (rf"{_SINCE} (?:the )?(?:(?:beginning|start) of )?{_MONTH}(?: (?P<year>20[0-9]{{2}})|(?! ?[0-9]))", _from_month),
    (_SINCE, _link(Joint.FROM)),
    (
        r"(?:no (?:more )?lessons after|until|till?|'til|through|thru|up to|bis(?: zum)?|jusqu['’]?(?:au|en|à)|hasta(?: el)?|(?:(?:stop|end|quit|finish)(?:s|es)?|last(?: (?:lesson|day|one|time))?)"
        r"(?: is)?(?: after| on| with)?)(?: on)?(?= [^ ])",
        _link(Joint.TO),
    ),
    (
        r"every (?:second|other|2nd|2|two) weeks?|(?:on )?alternate weeks|bi-?weekly|fortnightly|every fortnight|"
        rf"every (?:second|other|2nd)(?= {_NAMED_DAY})",
        _every(2),
    ),
    (r"every (?:third|3rd|3|three|fourth|4th|4|four|few) weeks?|every (?:day|month)|monthly|daily|twice a week", _other_rhythm),
    (rf"(?:every|each) week|once a week|weekly|(?:every|each)(?= {_NAMED_DAY})", _every(1)),
    (rf"(?:on |les |los )?(?P<weekday>{'|'.join(WEEKDAY_PLURALS)})", _plural_weekday),
    (r"-|–|—|to", _link(Joint.AND)),
)  # fmt: skip
WEEKLY_RULES = _compiled(
    (
        *_WEEKLY,
        *_OFFSETS,
        *_LISTED,
        *_DATES,
        *_NOON,
        *_AHEAD,
        *_AFTERS,
        *_SHIFTS,
        *_SPOKEN_QUARTERS,
        *_BESIDE,
        *_LENGTHS,
        *_CLOCKS,
        *_WEEKDAYS,
        *_SAME,
        *_ALONE,
    )
)
"""How a line on a weekly time is read."""
