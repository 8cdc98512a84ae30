"""The cells of a roster, as people write them, and the values that they mean.

Each function takes a cell that is not blank, and raises BadInput with what would work, as an imperative.
"""

import re
import unicodedata
from collections.abc import Sequence
from datetime import date, time
from itertools import pairwise

from cockpit.studio.clocks.calendar_words import WEEKDAY_PLURALS, WEEKDAY_WORDS
from cockpit.studio.clocks.home import Stay
from cockpit.studio.clocks.moments import WEEKDAYS, Zone
from cockpit.studio.clocks.moves import clock_of
from cockpit.studio.clocks.words import clock_time
from cockpit.studio.clocks.zones import zone_of_place
from cockpit.studio.errors import BadInput
from cockpit.studio.lessons.weekly_times import KeptIn
from cockpit.studio.people.people import Level, PlanForm
from cockpit.studio.people.web_address import web_address
from cockpit.studio.post.channels import Channel, channels_words, read_channels
from cockpit.studio.shown import shown

_LENGTHS = range(5, 241)
_DAILY = range(601)
_YEARLY = range(1, 367)
_YEARS = range(1990, 2200)
_MINUTES = re.compile(r"(?P<minutes>[0-9]{1,3})(?:[.,]0+)?(?: ?(?:m|mins?\.?|minutes?)|[\u2032'])?", re.IGNORECASE)
_HOURS = (
    re.compile(r"(?P<hours>[0-9]):(?P<minutes>[0-5][0-9])(?::00)?"),
    re.compile(r"0(?P<hours>[0-9]):(?P<minutes>[0-5][0-9]):00"),
    re.compile(
        r"(?P<hours>[0-9]) ?(?:h|hrs?\.?|hours?)(?: ?(?P<minutes>[0-5]?[0-9]) ?(?:m|mins?\.?|minutes?)?)?",
        re.IGNORECASE,
    ),
)
_FRACTION = re.compile(r"0?[.,](?P<digits>[0-9]{1,17})")  # of a day: a sheet's own number for a time
_ROUNDED = 3  # so many digits may be rounded, and mean a time beside the one that they say
_HALF = r" ?(?P<half>[ap])(?:\.? ?m)?\.?"
_TIMES = (
    re.compile(rf"(?P<hour>[0-9]{{1,2}})[:.h](?P<minute>[0-5][0-9])(?::00)?(?:{_HALF})?"),
    re.compile(rf"(?P<hour>[0-9]{{1,2}})(?P<minute>[0-5][0-9])(?:{_HALF})?"),
    re.compile(rf"(?P<hour>[0-9]{{1,2}})(?P<minute>)(?: ?h|{_HALF})"),
)
_CLOCK = re.compile(r"(12|24)[ -]?(?:h|hours?)?", re.IGNORECASE)
_MOVED = '"America/Phoenix; America/Denver from 2027-03-01"'
_STAY = re.compile(r"(?P<place>.+?) from (?P<from>\S+)(?: (?:to|until|through) (?P<until>\S+))?", re.IGNORECASE)
_DATE = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
_NO_WORD = re.compile(r"[^\w]+")
_EVERY_WEEKS = {
    **dict.fromkeys(("1", "1.0", "1,0", "weekly", "every week", "each week", "1 week", "every 1 week"), 1),
    **dict.fromkeys(
        ("2", "2.0", "2,0", "biweekly", "bi weekly", "fortnightly", "every other week", "every second week", "every two weeks",
         "every 2 weeks", "2 weeks", "alternate weeks"),
        2,
    ),
}  # fmt: skip
_IN_ADDRESS = r"[^\s@,;:<>()\[\]\\\"\x00-\x1f\x7f-\x9f]"
_ADDRESS = re.compile(rf"{_IN_ADDRESS}+@{_IN_ADDRESS}+\.{_IN_ADDRESS}+")
_LANGUAGE = re.compile(r"([a-z]{2,3})(?:[-_]([a-z]{2}))?")
_TIME_WANTED = 'Write a time such as "4:30 pm" or "16:30"'
BETWEEN_DAYS = re.compile(r"(?:\s*[,;/&+]\s*|\s+)(?:and\s+)?", re.IGNORECASE)
# Where only a weekday can be, these are one; two letters are Dienstag or dimanche, Donnerstag or domingo.
_WEEKDAYS = {
    name: number
    for name, number in {**WEEKDAY_WORDS, **WEEKDAY_PLURALS, "mar": 1, "sam": 5, "dom": 6}.items()
    if name not in {"di", "do"}
}
_DAY = 24 * 60
_NOTHING = 1e-6
_NO_LESSON = re.compile(
    r"\b(?:cancel+(?:ed|ation|s)?|called off|postponed|no (?:lessons?|class(?:es)?)|"
    r"abgesagt|f\u00e4llt aus|entf\u00e4llt|kein unterricht|annul\u00e9e?s?|pas de cours|cancelad[oa]s?|suspendid[oa]s?|no hay clase)\b",
    re.IGNORECASE,
)
_NO_NAMES = frozenset(("empty", "n.a.", "n/a", "nil", "no name", "none", "null", "tba", "tbd", "unknown"))
_BESIDE_NAME = re.compile(r"[^\w\s.'\u2019&+/-]| - ")
_SIGNS = "-\u2013\u2014?._*/ ()[]{}<>\"'\u201c\u201d"
_ASIDE = re.compile(r"[(\[{<].*[)\]}>]", re.DOTALL)
_TOTALS = re.compile(r"(?:grand |sub-?)?totals?\b.*|(?:sum|average|count|mean)s?:?", re.IGNORECASE)
# What a spreadsheet shows where a formula has no value or a column is too narrow, and a formula itself.
_SHEET = re.compile(r"#(?:[A-Z/0]+[!?]|N/A)|#{2,}|Err:[0-9]+|=\s*[\w$(@\"'+{\-].*", re.IGNORECASE | re.DOTALL)


def read_name(text: str) -> str:
    """A name or a kind of instrument: composed (NFC), with single spaces."""
    return " ".join(unicodedata.normalize("NFC", text).split())


def beside_name(name: str) -> str | None:
    """What stands beside a student's name in its cell: an instrument, or a sign with what follows it; None where nothing does."""
    # The first screen needs the columns of a roster, but no typed lines.
    from cockpit.studio.typed_times.instruments import is_instrument

    words = [word.strip(f"{_SIGNS}:;,") for word in name.split()]
    instrument = next((word for word in (words[-1], words[0]) if len(words) > 1 and is_instrument(word)), None)
    sign = _BESIDE_NAME.search(name)
    return instrument or (name[sign.start() :].strip() if sign is not None else None)


def read_remark(text: str) -> str:
    """A remark as it was typed, its line breaks those of the program."""
    return shown(text.strip().replace("\r\n", "\n"))


def read_weekday(text: str) -> int:
    """The weekday that a name stands for, Monday 0: one in English or its first two letters or more, or one in German, French, or Spanish."""
    begun = unicodedata.normalize("NFC", text).strip().casefold().rstrip(".")
    if (weekday := _WEEKDAYS.get(begun)) is not None:
        return weekday
    found = [number for number, name in enumerate(WEEKDAYS) if begun and f"{name}s".casefold().startswith(begun)]
    if len(begun) >= 2 and len(found) == 1:
        return found[0]
    names = [WEEKDAYS[number][:3] for number in found] or [name[:3] for name in WEEKDAYS]
    raise BadInput(_of_every_weeks(begun) or f"Write {_one_of(names)}")


def _of_every_weeks(said: str) -> str:
    """What works in place of a weekday with words on how often it comes, `friday biweekly`; empty for other words."""
    words = [word for word in _NO_WORD.split(said) if word]
    days = [word for word in words if _is_weekday(word)] if len(words) > 1 else []
    others = " ".join(word for word in words if word not in days)
    weeks = _EVERY_WEEKS.get(others, _EVERY_WEEKS.get(f"{others} week"))
    if len(days) != 1 or weeks is None:
        return ""
    return f"Write {WEEKDAYS[read_weekday(days[0])][:3]} here, and {weeks} in a column every_weeks"


def read_time(text: str) -> time:
    """The time of day that a text means on a 12- or 24-hour clock.

    From 1:00 to 6:59 it must say which half of the day it means, by am or pm or by a leading zero: `4:30` is nearly
    always an afternoon, and would be read as night.
    """
    said = " ".join(unicodedata.normalize("NFKC", text).casefold().split())
    if said == "noon":
        return time(12)
    if (minutes := _part_of_day(said)) is not None:
        return _of_part(minutes, said)
    if said.endswith("uhr"):
        said = said.removesuffix("uhr").rstrip()
        said = f"{said}h" if said.isdecimal() and len(said) <= 2 else said
    match = next((match for form in _TIMES if (match := form.fullmatch(said))), None)
    if match is None:
        raise BadInput(_TIME_WANTED)
    hour, minute = int(match["hour"]), int(match["minute"] or 0)
    if match["half"] is not None:
        return _of_half_day(hour, minute, is_afternoon=match["half"] == "p")
    if hour > 23:
        raise BadInput(_TIME_WANTED)
    if 1 <= hour <= 6 and not said.startswith("0"):
        raise BadInput(_which_half(time(hour, minute)))
    return time(hour, minute)


def read_minutes(text: str) -> int:
    """The length of a lesson in minutes, 5 to 240."""
    return _minutes(text, _LENGTHS, "Write the length of the lesson in minutes, 5 to 240, such as 45")


def read_daily_minutes(text: str) -> int:
    """Minutes of practice a day, 0 to 600."""
    return _minutes(text, _DAILY, "Write the minutes of practice per day, 0 to 600, such as 20")


def read_yearly_lessons(text: str) -> int:
    """The lesson times of a studio year, 1 to 366."""
    said = re.fullmatch(r"(?P<count>[0-9]{1,3})(?:[.,]0+)?(?: ?lessons?)?", text.strip(), re.IGNORECASE)
    if said is None or int(said["count"]) not in _YEARLY:
        raise BadInput("Write the lesson times in the year, 1 to 366, such as 36")
    return int(said["count"])


def read_every_weeks(text: str) -> int:
    """How often a weekly time comes: every week, or every second one."""
    said = " ".join(text.casefold().replace("-", " ").split())
    if said not in _EVERY_WEEKS:
        raise BadInput("Write 1 for every week or 2 for every other week")
    return _EVERY_WEEKS[said]


def read_date(text: str) -> date:
    """A date written YYYY-MM-DD; no other form, since 3/4 is another day in another country."""
    said = text.strip()
    wanted = "Write the date as YYYY-MM-DD, such as 2026-09-01"
    if not _DATE.fullmatch(said):
        raise BadInput(wanted)
    try:
        on = date.fromisoformat(said)
    except ValueError as fault:
        raise BadInput("Write a real date as YYYY-MM-DD, such as 2026-09-01") from fault
    if on.year not in _YEARS:
        raise BadInput(wanted)
    return on


def read_zone(text: str) -> Zone:
    """Where a family lives: a place, and behind semicolons where they move and when, as `clock_text` writes it."""
    first, *moves = (part.strip() for part in text.split(";"))
    stays = [_stay(part) for part in moves if part]
    if any(later.from_on <= earlier.from_on for earlier, later in pairwise(stays)):
        raise BadInput(f"Write the moves in order, each with another first day, such as {_MOVED}")
    return clock_of(zone_of_place(first), stays)


def _stay(text: str) -> Stay:
    found = _STAY.fullmatch(text)
    if found is None:
        raise BadInput(f"Write a move behind the place with its first day, such as {_MOVED}")
    until_on = read_date(found["until"]) if found["until"] is not None else None
    stay = Stay(zone=zone_of_place(found["place"]), from_on=read_date(found["from"]), until_on=until_on)
    if stay.until_on is not None and stay.until_on < stay.from_on:
        raise BadInput("Write a last day that is not before the first day")
    return stay


def read_kept_in(text: str) -> KeptIn:
    """Whose clock a weekly time belongs to."""
    said = text.strip().casefold()
    if said not in tuple(KeptIn):
        raise BadInput("Write teacher or family, for whoever's clock the weekly time follows")
    return KeptIn(said)


def read_clock(text: str) -> int:
    """A family's habit: a clock of 12 or of 24 hours."""
    match = _CLOCK.fullmatch(text.strip())
    if match is None:
        raise BadInput("Write 12 or 24, for the family's 12-hour or 24-hour clock")
    return int(match[1])


def read_emails(text: str) -> str:
    """The e-mail address of each guardian: `name@example.org, other@example.org`."""
    said = [part.strip() for part in re.split(r"[,;\s]+", text) if part.strip()]
    if not said or not all(map(_ADDRESS.fullmatch, said)):
        raise BadInput("Write an email address such as name@example.org. Separate several with commas")
    return ", ".join(dict.fromkeys(said))


def read_person(text: str) -> str:
    """A person's or a family's name, in the order in which it is spoken."""
    name = read_name(text)
    if "," in name:
        last, *first = filter(None, (part.strip() for part in name.split(",")))
        spoken = " ".join((*first[:1], last, *first[1:]))
        raise BadInput(f'Write the name without a comma, such as "{spoken}"')
    return name


def is_no_name(text: str) -> bool:
    """Whether a cell of a name has none: it says that there is nothing or no lesson, doubts, or is of a row of totals."""
    said = text.strip().casefold()
    bare = said.strip(_SIGNS)
    is_nothing = not bare or "?" in said or not _NO_NAMES.isdisjoint((said, bare)) or _ASIDE.fullmatch(said) is not None
    return is_nothing or is_of_totals(said) or says_no_lesson(said) is not None


def is_of_totals(text: str) -> bool:
    """Whether a cell is the name of a row of totals."""
    return _TOTALS.fullmatch(text.strip()) is not None


def says_no_lesson(title: str) -> str | None:
    """The words of a title that say that its event does not take place, as typed; None where it has none."""
    found = _NO_LESSON.search(title)
    return found[0] if found else None


def split_weekdays(text: str) -> tuple[str, ...]:
    """The words of a cell that names several weekdays, `Mon/Wed`; the cell as it is, where it does not."""
    words = [word for word in BETWEEN_DAYS.split(text.strip()) if word]
    if len(words) < 2 or not all(map(_is_weekday, words)):
        return (text,)
    return tuple(words)


def is_of_a_sheet(text: str) -> bool:
    """Whether a cell holds an error or a formula of a spreadsheet in place of a value."""
    return _SHEET.fullmatch(text) is not None


def read_send_by(text: str) -> str:
    """How a family's practice notes go out: `folder, mail`, or none."""
    try:
        return channels_words(read_channels(text))
    except BadInput as fault:
        raise BadInput(f"Write one or more of {', '.join(Channel)}, separated by commas, or none") from fault


def read_language(text: str) -> str:
    """The language of a family by its code, with that of a country where she gives one: `es`, `en-GB`."""
    found = _LANGUAGE.fullmatch(text.strip().casefold())
    if found is None:
        raise BadInput("Write a language code, such as en, en-GB, es, fr, or de")
    language, country = found.groups()
    return f"{language}-{country.upper()}" if country else language


def read_call_link(text: str) -> str:
    """A web address that begins with http:// or https://."""
    if web_address(text) is None:
        raise BadInput('Write a web address that begins with "https://"')
    return text.strip()


def read_plan(text: str) -> PlanForm:
    """The form of a student's plan: `chart`, `list`, or `none`."""
    try:
        return PlanForm(text.strip().casefold())
    except ValueError as fault:
        raise BadInput("Write chart, list, or none, for the plan on this student's sheet") from fault


def read_level(text: str) -> Level:
    """How far a student has come: one of `Level`."""
    try:
        return Level(text.strip().casefold())
    except ValueError as fault:
        raise BadInput(f"Write {_one_of(list(Level))}, for the level") from fault


def _of_half_day(hour: int, minute: int, *, is_afternoon: bool) -> time:
    if not 1 <= hour <= 12:
        raise BadInput(_TIME_WANTED)
    return time(hour % 12 + (12 if is_afternoon else 0), minute)


def _which_half(at: time) -> str:
    afternoon = at.replace(hour=at.hour + 12)
    return f'Write "{clock_time(afternoon, 12)}" or "{afternoon:%H:%M}", or "{at:%H:%M}" if it is before noon'


def _minutes(text: str, allowed: range, wanted: str) -> int:
    said = " ".join(text.split())
    minutes = _part_of_day(said) if len(said) > _ROUNDED else None
    for form in (_MINUTES, *_HOURS):
        if (match := form.fullmatch(said)) is not None:
            parts = match.groupdict(default="0")
            minutes = 60 * int(parts.get("hours", 0)) + int(parts["minutes"])
    if minutes not in allowed or minutes is None:
        raise BadInput(wanted)
    return minutes


def _is_weekday(word: str) -> bool:
    try:
        read_weekday(word)
    except BadInput:
        return False
    return True


def _part_of_day(said: str) -> int | None:
    """The minutes of a part of a day, which a sheet writes as 0.6875; None where a text is no such number.

    Few digits may be rounded: of these only a multiple of five minutes is what they say.
    """
    found = _FRACTION.fullmatch(said)
    if found is None:
        return None
    exact = float(f"0.{found['digits']}") * _DAY
    minutes = round(exact)
    digits = len(found["digits"])
    rounded_off = 0 if digits <= _ROUNDED else _DAY * 10**-digits / 2
    if abs(exact - minutes) > rounded_off + _NOTHING or minutes == _DAY:
        return None
    return None if digits <= _ROUNDED and minutes % 5 else minutes


def _of_part(minutes: int, said: str) -> time:
    at = time(minutes // 60, minutes % 60)
    if (other := _TIMES[0].fullmatch(said)) is not None:
        raise BadInput(f'Write "{at:%H:%M}" or "00:{other["minute"]}"')
    return at


def _one_of(names: Sequence[str]) -> str:
    return f"{', '.join(names[:-1])}, or {names[-1]}" if len(names) > 2 else " or ".join(names)
