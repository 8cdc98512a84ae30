"""A recital on its day: what is played now, next, and then, and the step on and back. Each is kept as the moment it was.

A step ends what is played, and the next one begins what follows: so the real lengths are those of the music alone. First comes
the welcome, last the thanks. All moments are UTC.
"""

from collections.abc import Iterable, Iterator, Sequence
from datetime import datetime, timedelta

from cockpit.studio.changes.recital import Recital, RecitalItem
from cockpit.studio.changes.records import Edit
from cockpit.studio.errors import Refused
from cockpit.studio.recital.program import ProgramRow, RecitalProgram, numbers_of
from cockpit.studio.values import Value, replace

_SECOND = timedelta(seconds=1)


class RecitalNow(Value):
    """Where a recital is at a moment. `following` are the rows to come, the next one first.

    `elapsed` are the seconds since it began, `behind` those that it is behind the plan, negative where it is ahead;
    `remaining` are those of what is played. In the welcome, between two items, and in the thanks nothing is `playing`.
    """

    has_begun: bool
    is_over: bool
    playing: ProgramRow | None
    following: tuple[ProgramRow, ...]
    played: int
    elapsed: int = 0
    behind: int = 0
    remaining: int = 0


def where_it_is(program: RecitalProgram, now: datetime) -> RecitalNow:
    """Where a recital is at a UTC moment."""
    recital = program.recital
    playing = next((row for row in program.rows if _is_playing(row.items)), None)
    following = tuple(row for row in program.rows if _is_to_come(row.items))
    has_begun, at = recital.began_at is not None, recital.ended_at or now
    planned = _planned(program, playing, following)
    return RecitalNow(
        has_begun=has_begun,
        is_over=recital.ended_at is not None,
        playing=playing,
        following=following,
        played=sum(row.shared.ended_at is not None for row in program.rows),
        elapsed=(at - recital.began_at) // _SECOND if recital.began_at is not None else 0,
        behind=_behind(planned, at) if has_begun else 0,
        remaining=_remaining(playing, now),
    )


def step_on(recital: Recital, items: Sequence[RecitalItem], now: datetime) -> tuple[Edit, ...]:
    """The next thing of a recital begins, or what is played ends.

    Raises:
        Refused: it is over, or its day is far.
    """
    _refuse_over(recital)
    if recital.began_at is None:
        return (Edit(before=recital, after=replace(recital, began_at=now)),)
    for group in numbers_of(items):
        if _is_playing(group):
            return _edits(group, ended_at=now)
    for group in numbers_of(items):
        if _is_to_come(group):
            return _edits(group, began_at=now)
    return (Edit(before=recital, after=replace(recital, ended_at=now)),)


def step_back(recital: Recital, items: Sequence[RecitalItem]) -> tuple[Edit, ...]:
    """Takes the last moment of a recital back, as if it had not been.

    Raises:
        Refused: it has not begun.
    """
    if recital.ended_at is not None:
        return (Edit(before=recital, after=replace(recital, ended_at=None)),)
    groups = numbers_of(items)
    begun = [group for group in groups if group[0].began_at is not None or group[0].is_skipped]
    if not begun:
        if recital.began_at is None:
            raise Refused("The recital has not begun. Press enter to begin.")
        return (Edit(before=recital, after=replace(recital, began_at=None)),)
    playing = next((group for group in begun if _is_playing(group)), None)
    if playing is not None:
        return _edits(playing, began_at=None)
    # What was skipped has no moment: it was before what ended last, or after it, by its place in the order.
    ended = [group for group in begun if group[0].ended_at is not None]
    last = max(ended, key=lambda group: group[0].ended_at or group[0].began_at or datetime.min) if ended else None  # noqa: DTZ901 never compared
    skipped = [
        group for group in begun if group[0].is_skipped and (last is None or group[0].position > last[0].position)
    ]
    if skipped:
        return tuple(Edit(before=each, after=replace(each, is_skipped=False)) for each in skipped[-1])
    return _edits(last, ended_at=None) if last is not None else ()


def skip(recital: Recital, items: Sequence[RecitalItem]) -> tuple[Edit, ...]:
    """Passes over the next item.

    Raises:
        Refused: nothing is to come, or something is being played.
    """
    group = _next(recital, items)
    return tuple(Edit(before=each, after=replace(each, is_skipped=True)) for each in group)


def move_to_end(recital: Recital, items: Sequence[RecitalItem]) -> tuple[Edit, ...]:
    """Moves the next item behind all others.

    Raises:
        Refused: nothing is to come, or something is being played.
    """
    group = _next(recital, items)
    last = max(each.position for each in items) + 1
    return tuple(Edit(before=each, after=replace(each, position=last)) for each in group)


def real_seconds(item: RecitalItem) -> int | None:
    """How long an item took on its day; None where it was not played to its end."""
    if item.began_at is None or item.ended_at is None:
        return None
    return (item.ended_at - item.began_at) // _SECOND


def _next(recital: Recital, items: Sequence[RecitalItem]) -> tuple[RecitalItem, ...]:
    _refuse_over(recital)
    groups = numbers_of(items)
    if any(map(_is_playing, groups)):
        raise Refused("An item is being played. Press enter when it ends.")
    group = next(filter(_is_to_come, groups), None)
    if group is None:
        raise Refused("No item is to come.")
    return group


def _refuse_over(recital: Recital) -> None:
    if recital.ended_at is not None:
        raise Refused("The recital is over. Backspace takes that back.")


def _is_playing(group: Sequence[RecitalItem]) -> bool:
    return group[0].began_at is not None and group[0].ended_at is None


def _is_to_come(group: Sequence[RecitalItem]) -> bool:
    return group[0].began_at is None and not group[0].is_skipped


def _edits(group: Iterable[RecitalItem], **moments: datetime | None) -> tuple[Edit, ...]:
    return tuple(_edit(each, moments) for each in group)


def _edit(item: RecitalItem, moments: dict[str, datetime | None]) -> Edit:
    after = item
    if "began_at" in moments:
        after = replace(after, began_at=moments["began_at"])
    if "ended_at" in moments:
        after = replace(after, ended_at=moments["ended_at"])
    return Edit(before=item, after=after)


def _planned(
    program: RecitalProgram, playing: ProgramRow | None, following: Sequence[ProgramRow]
) -> Iterator[tuple[datetime, datetime | None]]:
    """The planned moments that tell whether it is late: when something was to begin or end, and when that was."""
    if playing is not None:
        yield playing.time.starts_at, playing.shared.began_at
        yield playing.time.ends_at, None
    elif following:
        yield following[0].time.starts_at, None
    else:
        yield program.times.ends_at, program.recital.ended_at
    ended = [row for row in program.rows if row.shared.ended_at is not None]
    if playing is None and ended:
        last = max(ended, key=lambda row: row.shared.ended_at or row.time.ends_at)
        yield last.time.ends_at, last.shared.ended_at
    if program.recital.began_at is not None and not ended and playing is None:
        yield program.starts_at, program.recital.began_at


def _behind(planned: Iterable[tuple[datetime, datetime | None]], now: datetime) -> int:
    """The seconds behind the plan: of what happened by its moment, of what is to happen once its moment has passed."""
    happened, due = None, 0
    for wanted, was in planned:
        late = ((was or now) - wanted) // _SECOND
        if was is None:
            due = max(due, late)
        else:
            happened = late if happened is None else max(happened, late)
    return due if happened is None else max(happened, due)


def _remaining(playing: ProgramRow | None, now: datetime) -> int:
    if playing is None or playing.shared.began_at is None:
        return 0
    length = (playing.time.ends_at - playing.time.starts_at) // _SECOND
    return length - (now - playing.shared.began_at) // _SECOND
