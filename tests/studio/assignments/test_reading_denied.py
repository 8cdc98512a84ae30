"""What a typed line says is not to be: it claims nothing, or only the rest. Common practice, no source."""

import pytest
from support.reading import pieces, read, tempo, understood_as

from cockpit.studio.assignments.assignment import Hands, Part, Times
from cockpit.studio.notes.notes import Area

MONDAY, TUESDAY, WEDNESDAY, THURSDAY, FRIDAY, SATURDAY, SUNDAY = range(7)


@pytest.mark.parametrize(
    "text",
    [
        "no practice Tue Thu",
        "no practice on Tue, Thu",
        "no practice: Tue Thu",
        "no practice at all on Tue and Thu",
        "no scales on Tue Thu",
        "no LH on Tue Thu",
        "don't practice Tue Thu",
        "don’t play on Sundays",
        "can't Tue Thu",
        "cannot play Tue Thu",
        "without Sat Sun",
        "skip Sat and Sun",
        "but weekends",
        "never on Sundays",
        "not on Mondays",
        "not Mon or Wed & Fri",
        "nothing on Tue and Thu",
        "instead of weekends",
        "other than weekends",
        "rest Sat and Sun",
        "rest days: Sat, Sun",
        "off Sat Sun",
        "off days: Sat, Sun",
        "away Tue Thu",
        "recital Sat & Sun",
        "orchestra Tue Thu",
        "weekends off",
        "Mon & Wed off",
        "MWF off",
        "Sat Sun: off",
        "Sat & Sun = rest",
        "Sat Sun - nothing",
        "Sat and Sun are rest days",
        "Sat Sun (off)",
        "Sat Sun, off",
        "Sat Sun (no practice)",
        "Sat Sun, rest day",
        "Sat Sun no",
        "Sat Sun no practice",
        "Sat Sun not",
        "Sat Sun don't practice",
        "Sat Sun do not play",
        "Sat Sun dont practice",
        "Sat Sun never",
        "Sat Sun he can't",
        "Sat & Sun she is at camp",
        "Sat Sun recital",
        "weekends optional",
    ],
)
def test_days_without_practice_are_not_claimed(text):
    assert read(f"Gavotte 10 min, {text}").days is None
    assert read(f"Gavotte 10 min, {text}").minutes == 10
    assert read(f"D major, {text}, q = 72", Area.SCALES).days is None
    assert read(f"Gavotte ({text}), 10 min").days is None


@pytest.mark.parametrize("text", ["more on weekends", "longer on Sat Sun", "double on weekends", "weekends more"])
def test_days_for_more_of_it_are_not_all_of_its_days(text):
    assert read(f"Gavotte 10 min, {text}").days is None


@pytest.mark.parametrize(
    "text",
    [
        "daily, Sunday off",
        "daily, no Sunday",
        "daily, no weekends",
        "every day, never on Sunday",
        "weekdays, not Wed",
        "Mon-Sat except Wed",
        "Mon-Sat but not Wed",
        "Mon-Sat, Wed off",
        "M-F, rest on Wednesday",
    ],
)
def test_a_day_taken_out_of_others_leaves_them_unclear(text):
    assert read(text).days is None


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("weekdays, weekends off", set(range(5))),
        ("M-F, no practice Sat Sun", set(range(5))),
        ("M W F, not on Sunday", {MONDAY, WEDNESDAY, FRIDAY}),
        ("M W F, recital Sat & Sun", {MONDAY, WEDNESDAY, FRIDAY}),
        ("Tue off, Mon Wed Fri", {MONDAY, WEDNESDAY, FRIDAY}),
    ],
)
def test_days_beside_others_without_practice_are_claimed(text, wanted):
    assignment = read(text)
    assert assignment.days == wanted
    assert list(understood_as(assignment).values()) == [Part.DAYS]


@pytest.mark.parametrize(
    "text",
    [
        "M W F, no pedal",
        "M W F no pedal",
        "no vibrato, M W F",
        "no. 5 M W F",
        "not too fast, M W F",
        "M W F, not too fast",
        "M W F, rest on the others",
        "M W F, off the string",
        "M W F, no slurs",
        "rest the bow, then M W F",
        "M W F don't rush",
        "M W F never louder than p",
        "before school M W F",
        "slow but even M W F",
        "M W F only",
    ],
)
def test_a_no_that_denies_something_else_leaves_the_days_alone(text):
    assert read(f"Gavotte {text}").days == {MONDAY, WEDNESDAY, FRIDAY}


@pytest.mark.parametrize(
    ("text", "title"),
    [
        ("Gavotte no practice on Tue, Thu", "Gavotte"),
        ("Gavotte (no practice Tue Thu)", "Gavotte"),
        ("Gavotte don't practice Tue Thu", "Gavotte"),
        ("Gavotte never on Sundays", "Gavotte"),
        ("Gavotte weekends off", "Gavotte"),
        ("Never on Sunday", "Never on Sunday"),
        ("No Rest on a Sunday, mm. 1-8", "No Rest on a Sunday"),
    ],
)
def test_a_title_ends_before_what_is_not_to_be(text, title):
    assert read(text).title == title


def test_what_is_not_to_be_is_kept_as_text():
    assert pieces(read("Gavotte, no practice Tue Thu, 10 min")) == [
        "",
        "Gavotte",
        ", no practice Tue Thu, ",
        "10 min",
        "",
    ]


@pytest.mark.parametrize(
    "text",
    [
        "no left hand yet",
        "without RH",
        "without the right hand",
        "don't use LH",
        "do not play LH",
        "not HT yet",
        "not with both hands",
        "never hands together",
        "no need for RH",
        "instead of HT",
        "until HT",
        "leave out LH",
        "leave LH out",
        "rest LH",
        "LH rests",
        "LH tacet",
        "HT later",
        "HT not yet",
        "HT, not yet HS",
    ],
)
def test_hands_that_are_not_to_play_are_not_claimed(text):
    assignment = read(f"Gavotte {text}, 10 min")
    assert (assignment.hands, assignment.minutes) == (Hands.TOGETHER if "HS" in text else None, 10)
    assert assignment.title == "Gavotte"


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("HS, not HT", Hands.SEPARATELY),
        ("HS, no HT yet", Hands.SEPARATELY),
        ("RH alone, no LH", Hands.RIGHT),
        ("LH rests, RH only", Hands.RIGHT),
        ("HS no pedal", Hands.SEPARATELY),
        ("not too fast, HS", Hands.SEPARATELY),
        ("no. 5 HS", Hands.SEPARATELY),
        ("never mind. HS", Hands.SEPARATELY),
    ],
)
def test_the_hands_that_are_to_play_are_claimed(text, wanted):
    assert read(f"Gavotte {text}").hands == wanted


@pytest.mark.parametrize("text", ["no C major", "not C major", "without C major", "not two octaves", "never 2 oct"])
def test_scales_that_are_not_to_be_played_are_not_claimed(text):
    assignment = read(f"{text}, slowly", Area.SCALES)
    assert (assignment.key, assignment.octaves) == (None, None)


@pytest.mark.parametrize(
    "text", ["not 3x", "no more than 3 times", "not 10 min", "no more than 10 min", "without 10 min"]
)
def test_amounts_that_are_not_to_be_are_not_claimed(text):
    assignment = read(text)
    assert (assignment.times, assignment.minutes) == (None, None)


def test_amounts_in_another_clause_than_a_negation_are_claimed():
    assert read("without stopping, 3x, no pedal, 10 min").times == Times(count=3)
    assert read("without stopping, 3x, no pedal, 10 min").minutes == 10


@pytest.mark.parametrize(
    "text",
    ["no pedal 5 min M W F", "no pedal HS", "without stopping 3x", "no pedal mm. 1-8", "not with the metronome at q=60"],
)
def test_what_stands_behind_a_negation_of_something_else_is_not_claimed(text):
    # "No pedal HS" may be "no pedal, HS" or "no pedal when HS": without a comma nobody can tell, and no claim is wrong.
    assignment = read(f"Gavotte {text}")
    assert assignment.title == "Gavotte"
    assert [each for each in assignment.stretches if each.part is not Part.TITLE] == []


def test_where_one_of_two_may_be_denied_neither_is_claimed():
    assert read("Gavotte no pedal mm. 1-8, mm. 17-24 slowly").measures == ()
    assert read("q=60, no pedal q=72").tempo is None


@pytest.mark.parametrize(
    "text",
    [
        "last week q=60 was too fast",
        "last time: q=60",
        "yesterday q=60",
        "q=60 last week",
        "q=60 today",
        "q=60 was too fast",
        "q=60 too fast",
        "q=60 is too slow",
        "q=60 feels too slow",
        "played at q=60",
        "was q=60",
        "below q=80",
        "under 60 bpm",
        "above q=80",
        "no faster than q=80",
        "slower than q=80",
        "not above q=80",
        "at least q=80",
        "q=80 at least",
        "q=80 or less",
        "q=80 and up",
        "never q=80",
        "at 60 then 70 bpm",
        "60 and 70 bpm",
        "q=60 then 72",
        "q=60 or 72",
    ],
)
def test_a_tempo_of_the_past_or_a_limit_from_below_is_not_claimed(text):
    assignment = read(f"Gavotte {text}, 10 min")
    assert (assignment.tempo, assignment.minutes) == (None, 10)
    assert "".join(pieces(assignment)) == f"Gavotte {text}, 10 min"


@pytest.mark.parametrize(
    "text",
    ["last week q=60", "below q=80", "under 60 bpm", "at 60 then 70 bpm", "no faster than q=80", "at least q=80"],
)
def test_a_title_ends_before_a_tempo_that_is_not_claimed(text):
    assert read(f"Gavotte {text}").title == "Gavotte"


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("was q=60, now q=72", tempo(72)),
        ("q=60 last week, q=72", tempo(72)),
        ("q=60 was too fast, try q=52", tempo(52)),
        ("q=60 is solid, now q=72", tempo(72)),
        ("last week mm. 1-8, q=60", tempo(60)),
        ("q=60 or so", tempo(60)),
        ("q=72 more bow", tempo(72)),
        ("q=72 over the break", tempo(72)),
        ("q=72, not too fast", tempo(72)),
        ("q=72 not too fast", tempo(72)),
        ("q=72 as last week", tempo(72)),
        ("q=72 and 2 oct", tempo(72)),
        ("q=72 then 60 clean notes", tempo(72)),
        ("work up to q=72", tempo(72, ceiling=True)),
        ("no. 60, q=72", tempo(72)),
        ("q = 60 at first, then up to 96", tempo(96, 60)),
    ],
)
def test_the_tempo_that_is_asked_for_is_claimed(text, wanted):
    assert read(f"Gavotte {text}").tempo == wanted


@pytest.mark.parametrize("text", ["10 min last week", "last week 10 min", "under 10 min", "10 min was too much"])
def test_minutes_of_the_past_are_not_claimed(text):
    assert read(f"Gavotte {text}").minutes is None
    assert read(f"Gavotte {text}, now 15 min").minutes == 15
