"""A student out of a typed line."""

from datetime import date, time, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.studio import BRANDVOLD, HOME, ILSE, OKONJO, STARTS_AT, TEODOR

from cockpit.studio.errors import BadInput
from cockpit.studio.typed_times.student_line import StudentLine, read_becomes, read_student
from cockpit.studio.typed_times.studio_names import StudioNames
from cockpit.studio.typed_times.when import Reference

NAMES = StudioNames([BRANDVOLD, OKONJO], [ILSE, TEODOR])
REFERENCE = Reference(now=STARTS_AT, around=date(2026, 12, 1), home_zone=HOME)


def read(line: str) -> StudentLine:
    return read_student(line, NAMES, REFERENCE, STARTS_AT)


def test_each_part_is_claimed_by_its_reader():
    said = read("nora bell, cello, fri 2pm phoenix 45m from 11 dec, ana.bell@example.org")
    assert (said.name, said.last_name, said.instrument, said.minutes) == ("Nora", "Bell", "cello", 45)
    assert said.emails == ("ana.bell@example.org",)
    assert said.weekly is not None
    when = said.weekly.when
    assert when is not None
    assert (when.zone, when.local.date(), when.local.time()) == ("America/Phoenix", date(2026, 12, 11), time(14))


def test_the_parts_stand_in_any_order():
    one = read("nora bell, cello, fri 2pm phoenix 45m from 11 dec, ana@example.org")
    assert read("Nora Bell, ana@example.org, fri 2pm phoenix 45m from 11 dec, cello") == one


@pytest.mark.parametrize(
    ("line", "facts"),
    [
        ("tobin, guitar, wed 4pm 30m, with ilse", {"name": "Tobin", "sibling": ILSE}),
        ("nora, family bell", {"family": "Bell"}),
        ("nora, Bell-Ortiz family", {"family": "Bell-Ortiz"}),
        ("nora, family okonjo", {"family": OKONJO.name}),
        ("nora, lives in phoenix", {"zone": "America/Phoenix"}),
        ("viola, viola", {"name": "Viola", "instrument": "viola"}),
        ("marta, a@example.org, b@example.org", {"emails": ("a@example.org", "b@example.org")}),
        ("O'Neil", {"name": "O'Neil"}),
    ],
)
def test_a_line_says_what_it_says_and_nothing_else(line, facts):
    said = read(line)
    assert {name: getattr(said, name) for name in facts} == facts


@pytest.mark.parametrize(
    ("line", "named"),
    [
        ("nora, cello, blue", '"blue" is not understood'),
        ("nora bell smith, cello", '"nora bell smith" is not understood as a name'),
        ("nora, wed 4pm, thu 5pm", 'twice: "thu 5pm"'),
        ("nora, cello, guitar", 'twice: "guitar"'),
        ("nora, 5pm", '"5pm" has no day and time'),
        ("nora, every week", "day and time|not understood"),
        ("nora, with bob", 'called "bob"'),
        ("7 up, cello", '"7 up" is not understood as a name'),
        ("", "nora bell, cello"),
        ("nora, cello, ana@", '"ana@" is not understood'),
    ],
)
def test_what_is_not_understood_is_named(line, named):
    with pytest.raises(BadInput, match=named):
        read(line)


def test_somebody_who_had_a_trial_needs_a_time_and_no_name():
    said = read_becomes("fri 2pm 45m from 11 dec, family bell", NAMES, REFERENCE, STARTS_AT)
    assert (said.family, said.minutes, said.name) == ("Bell", 45, "")
    with pytest.raises(BadInput, match="no weekly time"):
        read_becomes("family bell", NAMES, REFERENCE, STARTS_AT)


PARTS = st.sampled_from(
    ["cello", "fri 2pm", "phoenix", "ana@example.org", "family bell", "with ilse", "blue sky", "", "4", "q=72"]
)


@given(st.lists(PARTS, max_size=6))
def test_no_part_is_dropped(parts):
    try:
        said = read(", ".join(["nora", *parts]))
    except BadInput:
        return
    found = [said.instrument, said.weekly, said.zone, said.family, said.sibling, *said.emails]
    assert len(set(parts) - {""}) <= sum(each is not None for each in found)
    assert not {"blue sky", "4", "q=72"} & set(parts)


def test_it_is_read_on_her_clock_where_it_names_no_place():
    said = read("nora, fri 2pm")
    assert said.weekly is not None
    assert said.weekly.when is not None
    assert said.weekly.when.zone == HOME
    assert said.weekly.when.starts_at - STARTS_AT == timedelta(days=2, hours=22)
