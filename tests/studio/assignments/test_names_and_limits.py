"""Words of a title are none of an amount, what is told is not asked for, and what limits a line is read or named."""

import pytest

from cockpit.studio.assignments.assignment import Assignment
from cockpit.studio.assignments.reading import read_assignment, understood
from cockpit.studio.assignments.unread import unread
from cockpit.studio.notes.notes import read_line


def read(text: str, area: str = "Piece") -> Assignment:
    return read_assignment(read_line(f"{area}: {text}"))


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("Daily Bread", "Daily"), ("Our Daily Bread", "Daily"), ("5 Minute Rag", "5 Minute"), ("Left Hand Study", "Left Hand"),
        ("Fifteen Minutes of Fame", "Fifteen Minutes"), ("5 Minutes to Midnight", "5 Minutes"), ("24 Hours from Tulsa", "24 Hours"),
        ("Hands Together Blues", "Hands Together"), ("Memory", "Memory"), ("The Memory", "Memory"), ("Twice Upon a Time", "Twice"),
    ],
)  # fmt: skip
def test_words_with_capitals_that_go_on_with_one_are_a_title_and_named(text: str, words: str) -> None:
    for rest, told in (("", ""), (" mm. 1-8", "measures 1–8 (8)"), (", 5 min", "5 min")):
        assignment = read(text + rest)
        assert (assignment.title, understood(assignment)) == (text, told)
        assert unread(assignment) == (words,)


@pytest.mark.parametrize(
    ("text", "told", "title"),
    [
        ("Daily, Gavotte", "every day", None), ("Daily", "every day", None), ("daily Bread", "every day", None),
        ("Left Hand", "left hand", None), ("Left Hand Only", "left hand", None), ("Left hand Gavotte", "left hand", None),
        ("LH Gavotte", "left hand", None), ("Hands Together Slowly", "hands together", None), ("10 min Gavotte", "10 min", None),
        ("Memorize Gavotte", "by heart", "Gavotte"), ("memory, Gavotte", "by heart", "Gavotte"), ("Gavotte Daily", "every day", "Gavotte"),
        ("Mon Wed Gavotte", "Mon Wed", None), ("Gavotte Left Hand", "left hand", "Gavotte"), ("Page 5 Gavotte", "page 5", None),
    ],
)  # fmt: skip
def test_words_that_no_title_goes_on_with_say_what_they_say(text: str, told: str, title: str | None) -> None:
    assert (understood(read(text)), read(text).title) == (told, title)


@pytest.mark.parametrize(
    "told",
    [
        "mom says 20 minutes is too much", "last time it took 20 minutes", "20 minutes was fine", "practiced 20 min a day",
        "takes 20 minutes", "20 minutes a day is enough", "lasts 20 minutes", "20 minutes are plenty", "spent 20 min",
    ],
)  # fmt: skip
def test_minutes_that_are_told_are_not_asked_for_but_named(told: str) -> None:
    assignment = read(f"Minuet {told}")
    assert (assignment.title, assignment.minutes, unread(assignment)) == ("Minuet", None, (told,))


@pytest.mark.parametrize(
    ("text", "told", "named"),
    [
        ("by Friday", "", "by Friday"), ("by 12/8", "", "by 12/8"), ("until Dec 8", "", "until Dec 8"), ("till Tuesday", "", "till Tuesday"),
        ("no metronome", "", "no metronome"), ("without the repeat", "", "without the repeat"), ("except the coda", "", "except the coda"),
        ("only the coda", "", "only the coda"), ("by heart except coda", "by heart", "except coda"), ("daily in December", "every day", "in December"),
        ("5 min until the concert", "5 min", "until the concert"), ("mm. 1-8 never faster", "measures 1–8 (8)", "never faster"),
        ("not daily, only Sun", "Sun", "not daily"), ("not every day", "", "not every day"), ("no daily practice", "", "no daily practice"),
    ],
)  # fmt: skip
def test_what_limits_a_line_ends_its_title_and_is_named(text: str, told: str, named: str) -> None:
    assignment = read(f"Minuet {text}")
    assert (assignment.title, understood(assignment), unread(assignment)) == ("Minuet", told, (named,))


@pytest.mark.parametrize(
    ("text", "named"),
    [
        ("Minuet 3 mal täglich", "3 mal täglich"), ("Minuet 4 fois par jour", "4 fois par jour"), ("Minuet on Friday", "on Friday"),
        ("Minuet from Monday", "from Monday"), ("Minuet in December", "in December"), ("Never on Sunday", "on Sunday"),
    ],
)  # fmt: skip
def test_a_title_that_may_hold_more_names_it(text: str, named: str) -> None:
    assert (read(text).title, unread(read(text))) == (text, (named,))


@pytest.mark.parametrize(
    "text",
    ["Minuet 2 with repeats", "Minuet 2", "April in Paris", "Sunday Morning", "No Time at All", "Song of the wind", "12 Variations", "Minuet RH only",
     "Minuet not Mon or Tue", "Minuet max 60 bpm", "Minuet 10 Minuten", "Minuet 10 minutos", "No 5 daily"],
)  # fmt: skip
def test_what_is_understood_is_not_named(text: str) -> None:
    assert unread(read(text)) == ()


@pytest.mark.parametrize(
    ("text", "area", "told"),
    [
        ("C major, not F", "Scales", "C major"), ("C major, not M W F", "Scales", "C major · not Mon Wed Fri"), ("daily except F", "Scales",
         "Mon Tue Wed Thu Sat Sun"), ("C major not Mon or Tue", "Scales", "C major · not Mon Tue"), ("max 60 bpm", "Scales", "quarter up to 60"),
        ("max q = 60", "Scales", "quarter up to 60"), ("maximum 60", "Scales", "quarter up to 60"), ("C major 10 Minuten", "Scales", "C major · 10 min"),
        ("No 5 HS", "Etude", "no. 5 · hands separately"), ("No 5 daily", "Etude", "no. 5 · every day"), ("no 5 minute breaks", "Etude", ""),
        ("at least 20 min", "Scales", "20 min"),
    ],
)  # fmt: skip
def test_days_and_numbers_that_are_left_out_or_at_most(text: str, area: str, told: str) -> None:
    assert understood(read(text, area)) == told


@pytest.mark.parametrize(
    "title",
    ["Menuett nur rechte Hand", "Menuett jeden Tag", "Minueto sin metrónomo", "Minuet under 60",
     "Minuet starting wed", "Menuett täglich"],
)  # fmt: skip
def test_how_far_a_title_goes_is_said_where_it_goes_on_in_small_letters(title: str) -> None:
    assert understood(read(title)) == f'"{title}"'
    assert understood(read("Song of the Wind")) == understood(read("Gavotte")) == ""


@pytest.mark.parametrize(
    ("text", "named"),
    [("RH mm 1-8 LH mm 9-16", ("RH", "LH")), ("~60", ("~60",)), ("both RH and LH", ("RH and LH",))],
)
def test_hands_and_numbers_that_are_not_clear_are_named(text: str, named: tuple[str, ...]) -> None:
    assert unread(read(f"Minuet {text}")) == named
