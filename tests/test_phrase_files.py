"""Files of phrases: the program's and a teacher's own, which go first and never stop anything."""

import shutil
import subprocess
import sys

import pytest
from support.phrases import ENGLISH, ROOT

from cockpit.printing.phrase_files import phrase_faults, phrases_of


def own(folder, name, text, encoding="utf-8"):
    path = folder / "themes" / "phrases" / name
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(text.encode(encoding))
    return path


def test_a_language_has_its_own_phrases_and_those_of_the_mail(tmp_path):
    phrases = phrases_of("de", tmp_path)
    assert phrases.language == "de"
    assert phrases.say("plan.heading") == "Übeplan"
    assert phrases.by_key["mail.calendar_of_next"] == "Nächste Stunde"


@pytest.mark.parametrize("language", ["it", "../../en", "en/../de", "", "EN", "german"])
def test_a_language_without_a_file_is_english(tmp_path, language):
    own(tmp_path / "x", "it.toml", "")  # another studio's
    phrases = phrases_of(language, tmp_path)
    assert phrases.language == "en"
    assert dict(phrases.by_key).items() >= dict(ENGLISH).items()


def test_no_name_of_a_language_leads_out_of_the_folder(tmp_path):
    (tmp_path / "en.toml").write_text('[notes]\nnext_lesson = "From outside"', encoding="utf-8")
    (tmp_path / "themes" / "phrases").mkdir(parents=True)
    assert phrases_of("../../en", tmp_path).say("notes.next_lesson") == "Next lesson"


def test_a_language_of_a_country_has_the_phrases_of_its_language_and_its_own_before_them(tmp_path):
    assert phrases_of("en-GB", tmp_path).by_key == ENGLISH
    assert phrases_of("en-GB", tmp_path).language == "en-GB"
    assert phrases_of("de-AT", tmp_path).say("plan.heading") == "Übeplan"
    own(tmp_path, "en.toml", '[notes]\nnext_lesson = "See you"\nassignments = "To do"\n')
    own(tmp_path, "en-GB.toml", '[notes]\nassignments = "Practise this"\n')
    phrases = phrases_of("en-GB", tmp_path)
    assert [phrases.say(f"notes.{name}") for name in ("next_lesson", "assignments")] == ["See you", "Practise this"]
    assert phrases_of("en", tmp_path).say("notes.assignments") == "To do"
    assert phrase_faults(tmp_path, "en-GB") == ()


def test_an_own_file_goes_first_and_what_it_lacks_is_there(tmp_path):
    own(tmp_path, "de.toml", '\ufeff[plan]\nheading = "Mein Plan"\n')
    phrases = phrases_of("de", tmp_path)
    assert phrases.say("plan.heading") == "Mein Plan"
    assert phrases.say("notes.next_lesson") == "Nächste Stunde"
    assert phrase_faults(tmp_path, "de") == ()


def test_a_language_of_her_own_is_brought_in_by_one_file_however_short(tmp_path):
    own(tmp_path, "it.toml", '[notes]\nnext_lesson = "Prossima lezione"\n')
    phrases = phrases_of("it", tmp_path)
    assert phrases.language == "it"
    assert phrases.say("notes.next_lesson") == "Prossima lezione"
    assert phrases.say("plan.heading") == "Practice plan"
    assert phrase_faults(tmp_path, "it") == ()


def test_her_own_english_goes_first_too(tmp_path):
    own(tmp_path, "en.toml", '[notes]\nassignments = "This week"\n')
    assert phrases_of("en", tmp_path).say("notes.assignments") == "This week"
    assert phrases_of("qq", tmp_path).say("notes.assignments") == "This week"


def test_one_faulty_phrase_is_told_with_its_file_and_the_others_are_used(tmp_path):
    path = own(
        tmp_path, "es.toml", '[notes]\ntitle = "Para {studnt}"\nnext_lesson = "La que viene"\n[plan]\nheadign = "x"\n'
    )
    assert phrase_faults(tmp_path, "en") == (
        f"{path}, notes.title: found {{studnt}}. Use {{student}}.",
        f"{path}, plan.headign: this phrase does not exist in the English file.",
    )
    phrases = phrases_of("es", tmp_path)
    assert phrases.say("notes.title", student="Ilse") == "Notas de práctica para Ilse"
    assert phrases.say("notes.next_lesson") == "La que viene"


@pytest.mark.parametrize(
    ("name", "text", "encoding", "told"),
    [
        ("es.toml", "[notes", "utf-8", ", the phrases could not be read as TOML"),
        ("es.toml", "[notes]\ntitle = 4", "utf-8", ", notes.title: found 4. Use a text in quotes. None of its phrases are used."),
        ("es.toml", '[notes]\ntitle = "ó"', "latin-1", " is not UTF-8 (byte 18). Save it as UTF-8."),
        ("german.toml", "", "utf-8", ': name this file with a language code, such as it.toml.'),
    ],
)  # fmt: skip
def test_a_faulty_file_is_told_in_one_sentence_and_ours_is_used(tmp_path, name, text, encoding, told):
    path = own(tmp_path, name, text, encoding)
    (sentence,) = phrase_faults(tmp_path, "en")
    assert sentence.startswith(f"{path}{told}")
    assert phrases_of("es", tmp_path) == phrases_of("es", None)


def test_a_folder_in_the_place_of_a_file_is_told(tmp_path):
    (tmp_path / "themes" / "phrases" / "es.toml").mkdir(parents=True)
    (sentence,) = phrase_faults(tmp_path, "en")
    assert "es.toml could not be read: " in sentence
    assert phrases_of("es", tmp_path).say("notes.next_lesson") == "Próxima clase"


def test_a_language_of_the_settings_without_phrases_is_told(tmp_path):
    assert phrase_faults(tmp_path, "it") == (
        'settings.toml, sending, language: there are no phrases for "it". Use one of de, en, es, fr, '
        "or add a file to themes/phrases. Until then, families get English.",
    )
    assert [phrase_faults(tmp_path, language) for language in ("en", "fr")] == [(), ()]


def test_a_program_without_its_english_file_says_so_and_goes_on(tmp_path):
    for name in ("cockpit", "themes"):
        shutil.copytree(ROOT / name, tmp_path / name, ignore=shutil.ignore_patterns("__pycache__"))
    (tmp_path / "themes" / "phrases" / "en.toml").unlink()
    script = """
from pathlib import Path
from cockpit.printing.phrase_files import phrase_faults, phrases_of
print(phrase_faults(Path("studio"), "en"))
print(phrases_of("en", None).say("notes.title", student="Ilse"), phrases_of("de", None).say("plan.heading"))
"""
    done = subprocess.run([sys.executable, "-c", script], cwd=tmp_path, capture_output=True, text=True)
    assert "en.toml is missing" in done.stdout
    assert done.stdout.endswith("title, Ilse Übeplan\n")
