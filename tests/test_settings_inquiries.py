"""The section [inquiry] of settings.toml: every key, and a sentence for each fault."""

import pytest

from cockpit.settings.settings import parse_settings
from cockpit.settings.text import FIRST
from cockpit.studio.errors import BadSettings
from cockpit.studio.inquiries.rules import LENGTHS, InquiryRules
from cockpit.studio.people.people import Level

HOME = 'home_zone = "America/Chicago"\n'


def inquiry(text: str) -> InquiryRules:
    return parse_settings(f"{HOME}{text}", "settings.toml").preferences.inquiry


def test_without_a_section_it_is_as_in_a_new_file():
    assert (
        inquiry("") == InquiryRules() == parse_settings(FIRST.format(zone="UTC"), "settings.toml").preferences.inquiry
    )


def test_every_key_is_read():
    found = inquiry(
        "[inquiry]\nreply_hours = 24\nfollow_up_days = [3, 9, 20]\ntrial_minutes = 20\nmonths = 6\n"
        'answer = """\nDear {name},\n{times}\nA smile :-} {\n"""\n[inquiry.lengths]\nbeginner = [20, 25, 30, 30, 40]\n'
    )
    assert found == InquiryRules(
        reply_hours=24,
        follow_up_days=(3, 9, 20),
        trial_minutes=20,
        months=6,
        answer="Dear {name},\n{times}\nA smile :-} {",
        lengths={**LENGTHS, Level.BEGINNER: (20, 25, 30, 30, 40)},
    )


@pytest.mark.parametrize(
    ("text", "found", "works"),
    [
        ("reply_hours = 0", "found 0", "1 to 336 hours"),
        ("follow_up_days = []", "found []", "days in brackets"),
        ("follow_up_days = [12, 5]", "found [12, 5]", "each more than the one before"),
        ("follow_up_days = [5, 5]", "found [5, 5]", "each more than the one before"),
        ("trial_minutes = 3", "found 3", "5 to 240 minutes"),
        ("months = 0", "found 0", "1 to 120 months"),
        ('answer = "Hello {nam}"', "found {nam}", "{name}, {child}, {instrument}, {times}, {signature}"),
        ("answer = 3", "found 3", "words in quotes"),
        ("forms = 1", "an unknown key", "one of reply_hours"),
        ("[inquiry.lengths]\nbeginner = [30]", "found [30]", "5 lesson lengths in brackets"),
        ("[inquiry.lengths]\nbeginner = [30, 30, 30, 45, 450]", "450", "5 lesson lengths"),
        ("[inquiry.lengths]\nexpert = [30]", "an unknown key", "one of beginner"),
    ],
)
def test_a_fault_is_told_with_what_works(text, found, works):
    with pytest.raises(BadSettings) as refused:
        inquiry(f"[inquiry]\n{text}\n")
    assert found in str(refused.value)
    assert works in str(refused.value)
