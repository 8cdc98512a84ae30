"""Lines as teachers type them in a hurry: each word is understood, or kept as typed and named; none becomes something else."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cockpit.studio.assignments.assignment import Assignment, Part
from cockpit.studio.assignments.reading import read_assignment, understood
from cockpit.studio.assignments.telling import warning_of
from cockpit.studio.assignments.unread import unread
from cockpit.studio.notes.notes import Line, for_family, no_labels, read_line, read_notes


def read(text: str, area: str = "Piece") -> Assignment:
    return read_assignment(read_line(f"{area}: {text}"))


def measures(text: str) -> list[tuple[int, int | None]]:
    return [(each.first, each.last) for each in read(text).measures]


@pytest.mark.parametrize(
    "text",
    [
        "Gavotte whole piece, rit. in m. 32", "Gavotte (m. 7: 4th finger)", "Gavotte, trill in m. 5", "Gavotte pp in m. 5, ff in m. 9",
        "Gavotte play through, careful at mm. 9-12", "Gavotte all, near m. 4 slow", "Gavotte in mm. 9-16 slow down",
        "Gavotte after m. 8 breathe", "Gavotte, hard spot at mm. 33-36", "Gavotte before the m. 8 repeat", "Gavotte [see m. 3 again]",
        "Gavotte the whole thing, mm. 5-6 were shaky", "Gavotte all of it, m. 3 louder", "Gavotte entire piece m. 9 slower",
        "Gavotte run through, m. 9 slower", "shift in m. 9", "Gavotte around m. 12 more bow",
    ],
)  # fmt: skip
def test_a_measure_named_in_passing_is_not_the_passage(text: str) -> None:
    assert measures(text) == []


@pytest.mark.parametrize(
    "text",
    [
        "Gavotte, careful with m. 7", "Gavotte careful with mm. 7-8", "Gavotte, fix m. 5", "Gavotte. Fix m. 5", "Gavotte crescendo m. 5",
        "Gavotte cresc. m. 5", "gavotte crescendo m. 5", "Gavotte, slur m. 5-6", "Gavotte, m. 12 has a C natural",
        "Gavotte m. 12 has a C natural", "Gavotte, if time m9-16", "Gavotte if time m9-16", "Gavotte, trill m. 5",
        "Gavotte, watch the shift m. 9", "Gavotte – breathe m. 4", "Gavotte, m. 5 starts on an up-bow", "Gavotte, especially mm. 9-12",
        "Gavotte, count m. 3", "Gavotte (fix m. 5)", "Gavotte, same as m. 3", "Gavotte, like m. 3", "Gavotte; F natural m. 12",
        "Gavotte, mm. 5-6 have ties", "Gavotte, dim. mm. 5-6", "Gavotte, when ready mm. 9-16", "Gavotte, m. 7 needs a breath",
        "Gavotte, whole bows mm. 1-8", "Menuett, Fehler Takt 5", "Menuet, attention mesure 5", "Minueto, cuidado compás 5",
        "Gavotte, accents mm. 3, 5, 9", "Gavotte, m. 5 is F sharp", "Gavotte, new fingering m. 5",
        "Gavotte lift at m. 5, m. 9 and m. 13", "Gavotte, rit. in mm. 5-6, mm. 9-10", "Gavotte, fix m. 5 and m. 9", "Gavotte, trills m. 5, m. 9",
    ],
)  # fmt: skip
def test_measures_behind_words_that_say_something_of_them_are_not_the_passage_but_named(text: str) -> None:
    assert measures(text) == []
    assert re.search(r"\d", " ".join(unread(read(text))))
    assert (read(text).title or "Gavotte").split()[0].strip(".;,") in {
        "Gavotte",
        "gavotte",
        "Menuett",
        "Menuet",
        "Minueto",
    }


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("Gavotte, then coda mm. 40-48", (40, 48)), ("Gavotte work on m. 5", (5, 5)), ("Gavotte: m. 5", (5, 5)), ("m. 5", (5, 5)),
        ("Gavotte m. 5 HS", (5, 5)), ("Old mill mm. 1-8", (1, 8)), ("Song of the wind mm. 1-8", (1, 8)), ("Gavotte only m. 5", (5, 5)),
        ("Gavotte, slowly mm. 1-8", (1, 8)), ("Gavotte, HS mm. 1-8", (1, 8)), ("Gavotte q=60 m. 8", (8, 8)),
        ("Gavotte m. 5 slowly", (5, 5)), ("Gavotte, B section mm. 9-16", (9, 16)), ("Gavotte, 5 min on mm. 9-16", (9, 16)),
        ("Gavotte, memorize mm. 9-16", (9, 16)), ("Gavotte, spend 5 min on m. 7", (7, 7)), ("Gavotte, please play mm. 1-8", (1, 8)),
        ("Gavotte no. 2 m. 5", (5, 5)), ("Gavotte LH m. 5", (5, 5)), ("Menuett, Takte 1-8", (1, 8)), ("Menuett, nur Takt 5", (5, 5)),
        ("Minuet 3, m. 5", (5, 5)), ("Gavotte no. 3, m. 5", (5, 5)), ("Gavotte, Trio mm. 1-8", (1, 8)), ("gavotte m. 5", (5, 5)), ("Gavotte (only mm. 5-6)", None), ("Gavotte – mm. 5-6", (5, 6)),
        ("Gavotte, mm. 9-16 should be good by Friday", (9, 16)), ("Gavotte m. 5 hands together", (5, 5)),
        ("Gavotte; new spot mm. 1-8", (1, 8)), ("Gavotte\tmm. 1-8 slurs", (1, 8)), ("Gavotte, jouer mesures 1-8", (1, 8)),
    ],
)  # fmt: skip
def test_measures_behind_a_title_or_words_to_play_them_are_the_passage(
    text: str, wanted: tuple[int, int] | None
) -> None:
    assert measures(text) == ([wanted] if wanted else [])


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("Gavotte mm. 1-8, rit. in m. 7", [(1, 8)]), ("Gavotte mm. 1-8 (watch m. 3)", [(1, 8)]), ("Gavotte (mm. 17-32)", [(17, 32)]),
        ("Gavotte all of mm. 1-16", [(1, 16)]), ("Gavotte whole mm. 1-16", [(1, 16)]), ("Gavotte, all up-bows, mm. 1-8", [(1, 8)]),
        ("Gavotte m1-8 then 9-16", [(1, 8), (9, 16)]), ("Gavotte mm. 1-8, then 9-16", [(1, 8), (9, 16)]), ("Gavotte ms. 5-8", [(5, 8)]),
        ("Gavotte ms 5", [(5, 5)]), ("Gavotte m. 45ff", [(45, None)]), ("Gavotte 45ff", [(45, None)]), ("Gavotte mm. 45ff.", [(45, None)]),
        ("Gavotte from m. 50 on", [(50, None)]),
        ("Gavotte m. 50 onward", [(50, None)]), ("Gavotte bars 1/3/5", [(1, 1), (3, 3), (5, 5)]), ("Gavotte through m. 16", [(1, 16)]),
        ("Gavotte m. 5 on the D string", [(5, 5)]), ("Gavotte mes. 1-8", [(1, 8)]), ("Gavotte Takte 1-8", [(1, 8)]),
        ("Gavotte compases 1-8", [(1, 8)]), ("Gavotte mm. 1-8 then 5 min", [(1, 8)]), ("Gavotte mm. 9-16 at q = 60", [(9, 16)]),
        ("Gavotte measures one to eight", [(1, 8)]), ("Gavotte bars five through twelve, three times", [(5, 12)]), ("Gavotte bar nine", [(9, 9)]),
        ("Gavotte measures one, two and three", [(1, 1), (2, 2), (3, 3)]), ("Gavotte bars thirteen to sixteen", [(13, 16)]),
        ("Gavotte mm. 1-4, play mm. 1-16", [(1, 16)]), ("Gavotte mm. 1-8, 5-12", [(1, 12)]), ("Gavotte m. 5, mm. 1-8", [(1, 8)]),
        ("Gavotte mm. 1-4, 9-12, 3-10", [(1, 12)]), ("Gavotte mm. 9 to end, mm. 20-24", [(9, None)]), ("Gavotte mm. 1-8, 9-16", [(1, 8), (9, 16)]),
    ],
)  # fmt: skip
def test_measures_are_read_as_they_are_typed_in_a_hurry(text: str, wanted: list[tuple[int, int | None]]) -> None:
    assert measures(text) == wanted
    assert read(text).title in {"Gavotte", "Gavotte all", "Gavotte whole"}


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("Gavotte bar 33 & on", [(33, None)]), ("Gavotte m. 33 and on", [(33, None)]), ("Gavotte ab Takt 33", [(33, None)]),
        ("Gavotte ab Takt 33 bis Schluss", [(33, None)]), ("Gavotte Takt 33 bis Ende", [(33, None)]), ("Gavotte Takte 1 bis 8", [(1, 8)]),
        ("Gavotte Takt 5 bis Takt 8", [(5, 8)]), ("Gavotte mesures 5 à 12", [(5, 12)]), ("Gavotte compases 5 a 12", [(5, 12)]),
        ("Gavotte mesure 33 à la fin", [(33, None)]), ("Gavotte compás 33 hasta el final", [(33, None)]),
        ("Gavotte mesure 33 jusqu'à la fin", [(33, None)]), ("Gavotte m. 33 until the end", [(33, None)]), ("Gavotte m. 5 till m. 9", [(5, 9)]),
        ("Gavotte mm. 9 until 16", [(9, 16)]), ("Gavotte Takte 1 bis 8 bis Freitag", [(1, 8)]), ("Gavotte m. 5 up to m. 9", [(5, 9)]),
        ("Gavotte opening - m. 33", [(1, 33)]), ("Gavotte opening - m. 33, 40-48", [(1, 33), (40, 48)]), ("Gavotte from the top to m. 16", [(1, 16)]),
        ("Gavotte, beginning - m. 24 HS", [(1, 24)]), ("Gavotte start → m. 8", [(1, 8)]), ("Gavotte intro - m. 8", [(1, 8)]),
        ("Gavotte the beginning until bar 9", [(1, 9)]), ("Gavotte vom Anfang bis Takt 16", [(1, 16)]), ("Gavotte top through bar 12", [(1, 12)]),
        ("Gavotte du début à la mesure 16", [(1, 16)]), ("Gavotte principio hasta el compás 12", [(1, 12)]),
    ],
)  # fmt: skip
def test_measures_go_on_to_where_the_line_says_in_four_languages(
    text: str, wanted: list[tuple[int, int | None]]
) -> None:
    assert measures(text) == wanted
    assert read(text).title == "Gavotte"


@pytest.mark.parametrize(
    "text",
    [
        "Gavotte bar 33 up to the key change", "Gavotte bar 33 till the repeat", "Gavotte m. 33 until the coda", "Gavotte m. 33 ff",
        "Gavotte bar 33 ff.", "Gavotte m. 33 f", "Gavotte Takt 33 bis zur Wiederholung", "Gavotte bis Takt 33", "Gavotte mesure 5 à la reprise",
        "Gavotte compás 5 hasta la repetición", "Gavotte hasta el compás 12", "Gavotte mm. 1-8 F# m. 5", "Gavotte bar 5: F sharp!",
        "Gavotte coda - m. 33", "Gavotte trio – m. 12", "Gavotte to m. 33", "Gavotte start at m. 5",
    ],
)  # fmt: skip
def test_a_measure_that_the_line_goes_on_from_is_not_the_passage_but_named(text: str) -> None:
    assert (5, 5) not in measures(text)
    assert (33, 33) not in measures(text)
    assert (12, 12) not in measures(text)
    assert re.search(r"5|33|12", " ".join(unread(read(text))))


@pytest.mark.parametrize(
    "text",
    [
        "up to p. 12",
        "until p. 12",
        "from p. 8 on",
        "p. 8 onward",
        "before p. 12",
        "p. 8 and on",
    ],
)
def test_a_page_that_others_go_on_from_or_up_to_is_not_claimed_alone_but_named(text: str) -> None:
    assert read(text, "Theory").pages == ()
    assert re.search(r"\d", " ".join(unread(read(text, "Theory"))))


@pytest.mark.parametrize(
    ("text", "not_on"),
    [
        ("Gavotte daily w/o Thu", {3}), ("Gavotte daily apart from Thu", {3}), ("Gavotte daily, apart from Thursdays", {3}),
        ("Gavotte daily other than Thu", {3}), ("Gavotte weekdays w/o Wed", {2}), ("Gavotte mm. 1-8 w/o Sat and Sun", {5, 6}),
        ("Gavotte daily aside from Thu", {3}),
    ],
)  # fmt: skip
def test_a_line_is_not_for_a_day_that_it_leaves_out_in_other_words(text: str, not_on: set[int]) -> None:
    assert not any(read(text).is_due_on(day) for day in not_on)
    assert all(read(text).is_due_on(day) for day in range(5) if day not in not_on)


@pytest.mark.parametrize(
    "text", ["Gavotte daily save Thu", "Gavotte daily bar Thu", "Gavotte daily until Thu", "Gavotte daily from Thu"]
)
def test_days_beside_one_that_is_not_read_are_not_claimed_but_named(text: str) -> None:
    assert read(text).days is None
    assert "daily" in " ".join(unread(read(text)))


@pytest.mark.parametrize("text", ["Gavotte mm. 1-8 w/o mm. 5-6", "Gavotte w/o pedal mm. 5-6", "Gavotte w/o mm. 5-6"])
def test_without_in_short_denies_what_stands_behind_it(text: str) -> None:
    assert read(text).measures == ()
    assert "5-6" in " ".join(unread(read(text)))


@pytest.mark.parametrize(
    "text", ["2 min per vowel", "2 min per string", "5 min/finger", "the recital is 20 min", "Recordings are 20 min"]
)
def test_minutes_of_something_else_are_not_claimed_but_named(text: str) -> None:
    assert read(text, "Warm-up").minutes is None
    assert re.search(r"\d", " ".join(unread(read(text, "Warm-up"))))


@pytest.mark.parametrize(
    ("text", "row"),
    [
        ("G D A major", "G D A major"), ("C G Am F", "C G Am F"), ("G D A major 3x each", "G D A major"), ("C G D at 60", "C G D"),
        ("Am F C G", "Am F C G"), ("C, G, D, A major", "C, G, D, A major"), ("C/G/D major, HS", "C/G/D major"), ("C F Bb Eb", "C F Bb Eb"),
        ("C and G major, one octave", "C and G major"), ("C, G and D major", "C, G and D major"), ("F, Bb and Eb, tongued", "F, Bb and Eb"),
        ("E, B, F#, two octaves", "E, B, F#"), ("E major and C# minor 4 oct", "E major and C# minor"), ("C# F# B", "C# F# B"),
        ("G-Dur, D-Dur", "G-Dur, D-Dur"), ("sol et ré majeur", "sol et ré majeur"), ("a, e, d minor", "a, e, d minor"),
        ("G & D maj, 2 oct", "G & D maj"), ("Bb, Eb, Ab major", "Bb, Eb, Ab major"), ("10 min, D major, C#m, M W F", "D major, C#m"),
    ],
)  # fmt: skip
def test_no_key_of_a_row_is_claimed_and_the_row_is_said(text: str, row: str) -> None:
    assert read(text, "Scales").key is None
    assert f'"{row}"' in understood(read(text, "Scales"))
    assert unread(read(text, "Scales")) == ()


@pytest.mark.parametrize("text", ["D major A string", "D major Arpeggio", "D major F position"])
def test_a_letter_of_something_else_leaves_a_key_alone(text: str) -> None:
    key = read(text, "Scales").key
    assert key is not None
    assert key.tonic == "D"


@pytest.mark.parametrize(
    "text", ["Gavotte w/o the music mm. 1-8", "Gavotte without music mm. 1-8", "Gavotte no music, mm. 1-8"]
)
def test_without_the_music_denies_nothing_else(text: str) -> None:
    assert measures(text) == [(1, 8)]
    assert read(text).by_heart


def test_the_final_cadence_is_not_the_end() -> None:
    assert measures("Gavotte m. 33 to final cadence") == []


@pytest.mark.parametrize(
    "text",
    [
        "Gavotte, grandma visits Sat & Sun", "Gavotte, the tuner comes Mon and Tue", "Gavotte, send a video Wed and Fri",
        "Gavotte mm. 1-8, mum works M W F", "Gavotte (school trip Mon-Wed)", "Gavotte 10 min, swimming Tue/Thu",
        "Gavotte lesson moved to Wed and Fri", "Gavotte Wed Fri soccer", "Gavotte grandma visits Sat Sun", "Gavotte switched to Tue and Thu",
        "Gavotte football Tue Thu", "Gavotte Mon Wed mum works late", "Gavotte Sat and Sun grandparents", "Gavotte Mon Tue school closed",
        "Gavotte (Sat Sun grandma)", "Gavotte Sat Sun birthday party", "Gavotte lesson changes to Mon and Wed", "Gavotte, Tue Thu she has ballet",
        "Gavotte dad home Sat Sun", "Gavotte grandma here Mon-Wed", "Gavotte tournament Sat and Sun", "Gavotte guests Sat Sun",
        "Wed Fri soccer", "Gavotte, Oma kommt Samstag und Sonntag", "Gavotte mm. 1-8 M W F stickers",
    ],
)  # fmt: skip
def test_days_behind_words_that_say_something_of_them_are_no_practice_days_but_named(text: str) -> None:
    assert read(text).days is None
    assert re.search(r"Mon|Tue|Wed|Sat|M W F|Samstag", " ".join(unread(read(text))))


@pytest.mark.parametrize(
    "text",
    [
        "Gavotte, Wed Fri", "Gavotte, on Wed and Fri", "Gavotte, 10 min on Wed and Fri", "Gavotte, play it Wed Fri", "Gavotte, slowly Wed Fri",
        "Gavotte, HS Wed/Fri", "Gavotte mm. 1-8, only on Wed & Fri", "Gavotte Wed Fri", "gavotte Wed Fri", "long tones Wed Fri", "Gavotte (Wed Fri)",
        "Gavotte Wed Fri slowly", "Gavotte Wed Fri hands together", "Gavotte Wed Fri cello alone", "Gavotte Wed Fri before breakfast",
        "Gavotte Wed Fri review", "Gavotte Wed Fri metronome", "Gavotte Mittwoch und Freitag", "Gavotte mercredi et vendredi",
        "Gavotte miércoles y viernes", "Gavotte le mercredi et le vendredi", "Gavotte mittwochs und freitags", "Gavotte, miércoles y viernes",
        "Gavotte el miércoles y el viernes", "Gavotte mm. 1-8 Mittwoch/Freitag", "Gavotte, jeden Mittwoch und Freitag",
        "Gavotte, 3x every Wed and Fri", "Gavotte, practice Wed and Fri with mum", "Gavotte, for 10 min Wed and Fri", "Gavotte, this week Wed and Fri",
    ],
)  # fmt: skip
def test_days_behind_a_title_or_words_to_play_are_practice_days(text: str) -> None:
    assert read(text).days == {2, 4}


@pytest.mark.parametrize(
    "text",
    ["Gavotte mm. 1-4, mm. 5-8 next week", "Gavotte mm. 1-4; next week mm. 5-8", "Gavotte mm. 1-4, mm. 5-8 next time"],
)
def test_measures_of_next_week_are_not_asked_for_this_week(text: str) -> None:
    assert measures(text) == [(1, 4)]
    assert "5-8" in " ".join(unread(read(text)))


@pytest.mark.parametrize(
    "text",
    [
        "Gavotte mm. 1-4 for next week",
        "Gavotte mm. 1-4 by next week",
        "Gavotte, next mm. 1-4",
        "Gavotte mm. 1-4, ready by next lesson",
    ],
)
def test_measures_that_are_due_next_week_are_asked_for(text: str) -> None:
    assert measures(text) == [(1, 4)]


@pytest.mark.parametrize(
    "text",
    [
        "Gavotte half of q=120",
        "Gavotte mm. 1-8 3/4 of q=120",
        "Gavotte 80% of q=120",
        "Gavotte, two thirds of q=120",
        "Gavotte at 80 percent of q=120",
    ],
)
def test_a_part_of_a_tempo_is_not_the_tempo_but_named(text: str) -> None:
    assert read(text).tempo is None
    assert "120" in " ".join(unread(read(text)))


@pytest.mark.parametrize("text", ["Gavotte at a tempo of q=120", "Gavotte, goal of q=120", "Gavotte tempo of 120"])
def test_a_tempo_of_a_number_is_one(text: str) -> None:
    assert read(text).tempo is not None


def test_well_done_is_done() -> None:
    assert measures("Minuet, mm. 1-8 well done, next mm. 9-16") == [(9, 16)]


@pytest.mark.parametrize(
    "text",
    [
        "falls apart at 84", "book says q=120", "recital speed q=120", "breaks down at 92", "composer marks it q=144", "the recording is at 132",
        "wobbly at 84", "tops out at 96", "audition wants q=120", "orchestra takes it at 132", "original tempo q=152", "someday at 120",
        "comfortable at 72", "shaky above 72 bpm", "for the concert q=120", "on the CD 132 bpm", "recording: 132 bpm", "eventually q=120",
        "gets messy past 80", "unravels at 88", "tempo on the recording is 132", "competition tempo 126", "mum thinks 60 bpm is slow",
        "stuck at 76", "marked 120 bpm", "over there they play it at 100", "lesson runs 10 min over", "phone rang 3 times", "forgot book twice",
        "metronome mark is 108", "crashes at 90", "in class they took it at 100", "mum's metronome only goes to 60 bpm",
        "in 2 at 60", "in two, 60 bpm", "cut time at 60", "alla breve, at 60", "in 6 at 120", "6/8, at 60",
        "pause 10 min", "wait 2 min", "plays 4 min", "breathe 2x before", "snack 5 min", "10 min pause", "recital 20 min", "cried 5 min",
        "running time 4 min", "duration 4 min", "missed it twice", "he stopped three times", "stretch 3x first", "tuning took 5 min",
        "water break 2 min", "she was late 10 min", "arrived 10 min late", "deep breath 2x first", "lost 5 min to tuning",
        "measures twenty-four to thirty", "Takte eins bis acht", "mesures un à huit", "repeat measure one more time",
    ],
)  # fmt: skip
def test_an_amount_of_something_else_is_not_claimed_but_named(text: str) -> None:
    for before in ("Gavotte mm. 1-16, ", "Gavotte, ", "Gavotte. "):
        assignment = read(before + text)
        assert (assignment.tempo, assignment.minutes, assignment.times) == (None, None, None)
        assert (assignment.title or "").startswith("Gavotte")
        assert measures(before + text) == ([(1, 16)] if "16" in before else [])
        named = " ".join((*unread(assignment), understood(assignment)))  # a title is said
        assert all(word in named for word in re.findall(r"\w+", text))


@pytest.mark.parametrize(
    "text",
    ["falls apart at 84", "book says q=120", "recital speed q=120", "pause 10 min", "plays 4 min", "breathe 2x before", "in 2 at 60",
     "lesson moved to Wed and Fri", "cut time at 60", "performance tempo 120", "wait 2 min"],
)  # fmt: skip
def test_such_an_amount_is_not_claimed_right_behind_a_title_either(text: str) -> None:
    assignment = read(f"Gavotte {text}")
    assert understood(assignment) == ""
    assert (assignment.title, unread(assignment)) == ("Gavotte", (text,))


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("Piece: Gavotte, long bows at 60", "quarter 60"), ("Piece: Gavotte, with the recording at 60", "quarter 60"),
        ("Piece: Gavotte, clap and count at 60", "quarter 60"), ("Piece: Gavotte, Trio q=60", "quarter 60"),
        ("Piece: Gavotte mm. 1-8 with drone q=60", "measures 1–8 (8) · quarter 60"), ("Piece: Gavotte, swing feel at 120", "quarter 120"),
        ("Piece: Gavotte, printed slurs, q=60", "quarter 60"), ("Piece: Song of the wind q=72", '"Song of the wind" · quarter 72'),
        ("Piece: Gavotte, dotted rhythms then straight at 72", "quarter 72"), ("Scales: D major, four notes to a bow, q=60", "D major · quarter 60"),
        ("Etude: Wohlfahrt book 1 no. 5 q=60", '"Wohlfahrt book 1" · no. 5 · quarter 60'), ("Piece: Gavotte, goal q=120", "quarter 120"),
        ("Piece: Gavotte, sing the tune twice", "twice"), ("Piece: Gavotte, listen to the recording 2x", "twice"),
        ("Piece: Gavotte, tap the rhythm 5x, then play", "5 times"), ("Piece: Gavotte, shifts in the trio 5 min", "5 min"),
        ("Warm-up: breathe 5x", "5 times"), ("Warm-up: stretch 5 min", "5 min"), ("Listening: recording 10 min", "10 min"),
        ("Piece: Menuett, langsam mit Metronom q=60", "quarter 60"), ("Piece: Menuet, lentement q=60", "quarter 60"),
        ("Piece: Allegro, martelé strokes at 88", "quarter 88"), ("Piece: Blackbird, fingerpicking pattern at 80 bpm", "quarter 80"),
        ("Piece: Waltz, with expression q=108", "quarter 108"), ("Piece: Waltz, bring up to 96", "quarter up to 96"),
        ("Piece: Waltz, from the double bar at 72", "quarter 72"), ("Piece: Waltz, feel it in one, dotted half = 50", "dotted half 50"),
        ("Piece: Waltz, smooth and connected at 76", "quarter 76"), ("Piece: Waltz, comp the changes at 120", "quarter 120"),
        ("Piece: Waltz, play along with the backing track at 80", "quarter 80"), ("Piece: Waltz, ride pattern and hi-hat q=140", "quarter 140"),
        ("Piece: Waltz Sat Sun perform it", "Sat Sun"), ("Piece: Waltz, play for Dad 3x", "3 times"),
        ("Piece: Waltz, crisp staccato at 92", "quarter 92"), ("Piece: Waltz with mum 5 min", '"Waltz with mum" · 5 min'), ("Piece: One Bar Blues", ""), ("Piece: Mardi Gras Stomp mm. 1-8", "measures 1–8 (8)"),
        ("Piece: Gavotte, whole scale in one bow, at 60", "quarter 60"),
    ],
)  # fmt: skip
def test_an_ordinary_line_stays_quiet(typed: str, said: str) -> None:
    assignment = read_assignment(read_line(typed))
    assert (understood(assignment), unread(assignment)) == (said, ())


@pytest.mark.parametrize(
    ("text", "days", "not_on", "named"),
    [
        ("bis Freitag", None, set(), "bis Freitag"), ("mm. 1-8 bis Freitag", None, set(), "bis Freitag"), ("vor Freitag", None, set(), "vor Freitag"),
        ("am Freitag", None, set(), "am Freitag"), ("jusqu'à vendredi", None, set(), "jusqu'à vendredi"), ("hasta el viernes", None, set(), "hasta el viernes"),
        ("Mo Mi Fr", None, set(), "Mo Mi Fr"), ("lun mer ven", None, set(), "lun mer ven"), ("de lunes a viernes", {0, 1, 2, 3, 4}, set(), None),
        ("du lundi au vendredi", {0, 1, 2, 3, 4}, set(), None), ("von Montag bis Freitag", {0, 1, 2, 3, 4}, set(), None), ("los lunes", {0}, set(), None),
        ("nur Samstag", {5}, set(), None), ("jeden Montag", {0}, set(), None), ("außer Samstag und Sonntag", None, {5, 6}, None),
        ("tous les jours sauf dimanche", None, {6}, None), ("pas le lundi", None, set(), None), ("lundi et jeudi, pas samedi et dimanche", {0, 3}, {5, 6}, None),
    ],
)  # fmt: skip
def test_days_in_other_languages_are_read_or_named(
    text: str, days: set[int] | None, not_on: set[int], named: str | None
) -> None:
    assignment = read(f"Menuet {text}")
    assert assignment.days == (frozenset(days) if days else None)
    assert assignment.not_on >= not_on
    assert named is None or named in unread(assignment)


@pytest.mark.parametrize(
    "text", ["Gavotte p. 45ff", "Gavotte no. 45ff", "Gavotte 45 ff", "Gavotte 45 FF", "Gavotte op. 45ff"]
)
def test_a_number_that_counts_something_else_is_no_measure(text: str) -> None:
    assert measures(text) == []


@pytest.mark.parametrize(
    ("text", "days", "not_on"),
    [
        ("Gavotte M-W-F", {0, 2, 4}, set()), ("Gavotte mon-wed-fri 5 min", {0, 2, 4}, set()), ("Gavotte Tu-Th-Sa", {1, 3, 5}, set()),
        ("Gavotte Mon-Fri", {0, 1, 2, 3, 4}, set()), ("Blue Monday", None, set()), ("Blue Monday mm. 1-8", None, set()),
        ("Sunday Morning mm. 1-8, Mon Wed", {0, 2}, set()), ("Gavotte 5 min daily except Sunday", {0, 1, 2, 3, 4, 5}, {6}),
        ("Gavotte every day but Tue and Thu", {0, 2, 4, 5, 6}, set()), ("Gavotte weekdays, not Wed", {0, 1, 3, 4}, {2}),
        ("Gavotte, not on Wed", None, {2}), ("Gavotte 5 min, no Sundays", None, {6}), ("Gavotte, Sat and Sun off", None, {5, 6}),
        ("Gavotte no practice on Tue and Thu", None, {1, 3}), ("Gavotte more on weekends", None, set()), ("Never on Sunday", None, set()),
    ],
)  # fmt: skip
def test_a_line_is_never_for_a_day_that_it_excludes(text: str, days: set[int] | None, not_on: set[int]) -> None:
    assignment = read(text)
    assert (assignment.days, set(assignment.not_on)) == (frozenset(days) if days else None, not_on)
    assert not any(assignment.is_due_on(day) for day in not_on)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("D major at 60", "D major · quarter 60"), ("D major 60-72-80", "D major · quarter 60 to 80"),
        ("D major q = 60-72-80", "D major · quarter 60 to 80"), ("D major 1/2 note = 60", "D major · half 60"),
        ("D major 1/4 = 60", "D major · quarter 60"), ("D major 1/8 = 120", "D major · eighth 120"), ("A = 442", ""), ("A=440", ""),
        ("tune to A=442, D major", "D major"), ("D major at 60%", "D major"), ("D major, start at 60", "D major"),
        ("D major 80-72-60", "D major"), ("D major half an hour twice a day had, not yet", "D major"),
        ("D major first 5 min then 3 min", "D major"), ("D major first 5 min slowly", "D major"),
    ],
)  # fmt: skip
def test_tempos_keys_and_minutes_are_read_or_not_claimed(text: str, told: str) -> None:
    assert understood(read(text, "Scales")) == told


@pytest.mark.parametrize(
    ("text", "named"),
    [
        ("Gavotte 3 days a week", "3 days a week"), ("Gavotte 4x/wk", "4x/wk"), ("Gavotte every other day", "every other day"),
        ("Gavotte, rit. in m. 32", "rit. in m. 32"), ("Gavotte 45ff", None), ("Gavotte part 1-8", "1-8"), ("Gavotte (m. 7: 4th finger)", "m. 7: 4th finger"),
        ("Gavotte q = 60, 72, 80", "72"), ("Gavotte mm. 1-8, up to m. 40", "up to m. 40"), ("Gavotte mm. 32-17", "mm. 32-17"),
        ("Gavotte first 5 min then 3 min", "3 min"), ("Gavotte mm. 9-16 if time", "if time"), ("Gavotte 5 min, if easy 10", "if easy 10"),
    ],
)  # fmt: skip
def test_what_is_not_read_is_named(text: str, named: str | None) -> None:
    warning = warning_of(read_line(f"Piece: {text}"), None)
    assert (named in (warning or "")) if named else warning is None
    assert warning is None or warning.startswith("Kept as typed, not read: ")


@pytest.mark.parametrize(
    "amount",
    [
        "twice a week", "once a week", "three times a week", "alternate days", "alternating days", "two or three days", "two days a week",
        "a couple of times", "a few minutes", "several times", "most days", "some nights", "each morning", "every other morning",
        "weekly", "school days", "odd days", "half the time", "all week", "both days", "2 or 3 days", "2-3 times", "on alternate days",
        "60 to 72", "60, 72, 80", "60 and 72", "60/72", "60 then 72", "60-72", "72 to 60", "60; 72", "60 or 66", "60 72 80",
    ],
)  # fmt: skip
def test_an_amount_that_no_reader_takes_is_no_part_of_a_title_but_named(amount: str) -> None:
    for behind in ("", ", slowly", " mm. 1-8"):
        assignment = read(f"Gavotte {amount}{behind}")
        assert (assignment.title, assignment.tempo, assignment.days, assignment.times) == ("Gavotte", None, None, None)
        words = " ".join(unread(assignment))
        assert all(each in words for each in re.findall(r"\w+", amount) if each not in {"on", "then", "a"})


@pytest.mark.parametrize(
    ("title", "said"),
    [
        ("Three Blind Mice", ""), ("Three blind mice", '"Three blind mice"'), ("Happy days", '"Happy days"'), ("The Other Day", ""),
        ("One Day More", ""), ("Minuet 72", '"Minuet 72"'), ("Minuet 3", '"Minuet 3"'), ("All Night Long", ""), ("Twelve Days", ""),
    ],
)  # fmt: skip
def test_a_title_with_such_words_in_capitals_stays_one_and_is_said_where_it_has_a_number(title: str, said: str) -> None:
    assert (read(title).title, understood(read(title)), unread(read(title))) == (title, said, ())


@pytest.mark.parametrize(
    "text",
    ["Gavotte no weekends", "Gavotte not on weekends", "Gavotte not Sat Sun", "Gavotte, no Saturdays or Sundays"],
)
def test_days_that_are_left_out_are_understood_and_not_named_as_well(text: str) -> None:
    assert (read(text).title, understood(read(text)), unread(read(text))) == ("Gavotte", "not Sat Sun", ())


_PIECES = st.sampled_from(
    [
        "Gavotte",
        "mm. 1-8",
        "m. 5",
        "in m. 7",
        "(m. 3)",
        "then 9-16",
        "q = 60",
        "at 72",
        "60-72-80",
        "5 min",
        "first 5 min",
        "fix m. 5",
        "m. 12 has a C",
        "if time",
        "twice a week",
        "alternate days",
        "two or three days",
        "no weekends",
        "60 to 72",
        "60, 72, 80",
        "minuet",
        "Hanon 5:",
        "8 private",
        "half an hour",
        "twice a day",
        "3x",
        "4x/wk",
        "M-W-F",
        "daily",
        "\n    except Sunday",
        "not on Wed",
        "every other day",
        "by heart",
        "pp. 2-3",
        "no. 5",
        "Op. 27",
        "HS",
        "rit.",
        "whole piece",
        "45ff",
        "bars 1/3/5",
        "falls apart at 84",
        "book says q=120",
        "pause 10 min",
        "plays 4 min",
        "in 2 at 60",
        "Wed Fri soccer",
        "lesson moved to Wed and Fri",
        "bis Freitag",
        "lundi et jeudi",
        "opening - m. 33",
        "measures one to eight",
        "mm. 1-4",
        "C, G, D major",
        ",",
        ";",
        "and",
        "not",
        "then",
        "to",
        "-",
        "12",
    ]
).map(str.strip)


@given(st.lists(_PIECES, max_size=8), st.sampled_from(["Piece", "Scales", "Etude", "Method book"]))
def test_no_word_of_a_random_line_is_lost_or_silently_kept(pieces: list[str], area: str) -> None:
    text = " ".join(pieces)
    assignment = read(text, area)

    assert assignment.text == text.strip()  # the family reads all of it
    ends = 0
    for stretch in assignment.stretches:
        assert ends <= stretch.begins < stretch.ends
        ends = stretch.ends
    assert not silent_in(assignment)


def silent_in(assignment: Assignment) -> list[str]:
    """The numbers and amounts of a line that are neither understood, nor named, nor part of a title that is said."""
    said = understood(assignment)
    told = " | ".join(unread(assignment))
    claimed = {
        at
        for each in assignment.stretches
        if each.part is not Part.TITLE or assignment.text[each.begins : each.ends] in said
        for at in range(each.begins, each.ends)
    }
    claimed |= {at for begins, ends in assignment.keys for at in range(begins, ends)}
    amounts = re.finditer(
        r"\d+|\b(?:twice|week|days|times|weekends|Wed|Fri|Freitag|lundi|jeudi|eight)\b", assignment.text
    )
    is_left_out = {"days", "weekends", "Wed", "Fri", "lundi", "jeudi"} if assignment.not_on else set()
    return [
        each[0]
        for each in amounts
        if each.start() not in claimed and each[0] not in told and each[0] not in is_left_out
    ]


_LABELS = st.sampled_from(["Piece: ", "Scales: ", "Etude: ", "Tonleitern: ", "Hanon 5: ", "Mum 2: ", "", "- "])
_SECRETS = st.sampled_from(
    ["private: {}", "Private - {}", "vertr.: {}", "conf.: {}", "privately {}", "follow-up: {}", "in private: {}", "En privé: {}", "// {}",
     "privado: {}", "Next time: {}", "persönl.: {}", "note to self {}", "not for mum: {}", "(priv: {})"]
)  # fmt: skip


@given(_LABELS, st.lists(_PIECES, max_size=6), st.none() | _SECRETS, st.lists(_PIECES, max_size=3))
def test_each_part_of_a_random_line_is_understood_or_kept_back_or_named(
    label: str, pieces: list[str], secret: str | None, behind: list[str]
) -> None:
    typed = " ".join([label + " ".join(pieces), *([secret.format("she-cried")] if secret else []), *behind])
    lines = read_notes(typed)

    assert "".join(line.typed for line in lines) == typed
    assert "she-cried" not in repr(for_family(typed)) or no_labels(typed)
    if secret is None:
        assert no_labels(typed) or label.strip(" -") in {"", *(f"{line.label}:" for line in lines)}
    for line in lines:
        if line.line is Line.ASSIGNMENT:
            assert not silent_in(read_assignment(line))
    before = f"{label}{' '.join(pieces)}"
    kept = next((line for line in lines if line.line in {Line.PRIVATE, Line.FOLLOW_UP, Line.NEXT_TIME}), None)
    is_sentence = re.search(r"[.;(-]\s", before)  # behind the end of one, the words before a label may be its own
    if kept is not None and lines[0] is not kept and "private" not in before and not is_sentence:
        assert lines[0].typed.startswith(before.rstrip())  # no number of what stands before becomes the label's


def test_an_answer_of_theory_that_was_written_out_is_no_amount():
    line = "Theory: D major 2 oct (D E F♯ G A B C♯ D · 2 sharps: F♯ C♯), 3 min"
    assert unread(read_assignment(read_line(line))) == ()
