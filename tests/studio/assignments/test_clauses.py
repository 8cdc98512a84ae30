"""What a clause of a typed line takes back: it claims nothing, or only the rest. Common practice, no source."""

import pytest
from support.reading import pieces, ranges, read, tempo, understood_as

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
    [
        "no pedal 5 min M W F",
        "no pedal HS",
        "without stopping 3x",
        "no pedal mm. 1-8",
        "not with the metronome at q=60",
    ],
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


@pytest.mark.parametrize(
    "text",
    [
        "mm. 1-16 are great, work mm. 17-24",
        "mm. 1-8 done! next mm. 17-24",
        "mm. 1-8 done work mm. 17-24",
        "mm. 1-8 (done), mm. 17-24",
        "mm. 1-8 ✓ mm. 17-24",
        "mm. 1-8: great. Now mm. 17-24",
        "mm. 1-8 went well, mm. 17-24",
        "mm. 1-8 is memorized, so mm. 17-24",
        "mm. 1-8 is already better, mm. 17-24",
        "mm. 1-8 sounded lovely, mm. 17-24",
        "m. 5 is fine, mm. 17-24",
        "finished mm. 1-8, now mm. 17-24",
        "great job on mm. 1-8, now mm. 17-24",
        "worked on mm. 1-8 today, mm. 17-24",
        "mm. 1-8 later, mm. 17-24",
        "mm. 1-8 not yet, mm. 17-24",
        "leave mm. 1-8 for now, mm. 17-24",
    ],
)
def test_finished_measures_are_not_claimed_beside_others(text):
    assert ranges(f"Gavotte {text}") == [(17, 24)]
    assert read(f"Gavotte {text}").title == "Gavotte"


@pytest.mark.parametrize(
    "text",
    [
        "mm. 1-8 are great",
        "mm. 1-8 great",
        "mm. 1-8, great",
        "mm. 1-8 are solid now",
        "mm. 1-8, 17-24 done",
        "mm. 1-16 done, mm. 9-24",
        "mm. 9-end are good, mm. 20-24",
        "mm. 20-24 are good, mm. 9-end",
        "no mm. 1-8 yet",
        "learned mm. 1-8",
        "once mm. 1-8 are easy, mm. 9-16",
        "when you finished mm. 1-8, mm. 9-16",
        "mm. 1-8, when done mm. 9-16",
    ],
)
def test_where_nothing_else_is_clear_no_measures_are_claimed(text):
    assert ranges(f"Gavotte {text}") == []


@pytest.mark.parametrize(
    "text",
    [
        "mm. 1-8 good tone",
        "mm. 1-8, good bow",
        "mm. 1-8, nice and slow",
        "mm. 1-8 easy bowing",
        "mm. 1-8 well in tune",
        "mm. 1-8 are still shaky",
        "mm. 1-8 not good yet",
        "mm. 1-8 aren't good",
        "mm. 1-8 are almost done",
        "mm. 1-8 should be good by Friday",
        "mm. 1-8 need to be memorized",
        "mm. 1-8 ready for the recital",
        "have fun! mm. 1-8",
        "done with the first line, mm. 1-8",
        "good bow work, mm. 1-8",
        "mm. 1-8 never louder than p",
        "mm. 1-8 don't rush",
        "mm. 1-8 until they are easy",
        "mm. 1-8 as you did mm. 9-16",
    ],
)
def test_measures_that_are_still_to_be_worked_on_are_claimed(text):
    assert ranges(f"Gavotte {text}") == [(1, 8)]


def test_finished_pages_and_hands_are_not_claimed_either():
    assert [each.first for each in read("p. 12 is done, p. 13").pages] == [13]
    assert read("HS is solid, now HT").hands is Hands.TOGETHER
    assert read("HS is solid").hands is None


@pytest.mark.parametrize(
    "text",
    [
        "5 mins a day, 10 on weekends",
        "10 min (15 on Sat and Sun)",
        "10 min (15 on Saturday)",
        "10 min but 15 on weekends",
        "10 min and 20 on Sat, Sun",
        "10 min 15 on weekends",
        "10 min, try 15 on weekends",
        "10 min, ten on weekends",
        "10 min, 15-20 on weekends",
        "10 min, 15 min Sat Sun",
        "10 min weekdays 20 weekends",
        "10 min, weekends 15",
        "10 min (weekends: 15)",
        "10 min, Sat Sun = 20",
        "10 min on weekends, 5 otherwise",
        "10 min on weekends, the other days 5",
        "weekends 10 min, 5 the rest of the week",
    ],
)
def test_a_second_amount_for_some_days_leaves_days_and_minutes_unclear(text):
    assignment = read(f"Gavotte {text}")
    assert (assignment.title, assignment.days, assignment.minutes) == ("Gavotte", None, None)


def test_a_second_count_or_tempo_for_some_days_is_unclear_too():
    assert read("3x, 5 on weekends").times is None
    assert read("3x, 5 on weekends").days is None
    assert read("q = 60 M W F, 72 Tue Thu").tempo is None
    assert read("5 min a day, twice on weekends").days is None
    assert read("5 min a day, twice on weekends").times is None


@pytest.mark.parametrize(
    "text",
    ["HS, but HT on weekends", "q = 60, on weekends q = 72", "mm. 1-8, mm. 9-16 on weekends", "3x, 5x on weekends"],
)
def test_days_of_what_is_said_twice_are_not_those_of_the_line(text):
    assert read(text).days is None


def test_the_rest_of_such_a_line_is_claimed():
    assignment = read("Gavotte mm. 1-8, q = 60, 5 min a day, 10 on weekends")
    assert (assignment.tempo, len(assignment.measures)) == (tempo(60), 1)


@pytest.mark.parametrize(
    ("text", "minutes"),
    [
        ("M W F 10 min", 10),
        ("10 min, M W F", 10),
        ("10 min on M W F", 10),
        ("5 min a day, M W F", 5),
        ("Minuet 3, M W F, 10 min", 10),
        ("10 min M W F, Minuet 3", 10),
        ("10 min, M W F, 2nd finger low", 10),
        ("M W F 5 min, fingering 4 3 2 1", 5),
        ("no. 5 M W F, 10 min", 10),
        ("mm. 1-8 HS, mm. 9-16 HS, 10 min, M W F", 10),
        ("mm. 1-8, 17 M W F, 10 min", 10),
        ("12 M W F", None),
        ("M W F 10", None),
    ],
)
def test_numbers_of_other_clauses_leave_the_days_alone(text, minutes):
    assignment = read(text)
    assert (assignment.days, assignment.minutes) == (frozenset({MONDAY, WEDNESDAY, FRIDAY}), minutes)


def test_repetitions_on_some_days_are_claimed_beside_minutes():
    assignment = read("10 min, 3x M W F")
    assert (assignment.times, assignment.days) == (Times(count=3), frozenset({MONDAY, WEDNESDAY, FRIDAY}))


@pytest.mark.parametrize("text", ["Minuet 3 M W F, 10 min", "10 min, Minuet 3 on M W F", "HS, 5 on weekends"])
def test_a_number_in_the_clause_of_some_days_may_be_a_second_amount(text):
    # "3 M W F" beside "10 min" may be three minutes as well as the third minuet: a comma between them tells.
    assert (read(text).days, read(text).minutes) == (None, None)
