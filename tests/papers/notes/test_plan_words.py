"""What a day of a plan says in words."""

from fractions import Fraction

import pytest
from support.phrases import IN_ENGLISH
from support.plans import assigned, mm, quarter, week

from cockpit.papers.notes.plan import excess_words, passage_words, tempo_words, through_words, turns_words
from cockpit.studio.assignments.assignment import Tempo
from cockpit.studio.practice.plan import week_plan
from cockpit.studio.practice.rules import PlanRules
from cockpit.studio.practice.week import Through
from cockpit.studio.values import replace


def first_day(*lines, daily=None):
    return week_plan(lines, week(daily), PlanRules()).days[0]


@pytest.mark.parametrize(("passage", "words"), [
    ((), ""), ((mm(5, 5),), "measure 5"), ((mm(17, 24),), "measures 17–24"),
    ((mm(1, 8), mm(12, 12), mm(30, None)), "measures 1–8, 12, 30 to the end"), ((mm(32, None),), "measure 32 to the end"),
])  # fmt: skip
def test_measures_in_words(passage, words):
    assert passage_words(passage, IN_ENGLISH) == words


@pytest.mark.parametrize(("tempo", "words"), [
    (quarter(72), "quarter = 72"), (quarter(88, 72), "quarter = 72 to 88"), (quarter(80, is_about=True), "quarter = about 80"),
    (quarter(96, is_ceiling=True), "up to quarter = 96"), (Tempo(beat=Fraction(3, 2), goal=60), "dotted quarter = 60"),
    (Tempo(beat=Fraction(3), goal=50), "dotted half = 50"), (Tempo(beat=Fraction(1, 2), goal=144), "eighth = 144"),
    (quarter(88, 72, is_about=True, is_ceiling=True), "quarter = about 72 to 88"),
    (Tempo(beat=Fraction(7, 4), goal=40), "7/4 quarter notes = 40"), (Tempo(beat=Fraction(4), goal=40), "whole = 40"),
])  # fmt: skip
def test_a_tempo_in_words(tempo, words):
    assert tempo_words(tempo, IN_ENGLISH) == words


@pytest.mark.parametrize(("times", "words"), [
    (0, "not quite once"), (1, "about once"), (2, "about twice"), (3, "about three times"), (10, "about ten times"),
    (12, "about twelve times"), (13, "about 13 times"),
])  # fmt: skip
def test_whole_times_are_counted_in_words_up_to_twelve(times, words):
    assert through_words(Through(times=times, is_meter_assumed=True), IN_ENGLISH) == f"{words} through (in 4/4)"


def test_a_meter_that_was_typed_is_not_said_again():
    assert through_words(Through(times=7, is_meter_assumed=False), IN_ENGLISH) == "about seven times through"


def test_turns_in_words():
    lines = assigned("Gavotte", minutes=8, in_turns=True), assigned("Minuet", minutes=6, in_turns=True)
    names = {each: each.text for each in lines}
    assert [turns_words(item, names, IN_ENGLISH) for item in first_day(*lines).items] == [
        "alternating with Minuet: 3 + 3 + 2 minutes", "alternating with Gavotte: 2 + 2 + 2 minutes",
    ]  # fmt: skip


def test_turns_of_one_round_three_pieces_or_no_minutes_in_words():
    lines = [assigned(name, minutes=1, in_turns=True) for name in ("A", "B", "C")]
    names = {each: each.text for each in lines}
    assert turns_words(first_day(*lines).items[0], names, IN_ENGLISH) == "alternating with B and C: 1 minute"
    untimed = [replace(each, minutes=None) for each in lines[:2]]
    assert (
        turns_words(first_day(*untimed).items[0], {each: each.text for each in untimed}, IN_ENGLISH)
        == "alternating with B"
    )
    assert turns_words(first_day(assigned(in_turns=True)).items[0], {}, IN_ENGLISH) is None


def test_an_excess_in_words():
    assert excess_words(first_day(assigned(minutes=35), daily=30), IN_ENGLISH) == "5 minutes over the planned 30 a day"
    assert excess_words(first_day(assigned(minutes=30), daily=30), IN_ENGLISH) is None
