"""The mix of eight weeks: which areas and strands were given, for how long, and what was not for long."""

from datetime import date, timedelta

from support.pieces import given_line, given_lines

from cockpit.studio.changes.pieces import Piece, StrandLeft
from cockpit.studio.people.people import StudentId
from cockpit.studio.pieces.mix import GivenSoFar, by_strand, mix_of, to_mention
from cockpit.studio.pieces.rules import MixRules
from cockpit.wording.pieces import mention_words, strand_words

TODAY = date(2026, 12, 1)
RULES = MixRules()
THEORY = given_line("09-15", "Theory: read page 12")


def mix(*lines, rules=RULES, on=TODAY, **values):
    return mix_of(GivenSoFar(lines=lines, **values), on, rules)


def days(first, last) -> list[date]:
    begins = date.fromisoformat(f"2026-{first}")
    return [begins + timedelta(days=n) for n in range((date.fromisoformat(f"2026-{last}") - begins).days + 1)]


def mentioned(*lines, left=(), rules=RULES, on=TODAY, **values) -> list[tuple[str, int]]:
    found = to_mention(mix(*lines, rules=rules, on=on, left=left, **values), rules)
    return [(each.name, each.weeks_since) for each in found]


def test_weeks_are_counted_back_from_the_day():  # computed by hand
    lines = [given_line(on, "Piece: Gavotte") for on in ("10-06", "10-13", "11-24", "12-01")]
    assert mix(*lines).line("piece").touched == {0, 1, 7}
    assert mix(*lines).line("piece").cells == (True, False, False, False, False, False, True, True)


def test_what_was_not_given_for_77_days_is_11_weeks_ago():
    theory = mix(THEORY).line("theory")
    assert (theory.weeks_since, theory.last_on, theory.touched, theory.minutes) == (
        11,
        date(2026, 9, 15),
        frozenset(),
        None,
    )


def test_weeks_of_breaks_are_taken_off_once():
    fourteen = days("10-10", "10-23")
    theory = mix(THEORY, off=(*fourteen, *days("10-10", "10-12"))).line("theory")
    assert (theory.weeks_since, theory.has_breaks) == (9, True)
    assert mix(THEORY, off=days("08-01", "09-15")).line("theory").weeks_since == 11


def test_a_week_counts_once_and_its_minutes_add_up():
    lines = [
        *given_lines("11-24", "Scales: D major\nPiece: Gavotte\nEar: sing"),
        given_line("11-23", "Scales: A major"),
    ]
    minutes = {(each.lesson_id, each.read.place): count for each, count in zip(lines, (30, 60, 30, 10), strict=True)}
    found = mix(*lines, minutes=minutes)
    assert [(each.name, len(each.touched), each.minutes) for each in found.areas if each.touched] == [
        ("scales", 1, 40), ("piece", 1, 60), ("ear", 1, 30),
    ]  # fmt: skip
    assert found.line("technique").minutes == 40
    assert mix(*lines).line("scales").minutes is None


def test_areas_go_by_how_many_weeks_were_touched():
    lines = [given_line("11-17", "Ear: sing"), *given_lines("11-24", "Scales: D major\nPiece: Gavotte"),
             given_line("12-01", "Piece: Gavotte")]  # fmt: skip
    assert [each.name for each in mix(THEORY, *lines).areas] == ["piece", "ear", "scales", "theory"]


def test_a_piece_is_in_every_strand_that_fits_it():
    reel = Piece(student_id=StudentId(1), key="reel", origin="irish", is_chosen=True)
    found = mix(given_line("11-24", "Piece: Reel"), said={"reel": reel})
    assert [each.name for each in found.strands if each.touched] == ["pieces they love", "music of the world"]
    assert [each.name for each in mix(given_line("11-24", "Piece: Reel")).strands if each.touched] == []


def test_over_its_limit_a_strand_is_mentioned_the_longest_ago_first():
    assert mentioned(THEORY) == [("theory", 11)]
    reel = Piece(student_id=StudentId(1), key="reel", origin="irish")
    lines = [given_line("09-08", "Piece: Reel"), THEORY]
    assert mentioned(*lines, said={"reel": reel}) == [("music of the world", 12), ("theory", 11)]
    at_the_limit = given_line("11-10", "Theory: read")
    assert mentioned(at_the_limit) == []
    assert mentioned(at_the_limit, on=date(2026, 12, 8)) == [("theory", 4)]


def test_an_area_that_has_a_limit_counts_alone_though_a_strand_has_its_name():
    assert mentioned(THEORY, given_line("11-24", "Ear: sing")) == [("theory", 11)]


def test_what_was_never_given_counts_from_the_first_lesson():
    never = mix(given_line("11-24", "Piece: Gavotte"), first_on=date(2026, 11, 3)).line("theory")
    assert (never.last_on, never.weeks_since) == (None, 4)
    assert mix().line("theory").weeks_since == 0


def test_where_pieces_come_from_is_not_never_but_unknown_until_she_says_it_of_one():
    assert mentioned(THEORY, first_on=date(2026, 1, 6)) == [("theory", 11)]
    assert [RULES.is_by_word(name) for name in (*RULES.strands, "scales")] == [True, False, False, False, True, False]


def test_two_are_mentioned_at_most():
    rules = MixRules(limits={"theory": 1, "ear": 2, "scales": 3})
    lines = [THEORY, given_line("09-01", "Ear: sing"), given_line("09-08", "Scales: D major")]
    assert mentioned(*lines, rules=rules) == [("ear", 13), ("scales", 12)]


def test_what_is_left_is_not_mentioned_up_to_its_last_day_or_ever():
    left = StrandLeft(student_id=StudentId(1), strand="theory", until_on=date(2026, 12, 1))
    assert mentioned(THEORY, left=[left]) == []
    assert mentioned(THEORY, left=[left], on=date(2026, 12, 2)) == [("theory", 11)]
    assert mentioned(THEORY, left=[StrandLeft(student_id=StudentId(1), strand="theory")], on=date(2027, 6, 1)) == []


def test_lessons_after_the_date_are_not_looked_at():
    assert mix(given_line("12-08", "Piece: Gavotte")).line("piece") is None


def test_the_studio_is_told_strand_by_strand_with_those_who_did_not_have_it():
    ear = mix(given_line("11-24", "Ear: sing"), first_on=date(2026, 9, 1))
    without = mix(THEORY, left=[StrandLeft(student_id=StudentId(4), strand="theory")])
    mixes = {"Ilse": ear, "Oskar": mix(THEORY), "Wren": mix(first_on=date(2026, 11, 3)), "Tobin": without}
    strands = {each.name: strand_words(each) for each in by_strand(mixes, RULES)}
    assert strands["theory"] == "not Oskar (11 weeks); never Wren"
    assert [(each.count, each.touched) for each in by_strand(mixes, RULES) if each.name == "theory"] == [(3, ("Ilse",))]
    assert strand_words(by_strand({"Ilse": ear}, RULES)[3]) == "everybody who is taught it"
    assert list(strands) == list(RULES.strands)
    assert by_strand({}, RULES) == ()


def test_what_is_mentioned_is_told_in_a_line():
    (theory,) = to_mention(mix(THEORY), RULES)
    assert mention_words(theory) == "Theory: 11 weeks ago"
    (theory,) = to_mention(mix(THEORY, off=days("10-10", "10-23")), RULES)
    assert mention_words(theory) == "Theory: 9 lesson weeks ago"
    assert mention_words(mix(first_on=date(2026, 11, 3)).line("theory")) == "Theory: never in 4 weeks"
