"""What a file said before in the place of each of its rows."""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import date

from cockpit.studio.enrolling.event_times import at_their_times, by_event, event_of_row, match_events
from cockpit.studio.enrolling.file_words import first_words
from cockpit.studio.enrolling.roster_times import is_over, match_rows, match_times
from cockpit.studio.lessons.file_rows import ROSTER, FileRow, followed_up, made_another, spoken_of
from cockpit.studio.lessons.weekly_times import StandingTime
from cockpit.studio.roster.columns import RosterRow


def words_before(
    rows: Sequence[RosterRow],
    known: Sequence[StandingTime],
    remembered: Sequence[FileRow],
    columns: frozenset[str],
    today: date,
) -> list[FileRow | None]:
    """For each row of a student what the file said in its place before; None for one that the studio has nothing of.

    `known` are the student's standing times, and `remembered` what files said of them; `columns` are those of the file.
    """
    lasting = sorted(remembered, key=lambda row: is_over(spoken_of(row, known)[-1], today))
    found: dict[int, FileRow] = {}
    of_event = by_event(rows)
    for event, places in of_event.items():
        own = [row for row in lasting if row.event == event]
        matches = match_rows([rows[place] for place in places], own, columns)
        found |= {place: match for place, match in zip(places, matches, strict=True) if match is not None}
    left = [place for place in range(len(rows)) if place not in found]
    of_this_file = [row for row in remembered if row.event in of_event]
    first = _first_words([rows[place] for place in left], known, remembered, of_this_file, columns, today)
    found |= {left[nth]: words for nth, words in first.items()}
    return [found.get(place) for place in range(len(rows))]


def unnamed(
    rows: Sequence[RosterRow], said_before: Iterable[FileRow | None], remembered: Iterable[FileRow]
) -> list[FileRow]:
    """What is remembered of an event's weekdays that it does not name any more in these rows."""
    said = [row for row in said_before if row is not None]
    events = by_event(rows).keys() - {ROSTER}
    return [row for row in remembered if row.event in events and row not in said]


def _first_words(
    rows: Sequence[RosterRow],
    known: Sequence[StandingTime],
    remembered: Sequence[FileRow],
    of_this_file: Sequence[FileRow],
    columns: frozenset[str],
    today: date,
) -> dict[int, FileRow]:
    """By their place, the rows that speak for the first time of what the studio has.

    What another file speaks of is meant only at its very weekday and time, and not where that let it end before `today`.
    What is remembered `of_this_file` is never meant: of two events of one file, each is a lesson of its own.
    """
    if not rows:
        return {}
    free = _but(known, remembered)
    if rows[0].event_uid is None:
        matches = match_times(rows, free, columns, today)
    else:
        matches = match_events(rows, free, columns)
    of_events = [row for row in remembered if not row.is_of_roster]
    ended = [row for row in of_events if row.until_on is not None and row.until_on < today]
    taken = followed_up((match.id for match in matches if match is not None), known) | made_another(known)
    others = [standing for standing in _but(known, [*of_this_file, *ended]) if standing.id not in taken]
    followed = {standing.follows for standing in known}
    others.sort(key=lambda standing: standing.id in followed)  # of two at one time the one that lasts is meant
    found = ((nth, match) for nth, match in enumerate(at_their_times(rows, matches, others)) if match is not None)
    let_end = {each.id for row in of_events for each in spoken_of(row, known) if each.until_on == row.until_on}
    words: dict[int, FileRow] = {}
    for nth, match in found:
        said = first_words(rows[nth], match, event_of_row(rows[nth]), today)
        # What one event let end goes on where another takes it up.
        words[nth] = replace(said, until_on=match.until_on) if match.id in let_end else said
    return words


def _but(known: Sequence[StandingTime], rows: Sequence[FileRow]) -> list[StandingTime]:
    """The standing times that no row of a file speaks of."""
    spoken = followed_up((row.standing_time_id for row in rows), known)
    return [standing for standing in known if standing.id not in spoken]
