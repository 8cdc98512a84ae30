"""A typed line that is an item of a recital: `the old mill 3:00, by heart, costume miller's apron, with a track`.

The piece stands first; parts follow in any order with commas between them, and each is claimed once. Common practice, no source.
"""

import re
from collections.abc import Callable
from datetime import time

from cockpit.studio.changes.recital import PinnedTo, RecitalItem, RecitalItemId
from cockpit.studio.clocks.words import clock_time, listed
from cockpit.studio.errors import BadInput
from cockpit.studio.people.people import StudentId
from cockpit.studio.recital.facts import LineFact, plain_words, refuse_twice, words_after
from cockpit.studio.recital.lengths import LENGTH, length_words, read_length
from cockpit.studio.recital.performers import Company
from cockpit.studio.typed_times.line_parts import instrument_in, parts_of, refuse_long
from cockpit.studio.typed_times.times import time_of, with_numbers_read
from cockpit.studio.typed_times.words import read_parts
from cockpit.studio.values import Value, replace

EXAMPLES = '"the old mill 3:00, by heart, costume miller\'s apron, prop flour sack, with a track"'
PARTS = (
    '"3:00", "by heart", "costume apron", "prop sack", "story ...", "enters ...", "with a track", "with wren and teodor", "composer ...", "cello", '
    '"note ...", "shown as Ilse B.", "first", "last", "after teodor", or "before 12:20"'
)
_LONGEST, _LONGEST_TITLE = 2000, 300
_PIECE = re.compile(rf"(?P<piece>.+?)\s+(?P<length>{LENGTH})", re.IGNORECASE)
_LENGTH_ALONE = re.compile(rf"(?:lasts:? )?(?P<length>{LENGTH})|no length", re.IGNORECASE)
_BY_HEART = re.compile(r"(?P<no>not )?(?:by heart|(?:by|from) memory|memorized)", re.IGNORECASE)
_WITH = re.compile(r"alone|with (?:nobody|no one)|(?:together )?with:? (?P<whom>.+)", re.IGNORECASE)
_AND = re.compile(r"\s+and\s+|\s*&\s*", re.IGNORECASE)
_PIN = re.compile(
    r"(?P<edge>first|last)|after (?P<after>.+)|before (?P<before>\d.*|noon)|(?:no pin|anywhere)", re.IGNORECASE
)
_SHORTEST = 5
_HEART = "playing by heart"
Fact = LineFact[RecitalItem]


class ItemSaid(Value):
    """An item after a line, what the line says in words, and what of it is kept beside the item.

    `by_heart` is None where nothing is said of it, `partners` are students of the studio who play along.
    """

    item: RecitalItem
    words: tuple[str, ...]
    by_heart: bool | None = None
    partners: tuple[StudentId, ...] = ()


class ItemReader:
    """Reads lines of items. `item_of` finds an item by a name, `whom` a student; `hours` are those of the teacher's clock."""

    def __init__(self, item_of: Callable[[str], RecitalItemId], whom: Callable[[str], Company], hours: int) -> None:
        self._item_of = item_of
        self._whom = whom
        self._hours = hours

    def read_new(self, line: str, fresh: RecitalItem) -> ItemSaid:
        """A new item made of a fresh one.

        Raises:
            BadInput: a part cannot be used, or there is no piece.
        """
        refuse_long(line, _LONGEST)
        first, *parts = parts_of(line) or [""]
        match = _PIECE.fullmatch(first)
        piece = plain_words(match["piece"] if match else first, _LONGEST_TITLE)
        if piece is None or re.fullmatch(LENGTH, first, re.IGNORECASE):
            raise BadInput(f"Type a piece: {EXAMPLES}.")
        lengths = [match["length"]] if match else []
        return self._read([*lengths, *parts], replace(fresh, piece=piece))

    def read_change(self, line: str, item: RecitalItem) -> ItemSaid:
        """An item after a line.

        Raises:
            BadInput: a part cannot be used.
        """
        refuse_long(line, _LONGEST)
        parts = parts_of(line)
        if not parts:
            raise BadInput(f"Type {PARTS}.")
        return self._read(parts, item)

    def _read(self, parts: list[str], item: RecitalItem) -> ItemSaid:
        by_heart: bool | None = None
        partners: tuple[StudentId, ...] = ()
        facts: list[Fact] = []
        for part in parts:
            if (heart := _BY_HEART.fullmatch(part)) is not None:
                by_heart = heart["no"] is None
                facts.append(Fact(_HEART, "by heart" if by_heart else "not by heart", lambda kept: kept))
            elif (match := _WITH.fullmatch(part)) is not None:
                fact, partners = self._company(match["whom"])
                facts.append(fact)
            else:
                facts.append(self._fact(part))
        refuse_twice(facts)
        for fact in facts:
            item = fact.change(item)
        said = tuple(fact.words if fact.about == _HEART else f"{fact.about}: {fact.words}" for fact in facts)
        return ItemSaid(item=item, words=said, by_heart=by_heart, partners=partners)

    def _company(self, typed: str | None) -> tuple[Fact, tuple[StudentId, ...]]:
        """Who plays along: students, who are known by their names, and whoever else is in the room, or a track."""
        names = _AND.split(typed or "")
        found = [(name, self._whom(name)) for name in names]
        students = {whom.student.id: whom.student.name for _, whom in found if whom.student is not None}
        others = " and ".join(name for name, whom in found if whom.student is None) if students else typed
        company = plain_words(others)
        instead = [each for _, whom in found for each in whom.instead]
        hint = f" (somebody else; for your student type: with {' or '.join(instead)})" if company and instead else ""
        along = [f"{listed([*students.values()])} {'play' if len(students) > 1 else 'plays'} along"] if students else []
        words = "; ".join([*along, *([f"with {company}{hint}"] if company else [])]) or "alone"
        keeps = bool(students) and company is None
        return (
            Fact("company", words, lambda kept: kept if keeps else replace(kept, with_whom=company)),
            tuple(students),
        )

    def _fact(self, part: str) -> Fact:
        found = _lasting(part) or self._pin(part) or _labelled(part)
        if (
            found is None
            and (instrument := instrument_in(re.sub(r"^(?:on|instrument):? (?:the )?", "", part))) is not None
        ):
            found = Fact("instrument", instrument, lambda kept: replace(kept, instrument=instrument))
        if found is None:
            raise BadInput(f'"{part}" is not understood. Type {PARTS}.')
        return found

    def _pin(self, part: str) -> Fact | None:
        match = _PIN.fullmatch(part)
        if match is None:
            return None
        if match["edge"]:
            return _pinned(part, PinnedTo(match["edge"].casefold()))
        if match["after"]:
            return _pinned(part, PinnedTo.AFTER, after=self._item_of(match["after"]))
        if match["before"]:
            at = _time(match["before"])
            return _pinned(f"before {clock_time(at, self._hours)}", PinnedTo.BEFORE, before=at)
        return _pinned("anywhere", None)


def _pinned(words: str, pin: PinnedTo | None, after: RecitalItemId | None = None, before: time | None = None) -> Fact:
    return Fact("place", words, lambda kept: replace(kept, pin=pin, pinned_after=after, pinned_before=before))


def _time(text: str) -> time:
    return time_of(with_numbers_read(read_parts(text, {})), None, is_away=False)


def _lasting(part: str) -> Fact | None:
    match = _LENGTH_ALONE.fullmatch(part)
    if match is None:
        return None
    seconds = read_length(match["length"]) if match["length"] else None
    if seconds is not None and seconds < _SHORTEST:
        raise BadInput(f'"{part}" is too short. Type a length such as "3:00" or "90s".')
    words = length_words(seconds) if seconds is not None else "not known"
    return Fact("length", words, lambda kept: replace(kept, seconds=seconds, is_computed=False))


def _labelled(part: str) -> Fact | None:
    """What a part says behind its label."""
    changes: tuple[tuple[str, str, Callable[[RecitalItem, str | None], RecitalItem]], ...] = (
        ("costume", "costumes?|wears", lambda kept, words: replace(kept, costume=words)),
        ("props", "props?|brings", lambda kept, words: replace(kept, props=words)),
        ("story", "story", lambda kept, words: replace(kept, story=words)),
        ("entry", "enters|entry", lambda kept, words: replace(kept, enters=words)),
        ("composer", "composer|composed by|by", lambda kept, words: replace(kept, composer=words)),
        ("note", "notes?", lambda kept, words: replace(kept, note=words)),
        ("name", "shown as|as", lambda kept, words: replace(kept, shown_as=words)),
        ("piece", "piece|plays", lambda kept, words: replace(kept, piece=words or kept.piece)),
    )
    for about, labels, change in changes:
        if (found := words_after(part, labels)) is not None:
            return Fact(about, found[0] or "none", _changed(change, found[0]))
    return None


def _changed(
    change: Callable[[RecitalItem, str | None], RecitalItem], words: str | None
) -> Callable[[RecitalItem], RecitalItem]:
    return lambda kept: change(kept, words)
