"""The progress sheet: what a family reads of a student's term, in every form and language."""

import xml.etree.ElementTree as ElementTree
from datetime import date
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.golden import assert_golden
from support.phrases import SPOKEN, english_left, phrases_in
from support.pieces import given_line
from support.progress import progress_page, progress_sheet

from cockpit.papers.pieces.plot import tempo_plot
from cockpit.papers.pieces.progress import progress_body, progress_markdown, progress_text
from cockpit.studio.pieces.history import PieceHearing, PieceTime
from cockpit.studio.values import replace

FORMS = {
    "progress.md": lambda of: progress_markdown(of, phrases_in("en")),
    "progress.txt": lambda of: progress_text(of, phrases_in("en")),
    "progress.html": progress_page,
    **{
        f"progress-{language}.txt": lambda of, spoken=spoken: progress_text(of, spoken)
        for language, spoken in SPOKEN.items()
    },
}


@pytest.mark.parametrize("name", FORMS)
def test_the_sheet_is_what_it_was_when_it_was_looked_at(name):
    assert_golden(FORMS[name](progress_sheet(words="A *fine* term.\n\nThank you!", has_marks=True)), name)


def test_it_has_no_mark_unless_she_wants_them():
    phrases = phrases_in("en")
    for form in (progress_markdown, progress_text, progress_body):
        assert "more work" not in form(progress_sheet(), phrases)
        assert form(progress_sheet(has_marks=True), phrases).count("needs more work") == 1


def test_it_has_the_pieces_that_are_open_and_those_done_in_the_term():
    text = progress_text(progress_sheet(), phrases_in("en"))
    assert "Gavotte (T. Weaver), October 6" in text
    for other in ("Last Year", "read page 12", "absent"):
        assert other not in text


def test_a_sheet_of_nothing_says_so():
    nothing = progress_sheet(planned=0, attended=0, made_up=0, pieces=(), done=())
    assert progress_text(nothing, phrases_in("en")) == (
        "Progress of Ilse\n\nTuesday, September 1, 2026 through Tuesday, December 1, 2026\n\n"
        "Lessons\n- No planned lessons yet\n\nTempos are numbers of what was heard. They do not predict.\n"
    )


@pytest.mark.parametrize("language", ["de", "es", "fr"])
def test_nothing_english_is_left_in_another_language(language):
    theirs = progress_sheet(student="Ilse", has_marks=True)
    theirs = replace(
        theirs, pieces=tuple(replace(each, title="Etüde", composer=None, origin=None) for each in theirs.pieces)
    )
    theirs = replace(theirs, done=tuple(replace(each, title="Gavotte") for each in theirs.done))
    for form in (progress_markdown, progress_text):
        assert english_left(form(theirs, SPOKEN[language]), language) == set()
    assert f'<html lang="{language}">' in progress_page(theirs, language)


def pictures(body) -> list[ElementTree.Element]:
    """The pictures of a page, each read as XML by itself."""
    return [ElementTree.fromstring(f"<svg{each.partition('</svg>')[0]}</svg>") for each in body.split("<svg")[1:]]


def test_a_picture_is_whole_and_says_in_words_what_it_shows():
    (old_mill,) = pictures(progress_body(progress_sheet(), phrases_in("en")))
    assert old_mill.get("role") == "img"
    title, words, goal, line, *dots = old_mill
    assert title.text == "Tempos of The Old Mill"
    assert words.text == (
        "quarter = 60 on November 3; quarter = 66 on November 10; quarter = 72 on November 17; "
        "quarter = 72 on November 24; goal: quarter = 92"
    )
    assert goal.get("y1") == goal.get("y2") == "5.0"
    assert [(each.get("cx"), each.get("cy")) for each in dots] == [
        ("5.0", "35.0"), ("55.0", "29.4"), ("105.0", "23.8"), ("155.0", "23.8"),
    ]  # fmt: skip
    assert line.get("points") == " ".join(f"{each.get('cx')},{each.get('cy')}" for each in dots)


def test_a_picture_has_no_color_of_its_own_and_asks_for_nothing():
    (picture,) = pictures(progress_body(progress_sheet(), phrases_in("en")))
    colors = {each.get(name) for each in picture.iter() for name in ("fill", "stroke")} - {None}
    assert colors == {"currentColor", "none"}
    attributes = {name for each in picture.iter() for name in each.attrib}
    assert not attributes & {"href", "style", "class", "id"}


HEARINGS = st.lists(
    st.builds(PieceHearing, on=st.dates(date(2026, 1, 1), date(2027, 1, 1)), tempo=st.integers(20, 300),
              beat=st.sampled_from([Fraction(1), Fraction(3, 2), Fraction(1, 2)])),
    min_size=1, max_size=20, unique_by=lambda each: each.on,
).map(lambda found: sorted(found, key=lambda each: each.on))  # fmt: skip


@given(
    HEARINGS, st.none() | st.integers(20, 300).map(Fraction), st.text(st.characters(exclude_categories=["Cs", "Cc"]))
)
def test_every_picture_is_well_formed_and_lies_in_its_frame(hearings, goal, title):
    picture = ElementTree.fromstring(tempo_plot(hearings, goal, title, title))
    assert picture[0].text in {title, None}
    for dot in picture.iter("{http://www.w3.org/2000/svg}circle"):
        assert 5 <= float(dot.get("cx")) <= 155
        assert 5 <= float(dot.get("cy")) <= 35


def test_what_was_typed_stays_words_in_every_form():
    tricky = progress_sheet(words="<script>1</script>\n# no")
    body = progress_body(tricky, phrases_in("en"))
    assert "<script" not in body
    assert "A. Miller &lt;x&gt;, Irish &amp; more" in body
    assert "\\# no" in progress_markdown(tricky, phrases_in("en"))


def test_tempos_are_told_in_the_beat_that_they_were_heard_in():
    time = PieceTime(lines=(given_line("11-17", "Scales: D major h. = 40", None, 36),))
    assert time.hearings[0].quarters == 108
    assert "first: dotted half = 36 on November 17; goal: dotted half = 40" in progress_text(
        progress_sheet(), phrases_in("en")
    )


def test_a_day_of_another_year_has_its_year():
    (old_mill, *_), long_ago = progress_sheet().pieces, date(2025, 11, 3)
    old = replace(
        old_mill, since=long_ago, hearings=(replace(old_mill.hearings[0], on=long_ago), *old_mill.hearings[1:])
    )
    text = progress_text(progress_sheet(pieces=(old,)), phrases_in("en"))
    assert (
        "since Monday, November 3, 2025; first: quarter = 60 on Monday, November 3, 2025; last: quarter = 72 on November 24"
        in text
    )
