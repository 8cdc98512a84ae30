"""Every row of the trade's table of shorthand, with its traps.

Most of it is common practice among teachers, no source. Two rows have one: the style guide of the Journal of
Musicology, January 2016 (journalofmusicology.org/JM_Style_Guide.htm), which elides ranges of numbers as 323–25 and
101–7 and not 32–33 or 100–104, writes "op. 59/2", and prefers "measure" to "bar".
"""

import pytest
from support.reading import counted, ranges, read, tempo, understood_as

from cockpit.studio.assignments.assignment import Hands, Key, Pages, Part, Times
from cockpit.studio.assignments.reading import read_assignment, understood
from cockpit.studio.notes.notes import Area, read_line


def values_of(text, area=Area.PIECE):
    """What a text claims, without its title and columns."""
    assignment = read(text, area)
    names = [
        "number",
        "opus",
        "pages",
        "measures",
        "tempo",
        "key",
        "octaves",
        "hands",
        "times",
        "minutes",
        "days",
        "in_turns",
    ]
    return {name: getattr(assignment, name) for name in names if getattr(assignment, name)}


@pytest.mark.parametrize("text", ["m. 5", "m5", "bar 5", "b. 5", "measure 5"])
def test_a_measure_is_one_measure(text):  # common practice, no source
    assignment = read(text)
    assert ranges(text) == [(5, 5)]
    assert counted(assignment.measures) == 1
    assert understood_as(assignment) == {text: Part.MEASURES}


@pytest.mark.parametrize("text", ["mm. 17-32", "mm. 17–32", "bars 17-32", "bb. 17-32", "measures 17-32"])
def test_a_range_of_measures_is_inclusive(text):  # common practice, no source
    assert ranges(text) == [(17, 32)]
    assert counted(read(text).measures) == 16


@pytest.mark.parametrize(
    ("text", "first", "last"),
    [
        ("mm. 117-24", 117, 124),
        ("mm. 323–25", 323, 325),  # Journal of Musicology
        ("mm. 101–7", 101, 107),  # Journal of Musicology
        ("mm. 1103–4", 1103, 1104),  # Journal of Musicology
        ("mm. 1105–7", 1105, 1107),  # Journal of Musicology
        ("mm. 949–71", 949, 971),  # Journal of Musicology
        ("mm. 32–33", 32, 33),  # Journal of Musicology: nothing is omitted
        ("mm. 100–104", 100, 104),  # Journal of Musicology: nothing is omitted
        ("mm. 1100–1108", 1100, 1108),  # Journal of Musicology: nothing is omitted
    ],
)
def test_an_elided_range_is_completed(text, first, last):
    assert ranges(text) == [(first, last)]


def test_a_range_that_goes_down_is_not_claimed():  # common practice, no source
    assert values_of("mm. 32-17") == {}
    assert read("mm. 32-17").stretches == ()


def test_two_ranges_are_both_claimed():  # common practice, no source
    assert ranges("mm. 1-8, 17-24") == [(1, 8), (17, 24)]
    assert counted(read("mm. 1-8, 17-24").measures) == 16


def test_a_range_to_the_end_is_open():  # common practice, no source
    assert ranges("m. 32 to end") == [(32, None)]


@pytest.mark.parametrize("text", ["pickup to m. 9", "letter B", "2nd ending", "letter B to C", "1st ending"])
def test_pickups_rehearsal_letters_and_endings_stay_text(text):  # common practice, no source
    assert values_of(text) == {}
    assert read(text).text == text


@pytest.mark.parametrize("text", ["q = 72", "q=72", "♩=72", "quarter = 72", "crotchet = 72", "72 bpm"])
def test_a_quarters_tempo(text):  # common practice, no source
    assert values_of(text) == {"tempo": tempo(72)}
    assert understood_as(read(text)) == {text: Part.TEMPO}


@pytest.mark.parametrize(
    ("text", "beat", "goal"),
    [("q. = 60", "3/2", 60), ("h = 60", "2", 60), ("e = 144", "1/2", 144), ("h. = 50", "3", 50)],
)
def test_other_beats(text, beat, goal):  # common practice, no source
    assert values_of(text) == {"tempo": tempo(goal, beat=beat)}


@pytest.mark.parametrize("text", ["M.M. 72", "MM = 72", "MM 72"])
def test_maelzels_metronome_is_a_tempo(text):  # common practice, no source
    assert values_of(text) == {"tempo": tempo(72)}


def test_mm_in_small_letters_is_a_measure():  # common practice, no source
    assert ranges("mm. 72") == [(72, 72)]
    assert read("mm. 72").tempo is None


def test_mm_for_millimeters_is_not_claimed():  # common practice, no source
    assert values_of("lift the finger 5 mm") == {}


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("q = 60-72", tempo(72, 60)),
        ("60 -> 92", tempo(92, 60)),
        ("60 → 92", tempo(92, 60)),
        ("up to 96", tempo(96, ceiling=True)),
        ("ca. 80", tempo(80, about=True)),
    ],
)
def test_ranges_climbs_ceilings_and_approximate_tempos(text, wanted):  # common practice, no source
    assert values_of(text) == {"tempo": wanted}


@pytest.mark.parametrize(
    ("text", "wanted"),
    [("HS", Hands.SEPARATELY), ("HT", Hands.TOGETHER), ("LH", Hands.LEFT), ("RH", Hands.RIGHT)],
)
def test_hands(text, wanted):  # common practice, no source
    assert values_of(text) == {"hands": wanted}


@pytest.mark.parametrize(("text", "first", "last"), [("pg. 12", 12, 12), ("p. 12", 12, 12), ("pp. 12-13", 12, 13)])
def test_pages(text, first, last):  # common practice, no source
    assert values_of(text) == {"pages": (Pages(first=first, last=last),)}


@pytest.mark.parametrize("text", ["p", "pp", "start p, then pp", "p sub."])
def test_a_p_alone_is_a_dynamic(text):  # common practice, no source
    assert values_of(text) == {}


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("no. 5", {"number": "5"}),
        ("#5", {"number": "5"}),
        ("Op. 27 no. 2", {"opus": "op. 27", "number": "2"}),
        ("op. 59/2", {"opus": "op. 59", "number": "2"}),  # Journal of Musicology
        ("BWV 846", {"opus": "BWV 846"}),
        ("K. 331", {"opus": "K. 331"}),
        ("ex. 3", {"number": "ex. 3"}),
    ],
)
def test_numbers_and_works(text, wanted):  # but for one common practice, no source
    assert values_of(text) == wanted


@pytest.mark.parametrize("area", [Area.THEORY, Area.EAR, Area.SCALES, Area.TECHNIQUE])
def test_a_sharp_five_may_be_a_raised_fifth(area):  # common practice, no source
    assert values_of("#5", area) == {}


@pytest.mark.parametrize(
    ("text", "count", "is_daily"), [("3x", 3, False), ("x3", 3, False), ("5 times", 5, False), ("3x/day", 3, True)]
)
def test_repetitions(text, count, is_daily):  # common practice, no source
    assert values_of(text) == {"times": Times(count=count, is_daily=is_daily)}


@pytest.mark.parametrize("text", ["10 min", "10'", "10m"])
def test_minutes(text):  # common practice, no source
    assert values_of(text) == {"minutes": 10}


def test_m10_is_a_measure():  # common practice, no source
    assert ranges("m10") == [(10, 10)]
    assert read("m10").minutes is None


def test_five_primes_may_be_a_fifth():  # common practice, no source
    assert values_of("5'") == {}


@pytest.mark.parametrize(
    ("text", "days"), [("M W F", {0, 2, 4}), ("MWF", {0, 2, 4}), ("T/Th", {1, 3}), ("daily", set(range(7)))]
)
def test_practice_days(text, days):  # common practice, no source
    assert values_of(text) == {"days": frozenset(days)}


@pytest.mark.parametrize("text", ["every other day", "M", "T", "F"])
def test_days_that_are_not_clear_stay_text(text):  # common practice, no source
    assert values_of(text) == {}


@pytest.mark.parametrize("text", ["up-bow", "V", "UB", "down-bow", "⊓", "DB"])
def test_bowing_stays_text(text):  # common practice, no source: V may be the fifth position or a chord
    assert values_of(text) == {}


@pytest.mark.parametrize("text", ["0 1 2 3 4", "T", "+", "1 2 3 4 5", "p i m a", "T 1 2 +"])
def test_fingers_stay_text(text):  # common practice, no source
    assert values_of(text) == {}


@pytest.mark.parametrize("text", ["1st pos.", "III pos", "half pos.", "thumb pos.", "sul G", "IV"])
@pytest.mark.parametrize("area", [Area.PIECE, Area.SCALES, Area.TECHNIQUE])
def test_positions_and_strings_stay_text(text, area):  # common practice, no source
    assert values_of(text, area) == {}


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("2 oct", {"octaves": 2}),
        ("2 8ve", {"octaves": 2}),
        ("G maj", {"key": Key(tonic="G", mode="major")}),
        ("a min mel.", {"key": Key(tonic="A", mode="melodic minor")}),
        ("C#m", {"key": Key(tonic="C#", mode="minor")}),
        ("Bb", {"key": Key(tonic="Bb", mode="major")}),
    ],
)
def test_scales(text, wanted):  # common practice, no source
    assert values_of(text, Area.SCALES) == wanted


@pytest.mark.parametrize("text", ["b", "a", "f#"])
def test_a_small_letter_may_mean_a_minor_key_a_flat_or_a_word(text):  # common practice, no source
    assert values_of(text, Area.SCALES) == {}


@pytest.mark.parametrize(
    "text", ["rit.", "rall.", "a tempo", "dim.", "cresc.", "pizz.", "arco", "gliss.", "vib.", "a tempo 72 rit. 5"]
)
def test_words_of_expression_are_never_numbers(text):  # common practice, no source
    assert values_of(text) == {}


def test_everything_without_spaces():  # common practice, no source
    assignment = read_assignment(read_line("Piece: mm17-32 q=72 HS 3x 5min"))
    assert values_of(assignment.text) == {
        "measures": assignment.measures,
        "tempo": tempo(72),
        "hands": Hands.SEPARATELY,
        "times": Times(count=3),
        "minutes": 5,
    }
    assert [(each.first, each.last) for each in assignment.measures] == [(17, 32)]
    assert understood(assignment) == "measures 17–32 (16) · quarter 72 · hands separately · 3 times · 5 min"


@pytest.mark.parametrize("text", ["bar 5", "bars 5-8"])
def test_bars_are_called_measures_on_the_screen(text):  # Journal of Musicology
    assert "measure" in understood(read(text))
