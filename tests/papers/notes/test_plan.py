"""The practice plan on the family's papers: what each day says, what the assignments are called, and escaping."""

import re
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.examples import examples
from support.golden import assert_golden
from support.pages import STYLE, Shown
from support.papers import TRICKY, USUAL, paper, planned
from support.phrases import ASSIGNMENTS, CAUTION, IN_ENGLISH, PLAN
from support.plans import LINES, RULES, WEEKS, assigned, mm, week
from support.rendering import COMMONMARK, GFM

from cockpit.papers.notes.names import turn_names
from cockpit.papers.notes.page import practice_notes_page
from cockpit.papers.notes.plan import days_words, plan_blocks, plan_lead
from cockpit.papers.notes.text import practice_notes_markdown, practice_notes_text
from cockpit.studio.clocks.moments import WEEKDAYS
from cockpit.studio.notes.notes import Area
from cockpit.studio.practice.plan import week_plan
from cockpit.studio.practice.rules import PlanRules
from cockpit.studio.values import replace

LONG = """\
Scales: D major 2 oct, q = 60 to 72, 5 min
Piece: Bourrée, mm. 1-32, q = 72 to 96, HS before HT, in turns
Piece: Minuet in 3/4, mm. 1-8, q = 90, in turns
Review: The Old Mill
Theory: page 7, Sat only
"""
PAPERS = {
    "planned": planned(LONG, practice_days=frozenset(range(6))),
    "planned-alike": planned("Warm-up: open strings, 3 min\nPiece: Bourrée, mm. 1-8, q = 72", 20),
    "planned-exceeding": planned(
        "Scales: D major, 25 min, Mon-Fri\nPiece: <b>Gavotte</b>, 15 min\nEar: drone, Tue only"
    ),
}


def blocks(body, **values):
    return {block.heading: list(block.items) for block in plan_blocks(planned(body, **values).plan, IN_ENGLISH)}


def forms(notes):
    return (
        practice_notes_markdown(notes, IN_ENGLISH),
        practice_notes_page(notes, STYLE, IN_ENGLISH),
        practice_notes_text(notes, IN_ENGLISH),
    )


@pytest.mark.parametrize("name", PAPERS)
def test_the_markdown_is_the_golden_one(name):
    assert_golden(practice_notes_markdown(PAPERS[name], IN_ENGLISH), f"{name}.md")


@pytest.mark.parametrize("name", PAPERS)
def test_the_page_is_the_golden_one(name):
    assert_golden(practice_notes_page(PAPERS[name], "p { margin: 0; }\n", IN_ENGLISH), f"{name}.html")


@pytest.mark.parametrize("name", PAPERS)
def test_the_plain_text_is_the_golden_one(name):
    assert_golden(practice_notes_text(PAPERS[name], IN_ENGLISH), f"{name}.txt")


def test_days_that_are_alike_stand_together():
    assert blocks("Warm-up: open strings, 3 min", daily=3) == {
        "Wednesday December 2 through Monday December 7": ["Warm-up: open strings, 3 min"]
    }


def test_where_days_differ_what_they_have_in_common_is_said_once_and_every_practice_day_is_named():
    found = blocks("Warm-up: open strings, 3 min\nPiece: Gavotte, 5 min, Mon-Thu", daily=None)
    assert found == {
        "Every practice day (Wednesday December 2 through Monday December 7)": ["Warm-up: open strings, 3 min"],
        "Wednesday December 2 and Thursday December 3, 8 minutes each day": ["Piece: Gavotte, 5 min"],
        "Monday, December 7, 8 minutes total": ["Piece: Gavotte, 5 min"],
    }


def test_days_that_have_no_more_than_every_day_are_named_there_and_so_is_by_how_much_they_exceed():
    body = "Warm-up: open strings, 35 min\nPiece: Gavotte, 5 min, Mon Tue"
    assert blocks(body, practice_days=frozenset({0, 2, 4})) == {
        "Every practice day (Wednesday December 2, Friday December 4, and Monday December 7), 35 minutes each day, "
        "5 minutes over the planned 30 a day": ["Warm-up: open strings, 35 min"],
        "Monday, December 7, 40 minutes total, 10 minutes over the planned 30 a day": ["Piece: Gavotte, 5 min"],
    }
    # Where every day exceeds by the same the lead says so.
    assert list(blocks("Warm-up: open strings, 35 min\nTheory: page 7, Mon only")) == [
        "Every practice day (Wednesday December 2 through Monday December 7)",
        "Monday, December 7",
    ]


def test_days_that_would_be_told_in_the_same_words_stand_together():
    # The second passage was not read, so that neither is told; the days do not differ in what nobody is shown.
    assert blocks("Piece: Sonata measures 1-24, B part 45-60, q=80", daily=15) == {
        "Wednesday December 2 through Monday December 7": ["Piece: Sonata, 15 min"]
    }
    assert planned("Piece: Sonata measures 1-24, B part 45-60, q=80", daily=None).plan is None
    plan = week_plan([assigned("Sonata, then 45-60", minutes=5)], week(), PlanRules())
    apart = tuple(
        replace(day, items=(replace(day.items[0], measures=(mm(day.on.day, day.on.day),)),)) for day in plan.days
    )
    assert len(plan_blocks(replace(plan, days=apart), IN_ENGLISH)) == 1


def test_a_line_that_is_typed_twice_stands_as_often_as_a_day_has_it():
    twice = [assigned("The Old Mill", Area.REVIEW, minutes=2)] * 2
    plan = week_plan(twice, week(), PlanRules(review_gaps=(1,)))  # the second of them begins a day later
    assert {block.heading: len(block.items) for block in plan_blocks(plan, IN_ENGLISH)} == {
        "Every practice day (Wednesday December 2 through Monday December 7)": 1,
        "Thursday December 3 through Monday December 7, 4 minutes each day": 1,
    }


def test_rest_days_are_not_listed_and_what_no_practice_day_is_named_for_is_told_last_as_it_was_typed():
    found = blocks("Piece: Gavotte, 5 min\nTheory: page 7, Sun only", practice_days=frozenset({2, 4}), daily=None)
    assert found == {
        "Wednesday December 2 and Friday December 4": ["Piece: Gavotte, 5 min"],
        "Not on any practice day this week": ["Theory: page 7, Sun only"],
    }


@pytest.mark.parametrize(
    ("body", "daily", "lead"),
    [
        ("Piece: Gavotte", 20, "20 minutes each practice day. "),
        ("Piece: Gavotte, 35 min", 30, "35 minutes each practice day, 5 minutes over the planned 30 a day. "),
        ("Piece: Gavotte, 12 min", 30, "12 of 30 minutes each practice day. "),
        ("Piece: Gavotte, 12 min\nTheory: page 7", None, ""),  # nobody said how long theory takes
        ("Piece: Gavotte, 12 min, Wed Fri\nTheory: page 7, 2 min", None, ""),  # not the same every day
    ],
)
def test_the_minutes_of_a_day_are_told_once_where_they_are_the_same(body, daily, lead):
    said = plan_lead(planned(body, daily).plan, IN_ENGLISH)
    assert said == lead.rstrip()


@pytest.mark.parametrize(
    ("line", "called"),
    [
        ("Piece: Gavotte, mm. 1-8, q = 72, HS before HT", "Piece: Gavotte, measures 1–8, quarter = 72, 6 min"),
        ("Piece: Gavotte, from letter B, memory", "Piece: Gavotte, 6 min"),
        ("Etude: no. 5, mm. 1-16, detached", "Etude: no. 5, measures 1–16, 6 min"),
        ("Scales: D major 2 oct HS, q = 72, slurred", "Scales: D major 2 oct HS, quarter = 72, 6 min"),
        ("Method book: pp. 12-13, count aloud", "Method book: pp. 12-13, 6 min"),
        ("Scales: q = 72", "Scales: quarter = 72, 6 min"),
        # What is not sure to be a name stands as it was typed, without the phrases that the plan tells itself.
        ("Warm-up: open strings, q = 60, whole bows", "Warm-up: open strings, whole bows, quarter = 60, 6 min"),
        ("Scales: all in sharps, 6 min", "Scales: all in sharps, 6 min"),
        ("Scales: D major slowly, 6 min", "Scales: D major slowly, 6 min"),
        ("Warm-up: long tones at q = 60", "Warm-up: long tones at q = 60, 6 min"),
        ("Warm-up: long tones, 6 min, then rest", "Warm-up: long tones, 6 min, then rest"),
        ("Warm-up: long tones 6 min slowly", "Warm-up: long tones 6 min slowly"),
        ("Warm-up: low notes, mm. 1-8, slowly mm. 9-16", "Warm-up: low notes, mm. 1-8, slowly mm. 9-16, 6 min"),
        ("Sight-reading: one new line, Wed-Sat", "Sight-reading: one new line, 6 min"),
        # Half of the measures, or of the tempos, would be worse than none.
        ("Piece: Gavotte, mm. 1-8 slowly, then 9-16", "Piece: Gavotte, 6 min"),
        ("Technique: shifts, q = 60 first, then 72", "Technique: shifts, 6 min"),
        ("Warm-up: low notes, q = 60, later 72", "Warm-up: low notes, q = 60, later 72, 6 min"),
    ],
)
def test_an_assignment_is_called_by_a_sure_name_or_else_as_it_was_typed(line, called):
    (items,) = blocks(line, daily=6).values()
    said = [re.sub(r", (about|less than) .* through.*$", "", item) for item in items]
    assert said == [called]


def test_two_of_the_same_name_are_called_as_they_were_typed():
    (items,) = blocks(
        "Piece: Gavotte, slowly, 2 min\nPiece: Gavotte, by heart\nEtude: Gavotte, slowly", daily=6
    ).values()
    assert [item.rsplit(", ", 1)[0] for item in items] == [
        "Piece: Gavotte, slowly",
        "Piece: Gavotte, by heart",
        "Etude: Gavotte",
    ]


def test_each_day_has_its_own_measures_and_tempo_and_how_often_they_fit_into_its_minutes():
    found = blocks("Piece: Bourrée, mm. 1-20, q = 60 to 72, 4 min", daily=None)
    # 4/4 at 60: a measure takes 4 seconds, and 7 of them 28; 240 / 28 = 8.6.
    assert found["Wednesday, December 2"] == [
        "Piece: Bourrée, measures 1–7, quarter = 60, 4 min, about eight times through (in 4/4)"
    ]
    # The whole at 72: 20 measures take 66.7 seconds; 240 / 66.7 = 3.6.
    assert found["Monday, December 7"] == [
        "Piece: Bourrée, measures 1–20, quarter = 72, 4 min, about three times through (in 4/4)"
    ]


def test_turns_are_told_with_the_name_of_the_other():
    (items,) = blocks("Piece: Bourrée, 6 min, in turns\nPiece: Minuet, 6 min, in turns", daily=None).values()
    assert items[0] == "Piece: Bourrée, 6 min, alternating with Minuet: 3 + 3 minutes"


def with_whom(body):
    (items,) = blocks(body).values()
    return [re.sub(r".*alternating with (.*?)(?:: \d.*)?$", r"\1", item) for item in items]


MUSETTE = "Piece: Musette, mm. {}-{}, in turns"


@pytest.mark.parametrize(
    ("body", "names"),
    [
        # The names of the items themselves, with the measures where those alone tell them apart.
        (
            f"{MUSETTE.format(1, 8)}\n{MUSETTE.format(9, 16)}\nPiece: Musette mm. 17-24, in turns",
            [
                "Musette mm. 9-16 and Musette mm. 17-24",
                "Musette mm. 1-8 and Musette mm. 17-24",
                "Musette mm. 1-8 and Musette mm. 9-16",
            ],
        ),
        (
            "Piece: Musette, slowly, in turns\nPiece: Musette, by heart, in turns",
            ["Musette, by heart", "Musette, slowly"],
        ),
        ("Piece: Gavotte, in turns\nEtude: Gavotte, in turns", ["Etude: Gavotte", "Piece: Gavotte"]),
        ("Piece: *Minuet* in 3/4, in turns\nPiece: Gavotte, in turns", ["Gavotte", "*Minuet* in 3/4"]),
        ("Piece: Gavotte, in turns\nWarm-up: slurs, in turns", ["slurs", "Gavotte"]),
        (f"Piece: Gavotte, in turns\nWarm-up: soft {'x' * 40}, in turns", ["warm-up", "Gavotte"]),
        (
            f"Piece: Gavotte, in turns\nWarm-up: soft {'x' * 40}, in turns\nWarm-up: soft {'y' * 40}, in turns",
            [f"soft {'x' * 40} and soft {'y' * 40}", f"Gavotte and soft {'y' * 40}", f"Gavotte and soft {'x' * 40}"],
        ),
    ],
)
def test_in_turns_each_is_called_so_that_it_can_be_no_other(body, names):
    assert with_whom(body) == names


def test_one_that_is_not_in_turns_is_not_taken_for_one_that_is():
    (items,) = blocks("Piece: Gavotte, in turns\nPiece: Musette, mm. 1-8, in turns\nPiece: Musette, mm. 9-16").values()
    assert "alternating with Musette mm. 1-8: " in items[0]


@examples(25, long=120)
@given(LINES)
def test_no_two_of_a_plan_have_the_same_name_in_turns(lines):
    names = turn_names(lines, IN_ENGLISH)
    assert len({name.casefold() for name in names.values()}) == len({(each.area, each.text) for each in lines})


@pytest.mark.parametrize(
    ("days", "words"),
    [
        ([2], "Wednesday, December 2"),
        ([2, 3], "Wednesday December 2 and Thursday December 3"),
        ([2, 3, 4], "Wednesday December 2 through Friday December 4"),
        ([2, 4, 7], "Wednesday December 2, Friday December 4, and Monday December 7"),
        (
            [2, 3, 4, 6, 7, 8],
            "Wednesday December 2 through Friday December 4 and Sunday December 6 through Tuesday December 8",
        ),
        ([29, 30, 31, 32], "Tuesday December 29 through Friday January 1"),
        ([30, 32, 34], "Wednesday December 30, Friday January 1, and Sunday January 3"),
    ],
)
def test_days_are_told_in_words(days, words):
    assert days_words([date(2026, 11, 30) + timedelta(days=day) for day in days], IN_ENGLISH) == words


DATED = re.compile(rf"\b(?:{'|'.join(WEEKDAYS)}),? \w+ (\d+)")


@examples(25, long=120)
@given(LINES, WEEKS, RULES)
def test_the_blocks_give_back_every_item_of_every_practice_day(lines, week, rules):
    plan = week_plan(lines, week, rules)
    practice = [day for day in plan.days if day.items]
    found = [block for block in plan_blocks(plan, IN_ENGLISH) if block.heading != "Not on any practice day this week"]
    assert all(block.items for block in found)
    every_day = found[0] if found and found[0].heading.startswith("Every practice day") else None
    common = len(every_day.items) if every_day is not None else 0
    said = dict.fromkeys(dates_of(every_day.heading), common) if every_day is not None else {}
    for block in found[1:] if every_day is not None else found:
        said |= {on: len(block.items) + common for on in dates_of(block.heading)}
    assert said == {day.on.day: len(day.items) for day in practice}


def dates_of(heading):
    """The days of the month that a heading names, with those between the ends of a range."""
    days = []
    for span in re.split(r", (?!\w+ \d)| and ", heading):
        ends = [int(each) for each in DATED.findall(span)]
        days += range(ends[0], ends[-1] + 1) if ends else []
    return days


@pytest.mark.parametrize("reader", [COMMONMARK, GFM])
@pytest.mark.parametrize("body", [TRICKY, USUAL, "Piece: # <i>*a* _b_ `c` [d](e) &amp; \\* | ~f~\nEar: 1. - +"])
def test_typed_words_in_a_plan_are_shown_as_they_were_typed(body, reader):
    notes = planned(body)
    wanted = [text for block in plan_blocks(notes.plan, IN_ENGLISH) for text in (block.heading, *block.items)]
    for page in (
        practice_notes_page(notes, STYLE, IN_ENGLISH),
        reader.render(practice_notes_markdown(notes, IN_ENGLISH)),
    ):
        shown = Shown(page).under(PLAN)
        lead = plan_lead(notes.plan, IN_ENGLISH)
        assert [text.strip("\n") for text in shown] == [*([lead] if lead else []), *wanted]
    *_, text = practice_notes_text(notes, IN_ENGLISH).partition(f"\n{PLAN}\n")
    assert all(f"  {line}\n" in text for line in wanted)


SIGNS = st.text(st.sampled_from("ab1 *_`#<>&;[]()\\|~-+.!:,'\"=/é\u200b"), min_size=1, max_size=24)


@examples(25, long=150)
@given(st.lists(SIGNS, min_size=1, max_size=3))
def test_whatever_is_typed_a_plan_shows_the_words_that_it_says(texts):
    notes = planned("\n".join(f"Piece: {text}" for text in texts))
    if notes.plan is None:
        return
    wanted = [text.rstrip() for block in plan_blocks(notes.plan, IN_ENGLISH) for text in (block.heading, *block.items)]
    shown = Shown(COMMONMARK.render(practice_notes_markdown(notes, IN_ENGLISH))).under(PLAN)
    assert ["".join(text.split()) for text in shown[1:]] == ["".join(text.split()) for text in wanted]


def test_the_list_above_the_plan_stays_as_it_was_typed_but_for_the_name_of_a_beat():
    with_plan, without = (
        Shown(practice_notes_page(notes, STYLE, IN_ENGLISH)) for notes in (planned(LONG), paper(LONG))
    )
    said = LONG.replace("q = ", "quarter = ").splitlines()
    assert with_plan.under(ASSIGNMENTS) == without.under(ASSIGNMENTS) == said
    headings = [text for element, text in with_plan.blocks if element.startswith("h")]
    assert headings.index(PLAN) == headings.index(ASSIGNMENTS) + 1


@pytest.mark.parametrize("name", PAPERS)
def test_the_caution_stands_once_and_nothing_private_is_in_a_plan(name):
    for form in forms(PAPERS[name]):
        assert form.count(CAUTION) == 1
    for form in forms(planned(f"{LONG}Private: Piece: Berceuse, 5 min\nNext time: Scales: E flat, 5 min")):
        assert "Berceuse" not in form
        assert "E flat" not in form
