"""A typed line that is a recital: `winter tales, sat dec 19 12pm, theme snow and night, online, 60m`.

Parts stand in any order with commas between them, the name first. Each is claimed once. Common practice, no source.
"""

import re
from datetime import timedelta

from cockpit.studio.changes.recital import Recital
from cockpit.studio.clocks.moments import zone_on
from cockpit.studio.clocks.words import city, clock_time, long_date
from cockpit.studio.errors import BadInput
from cockpit.studio.people.web_address import web_address
from cockpit.studio.recital.facts import LineFact, plain_words, refuse_twice, words_after
from cockpit.studio.recital.lengths import LENGTH, length_words, read_length
from cockpit.studio.typed_times.line_parts import parts_of, refuse_long
from cockpit.studio.typed_times.when import Reference, When, read_when
from cockpit.studio.values import replace

EXAMPLES = '"winter tales, sat dec 19 12pm, theme snow and night, online, 60m"'
CHANGES = (
    '"sun dec 20 3pm", "theme night", "online", "place library hall", "link https://...", "60m", "no limit", "changeover 45s", '
    '"opening 3m", or "closing 2m"'
)
_LONGEST, _LONGEST_NAME = 1000, 80
_MOST_MINUTES, _MOST_CHANGEOVER = 240, 600
_ONLINE = re.compile(
    r"(?P<no>not )?online|(?:over|on) (?:a|the) (?:video )?call|(?P<there>in person|in one room)", re.IGNORECASE
)
_LIMIT = re.compile(
    r"(?:limit:? |at most |up to )?(?:(?P<minutes>\d{1,3}) ?(?:minutes?|mins?|m)|(?P<hours>\d) ?(?:hours?|h))|no limit",
    re.IGNORECASE,
)
_LINK = re.compile(r"(?:link:? )?(?P<link>https?://\S+)|no link", re.IGNORECASE)
_SECONDS = re.compile(rf"(?P<label>change-?over|opening|welcome|closing|thanks):? (?P<length>{LENGTH})|no (?P<none>change-?over|opening|welcome|closing|thanks)", re.IGNORECASE)  # fmt: skip
_FIELDS = {"c": "changeover", "o": "opening_seconds", "w": "opening_seconds", "t": "closing_seconds"}
_DAY = timedelta(days=1)
Fact = LineFact[Recital]


class RecitalReader:
    """Reads lines of recitals against a moment; `hours` are those of the teacher's clock."""

    def __init__(self, reference: Reference, hours: int) -> None:
        self._reference = reference
        self._hours = hours

    def read_new(self, line: str, fresh: Recital) -> tuple[Recital, tuple[str, ...]]:
        """A new recital made of a fresh one, and what the line says in words.

        Raises:
            BadInput: a part cannot be used, or there is no name, no day, or no time.
        """
        refuse_long(line, _LONGEST)
        name, *parts = parts_of(line) or [""]
        called = plain_words(name, _LONGEST_NAME)
        if called is None:
            raise BadInput(f"Type a name, a day, and a time: {EXAMPLES}.")
        facts = [self._fact(part, None) for part in parts]
        if not any(fact.about == "day and time" for fact in facts):
            raise BadInput(f"The line has no day and time. Type them behind the name: {EXAMPLES}.")
        return _after(replace(fresh, name=called), facts)

    def read_change(self, line: str, recital: Recital) -> tuple[Recital, tuple[str, ...]]:
        """A recital after a line, and what the line says in words.

        Raises:
            BadInput: a part cannot be used.
        """
        refuse_long(line, _LONGEST)
        parts = parts_of(line)
        if not parts:
            raise BadInput(f"Type {CHANGES}.")
        return _after(recital, [self._fact(part, recital) for part in parts])

    def _fact(self, part: str, recital: Recital | None) -> Fact:
        found = _named(part) or _online(part) or _limit(part) or _link(part) or _lengths(part)
        return found or self._moment(part, recital)

    def _moment(self, part: str, recital: Recital | None) -> Fact:
        try:
            when = self._when(part, recital)
        except BadInput as fault:
            if any(map(str.isdigit, part)):
                raise
            raise BadInput(f'"{part}" is not understood. Type {EXAMPLES if recital is None else CHANGES}.') from fault
        local = when.local
        words = f"{long_date(local)}, {clock_time(local, self._hours)}"
        if when.zone != zone_on(self._reference.home_zone, local.date()):
            words = f"{words} in {city(when.zone)}"

        def change(kept: Recital) -> Recital:
            moved = replace(kept, held_on=local.date(), at=local.time(), zone=when.zone)
            return replace(moved, minutes_limit=when.minutes) if when.minutes is not None else moved

        limit = f", at most {when.minutes} minutes" if when.minutes is not None else ""
        return Fact("day and time", f"{words}{limit}", change)

    def _when(self, part: str, recital: Recital | None) -> When:
        """The moment that a part names; of a recital that is there, a part without a day or without a time keeps its own."""
        reference = self._reference
        if recital is not None:
            reference = replace(reference, around=recital.held_on, same=recital.at, home_zone=recital.zone)
            return _read(part, reference)
        when = _read(part, reference)
        # A line without a day means that of the day around which it is read.
        other = _read(part, replace(reference, around=reference.around + _DAY))
        if other.local.date() != when.local.date():
            raise BadInput(f'"{part}" has no day. Type one before the time, such as "sat dec 19 12pm".')
        return when


def _read(part: str, reference: Reference) -> When:
    return read_when(
        part, now=reference.now, around=reference.around, home_zone=reference.home_zone,
        month_first=reference.month_first, same=reference.same,
    )  # fmt: skip


def _after(recital: Recital, facts: list[Fact]) -> tuple[Recital, tuple[str, ...]]:
    refuse_twice(facts)
    for fact in facts:
        recital = fact.change(recital)
    return recital, tuple(f"{fact.about}: {fact.words}" for fact in facts)


def _named(part: str) -> Fact | None:
    if (theme := words_after(part, "theme")) is not None:
        return Fact("theme", theme[0] or "none", lambda kept: replace(kept, theme=theme[0]))
    if (place := words_after(part, "place")) is not None:
        return Fact("place", place[0] or "none", lambda kept: replace(kept, place=place[0]))
    called = words_after(part, "name|called", _LONGEST_NAME)
    if called is None or called[0] is None:
        return None
    name = called[0]
    return Fact("name", name, lambda kept: replace(kept, name=name))


def _online(part: str) -> Fact | None:
    match = _ONLINE.fullmatch(part)
    if match is None:
        return None
    is_online = match["no"] is None and match["there"] is None
    return Fact("way", "online" if is_online else "in one room", lambda kept: replace(kept, is_online=is_online))


def _limit(part: str) -> Fact | None:
    match = _LIMIT.fullmatch(part)
    if match is None:
        return None
    minutes = int(match["minutes"] or 0) or int(match["hours"] or 0) * 60 or None
    if (minutes is None and not part.casefold().startswith("no")) or (minutes or 0) > _MOST_MINUTES:
        raise BadInput(f'"{part}": a recital has 1 to {_MOST_MINUTES} minutes. Type "60m" or "no limit".')
    return Fact("limit", f"{minutes} minutes" if minutes else "none", lambda kept: replace(kept, minutes_limit=minutes))


def _link(part: str) -> Fact | None:
    match = _LINK.fullmatch(part)
    if match is None:
        return None
    link = web_address(match["link"]) if match["link"] else None
    if match["link"] and link is None:
        raise BadInput(f'"{part}" is no web address. Type one such as "link https://call.example/recital".')
    return Fact("link", link or "none", lambda kept: replace(kept, link=link))


def _lengths(part: str) -> Fact | None:
    match = _SECONDS.fullmatch(part)
    if match is None:
        return None
    label = (match["label"] or match["none"]).casefold()
    field = "closing_seconds" if label == "closing" else _FIELDS[label[0]]
    seconds = read_length(match["length"]) if match["length"] else 0
    if field == "changeover" and seconds > _MOST_CHANGEOVER:
        raise BadInput(f'"{part}" is too long. Type at most {_MOST_CHANGEOVER // 60} minutes between two items.')
    about = {"changeover": "changeover", "opening_seconds": "opening", "closing_seconds": "closing"}[field]
    return Fact(about, length_words(seconds), lambda kept: _timed(kept, field, seconds))


def _timed(recital: Recital, field: str, seconds: int) -> Recital:
    if field == "changeover":
        return replace(recital, changeover=seconds)
    if field == "opening_seconds":
        return replace(recital, opening_seconds=seconds)
    return replace(recital, closing_seconds=seconds)
