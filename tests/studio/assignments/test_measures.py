"""Measures, pages, numbers and works in typed lines: common practice, no source."""

import pytest
from support.reading import ranges, read, understood_as

from cockpit.studio.assignments.assignment import Part
from cockpit.studio.notes.notes import Area


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("mm.17-32", [(17, 32)]),
        ("mm17-32", [(17, 32)]),
        ("Mm. 17-32", [(17, 32)]),
        ("M. 5", [(5, 5)]),
        ("Measures 5—8", [(5, 8)]),
        ("mm. 17 - 32", [(17, 32)]),
        ("mm. 17--32", [(17, 32)]),
        ("mm. 1 to 8", [(1, 8)]),
        ("mm. 1 through 8", [(1, 8)]),
        ("m. 5 to m. 9", [(5, 9)]),
        ("m5-m9", [(5, 9)]),
        ("from m. 5 to 9", [(5, 9)]),
        ("m. 5 -> 9", [(5, 9)]),
        ("m. 5 -", [(5, 5)]),
        ("mm. 8-8", [(8, 8)]),
        ("mm. 1-8 and 17-24", [(1, 8), (17, 24)]),
        ("mm. 1-8, 17-24, and 40", [(1, 8), (17, 24), (40, 40)]),
        ("mm. 1-8 & 17-24; 30-32", [(1, 8), (17, 24), (30, 32)]),
        ("mm. 1-8,17-24", [(1, 8), (17, 24)]),
        ("mm. 1-8 + 17-24", [(1, 8), (17, 24)]),
        ("mm. 5, 9", [(5, 5), (9, 9)]),
        ("mm. 5, 9 legato", [(5, 5), (9, 9)]),
        ("mm. 5, 9, 12 and 17", [(5, 5), (9, 9), (12, 12), (17, 17)]),
        ("mm. 1-8 slowly, then mm. 9-16", [(1, 8), (9, 16)]),
        ("mm. 32-end", [(32, None)]),
        ("m. 32 to the end", [(32, None)]),
        ("from m. 32 to end", [(32, None)]),
        ("mm. 1-8, 32 to end", [(1, 8), (32, None)]),
        ("mm. 198-212", [(198, 212)]),
        ("mm. 117-8", [(117, 118)]),
        ("mm. 1-9999", [(1, 9999)]),
        ("(mm. 17-32)", [(17, 32)]),
        ("[m. 5]!", [(5, 5)]),
        ("pickup to mm. 9-16", [(9, 16)]),
        ("10 m. 5", [(5, 5)]),
    ],
)
def test_measures_are_claimed(text, wanted):
    assert ranges(text) == wanted


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("mm. 1-8, 5 min", [(1, 8)]),
        ("mm. 1-8, 3x", [(1, 8)]),
        ("mm. 1-8, 5 min 3x", [(1, 8)]),
        ("mm. 1-8, 3-4 times", [(1, 8)]),
        ("mm. 1-8, 2 oct", [(1, 8)]),
        ("mm. 1-8, 2 8ve", [(1, 8)]),
        ("mm. 1-8, 72 bpm", [(1, 8)]),
        ("mm. 1-8, 60-72 bpm", [(1, 8)]),
        ("mm. 1-8, 60 -> 92", [(1, 8)]),
        ("mm. 1-8, 10'", [(1, 8)]),
        ("mm. 1-8, 10m", [(1, 8)]),
        ("mm. 1-8, 2nd ending", [(1, 8)]),
        ("mm. 1-8, due 12/3", [(1, 8)]),
        ("mm. 1-8, 12/3", [(1, 8)]),
        ("mm. 1-8, 3 clean run-throughs", [(1, 8)]),
        ("m. 5, 3 clean run-throughs", [(5, 5)]),
        ("mm. 1-8 h = 60", [(1, 8)]),
        ("mm. 1-8 x 3", [(1, 8)]),
    ],
)
def test_a_list_of_measures_ends_before_a_number_of_something_else(text, wanted):
    assert ranges(text) == wanted


@pytest.mark.parametrize(
    "text",
    [
        "mm. 32-17",
        "mm. 1-8, 32-17",
        "mm. 1-8, 12345",
        "mm. 32 - 17",
        "mm. 24-7",
        "mm. 198-97",
        "mm. 17-",
        "mm. 1-8-16",
        "m. 5+",
        "m. 5.3",
        "m. 5th",
        "m. 5 to letter C",
        "m. 32 to the end of the line",
        "m. 5 - 10 min",
        "mm. 0-5",
        "mm. 1-10000",
        "M5",
        "M 5",
        "M. 5 min",
        "b5",
        "bb 5-8",
        "Bb. 5",
        "B. 5",
        "MM. 17-32",
        "m. 5 beat 3",
        "repeat bar 3 times",
        "first 16 bars, 5 min",
        "8 bars 5 times",
        "mm",
        "m.",
        "rhythm. 5",
        "I'm 5",
        "at m. 9",
        "from m. 9",
        "until the m. 9",
        "before mm. 9-12",
        "pickup to m. 9",
        "17-32",
        "m.m. 72",
        "m\u200b5",
        "m\u03015",
    ],
)
def test_what_is_not_clear_claims_no_measures(text):
    assert ranges(text) == []


@pytest.mark.parametrize("word", ["except", "without", "skip", "omit", "not", "except the"])
def test_measures_left_out_make_the_line_unclear(word):
    assert ranges(f"mm. 1-32 {word} mm. 9-12") == []


@pytest.mark.parametrize("area", [Area.EAR, Area.THEORY, Area.SCALES, Area.TECHNIQUE])
def test_m3_is_a_minor_third_where_intervals_are_spoken_of(area):
    assert ranges("m3", area) == []
    assert ranges("m. 3", area) == [(3, 3)]
    assert ranges("m33", area) == [(33, 33)]


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("p12", [(12, 12)]),
        ("P. 12", [(12, 12)]),
        ("page 12", [(12, 12)]),
        ("pp. 12-13, 15", [(12, 13), (15, 15)]),
        ("pages 12 and 14", [(12, 12), (14, 14)]),
        ("pp 12-13", [(12, 13)]),
        ("pgs. 117-24", [(117, 124)]),
        ("p. 12 5 min", [(12, 12)]),
        ("p. 12, 3x", [(12, 12)]),
        ("p. 12 to end", []),
        ("p 12", []),
        ("P5", []),
        ("p. 5 times", []),
        ("p. 1000", []),
        ("pp. 13-12", []),
        ("p f p", []),
    ],
)
def test_pages(text, wanted):
    assert [(each.first, each.last) for each in read(text, Area.METHOD_BOOK).pages] == wanted


def test_p5_is_a_perfect_fifth_where_intervals_are_spoken_of():
    assert read("p5", Area.EAR).pages == ()
    assert len(read("p12", Area.THEORY).pages) == 1


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("no.5", "5"),
        ("No. 5", "5"),
        ("number 5", "5"),
        ("№ 5", "5"),
        ("# 5", "5"),
        ("no. 5a", "5a"),
        ("#12b, slowly", "12b"),
        ("nos. 5-7", "5-7"),
        ("nos. 5, 7", "5, 7"),
        ("nos. 117-24", "117-124"),
        ("#5, 7 and 9", "5, 7, 9"),
        ("exercises 3-5", "ex. 3-5"),
        ("exercise 3", "ex. 3"),
        ("Ex. 3a", "ex. 3a"),
        ("no. 5 measures 1-8", "5"),
        ("no. 5 h = 60", "5"),
        ("no. 5 x3", "5"),
        ("no. 5, mm. 1-8", "5"),
        ("no. 5, 3x", "5"),
        ("no. 5 and no. 5", "5"),
        ("no 5", None),
        ("no. 5, 7", None),
        ("no. 5 times", None),
        ("no. 5 and no. 7", None),
        ("nos. 7-5", None),
        ("no. 5ab", None),
        ("no. 0", None),
        ("no. 12345", None),
        ("C#5", None),
        ("C7(#5)", None),
        ("no.", None),
    ],
)
def test_numbers(text, wanted):
    assert read(text, Area.ETUDE).number == wanted


def test_a_high_number_is_no_raised_fifth():
    assert read("#20", Area.THEORY).number == "20"
    assert read("#13", Area.THEORY).number is None


@pytest.mark.parametrize(
    ("text", "opus", "number"),
    [
        ("Op.27", "op. 27", None),
        ("opus 27", "op. 27", None),
        ("op 27 #2", "op. 27", "2"),
        ("op. 27, no. 2", "op. 27", "2"),
        ("op. 27 measures 1-8", "op. 27", None),
        ("op. 27 5 min", "op. 27", None),
        ("BWV Anh. 114", "BWV Anh. 114", None),
        ("BWV 846a", "BWV 846a", None),
        ("BWV 846/1", "BWV 846", "1"),
        ("KV 331", "KV 331", None),
        ("K331", "K. 331", None),
        ("RV 310", "RV 310", None),
        ("WoO 59", "WoO 59", None),
        ("op. 1 and op. 2", None, None),
        ("op. posth.", None, None),
        ("K 331", None, None),
        ("k. 331", None, None),
        ("op. 27.5", None, None),
        ("stop. 27", None, None),
        ("59/2", None, None),
    ],
)
def test_works(text, opus, number):
    assert (read(text).opus, read(text).number) == (opus, number)


def test_each_stretch_holds_its_own_words():
    assert understood_as(read("Sonatina op. 36/2, mm. 1-8, 17-24 (p. 12)")) == {
        "Sonatina": Part.TITLE,
        "op. 36": Part.OPUS,
        "/2": Part.NUMBER,
        "mm. 1-8, 17-24": Part.MEASURES,
        "p. 12": Part.PAGES,
    }
