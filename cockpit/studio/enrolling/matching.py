"""Which weekly time of a student each row of a file speaks of, and what the file said of it when it was read last."""

from collections import defaultdict
from collections.abc import Hashable, Iterable, Mapping, Sequence
from datetime import date

from cockpit.studio.lessons.lineage import followed_up, made_another, pieces_of
from cockpit.studio.lessons.weekly_times import ROSTER, ImportedTime, StandingTime
from cockpit.studio.people.people import name_key
from cockpit.studio.roster.columns import OF_TIME, RosterRow, value_of, with_values
from cockpit.studio.values import replace

Slot = RosterRow | ImportedTime | StandingTime
_SURE = 2  # so many of the keys below say all that a row can say of its lessons


def baselines(
    rows: Sequence[RosterRow],
    known: Sequence[StandingTime],
    imported: Sequence[ImportedTime],
    columns: frozenset[str],
    today: date,
) -> list[ImportedTime | None]:
    """For each row of a student what the file said in its place before; None for one that the studio has nothing of.

    `known` are the student's weekly times, and `imported` what files said of them; `columns` are those of the file.
    A row that speaks of a weekly time for the first time is taken to have said before what the studio has.
    """
    lasting = sorted(imported, key=lambda each: is_over(pieces_of(each.standing_time_id, known)[-1], today))
    places: defaultdict[str, dict[int, RosterRow]] = defaultdict(dict)
    for place, row in enumerate(rows):
        places[row.event_uid][place] = row
    found: dict[int, ImportedTime] = {}
    for uid, own in places.items():
        said = [each for each in lasting if each.event_uid == uid]
        found |= _matched(own, said, known, columns, date.min)  # nothing of a file is history to itself
    left = {place: row for place, row in enumerate(rows) if place not in found}
    of_this_file = [each for each in imported if each.event_uid in places]
    found |= _first_words(left, known, imported, of_this_file, columns, today)
    return [found.get(place) for place in range(len(rows))]


def as_imported(standing: StandingTime) -> ImportedTime:
    """What a file would say that has a weekly time as the studio does."""
    words = ImportedTime(
        student_id=standing.student_id,
        standing_time_id=standing.id,
        event_uid=ROSTER,
        weekday=standing.weekday,
        at=standing.at,
        minutes=standing.minutes,
    )
    return with_values(words, {column.field: value_of(standing, column) for column in OF_TIME})


def first_said(row: RosterRow, words: ImportedTime, today: date, *, keeps_end: bool = False) -> ImportedTime:
    """What the file of a row is taken to have said, where the studio has these words.

    A date that the file leaves blank is nothing that it took away. Nor does an event that began before `today` take
    away what was earlier still.
    """
    from_on = None if row.from_on is None else words.from_on
    if row.event_uid != ROSTER and row.from_on is not None and row.every_weeks == 1:
        is_cut = (words.from_on or date.min) <= row.from_on <= today
        from_on = row.from_on if is_cut else words.from_on
    until_on = words.until_on if keeps_end or row.until_on is not None else None
    return replace(words, event_uid=row.event_uid, from_on=from_on, until_on=until_on)


def is_over(slot: Slot, today: date) -> bool:
    """Whether a weekly time ended before a date."""
    return slot.until_on is not None and slot.until_on < today


def is_followed(standing: StandingTime, others: Iterable[StandingTime]) -> bool:
    """Whether another one has taken a weekly time's place."""
    ends = standing.until_on
    return ends is not None and any(each.from_on is not None and each.from_on > ends for each in others)


def meet(one: Slot, other: Slot) -> bool:
    """Whether there is a day on which both can hold."""
    begins, ends = one.from_on or date.min, one.until_on or date.max
    return begins <= (other.until_on or date.max) and (other.from_on or date.min) <= ends


def _first_words(
    rows: Mapping[int, RosterRow],
    known: Sequence[StandingTime],
    imported: Sequence[ImportedTime],
    of_this_file: Sequence[ImportedTime],
    columns: frozenset[str],
    today: date,
) -> dict[int, ImportedTime]:
    """By their place, the rows that speak for the first time of what the studio has.

    A row of a roster may mean anything that no file speaks of, a row of a calendar only what is at its very weekday and
    time. There either may mean what another file speaks of, but not where that let it end before `today`. What this
    file speaks of is never meant: of two events of one file, each is a lesson of its own.
    """
    if not rows:
        return {}
    gone = made_another(known)  # or the file could not take its word back
    unsaid = _but(known, imported)
    matched: dict[int, ImportedTime] = {}
    if next(iter(rows.values())).event_uid == ROSTER:
        # Where two would do, the one that lasts is meant.
        free = sorted(unsaid, key=lambda each: (is_over(each, today), is_followed(each, unsaid)))
        matched = _matched(rows, [as_imported(each) for each in free if each.id not in gone], known, columns, today)
    of_events = [each for each in imported if each.event_uid != ROSTER]
    gone |= followed_up((each.standing_time_id for each in matched.values()), known)
    others = _but(known, [*of_this_file, *(each for each in of_events if is_over(each, today))])
    others.sort(key=lambda each: (each not in unsaid, any(later.follows == each.id for later in known)))
    matched |= _at_their_times(rows, matched, [as_imported(each) for each in others if each.id not in gone])
    let_end = {
        piece.id
        for each in of_events
        for piece in pieces_of(each.standing_time_id, known)
        if piece.until_on == each.until_on
    }
    # What one event let end goes on where another takes it up.
    return {
        place: first_said(rows[place], words, today, keeps_end=words.standing_time_id in let_end)
        for place, words in matched.items()
    }


def _but(known: Sequence[StandingTime], imported: Iterable[ImportedTime]) -> list[StandingTime]:
    """The weekly times that nothing imported speaks of."""
    spoken = followed_up((each.standing_time_id for each in imported), known)
    return [standing for standing in known if standing.id not in spoken]


def _matched(
    rows: Mapping[int, RosterRow],
    candidates: Iterable[ImportedTime],
    known: Sequence[StandingTime],
    columns: frozenset[str],
    today: date,
) -> dict[int, ImportedTime]:
    """The candidate that each row means, by the row's place; `candidates` are in the order in which they are to be meant.

    First come those that say the same, then those that have less and less in common: weekday and time, weekday and
    instrument, weekday, instrument, nothing. Whatever they have in common, a row means none that holds on other days.
    One that ended before `today` is history: a row can only say it once more.
    """
    free, matched = list(candidates), dict[int, ImportedTime]()
    for level in range(len(_keys(next(iter(rows.values())), columns)) if rows else 0):
        waiting: defaultdict[Hashable, list[ImportedTime]] = defaultdict(list)
        for each in free:
            if level < _SURE or not is_over(each, today):
                waiting[_keys(each, columns)[level]].append(each)
        for place, row in rows.items():
            if place not in matched and (alike := waiting.get(_keys(row, columns)[level])):
                matched |= _taken(place, row, alike)
        # A row that still says what the studio has changed since speaks for what it was changed into.
        taken = followed_up((each.standing_time_id for each in matched.values()), known)
        free = [each for each in free if each.standing_time_id not in taken]
    return matched


def _at_their_times(
    rows: Mapping[int, RosterRow], matched: Mapping[int, ImportedTime], candidates: Iterable[ImportedTime]
) -> dict[int, ImportedTime]:
    """The candidates at the weekday and time of the rows that are not matched, on days of which they speak."""
    at: defaultdict[Hashable, list[ImportedTime]] = defaultdict(list)
    for each in candidates:
        at[each.weekday, each.at].append(each)
    found: dict[int, ImportedTime] = {}
    for place, row in rows.items():
        if place not in matched:
            found |= _taken(place, row, at[row.weekday, row.at])
    return found


def _taken(place: int, row: RosterRow, alike: list[ImportedTime]) -> dict[int, ImportedTime]:
    """Takes the first that can hold on days of a row out of those alike."""
    nth = next((nth for nth, each in enumerate(alike) if meet(row, each)), None)
    return {} if nth is None else {place: alike.pop(nth)}


def _keys(slot: Slot, columns: frozenset[str]) -> tuple[Hashable, ...]:
    """What two of the same weekly time have in common, from the surest to the least."""
    dates = (slot.from_on if "from" in columns else None, slot.until_on if "until" in columns else None)
    instrument = name_key(slot.instrument or "")
    at = (slot.weekday, slot.at)
    alike = (at, slot.minutes, (slot.every_weeks or 1) if "every_weeks" in columns else None)
    if "instrument" in columns:
        return (alike, dates), alike, (at, dates), at, (slot.weekday, instrument), slot.weekday, instrument, ()
    return (alike, dates), alike, (at, dates), at, slot.weekday, ()
