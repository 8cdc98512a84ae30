"""The clock of a family that moves: its text, and what a line or a file makes of it."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cockpit.studio.clocks.home import Home, Stay
from cockpit.studio.clocks.moments import Zone, lesson_zone, zone_on
from cockpit.studio.clocks.moves import (
    agreed,
    clock_in,
    clock_of,
    clock_text,
    with_stay,
    without_stays_to_come,
    zones_of,
)

PHOENIX, DENVER, BOISE = "America/Phoenix", "America/Denver", "America/Boise"
TODAY = date(2026, 12, 1)
some_zone = st.sampled_from((PHOENIX, DENVER, BOISE, "Europe/London", "Asia/Kolkata"))
some_day = st.dates(date(2026, 1, 1), date(2027, 12, 31))
some_stay = st.builds(Stay, zone=some_zone, from_on=some_day) | st.builds(
    lambda zone, on, days: Stay(zone=zone, from_on=on, until_on=on + timedelta(days=days)),
    some_zone,
    some_day,
    st.integers(0, 90),
)
some_clock = st.builds(clock_of, some_zone, st.lists(some_stay, max_size=4, unique_by=lambda stay: stay.from_on))


def stay(zone: str, from_on: str, until_on: str | None = None) -> Stay:
    return Stay(
        zone=zone,
        from_on=date.fromisoformat(from_on),
        until_on=date.fromisoformat(until_on) if until_on is not None else None,
    )


def clock(*stays: Stay) -> Home:
    return Home(zone=PHOENIX, stays=stays)


MOVED = clock(stay(DENVER, "2027-03-01"))


@pytest.mark.parametrize(
    ("zone", "text"),
    [
        (PHOENIX, "America/Phoenix"),
        (MOVED, "America/Phoenix; America/Denver from 2027-03-01"),
        (
            clock(stay(DENVER, "2027-03-01"), stay("Asia/Kolkata", "2027-06-01", "2027-07-01")),
            "America/Phoenix; America/Denver from 2027-03-01; Asia/Kolkata from 2027-06-01 to 2027-07-01",
        ),
    ],
)
def test_a_clock_is_one_text_and_comes_back(zone, text):
    assert clock_text(zone) == text
    assert clock_in(text) == zone


@given(some_clock)
def test_every_clock_comes_back_from_its_text(zone):
    assert clock_in(clock_text(zone)) == zone


@pytest.mark.parametrize("text", ["America/Phoenix; America/Denver", "A; B from soon", "A; B from 2027-02-30"])
def test_a_text_that_is_none_is_refused(text):
    with pytest.raises(ValueError):
        clock_in(text)


@pytest.mark.parametrize(
    ("before", "new", "after"),
    [
        # A first move, a second one, and one back.
        (PHOENIX, stay(DENVER, "2027-03-01"), MOVED),
        (MOVED, stay(BOISE, "2027-06-01"), clock(stay(DENVER, "2027-03-01"), stay(BOISE, "2027-06-01"))),
        (MOVED, stay(PHOENIX, "2027-06-01"), clock(stay(DENVER, "2027-03-01"), stay(PHOENIX, "2027-06-01"))),
        # One that is still to come has another day, or another place; or they stay where they are.
        (MOVED, stay(DENVER, "2027-03-08"), clock(stay(DENVER, "2027-03-08"))),
        (MOVED, stay(DENVER, "2027-02-01"), clock(stay(DENVER, "2027-02-01"))),
        (MOVED, stay(BOISE, "2027-03-01"), clock(stay(BOISE, "2027-03-01"))),
        (MOVED, stay(PHOENIX, "2027-03-01"), PHOENIX),
        (MOVED, stay(PHOENIX, "2027-02-01"), MOVED),
        # One that is over stays, and a later one to the same place is another.
        (
            clock(stay(DENVER, "2026-03-01"), stay(PHOENIX, "2026-06-01")),
            stay(DENVER, "2027-03-01"),
            clock(stay(DENVER, "2026-03-01"), stay(PHOENIX, "2026-06-01"), stay(DENVER, "2027-03-01")),
        ),
        # For a while is no move.
        (
            MOVED,
            stay(DENVER, "2027-01-01", "2027-01-31"),
            clock(stay(DENVER, "2027-01-01", "2027-01-31"), stay(DENVER, "2027-03-01")),
        ),
    ],
)
def test_a_move_more_changes_what_it_means_to_change(before, new, after):
    assert with_stay(before, new, TODAY) == after


def test_moves_to_come_are_taken_away_and_those_before_stay():
    zone = clock(stay(DENVER, "2026-03-01"), stay(BOISE, "2027-06-01"))
    assert without_stays_to_come(zone, TODAY) == clock(stay(DENVER, "2026-03-01"))
    assert without_stays_to_come(MOVED, TODAY) == PHOENIX
    assert without_stays_to_come(PHOENIX, TODAY) == PHOENIX


@pytest.mark.parametrize(
    ("known", "said", "after"),
    [
        (MOVED, PHOENIX, MOVED),
        (MOVED, DENVER, MOVED),
        (MOVED, BOISE, BOISE),
        (PHOENIX, MOVED, MOVED),
        (MOVED, clock(stay(DENVER, "2027-03-08")), clock(stay(DENVER, "2027-03-08"))),
        (PHOENIX, DENVER, DENVER),
    ],
)
def test_one_place_of_theirs_said_again_says_nothing_of_their_moves(known, said, after):
    assert agreed(known, said) == after


@given(some_clock, some_stay)
def test_a_move_is_there_from_its_first_day_on_and_nothing_before_it_changes_but_a_move_to_come_that_it_replaces(
    zone, new
):
    after = with_stay(zone, new, TODAY)
    replaced = [each for each in getattr(zone, "stays", ()) if each not in getattr(after, "stays", ())]
    assert zone_on(after, new.from_on) == new.zone or _is_away(after, new)
    first = min([new.from_on, *(each.from_on for each in replaced)])
    for days in range(1, 60):
        on = first - timedelta(days=days)
        assert zone_on(after, on) == zone_on(zone, on)
    assert set(zones_of(after)) <= {*zones_of(zone), new.zone}


def _is_away(after: Zone, new: Stay) -> bool:
    """Whether the day is one of a stay for a while that began before, which goes before a move."""
    return lesson_zone(after, new.from_on) == new.zone and zone_on(after, new.from_on) != new.zone
