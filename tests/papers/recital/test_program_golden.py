"""The papers of a recital in every form and language, as they were looked at."""

import pytest
from support.golden import assert_golden
from support.phrases import IN_ENGLISH, SPOKEN
from support.programs import papers_of, program_page

from cockpit.papers.recital.program import sheet_markdown, sheet_text

FORMS = {
    "recital.md": lambda: sheet_markdown(papers_of(3), 12, IN_ENGLISH),
    "recital.txt": lambda: sheet_text(papers_of(3), 12, IN_ENGLISH),
    "recital.html": lambda: program_page(3),
    **{
        f"recital-{language}.txt": lambda spoken=spoken: sheet_text(papers_of(2), 24, spoken)
        for language, spoken in SPOKEN.items()
    },
}


@pytest.mark.parametrize("name", FORMS)
def test_the_papers_are_what_they_were_when_they_were_looked_at(name):
    assert_golden(FORMS[name](), name)
