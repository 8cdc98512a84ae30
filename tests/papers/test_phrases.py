"""The fixed phrases of a language, as one file has them."""

import pytest

from cockpit.papers.phrases import read_phrases
from cockpit.studio.errors import BadInput


def test_phrases_are_known_by_section_and_name():
    assert read_phrases('[mail]\nupdated = "Now: {x}"\n[plan]\nturn = "turn"') == {
        "mail.updated": "Now: {x}",
        "plan.turn": "turn",
    }


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ('updated = "x"', "updated: found 'x', expected a section"),
        ("[mail]\nupdated = 4", "mail.updated: found 4, expected a text"),
        ("[mail", "not readable as TOML"),
    ],
)
def test_a_fault_is_told(text, told):
    with pytest.raises(BadInput, match=told):
        read_phrases(text)
