"""What a roster says of lessons that are shared: which of its rows, and then which weekly times."""

from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping, Sequence

from cockpit.studio.changes.records import Edit
from cockpit.studio.lessons.weekly_times import StandingTime
from cockpit.studio.people.people import name_key
from cockpit.studio.roster.columns import RosterFault, RosterRow, quoted
from cockpit.studio.roster.shared_cell import Companion, are_at_one_time, companions_in
from cockpit.studio.values import replace

Pairs = Sequence[tuple[RosterRow, RosterRow]]


def shared_rows(rows: Sequence[RosterRow], family_of: Callable[[RosterRow], str]) -> tuple[Pairs, list[RosterFault]]:
    """The rows that share their lessons, two and two, and the faults of cells that name nobody of that time, or several."""
    pairs: list[tuple[RosterRow, RosterRow]] = []
    faults = []
    by_name = defaultdict[str, list[RosterRow]](list)
    for row in rows:
        by_name[name_key(row.student)].append(row)
    for row in rows:
        for companion in companions_in(row.shared_with or ""):
            known = (each for each in by_name[name_key(companion.name)] if each is not row)
            family = companion.family and name_key(companion.family)
            theirs = (each for each in known if family in {None, name_key(family_of(each))})
            found = [each for each in theirs if are_at_one_time(row, each)]
            if len({name_key(family_of(each)) for each in found}) == 1:
                pairs += [(row, each) for each in found]
            else:
                faults.append(_fault(row, companion, [family_of(each) for each in found]))
    return pairs, faults


def _fault(row: RosterRow, companion: Companion, families: Sequence[str]) -> RosterFault:
    wanted = "Write a student whose own row has this weekday, time, and length"
    if families:
        wanted = f"More than one has this weekday and time: write {quoted(f'{companion.name} ({families[0]})')}"
    return RosterFault(line=row.line, column="with", found=quoted(str(companion)), wanted=wanted)


def with_shares(pairs: Pairs, meant: Mapping[RosterRow, StandingTime], edits: Iterable[Edit]) -> list[Edit]:
    """The edits of weekly times, with those that have them share their lessons.

    Of two that were put at different times in the studio since, nothing is said: neither is changed.
    """
    before = {each.id: each for each in meant.values()}
    after = dict(before)
    for rows in pairs:
        one, other = (after[meant[row].id] for row in rows)
        if (one.weekday, one.at, one.minutes) == (other.weekday, other.at, other.minutes):
            number = one.shares or other.shares or int(one.id)
            joined = {one, other}
            if one.shares is not None and other.shares is not None:  # and so do the others of both
                joined |= {each for each in after.values() if each.shares in {one.shares, other.shares}}
            after |= {each.id: replace(each, shares=number) for each in joined}
    changed = {before[each]: after[each] for each in before if before[each] != after[each]}
    found = []
    for edit in edits:
        shared = changed.pop(edit.after, None) if isinstance(edit.after, StandingTime) else None
        found.append(edit if shared is None else replace(edit, after=shared))
    return [*found, *(Edit(before=old, after=new) for old, new in changed.items())]
