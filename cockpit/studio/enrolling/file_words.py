"""What a file says of a standing time, held against what it said before."""

from dataclasses import replace
from datetime import date
from typing import TypeVar

from cockpit.studio.lessons.file_rows import FileRow
from cockpit.studio.lessons.weekly_times import StandingTime
from cockpit.studio.roster.columns import RosterRow

Value = TypeVar("Value")
Slot = TypeVar("Slot", FileRow, StandingTime)


def first_words(row: RosterRow, standing: StandingTime, event: int, today: date) -> FileRow:
    """What a file is taken to have said before of a standing time that it speaks of for the first time.

    That is what the studio has. A date that the file leaves blank is nothing that it took away. Nor does an event that
    began before `today` take away what was earlier still.
    """
    from_on = None if row.from_on is None else standing.from_on
    if row.event_uid is not None and row.from_on is not None and row.every_weeks == 1:
        is_cut = (standing.from_on or date.min) <= row.from_on <= today
        from_on = row.from_on if is_cut else standing.from_on
    return FileRow(
        student_id=standing.student_id,
        standing_time_id=standing.id,
        event=event,
        weekday=standing.weekday,
        at=standing.at,
        minutes=standing.minutes,
        kept_in=standing.kept_in,
        instrument=standing.instrument,
        from_on=from_on,
        until_on=None if row.until_on is None else standing.until_on,
        call_link=standing.call_link,
        every_weeks=standing.every_weeks,
    )


def told_by(row: RosterRow, before: FileRow, columns: frozenset[str]) -> FileRow:
    """What a file says now; what it has no column for is as `before`.

    A blank cell says that there is none, except for whose clock it is.
    """

    def told(column: str, value: Value | None, known: Value | None) -> Value | None:
        return value if column in columns else known

    return replace(
        before,
        weekday=row.weekday,
        at=row.at,
        minutes=row.minutes,
        kept_in=row.kept_in or before.kept_in,
        instrument=told("instrument", row.instrument, before.instrument),
        from_on=told("from", row.from_on, before.from_on),
        until_on=told("until", row.until_on, before.until_on),
        call_link=told("call_link", row.call_link, before.call_link),
        every_weeks=told("every_weeks", row.every_weeks or 1, before.every_weeks) or 1,
    )


def at_time_of(slot: Slot, words: FileRow) -> Slot:
    """A standing time, or what a file says of one, at the time that other words of a file have; the dates stay."""
    return replace(
        slot,
        weekday=words.weekday,
        at=words.at,
        minutes=words.minutes,
        kept_in=words.kept_in,
        every_weeks=words.every_weeks,
    )


def retold(standing: StandingTime, before: FileRow, told: FileRow) -> StandingTime:
    """A standing time with all that a file says otherwise than before."""

    def now(earlier: Value, word: Value, known: Value) -> Value:
        return known if word == earlier else word

    return replace(
        standing,
        weekday=now(before.weekday, told.weekday, standing.weekday),
        at=now(before.at, told.at, standing.at),
        minutes=now(before.minutes, told.minutes, standing.minutes),
        kept_in=now(before.kept_in, told.kept_in, standing.kept_in),
        instrument=now(before.instrument, told.instrument, standing.instrument),
        from_on=now(before.from_on, told.from_on, standing.from_on),
        until_on=now(before.until_on, told.until_on, standing.until_on),
        call_link=now(before.call_link, told.call_link, standing.call_link),
        every_weeks=now(before.every_weeks, told.every_weeks, standing.every_weeks),
    )
