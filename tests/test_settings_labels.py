"""Labels and areas of her own in settings.toml, and her word on every paper and screen that has the line."""

import pytest
from support.sample import sample_studio

from cockpit.cli.main import main
from cockpit.sample import history
from cockpit.settings.settings import parse_settings
from cockpit.studio.errors import BadSettings
from cockpit.studio.notes.areas import Area, OwnArea
from cockpit.studio.notes.vocabulary import BUILT_IN, Meaning

HERS = """
[labels]
"Finger gym" = "technique"
hymn = "review"
goal = "remark"
samba = "drumming"
noten = "get"
dream = "goal"
[areas.drumming]
weight = 7
titled = true
"""


def parsed(text):
    return parse_settings(f'home_zone = "UTC"\n{text}', "settings.toml")


def test_her_labels_and_areas_are_taken():
    settings = parsed(HERS)
    drumming = OwnArea(name="drumming", is_titled=True)
    labels = settings.preferences.labels
    assert labels.meaning("finger gym") == Meaning(Area.TECHNIQUE)
    assert labels.meaning("Hymns") == Meaning(Area.REVIEW)
    assert labels.meaning("Goal") == Meaning(None)
    assert labels.meaning("Noten") == Meaning(None, is_to_get=True)
    assert labels.meaning("Dreams") == Meaning(None, is_goal=True)
    assert labels.meaning("Samba") == labels.meaning("Drumming") == Meaning(drumming)
    assert settings.preferences.practice.plan.weights[drumming] == 7
    assert set(labels.names) == {"Finger gym", "hymn", "goal", "samba", "noten", "dream", "drumming"}
    assert parsed("").preferences.labels is BUILT_IN


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("[labels]\nprivate = 'piece'", ["labels, private", "kept from families", "another word"]),
        ("[labels]\nPrviate = 'piece'", ["labels, Prviate", "kept from families"]),
        ("[labels]\n'follow up' = 'piece'", ["labels, follow up", "kept from families"]),
        ("[labels]\n'Next time' = 'remark'", ["labels, Next time", "kept from families"]),
        ("[labels]\nvertraulich = 'piece'", ["labels, vertraulich", "kept from families"]),
        ("[areas.Privat]\nweight = 4", ["areas, Privat", "kept from families"]),
        ("[labels]\nhymn = 'song'", ["labels, hymn", '"song"', "piece", "remark"]),
        ("[labels]\nhymn = 'private'", ["labels, hymn", '"private"', "piece"]),
        ("[labels]\nhymn = 3", ["labels, hymn", "3", "in quotes"]),
        ("[labels]\n'a:b' = 'piece'", ["labels, a:b", "words of letters"]),
        ("labels = 3", ["labels", "3", "a section [labels]"]),
        ("[areas.piece]\nweight = 4", ["areas, piece", "built in", "practice.weights"]),
        ("[areas.drumming]\nweight = 101", ["areas, drumming, weight", "101", "0 to 100"]),
        ("[areas.drumming]\ntitled = 1", ["areas, drumming, titled", "1", "true or false"]),
        ("[areas.drumming]\nname = 1", ["areas, drumming, name", "an unknown key", "weight or titled"]),
        ("[areas]\ndrumming = 3", ["areas, drumming", "3", "a section"]),
    ],
)
def test_a_fault_in_labels_or_areas_names_file_key_found_and_expected(text, words):
    with pytest.raises(BadSettings) as told:
        parsed(text)
    for word in ("settings.toml", *words):
        assert word in str(told.value)


BODY = "Finger gym: spiders 5 min\nSamba: Rio mm. 1-8\nHymn: Abide\nGoal: calm hands\nStudy 5: slowly\nPiece: Gavotte"


@pytest.mark.parametrize("kind", ["md", "html", "text"])
def test_the_family_reads_her_words(tmp_path, capsys, kind):
    with sample_studio(tmp_path) as (studio, _clock):
        studio.desk.notes.write(studio.desk.day.shown.lesson.id, BODY)
        studio.desk.teaching.finish()
    (tmp_path / "settings.toml").write_text(f"{history.SETTINGS}{HERS}", encoding="utf-8")
    assert main(["notes", "Ilse", "--on", "2026-12-01", "--as", kind, "--folder", str(tmp_path)]) == 0
    shown = capsys.readouterr().out
    for label in ("Finger gym:", "Samba:", "Hymn:", "Study 5:", "Piece:"):
        assert (label if kind != "html" else label.rstrip(":")) in shown
    assert "Goal: calm hands" in shown
    for area in ("Technique:", "Drumming:", "Review:", "Etude:"):
        assert area not in shown
