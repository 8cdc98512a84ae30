"""Our music notation as a text: what a staff needs and nothing else; music21 reads it back in tests/outside/test_staves.py."""

import re
from xml.etree import ElementTree as ET

import pytest

from cockpit.papers.notes.mei import rhythm_mei, staff_mei
from cockpit.studio.theory.counting import Counted
from cockpit.studio.theory.examples import EXAMPLES
from cockpit.studio.theory.reading import read_theory
from cockpit.studio.theory.staff import staff_lines
from cockpit.wording.theory import syllables

MEI = "{http://www.music-encoding.org/ns/mei}"
HEAD = ' dur="4" stem.visible="false"'


def notation(words: str, instrument: str | None = None) -> str:
    answer = read_theory(words)
    if isinstance(answer, Counted):
        return rhythm_mei(answer, syllables(answer))
    return staff_mei(staff_lines(answer, instrument))


def layers(words: str, instrument: str | None = None) -> list[str]:
    return [each.replace(HEAD, "") for each in re.findall(r"<layer n=\"1\">(.*?)</layer>", notation(words, instrument))]


def signs(words: str) -> list[str]:
    """The notes of each line with the signs that are written before them; behind a stroke what is only heard."""
    pattern = r'pname="(\w)" oct="(\d)"(?: accid="(\w+)")?(?: accid\.ges="(\w+)")?'
    return [
        " ".join(f"{shown}{name}{octave}{f'/{heard}' if heard else ''}" for name, octave, shown, heard in re.findall(pattern, each))
        for each in layers(words)
    ]  # fmt: skip


def test_a_chord_on_the_guitar_is_the_whole_document():
    assert notation("chord D", "guitar") == (
        '<?xml version="1.0" encoding="UTF-8"?>\n'
        '<mei xmlns="http://www.music-encoding.org/ns/mei" meiversion="4.0.1">\n'
        "<meiHead><fileDesc><titleStmt><title/></titleStmt><pubStmt/></fileDesc></meiHead>\n"
        "<music><body><mdiv><score>\n"
        '<scoreDef><staffGrp><staffDef n="1" lines="5" clef.shape="G" clef.line="2" clef.dis="8" clef.dis.place="below" key.sig="0"/>'
        "</staffGrp></scoreDef>\n<section>\n"
        '<measure right="invis"><staff n="1"><layer n="1"><chord dur="4" stem.visible="false">'
        '<note pname="d" oct="3"/><note pname="f" oct="3" accid="s"/><note pname="a" oct="3"/></chord></layer></staff></measure>\n'
        "</section>\n</score></mdiv></body></music>\n</mei>\n"
    )


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        ("D major", ["d4 e4 f4/s g4 a4 b4 c5/s d5"]),  # in the signature
        ("A harmonic minor", ["a3 b3 c4 d4 e4 f4 sg4 a4"]),
        ("G# melodic minor", ["g4/s a4/s b4 c5/s d5/s se5 xf5 g5/s", "g5/s f5/s e5 d5/s c5/s b4 a4/s g4/s"]),
        ("D melodic minor 2 oct down", ["d6 c6 b5/f a5 g5 f5 e5 d5 c5 b4/f a4 g4 f4 e4 d4"]),
        ("chromatic from C", ["c4 sc4 d4 sd4 e4 f4 sf4 g4 sg4 a4 sa4 b4 c5", "c5 b4 fb4 a4 fa4 g4 fg4 f4 e4 fe4 d4 fd4 c4"]),
        ("chord Bbm7b5", ["fb3 fd4 ff4 fa4"]),
        ("interval C# C", ["sc4 c5"]),
        ("chords in B minor", ["b3 d4 f4/s c4/s e4 g4 d4 f4/s a4 e4 g4 b4 f4/s a4 c5/s g4 b4 d5 a4 c5/s e5 f4/s sa4 c5/s"]),
    ],
)  # fmt: skip
def test_a_sign_is_written_where_the_signature_or_the_note_before_says_otherwise(words, expected):
    assert signs(words) == expected


def test_a_natural_takes_a_sign_back_in_the_same_line():
    assert signs("Eb blues") == ["fe4 fg4 fa4 na4 fb4 fd5 fe5"]


def test_a_key_has_its_signature_and_no_note():
    assert 'key.sig="4f"' in notation("key Ab")
    assert layers("key Ab") == ['<space dur="2"/>']


def test_lines_are_broken_and_another_clef_or_signature_is_said_before_its_line():
    text = notation("Eb major for clarinet and cello")
    assert text.count("<sb/>") == 1
    assert text.index('key.sig="3f"') < text.index("<sb/>")
    assert notation("G# melodic minor").count("staffDef") == 1


@pytest.mark.parametrize(
    ("words", "beams"),
    [
        ("rhythm 4/4 e e e e q q", ["ee", "ee"]),
        ("rhythm 4/4 e. s q er e q", ["es"]),
        ("rhythm 6/8 e e e e e e", ["eee", "eee"]),
        ("rhythm 3/8 e e e", ["eee"]),
        ("rhythm 5/8 3+2 e e e e e", ["eee", "ee"]),
        ("rhythm 2/4 3(e e e) e e", ["eee", "ee"]),
        ("rhythm 2/2 e e e e h", ["eeee"]),
        ("rhythm 3/4 e | e e q q | e e q e", ["ee", "ee"]),
    ],
)
def test_notes_of_a_beat_are_under_one_beam(words, beams):
    values = {"8": "e", "16": "s"}
    found = [
        [note.get("dur") for note in beam.iter(f"{MEI}note")]
        for beam in ET.fromstring(notation(words)).iter(f"{MEI}beam")
    ]
    assert ["".join(values[each] for each in beam) for beam in found] == beams


def test_every_example_is_well_formed():
    for words in (each for group in EXAMPLES.values() for each in group):
        answer = read_theory(words)
        if isinstance(answer, Counted) or staff_lines(answer):
            assert ET.fromstring(notation(words)).tag == f"{MEI}mei"
