"""A typed line that is an inquiry: its parts in any order, each claimed once, or the line is refused with the part named."""

from contextlib import suppress
from datetime import UTC, date, datetime
from itertools import permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.examples import examples
from support.studio import HOME, home

from cockpit.studio.errors import BadInput
from cockpit.studio.inquiries.inquiry import Inquiry, InquiryId
from cockpit.studio.inquiries.line import EXAMPLES, line_of, read_came, read_inquiry
from cockpit.studio.people.people import Level
from cockpit.studio.typed_times.when import Reference

NOW = home("2026-11-30 10:00")
REFERENCE = Reference(now=NOW, around=date(2026, 11, 30), home_zone=HOME)
PARTS = ("ana bell for nora 8", "cello", "phoenix", "ana@example.org", "tue or thu after 4pm", "from a friend")
EMPTY = Inquiry(id=InquiryId(1), came_at=NOW, name="")


def facts(text: str) -> dict[str, object]:
    """What a line says, without what it does not say."""
    line = read_inquiry(text, REFERENCE)
    return {name: value for name in line.__slots__ if (value := getattr(line, name))}


def test_the_parts_stand_in_any_order():
    expected = {
        "name": "Ana Bell", "child": "Nora", "age": 8, "instruments": ("cello",), "zone": "America/Phoenix",
        "email": "ana@example.org", "wishes": "tue or thu after 4pm", "source": "a friend",
    }  # fmt: skip
    for order in list(permutations(PARTS))[::37]:
        assert facts(", ".join(order)) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("ana bell", {"name": "Ana Bell"}),
        (
            "r castellan, adult, guitar, halifax",
            {"name": "R Castellan", "is_adult": True, "instruments": ("guitar",), "zone": "America/Halifax"},
        ),
        ("jo amsel for her son Piet, age 6", {"name": "Jo Amsel", "child": "Piet", "age": 6}),
        ("O'Neil Smith for Mary-Jane 7", {"name": "O'Neil Smith", "child": "Mary-Jane", "age": 7}),
        ("ana bell 34", {"name": "Ana Bell", "age": 34, "is_adult": True}),
        ("ana bell, adult beginner", {"name": "Ana Bell", "is_adult": True, "level": Level.BEGINNER}),
        ("ana bell, cello and piano, viola", {"name": "Ana Bell", "instruments": ("cello", "piano", "viola")}),
        ("viola davis, viola", {"name": "Viola Davis", "instruments": ("viola",)}),
        ("sun li, thu after 4", {"name": "Sun Li", "wishes": "thu after 4"}),
        ("ana bell, mon, wed, fri after 5", {"name": "Ana Bell", "wishes": "mon, wed, fri after 5"}),
        (
            "ana bell, from phoenix, from the library",
            {"name": "Ana Bell", "zone": "America/Phoenix", "source": "the library"},
        ),
        (
            "ana bell, lives in new york, recommended by jo",
            {"name": "Ana Bell", "zone": "America/New_York", "source": "jo"},
        ),
        ("ana bell, indianapolis", {"name": "Ana Bell", "zone": "America/Indiana/Indianapolis"}),
        ('"Dr. 8, Jr." for nora', {"name": "Dr. 8, Jr.", "child": "Nora"}),
        ("ana bell,, cello; phoenix", {"name": "Ana Bell", "instruments": ("cello",), "zone": "America/Phoenix"}),
        ("ana bell, came sat 10am", {"name": "Ana Bell", "came_at": home("2026-11-28 10:00")}),
    ],
)
def test_what_a_line_says(text, expected):
    assert facts(text) == expected


@pytest.mark.parametrize(
    ("text", "named"),
    [
        ("", "no name"),
        ("cello, phoenix", "no name"),
        ("ana bell, celo", 'Did you mean "cello"?'),
        ("ana bell, portland", '"portland" is not understood'),
        ("ana bell, central", "could be places with different times. Type one city: Chicago or Winnipeg"),
        ("ana bell, greenwood elementary school", '"greenwood elementary school" is not understood'),
        ("ana bell, asthma", '"asthma" is not understood'),
        ("ana bell, born 12/3/2018", '"born 12/3/2018" is not understood'),
        ("ana bell, +1 602 555 0100", '"+1 602 555 0100" is not understood'),
        ("ana bell, ana@example", '"ana@example" is not understood'),
        ("ana bell, jo amsel", '"jo amsel" is not understood'),
        ("ana bell for nora 8, 9", "an age twice"),
        ("ana bell, new york, chicago", "a place twice: chicago"),
        ("ana bell, a@example.org, b@example.org", "an email address twice"),
        ("ana bell 0", '"0" is no age'),
        ('"ana bell, cello', "a quote without its end"),
        ("ana bell, came tomorrow 10am", "still to come"),
        ("ana " * 200, "too long"),
    ],
)
def test_a_part_that_nobody_claims_is_named(text, named):
    with pytest.raises(BadInput) as refused:
        read_inquiry(text, REFERENCE)
    assert named in str(refused.value)


def test_the_lines_that_a_refusal_names_work():
    for line in EXAMPLES.removeprefix("Type ").removesuffix(".").split(" or "):
        assert facts(line.strip('"'))["zone"]


@pytest.mark.parametrize(
    ("typed", "at"),
    [
        ("yesterday 10am", "2026-11-29 10:00"),
        ("nov 28 10am", "2026-11-28 10:00"),
        ("2026-11-28 10:00", "2026-11-28 10:00"),
        ("last friday 4pm", "2026-11-27 16:00"),
        ("mon 9am", "2026-11-30 09:00"),
        ("mon 11am", "2026-11-23 11:00"),
        ("9am", "2026-11-30 09:00"),
    ],
)
def test_when_it_came_lies_behind(typed, at):
    assert read_came(typed, REFERENCE) == home(at)


WORDS = st.sampled_from(
    [
        "Ana",
        "Nora",
        "Viola",
        "Phoenix",
        "May",
        "Adult",
        "O'Neil",
        "Zoë",
        "von",
        "8",
        "Bell, Jr.",
        "Beginner",
        "For",
        "Sun",
        'the "Duke"',
    ]
)
NAMES = st.lists(WORDS, min_size=1, max_size=3).map(" ".join)


@given(
    name=NAMES,
    child=st.none() | NAMES,
    age=st.none() | st.integers(1, 17),
    instrument=st.sampled_from([None, "cello", "viola", "cello, piano", "jazz guitar"]),
    level=st.none() | st.sampled_from(Level),
    zone=st.sampled_from(
        [None, "America/Phoenix", "America/Indiana/Knox", "America/St_Johns", "Europe/London", "Asia/Ho_Chi_Minh"]
    ),
    email=st.sampled_from([None, "ana@example.org"]),
    wishes=st.sampled_from(["", "tue or thu after 4pm", "mon, wed after 5, 30m, from june"]),
    source=st.sampled_from(["", "a friend", "the library on 5th"]),
)
@examples(60)
def test_a_line_that_is_written_for_an_inquiry_is_read_back_as_the_same(**values):
    asked = Inquiry(**{"id": InquiryId(1), "came_at": NOW} | values | {"name": values["name"].replace('"', "'")})
    child = asked.child.replace('"', "'") if asked.child else None
    asked = Inquiry(**{name: getattr(asked, name) for name in asked.__slots__} | {"child": child})
    assert read_inquiry(line_of(asked), REFERENCE).told_of(EMPTY) == asked


@given(st.text(alphabet="abnora 8,;\"@.-'/0é\n", max_size=60) | st.text(max_size=60))
@examples(80)
def test_whatever_is_typed_is_read_or_refused_with_a_sentence(text):
    reference = Reference(now=datetime(2026, 11, 30, tzinfo=UTC), around=date(2026, 11, 30), home_zone=HOME)
    with suppress(BadInput):
        assert read_inquiry(text, reference).name
