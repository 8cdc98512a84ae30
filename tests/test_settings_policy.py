"""The settings of make-ups: what is owed for which lesson, and from when a policy is in force."""

from datetime import date

import pytest

from cockpit.settings.settings import parse_settings
from cockpit.settings.text import FIRST
from cockpit.studio.errors import BadSettings
from cockpit.studio.lessons.lesson import Outcome
from cockpit.studio.lessons.policy import MONTHLY, Policies

BOTH = frozenset({Outcome.CANCELLED, Outcome.CALLED_OFF})


def policies(text):
    return parse_settings(f'home_zone = "America/Chicago"\n{text}', "settings.toml").preferences.policies


def test_a_new_file_and_one_without_the_section_have_the_usual_policy():
    assert parse_settings(FIRST.format(zone="UTC"), "settings.toml").preferences.policies == Policies()
    assert policies("") == Policies()


def test_each_line_of_the_policy_is_taken():
    (policy,) = policies(
        '[policy]\ncanceled_in_time = "nothing"\ncanceled_late = "make-up"\nabsent = "make-up"\nforgive_sick = true\n'
        'make_up_within_days = 60\nmake_ups_a_term = 2\nterms_begin = ["09-01", "02-01"]'
    ).each
    assert policy.owing == {Outcome.CANCELLED_LATE, Outcome.ABSENT, Outcome.CALLED_OFF}
    assert (policy.forgives_sick, policy.within_days, policy.most_a_term) == (True, 60, 2)
    assert policy.terms_begin == ((9, 1), (2, 1))
    assert policies('[policy]\nterms_begin = "monthly"').each[0].terms_begin == MONTHLY


def test_a_kind_can_be_made_up_once_a_term_and_a_make_up_can_end_with_it():
    first, later, last = policies(
        '[[policy]]\nabsent = "make-up once a term"\nmake_up_within_days = "term"\n[[policy]]\nfrom = 2027-01-01\n'
        'forgive_sick = true\n[[policy]]\nfrom = 2027-06-01\nabsent = "make-up"\nmake_up_within_days = 30'
    ).each
    assert first.owing == {*BOTH, Outcome.ABSENT}
    assert (first.once_a_term, first.ends_with_term, first.within_days) == ({Outcome.ABSENT}, True, None)
    assert (later.once_a_term, later.ends_with_term) == ({Outcome.ABSENT}, True)
    assert (last.once_a_term, last.ends_with_term, last.within_days) == (frozenset(), False, 30)


def test_a_later_policy_changes_what_it_says_from_its_date_on():
    found = policies(
        "[[policy]]\nmake_ups_a_term = 2\n[[policy]]\nfrom = 2027-01-01\nmake_ups_a_term = 1\n"
        '[[policy]]\nfrom = 2027-09-01\ncanceled_in_time = "nothing"'
    )
    before, then, last = (found.on(day) for day in (date(2026, 12, 31), date(2027, 1, 1), date(2027, 9, 1)))
    assert (before.most_a_term, then.most_a_term, last.most_a_term) == (2, 1, 1)
    assert (before.owing, then.owing, last.owing) == (BOTH, BOTH, {Outcome.CALLED_OFF})


@pytest.mark.parametrize(
    ("text", "words"),
    [
        (
            '[policy]\nabsent = "half"',
            'settings.toml, policy, absent: found "half". Use one of make-up, make-up once a term, nothing.',
        ),
        ('[policy]\ncalled_off = "make-up once a term"', "Use one of make-up, nothing."),
        ('[policy]\nabsent = "once"', "Use one of make-up, make-up once a term, nothing."),
        (
            '[policy]\nmake_up_within_days = "month"',
            'Use 0 for no end, 1 to 366 days, or "term" for the end of the term.',
        ),
        ("[policy]\nmake_ups_a_term = -1", "make_ups_a_term: found -1. Use 0 for no limit, or 1 to 100."),
        (
            '[policy]\nterms_begin = ["9/1"]',
            'Use "monthly", or first days of terms such as ["09-01", "01-01", "06-01"].',
        ),
        ("[policy]\nterms_begin = []", 'terms_begin: found []. Use "monthly", or first days of terms'),
        ('[policy]\nterms_begin = "weekly"', "terms_begin: found weekly. Use"),
        ("[policy]\nfee = 3", "policy, fee: found an unknown key. Use one of canceled_in_time"),
        ("[[policy]]\n[[policy]]\n", "policy 2, from: found nothing. Use a date such as 2027-01-01."),
        (
            "[[policy]]\nfrom = 2027-01-01\n[[policy]]\nfrom = 2027-01-01",
            "policy 2, from: found 2027-01-01. Use a day after 2027-01-01.",
        ),
        (
            '[[policy]]\nfrom = "2027-01-01"',
            "policy 1, from: found 2027-01-01. Use a date such as 2027-02-01, without quotes.",
        ),
        ("policy = 3", "settings.toml, policy: found 3. Use one section [policy], or sections [[policy]] with from."),
    ],
)
def test_a_fault_names_the_key_what_was_found_and_what_works(text, words):
    with pytest.raises(BadSettings) as fault:
        policies(text)
    assert words in str(fault.value)
