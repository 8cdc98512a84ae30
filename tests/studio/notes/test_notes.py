"""What a typed line is, and what a family may see of a note. A private word must never get through."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cockpit.studio.notes.notes import (
    Area,
    Line,
    follow_ups,
    for_family,
    kept_back,
    next_time,
    no_labels,
    read_line,
    read_notes,
)

SECRET = "parents-separated-7"
PRIVATE_LABELS = [
    "Private:",
    "private:",
    "PRIVATE:",
    "pRiVaTe:",
    "Private :",
    "Private\u00a0:",
    "\u00a0\u00a0Private:",
    "\tPrivate:",
    "- Private:",
    "-Private:",
    "* Private:",
    "• Private:",
    "– Private:",
    "— Private:",
    "> Private:",
    "1. Private:",
    "2) private:",
    "# Private:",
    "(Private):",
    "[private]:",
    "“Private”:",
    "**Private:**",
    "*Private*:",
    "__private:__",
    "✎ Private:",
    "\u200bPrivate:",
    "\ufeffPrivate:",
    "\u2060\u200dPrivate:",
    "\u202ePrivate:",
    "\u00adPri\u00advate:",
    "Pri\u200bvate:",
    "Private\u200b:",
    "Private\ufe0f:",
    "Private：",
    "Private ：",
    "Private﹕",
    "Private∶",
    "Private note:",
    "Private notes:",
    "private remark:",
    "Private\u00a0remarks:",
    "Private (to her mother):",
    "Private [me]:",
    "Private note (me) :",
    "Private -",
    "private –",
    "a) Private:",
    "iv. private:",
    "(b) Private:",
]
FOLLOW_UP_LABELS = [
    "Follow-up:",
    "Follow up:",
    "Followup:",
    "FOLLOW-UP:",
    "Follow–up:",
    "Follow—up:",
    "Follow‑up:",
    "Follow−up:",
    "Follow\u00a0up:",
    "Follow\u00adup:",
    "Follow\u200bup:",
    "Follow_up:",
    "Follow-ups:",
    "- follow up :",
    "• Follow-up：",
    "**Follow-up:**",
]
NEXT_TIME_LABELS = [
    "Next time:",
    "next-time:",
    "NEXT TIME：",
    "Nexttime:",
    "- next\u00a0time :",
    "\u200bNext\u2009time:",
]
LABELS = [
    *((label, Line.PRIVATE) for label in PRIVATE_LABELS),
    *((label, Line.FOLLOW_UP) for label in FOLLOW_UP_LABELS),
    *((label, Line.NEXT_TIME) for label in NEXT_TIME_LABELS),
]
AREAS = {
    "Warm-up": Area.WARM_UP,
    "warm up": Area.WARM_UP,
    "Warmups": Area.WARM_UP,
    "Scale": Area.SCALES,
    "Scales": Area.SCALES,
    "Technique": Area.TECHNIQUE,
    "Etude": Area.ETUDE,
    "Étude": Area.ETUDE,
    "études": Area.ETUDE,
    "Method book": Area.METHOD_BOOK,
    "Method": Area.METHOD_BOOK,
    "Piece": Area.PIECE,
    "Pieces": Area.PIECE,
    "Review": Area.REVIEW,
    "Review piece": Area.REVIEW,
    "Theory": Area.THEORY,
    "Ear": Area.EAR,
    "Ear training": Area.EAR,
    "Sight-reading": Area.SIGHT_READING,
    "sight reading": Area.SIGHT_READING,
    "Sightreading": Area.SIGHT_READING,
    "Listening": Area.LISTENING,
    "Rhythm": Area.RHYTHM,
    "Improvisation": Area.IMPROVISATION,
    "Homework": Area.OTHER,
}
BREAKS = "\n\r\x0b\x0c\x1c\x1d\x1e\x85\u2028\u2029"
one_line = st.text(st.characters(exclude_characters=BREAKS, exclude_categories=["Cs"]))
kept_back_label = st.sampled_from([label for label, _ in LABELS])
plain_line = one_line.filter(lambda text: read_line(text).line is Line.REMARK and text.strip())


def seen(body: str) -> str:
    """Everything that for_family hands out, as one text."""
    return repr(for_family(body))


@pytest.mark.parametrize(("label", "line"), LABELS)
def test_a_kept_back_label_is_known_however_it_is_typed(label, line):
    read = read_line(f"{label} {SECRET}")
    assert (read.line, read.text, read.typed) == (line, SECRET, f"{label} {SECRET}")
    assert SECRET not in seen(f"Lovely tone today.\n{label} {SECRET}\n{label}{SECRET}\nScales: D major")


@pytest.mark.parametrize(("label", "line"), LABELS)
def test_a_label_alone_covers_the_lines_below_it_up_to_an_empty_one(label, line):
    body = f"{label}\n{SECRET} one\n  {SECRET}: two\n \t\nLovely tone today."
    assert [read.line for read in read_notes(body)] == [line, line, line, Line.REMARK, Line.REMARK]
    assert for_family(body).remarks == ("Lovely tone today.",)


@pytest.mark.parametrize("rest", [" ", "\u00a0", "\u200b", "\ufeff \u2060", " -", "—", "…", "**", "👇"])
def test_a_label_alone_may_be_followed_by_anything_that_says_nothing(rest):
    assert SECRET not in seen(f"Private:{rest}\n{SECRET}")
    assert follow_ups(f"Follow-up:{rest}\nsend the fingering") == ("send the fingering",)


def test_only_an_empty_line_ends_what_a_label_alone_covers():
    body = f"Private:\n{SECRET}\nScales: {SECRET}\nFollow-up: send it\n{SECRET}\n\nScales: D major\nElbow low."
    family = for_family(body)
    assert [line.text for line in family.assignments] == ["D major"]
    assert family.remarks == ("Elbow low.",)
    assert follow_ups(body) == ("send it",)


@pytest.mark.parametrize("label", [label for label, _ in LABELS])
def test_a_line_set_in_from_the_margin_goes_on_with_the_kept_back_one_above_it(label):
    body = f"{label} tired\n  {SECRET}\n\tScales: {SECRET}\nElbow low.\n  And the wrist."
    assert for_family(body).remarks == ("Elbow low.", "  And the wrist.")
    assert for_family(body).assignments == ()


@pytest.mark.parametrize(
    ("typed", "to_family"),
    [
        ("Scales: D major Private: {}", "D major"),
        ("Scales: D major, private: {}", "D major,"),
        ("Scales: D major (private: {})", "D major"),
        ("Scales: D major - Private note: {}", "D major"),
        ("Scales: D major. Follow-up: {}", "D major."),
        ("Scales: D major. next time: {}", "D major."),
        ("Scales: D major Next time: {}", "D major"),
        ("Scales: D major **Private (mum)**: {}", "D major"),
        ("Scales: D major Private: one Follow-up: {}", "D major"),
    ],
)
def test_a_label_in_the_middle_of_a_line_keeps_back_the_rest_of_it(typed, to_family):
    body = typed.format(SECRET)
    family = for_family(body)
    assert [line.text for line in family.assignments] == [to_family]
    assert SECRET not in repr(family)
    assert for_family(body.removeprefix("Scales: ")).remarks == (to_family,)
    column = body.lower().index("private" if "rivate" in body else "follow" if "Follow" in body else "next")
    assert kept_back(f"Elbow low.\n{body}") == {1: column}


def test_a_label_alone_at_the_end_of_a_line_covers_the_lines_below_it():
    assert SECRET not in seen(f"Lovely tone. Private:\n{SECRET}\nScales: {SECRET}\n\nElbow low.")


def test_a_follow_up_in_the_middle_of_a_line_is_owed():
    body = "Lovely tone. Private: tired. Follow-up: send the fingering"
    assert follow_ups(body) == ("send the fingering",)
    assert [(line.line, line.text) for line in read_notes(body)] == [
        (Line.REMARK, "Lovely tone."),
        (Line.PRIVATE, "tired."),
        (Line.FOLLOW_UP, "send the fingering"),
    ]


def test_the_word_private_without_a_colon_is_told_of():
    for typed in ("Private mum is ill", "- private she is tired", "a) Private tired", "Private"):
        assert [words.lower() for words in no_labels(f"Scales: D\n{typed}")] == ["private"]
    for typed in ("Private: x", "Private:\nPrivate x", ""):
        assert not no_labels(typed)


def test_a_label_with_words_covers_its_own_line_only():
    assert for_family("Private: tired today\nKeep the elbow low.").remarks == ("Keep the elbow low.",)


def test_one_kept_back_label_alone_gives_way_to_the_next():
    body = "Private:\nFollow-up:\nsend the fingering\nNext time:\nstart with the coda"
    assert for_family(body).is_empty
    assert follow_ups(body) == ("send the fingering",)
    assert next_time(body) == ("start with the coda",)


@pytest.mark.parametrize("pasted", ["\r", "\r\n", "\x0b", "\x0c", "\x85", "\u2028", "\u2029"])
def test_a_private_line_cannot_hide_behind_a_pasted_line_break(pasted):
    body = f"Lovely tone today.{pasted}Private: {SECRET}{pasted}Private:{pasted}{SECRET}"
    assert for_family(body).remarks == ("Lovely tone today.",)


@pytest.mark.parametrize(
    "typed",
    [
        "Privately she plays well",
        "Play it in private: nobody listens",
        "Follow the upper voice: it sings",
        "Next times are set",
        "Private lessons start at 5:30",
        "Upnext time: no",
        "For next time: learn page 2",
        "What to do as a follow up: rest",
    ],
)
def test_a_sentence_that_only_speaks_of_it_reaches_the_family(typed):
    assert for_family(typed).remarks == (typed,)


@given(st.lists(one_line), kept_back_label, one_line, one_line, st.lists(one_line))
def test_a_secret_after_a_kept_back_label_never_gets_through(above, label, before, after, below):
    body = "\n".join([*above, f"{label}{before}{SECRET}{after}", *below])
    assert SECRET not in seen(body)


@given(kept_back_label, st.lists(plain_line, max_size=5), plain_line, plain_line)
def test_a_secret_under_a_label_alone_never_gets_through(label, between, before, after):
    hidden = f"{before}{SECRET}{after}"
    if read_line(hidden).line is Line.REMARK:
        assert for_family("\n".join([label, *between, hidden])).is_empty


@given(st.lists(plain_line))
def test_words_without_a_label_reach_the_family_as_they_were_typed(lines):
    assert for_family("\n".join(lines)).remarks == tuple(line.rstrip() for line in lines)


@given(st.text(st.sampled_from("Priva teFolw-up:Scaes\n\u200b*")) | st.text())
def test_every_line_is_read_and_stands_on_one_side_only(body):
    lines = read_notes(body)
    family = for_family(body)
    assert "".join(line.typed for line in lines) == "".join(c for c in body if c not in BREAKS)
    hidden = [line for line in lines if line.line not in {Line.REMARK, Line.ASSIGNMENT}]
    assert not set(map(id, hidden)) & set(map(id, family.assignments))
    remarks = [line.text for line in lines if line.line is Line.REMARK and line.text.strip()]
    assert set(kept_back(body)) <= set(range(len(lines)))
    assert [remark for remark in family.remarks if remark] == remarks
    assert list(family.assignments) == [line for line in lines if line.line is Line.ASSIGNMENT and line.text]


@given(one_line)
def test_a_line_without_a_colon_is_a_remark(typed):
    without = "".join(c for c in typed if c not in ":：﹕∶︓꞉")
    assert read_line(without).line is Line.REMARK or any(sign in without for sign in "-–—)]")


@pytest.mark.parametrize(
    "unit",
    [
        *("1. ", "1.12.2026 ", "- ", "_", "private (", "Private: "),
        *(pytest.param(unit, marks=pytest.mark.long) for unit in ("1) ", "a) ", "in private: ", "so in private: ")),
    ],
)
def test_a_line_of_100_kb_is_told_at_once(unit):
    # A second at the most; with a time that grows by the square of the length, minutes.
    typed = unit * (100_000 // len(unit))
    assert "".join(line.typed for line in read_notes(typed)) == typed
    assert no_labels(typed) == {"private (": ("private",), "so in private: ": ("private:",)}.get(unit, ())


@pytest.mark.parametrize("numbers", ["1. 2) ", "1) a. ", "(12b) ", "24. 12. 2026 iv) "])
def test_a_label_is_known_behind_several_numbers(numbers):
    assert read_line(f"{numbers}Private: {SECRET}").line is Line.PRIVATE
    assert no_labels(f"{numbers}Private {SECRET}") == ("Private",)


@pytest.mark.parametrize(("label", "area"), AREAS.items())
@pytest.mark.parametrize("around", ["{}:", "{} :", "- {}:", "• {}：", "\u200b{}\u00a0:"])
def test_an_area_is_known_however_it_is_typed(label, area, around):
    for spelled in (label, label.upper(), label.lower()):
        read = read_line(f"{around.format(spelled)} D major 2 oct, q=72 to 88 ")
        assert (read.line, read.area, read.text) == (Line.ASSIGNMENT, area, "D major 2 oct, q=72 to 88")


def test_every_area_has_a_label():
    assert set(AREAS.values()) == set(Area)


@pytest.mark.parametrize(
    "typed", ["Sonata: keep the tempo", "q = 72: too fast", "https://example.org", "5:30 next week"]
)
def test_what_cannot_be_read_stays_as_it_was_typed_and_reaches_the_family(typed):
    assert for_family(f"  {typed}").remarks == (f"  {typed}",)


def test_an_area_without_words_is_no_assignment():
    assert for_family("Scales:\nPiece: ").is_empty


def test_paragraphs_keep_one_empty_line_and_none_at_the_ends():
    body = "\n\nLovely tone.\n\n\n  \nScales: D major\n\nElbow low.\nPrivate: tired\n\n"
    assert for_family(body).remarks == ("Lovely tone.", "", "Elbow low.")


@pytest.mark.parametrize("body", ["", "\n\n", "  ", f"Private: {SECRET}", "Follow-up: fingering\n\nNext time: coda"])
def test_a_note_with_nothing_for_the_family_is_empty(body):
    assert for_family(body).is_empty


@pytest.mark.parametrize("body", ["Elbow low.", "Scales: D major", "Elbow low.\nScales: D major"])
def test_a_note_with_a_remark_or_an_assignment_is_not_empty(body):
    assert not for_family(body).is_empty


def test_a_follow_up_noted_twice_is_owed_once_and_an_empty_one_is_not_owed():
    body = "Follow-up: fingering\nfollow up: tuner app\nFOLLOWUP: fingering\nFollow-up:"
    assert follow_ups(body) == ("fingering", "tuner app")
