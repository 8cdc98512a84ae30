"""A typed line that is an inquiry: "ana bell for nora 8, cello, phoenix, ana@example.org, tue or thu after 4pm, from a friend".

The parts stand between commas, in any order. Each is claimed by exactly one reader, or the line is refused with that part
named. Whoever asks is in the one part that no reader of another kind claims. All of it is common practice, no source.
"""

import re
from collections.abc import Callable, Mapping, Sequence
from datetime import date, datetime, timedelta

from cockpit.studio.clocks.moments import local_time, moment
from cockpit.studio.errors import BadInput
from cockpit.studio.inquiries.inquiry import Inquiry
from cockpit.studio.inquiries.wishes import is_wish
from cockpit.studio.notes.spelling import is_near
from cockpit.studio.people.people import Level, name_key
from cockpit.studio.typed_times.days import Days, day_of
from cockpit.studio.typed_times.instruments import OR_NAMES, SPOKEN, instrument_at
from cockpit.studio.typed_times.line_parts import address_in, claim_of, parts_of, zone_of
from cockpit.studio.typed_times.parts import Weekday
from cockpit.studio.typed_times.places import spoken
from cockpit.studio.typed_times.times import time_of, with_numbers_read
from cockpit.studio.typed_times.trial_line import NAME_WORD, with_capitals
from cockpit.studio.typed_times.when import Reference
from cockpit.studio.typed_times.words import read_parts
from cockpit.studio.values import Value, replace

EXAMPLES = 'Type "ana bell for nora 8, cello, phoenix, ana@example.org" or "r castellan, adult, guitar, halifax, thu after 5pm".'
_LONGEST = 500
_CAME_EXAMPLE = 'such as "yesterday 10am" or "2026-11-28 10:00"'
_AGE = re.compile(r"(?:aged? )?(?P<age>[0-9]{1,2})(?: ?(?:years?(?: old)?|yrs?|yo|y/o))?", re.IGNORECASE)
_NAMED = re.compile(rf"(?P<name>.*?[^\s,])(?: |^)(?:{_AGE.pattern}|(?P<adult>adult))$", re.IGNORECASE)
_LEVEL = re.compile(
    rf"(?:(?P<adult>an? adult|adult)(?: |$))?(?:(?:an? |total |complete |absolute )?(?P<level>{'|'.join(Level)})s?(?: level)?)?",
    re.IGNORECASE,
)
_SOURCE = re.compile(
    r"(?:from|via|through|source:?|heard (?:of (?:me|you) |about (?:me|you) )?(?:from|through|at|on|by)|"
    r"found (?:me|you) (?:on|through|in|at|by)|(?:recommended|referred|sent) by)\s+(?P<source>.+)",
    re.IGNORECASE,
)
_CAME = re.compile(r"(?:came|wrote|received|called|arrived)(?: in| on| at)?\s+(?P<when>.+)", re.IGNORECASE)
_FOR = re.compile(
    r"\s+for\s+(?:(?:her|his|their|my)\s+)?(?:(?:little|older|younger|oldest|youngest)\s+)?"
    r"(?:(?:son|daughter|child|kid|grandson|granddaughter|niece|nephew|brother|sister|wife|husband)\s+)?(?=\S)",
    re.IGNORECASE,
)
_INSTRUMENT_WORDS = re.compile(r"(?:and|or|&|\+|/|lessons?|the)(?= |$) ?|/ ?")
_QUOTED = re.compile(r'"\s*([^"]*[^"\s])\s*"')
_QUOTED_NAME = "ˣ"  # stands for it while the part is read; nobody is called so
_MOST_NAMES = 5
_AGES = range(1, 100)
_OLDEST_CHILD = 17


class InquiryLine(Value):
    """What a line says of an inquiry; None or nothing where it does not say it. `came_at` is UTC."""

    name: str
    child: str | None = None
    age: int | None = None
    is_adult: bool = False
    instruments: tuple[str, ...] = ()
    level: Level | None = None
    zone: str | None = None
    email: str | None = None
    wishes: str = ""
    source: str = ""
    came_at: datetime | None = None

    def told_of(self, inquiry: Inquiry) -> Inquiry:
        """The inquiry as the line has it; what was written, when it came, and what became of it stay."""
        return replace(
            inquiry,
            came_at=self.came_at or inquiry.came_at,
            name=self.name,
            child=self.child,
            age=self.age,
            is_adult=self.is_adult,
            instrument=", ".join(self.instruments) or None,
            level=self.level,
            zone=self.zone,
            email=self.email,
            wishes=self.wishes,
            source=self.source,
        )


def read_inquiry(text: str, reference: Reference) -> InquiryLine:
    """What a line says of an inquiry; a time that it came is read against `reference`, on the teacher's clock.

    Raises:
        BadInput: a part is claimed by no reader, or by two, or says what another one says; the sentence names it.
    """
    if len(text) > _LONGEST:
        raise BadInput(f"The line is too long. Use at most {_LONGEST} characters; their own words come afterwards.")
    return _Reader(reference).read(text)


def line_of(inquiry: Inquiry) -> str:
    """A line that says what is known of an inquiry: it is read back as the same."""
    age = [str(inquiry.age)] if inquiry.age is not None else ["adult"] if inquiry.is_adult else []
    who = [_as_name(inquiry.name), *([f"for {_as_name(inquiry.child)}"] if inquiry.child else []), *age]
    parts = (
        " ".join(who),
        *inquiry.instruments,
        inquiry.level or "",
        _as_place(inquiry.zone) if inquiry.zone is not None else "",
        inquiry.email or "",
        inquiry.wishes,
        f"from {inquiry.source}" if inquiry.source else "",
    )
    return ", ".join(filter(None, parts))


_Facts = dict[str, object]


class _Reader:
    """Reads a line part by part."""

    def __init__(self, reference: Reference) -> None:
        self._reference = reference
        self._today: date = local_time(reference.now, reference.home_zone).date()
        self._readers: Mapping[str, Callable[[str], _Facts | None]] = {
            "email": _email,
            "instruments": _instruments,
            "level": _level,
            "age": _age,
            "wishes": self._wish,
            "zone": _place,
            "came_at": self._came,
        }

    def read(self, text: str) -> InquiryLine:
        """Reads the line.

        Raises:
            BadInput: it cannot be understood.
        """
        facts: _Facts = {}
        unclaimed: list[str] = []
        for part in parts_of(text):
            claim = self._claim(part)
            if claim is None:
                unclaimed.append(part)
            else:
                self._keep(facts, part, claim)
        self._keep(facts, "", self._named(unclaimed, facts))
        return _line(facts)

    def _claim(self, part: str) -> _Facts | None:
        """What the reader of a part makes of it; a source is what no other one claims."""
        if part.startswith('"'):
            return None
        claim = claim_of(part, self._readers, _SAID, EXAMPLES)
        if claim is not None:
            return claim[1]
        source = _SOURCE.fullmatch(part)
        return {"source": " ".join(source["source"].split())} if source is not None else None

    def _keep(self, facts: _Facts, part: str, new: _Facts) -> None:
        for key, value in new.items():
            before = facts.get(key)
            if key == "instruments" and isinstance(before, tuple) and isinstance(value, tuple):
                facts[key] = tuple(dict.fromkeys((*before, *value)))
            elif key == "wishes" and before:
                facts[key] = f"{before}, {value}"
            elif before is not None and before != value:
                raise BadInput(f"The line says {_SAID[key]} twice{f': {part}' if part else ''}. Keep one.")
            else:
                facts[key] = value

    def _named(self, unclaimed: Sequence[str], facts: _Facts) -> _Facts:
        """Who asks, and for whom: the part that no reader claims."""
        if not unclaimed:
            raise BadInput(f"The line has no name. {EXAMPLES}")
        name = next((part for part in unclaimed if _FOR.search(part)), unclaimed[0])
        others = [part for part in unclaimed if part is not name]
        if others:
            raise BadInput(_not_understood(others[0]))
        return _name(name, has_age="age" in facts or "is_adult" in facts)

    def _wish(self, part: str) -> _Facts | None:
        said = is_wish(part, self._today, month_first=self._reference.month_first)
        return {"wishes": " ".join(part.split())} if said else None

    def _came(self, part: str) -> _Facts | None:
        match = _CAME.fullmatch(part)
        return {"came_at": read_came(match["when"], self._reference)} if match is not None else None


def read_came(text: str, reference: Reference) -> datetime:
    """The moment (UTC) at which something came, on the teacher's clock: "yesterday 10am", "sat 10am", "2026-11-28 10:00".

    A weekday is the last one, today included.

    Raises:
        BadInput: it is no moment, or is to come.
    """
    said = re.sub(r"\blast (?=\w)", "", text.strip(), flags=re.IGNORECASE)
    parts = with_numbers_read(read_parts(said, {}))
    today = local_time(reference.now, reference.home_zone).date()
    days = Days(today=today, around=today, month_first=reference.month_first, can_be_past=True)
    local = datetime.combine(day_of(parts, days) or today, time_of(parts, None, is_away=False))
    if any(isinstance(part, Weekday) for part in parts) and moment(local, reference.home_zone) > reference.now:
        local -= timedelta(days=7)
    at = moment(local, reference.home_zone)
    if at > reference.now:
        raise BadInput(f'"{text.strip()}" is still to come. Type when it came, {_CAME_EXAMPLE}.')
    return at


_SAID = {
    "name": "a name",
    "child": "a name",
    "age": "an age",
    "is_adult": "an age",
    "instruments": "an instrument",
    "level": "a level",
    "zone": "a place",
    "email": "an email address",
    "wishes": "a time that would suit",
    "source": "where they heard of you",
    "came_at": "when it came",
}


def _line(facts: _Facts) -> InquiryLine:
    make: Callable[..., InquiryLine] = InquiryLine
    age = facts.get("age")
    if isinstance(age, int) and age > _OLDEST_CHILD:
        facts["is_adult"] = True
    return make(**facts)


def _email(part: str) -> _Facts | None:
    address = address_in(part)
    return {"email": address} if address is not None else None


def _instruments(part: str) -> _Facts | None:
    said, at = " ".join(part.casefold().split()), 0
    found: list[str] = []
    while at < len(said):
        between = _INSTRUMENT_WORDS.match(said, at)
        match = None if between is not None else instrument_at(said, at, is_sure=True)
        if between is None and match is None:
            return None
        if match is not None:
            found.append(match[0])
        at = between.end() if between is not None else match[1] if match is not None else len(said)
        at += said.startswith(" ", at)
    return {"instruments": tuple(dict.fromkeys(found))} if found else None


def _level(part: str) -> _Facts | None:
    match = _LEVEL.fullmatch(part)
    if match is None or not (match["adult"] or match["level"]):
        return None
    facts: _Facts = {"level": Level(match["level"].casefold())} if match["level"] else {}
    return facts | ({"is_adult": True} if match["adult"] else {})


def _age(part: str) -> _Facts | None:
    match = _AGE.fullmatch(part)
    return {"age": _years(match["age"])} if match is not None else None


def _place(part: str) -> _Facts | None:
    zone = zone_of(part)
    return {"zone": zone} if zone is not None else None


def _years(digits: str) -> int:
    age = int(digits)
    if age not in _AGES:
        raise BadInput(f'"{digits}" is no age. Type a number of years, such as "8", or "adult".')
    return age


def _name(part: str, *, has_age: bool) -> _Facts:
    """Who asks, for whom, and the age behind the last name of them; names in quotes are taken as they are."""
    quoted = _QUOTED.findall(part)
    said = _QUOTED.sub(_QUOTED_NAME, part)
    facts: _Facts = {}
    match = _NAMED.fullmatch(said)
    if match is not None:
        said = match["name"]
        facts |= {"age": _years(match["age"])} if match["age"] else {"is_adult": True}
        if has_age:
            raise BadInput(f'The line says an age twice: "{part}" and another part. Keep one.')
    for key, name in zip(("name", "child"), _FOR.split(said, maxsplit=1), strict=False):
        facts[key] = quoted.pop(0) if name.strip() == _QUOTED_NAME else _as_written(name, part)
    return facts


def _as_written(name: str, part: str) -> str:
    """A name with its capitals.

    Raises:
        BadInput: it is none.
    """
    said = " ".join(name.split())
    words = said.split()
    if not words or len(words) > _MOST_NAMES or not all(map(NAME_WORD.fullmatch, words)) or _QUOTED_NAME in words:
        raise BadInput(_not_understood(part))
    return with_capitals(said)


def _not_understood(part: str) -> str:
    near = next((each for each in (*SPOKEN, *OR_NAMES, *Level) if is_near(part, each)), None)
    if near is not None:
        return f'"{part}" is not understood. Did you mean "{near}"?'
    return f'"{part}" is not understood: it is no name, age, instrument, level, place, email address, time, or "from" a source. {EXAMPLES}'


def _as_name(name: str) -> str:
    """A name as a line can have it: in quotes where it would not be read back as the same."""
    words = name.split()
    is_plain = all(map(NAME_WORD.fullmatch, words)) and len(words) <= _MOST_NAMES and " ".join(words) == name
    is_whole = "for" not in map(name_key, words) and _NAMED.fullmatch(name) is None
    if is_plain and is_whole and name != name.lower() and _is_nobodys(name):
        return name
    return f'"{name.replace(chr(34), chr(39))}"'


def _is_nobodys(name: str) -> bool:
    """Whether a name alone in its part is claimed by no reader of another kind."""
    try:
        return not any(read(name) for read in (_instruments, _level, _place)) and not is_wish(name, date(2027, 1, 1))
    except BadInput:
        return False


def _as_place(zone: str) -> str:
    """The words for a zone that are read back as it: a city's, or the name that it has in lists of zones."""
    city = spoken(zone)
    try:
        return city if zone_of(city) == zone else zone
    except BadInput:
        return zone
