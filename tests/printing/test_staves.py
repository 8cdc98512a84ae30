"""Staves as pictures: the same bytes twice, words in them for those who do not see, and nothing without the engraver."""

import subprocess
import sys
from xml.etree import ElementTree as ET

from cockpit.printing.staves import staff_asked, staff_svg
from cockpit.studio.theory.examples import EXAMPLES
from cockpit.studio.theory.lesson_theory import LessonTheory
from cockpit.studio.theory.reading import Unclear, read_theory
from cockpit.wording.theory import answer_words, say_in_english

SVG = "{http://www.w3.org/2000/svg}"
WITHOUT = {"circle of fifths", "keyboard D F# A"}


def drawn(words: str, instrument: str | None = None) -> str | None:
    meaning = read_theory(words)
    assert not isinstance(meaning, Unclear)
    return staff_svg(meaning, instrument)


def test_every_example_but_two_has_a_staff_that_says_its_answer():
    for words in (each for group in EXAMPLES.values() for each in group):
        svg = drawn(words)
        assert (svg is None) == (words in WITHOUT), words
        if svg is None:
            continue
        root = ET.fromstring(svg)
        assert root.tag == f"{SVG}svg"
        assert root.get("role") == "img"
        assert root.find(f"{SVG}title").text == answer_words(read_theory(words))
        assert root.find(f"{SVG}desc").text in {
            "treble clef", "treble clef, an octave lower", "bass clef", "a rhythm on one line",
        }, words  # fmt: skip
        ids = [each.get("id") for each in root.iter() if each.get("id")]
        assert len(ids) == len(set(ids))


def test_it_is_the_same_bytes_in_another_process():
    code = (
        "from cockpit.printing.staves import staff_svg; from cockpit.studio.theory.reading import read_theory; import sys;"
        "staff_svg(read_theory('A minor')); sys.stdout.buffer.write(staff_svg(read_theory('D major'), 'cello').encode())"
    )
    other = subprocess.run([sys.executable, "-c", code], capture_output=True, check=True).stdout
    assert drawn("D major", "cello").encode() == other


def test_the_same_scale_on_another_instrument_has_ids_of_its_own():
    first, other = (
        {each.get("id") for each in ET.fromstring(drawn("D major", on)).iter()} for on in ("cello", "viola")
    )
    assert first & other == {None}


def test_braces_name_the_instrument_of_their_staff_before_the_lesson_does():
    cello, numbers = LessonTheory(instrument="cello"), say_in_english
    assert "<desc>bass clef</desc>" in staff_asked("D major", cello, numbers)
    assert "<desc>alto clef</desc>" in staff_asked("D dorian for viola", cello, numbers)
    assert staff_asked("milk", cello, numbers) is None
    assert staff_asked("rhythm 4/4 q q q", cello, numbers) is None


def test_what_is_counted_on_a_rest_is_below_it_and_nothing_but_the_rest_is_seen():
    root = ET.fromstring(drawn("rhythm 4/4 q. er qr 3(e er e)"))
    said = [text for text in ("".join(each.itertext()).strip() for each in root.iter(f"{SVG}text")) if text]
    assert sorted(said) == sorted(["1 (2)", "[+]", "[3]", "4", "[trip]", "let"])
    marks = {kind: sum(each.get("class") == kind for each in root.iter()) for kind in ("rest", "notehead", "dots")}
    assert marks == {"rest": 3, "notehead": 3, "dots": 1}


def test_without_the_extra_there_is_no_staff_and_no_fault(without_verovio):
    assert drawn("D major", "cello") is None
