"""The fixed phrases of a language, as one file has them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.phrases import ENGLISH, IN_ENGLISH, phrases_in

from cockpit.papers.words.phrases import Phrases, places, read_phrases, sound_phrases
from cockpit.studio.errors import BadInput


def test_phrases_are_known_by_section_and_name():
    assert read_phrases('[mail]\nupdated = "Now: {x}"\n[plan]\nturn = "turn"') == {
        "mail.updated": "Now: {x}",
        "plan.turn": "turn",
    }


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ('updated = "x"', "updated: found 'x'. Use a section"),
        ("[mail]\nupdated = 4", "mail.updated: found 4. Use a text"),
        ("[mail", "could not be read as TOML"),
    ],
)
def test_a_fault_is_told(text, told):
    with pytest.raises(BadInput, match=told):
        read_phrases(text)


def test_a_phrase_that_a_language_lacks_is_said_in_english():
    phrases = phrases_in("it", {"notes.title": "Appunti per {student}"})
    assert phrases.say("notes.title", student="Ilse") == "Appunti per Ilse"
    assert phrases.say("notes.next_lesson") == "Next lesson"
    assert [phrases.minutes(1), phrases.minutes(4)] == ["1 minute", "4 minutes"]


def test_what_is_filled_in_is_never_read_as_a_phrase_itself():
    assert IN_ENGLISH.say("notes.title", student="{student} {0} {") == "Practice notes for {student} {0} {"


@pytest.mark.parametrize(("words", "said"), [
    (["a"], "a"), (["a", "b"], "a and b"), (["a", "b", "c", "d"], "a, b, c, and d"),
])  # fmt: skip
def test_words_are_joined_as_one_list(words, said):
    assert IN_ENGLISH.joined(words) == said


def test_only_english_puts_a_sign_behind_whose_it_is():
    assert [IN_ENGLISH.whose("Ilse"), phrases_in("de").whose("Ilse")] == ["Ilse's", "Ilse"]


KNOWN = {"a.one": "{x} and {y}", "a.bare": "words"}


@pytest.mark.parametrize(
    ("own", "told"),
    [
        ({"a.other": "x"}, "a.other: this phrase does not exist in the English file"),
        ({"a.one": "{x} und"}, "a.one: found {x}. Use {x} and {y}"),
        ({"a.one": "{x} und {y.__class__}"}, "a.one: found {x} and {y.__class__}. Use {x} and {y}"),
        ({"a.one": "{x} und {y!r}"}, "a.one: found {x} and {y!r}. Use {x} and {y}"),
        ({"a.one": "{x} und {y:>9}"}, "a.one: found {x} and {y:>9}. Use {x} and {y}"),
        ({"a.one": "{x} und {y"}, "a.one: found {a single brace}. Use {x} and {y}"),
        ({"a.bare": "{}"}, "a.bare: found {}. Use no words in braces"),
        ({"a.bare": "two\nlines"}, "a.bare: found 'two\\nlines'. Use words on one line"),
        ({"a.bare": "a\x1b[2J"}, "a.bare: found 'a\\x1b[2J'. Use words on one line"),
        ({"a.bare": "  "}, "a.bare: found '  '. Use words on one line"),
    ],
)
def test_an_own_phrase_that_cannot_be_used_is_told_and_left_out(own, told):
    sound = {"a.one": "{y} et {x}", "a.bare": " mots\u00a0: "}
    good, faults = sound_phrases(sound | own, KNOWN)
    assert faults == (told,)
    assert set(good) == set(sound) - set(own)


def test_own_phrases_may_turn_their_words_around_and_have_blanks_at_which_no_line_breaks():
    assert sound_phrases({"a.one": "{y} et {x}", "a.bare": " mots\u00a0: "}, KNOWN) == (
        {"a.one": "{y} et {x}", "a.bare": "mots\u00a0:"},
        (),
    )


@given(st.dictionaries(st.sampled_from([*ENGLISH, "a.other"]), st.text(max_size=30)))
def test_whatever_an_own_file_says_every_phrase_can_be_said(own):
    good, _ = sound_phrases(own, ENGLISH)
    phrases = Phrases(language="it", by_key={**ENGLISH, **good})
    for key, english in ENGLISH.items():
        assert phrases.say(key, **dict.fromkeys(places(english), "x"))
