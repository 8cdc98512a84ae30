"""The settings of pieces and of the mix."""

import pytest

from cockpit.settings.settings import parse_settings
from cockpit.studio.errors import BadSettings
from cockpit.studio.pieces.rules import MixRules, PieceRules


def pieces(text):
    return parse_settings(f'home_zone = "America/Chicago"\n{text}', "settings.toml").preferences.pieces


def test_without_a_word_about_pieces_they_are_as_usual():
    assert pieces("") == PieceRules() == pieces("[mix.limits]\ntheory = 3\n'music of the world' = 6\n")


def test_strands_limits_gaps_and_marks_are_hers():
    text = """
    repertoire_gaps = [1, 3]
    report_marks = true
    [areas]
    drumming = { weight = 4 }
    [mix.strands]
    beat = ["drumming", "rhythm"]
    "our songs" = ["chosen", "origin"]
    [mix.limits]
    beat = 2
    drumming = 4
    """
    assert pieces(text) == PieceRules(
        gaps=(1, 3),
        reports_marks=True,
        mix=MixRules(
            strands={"beat": ("drumming", "rhythm"), "our songs": ("chosen", "origin")},
            limits={"beat": 2, "drumming": 4},
        ),
    )


def test_usual_limits_go_on_for_what_is_still_there():
    assert pieces('[mix.strands]\nours = ["piece"]').mix.limits == {"theory": 3}
    assert pieces("[mix.strands]\n[mix.limits]\n").mix == MixRules(strands={}, limits={})


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("repertoire_gaps = [0]", "settings.toml, repertoire_gaps: found [0]. Use weeks in brackets, such as [2, 4, 8, 12]."),
        ("repertoire_gaps = []", "settings.toml, repertoire_gaps: found []. Use weeks in brackets, such as [2, 4, 8, 12]."),
        ("report_marks = 1", "settings.toml, report_marks: found 1. Use true or false."),
        ("[mix]\nlimit = 3", "settings.toml, mix, limit: found an unknown key. Use [mix.strands] or [mix.limits]."),
        ('[mix.strands]\nours = "piece"', "settings.toml, mix, strands, ours: found piece. Use words in brackets, each one of chosen"),
        ("[mix.strands]\nours = []", "settings.toml, mix, strands, ours: found []. Use words in brackets"),
        ('[mix.strands]\nours = ["songs"]', 'settings.toml, mix, strands, ours: found "songs". Use words in brackets'),
        ("[mix.strands]\nours = [3]", 'settings.toml, mix, strands, ours: found "3". Use words in brackets'),
        ('[mix.strands]\n"" = ["piece"]', 'settings.toml, mix, strands, : found "". Use a name of 1 to 40 characters.'),
        ('[mix.strands]\n"a\\u0007" = ["piece"]', "Use a name of 1 to 40 characters."),
        ("[mix.limits]\ntheory = 0", "settings.toml, mix, limits, theory: found 0. Use 1 to 104 weeks."),
        ("[mix.limits]\nsongs = 2", "settings.toml, mix, limits, songs: found an unknown key. Use one of warm-up"),
    ],
)  # fmt: skip
def test_a_fault_names_file_key_found_and_what_works(text, words):
    with pytest.raises(BadSettings) as refused:
        pieces(text)
    assert words in str(refused.value)
