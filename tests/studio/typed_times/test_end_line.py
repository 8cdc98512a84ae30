"""Lines that say when a student ends: the day first, why behind a comma or a colon."""

from datetime import UTC, date, datetime

import pytest

from cockpit.studio.errors import BadInput
from cockpit.studio.typed_times.end_line import EndLine, read_end
from cockpit.studio.typed_times.when import Reference

NOW = datetime(2026, 12, 1, 22, 12, tzinfo=UTC)  # Tuesday, 4:12 pm in Chicago
REFERENCE = Reference(now=NOW, around=date(2026, 12, 1), home_zone="America/Chicago", month_first=True)
DEC_18 = date(2026, 12, 18)


def read(line):
    return read_end(line, REFERENCE, datetime(2026, 12, 1, 22, tzinfo=UTC))


@pytest.mark.parametrize(
    ("line", "until", "reason", "keeps"),
    [
        ("after dec 18", DEC_18, "", False),
        ("after 18 dec", DEC_18, "", False),
        ("today, moved away", date(2026, 12, 1), "moved away", False),
        ("dec 18", DEC_18, "", False),
        ("ends on dec 18", DEC_18, "", False),
        ("last lesson dec 18: too far, and no time", DEC_18, "too far, and no time", False),
        ("after dec 18, keep lessons", DEC_18, "", True),
        ("through dec 18, Keep the lessons, moved away", DEC_18, "moved away", True),
        ("dec 18, 2027, moved", date(2027, 12, 18), "moved", False),
        ("2026-12-18; Moved AWAY", DEC_18, "Moved AWAY", False),
        ("friday", date(2026, 12, 4), "", False),
    ],
)
def test_a_day_and_why(line, until, reason, keeps):
    assert read(line) == EndLine(until_on=until, reason=reason, keeps_lessons=keeps)


@pytest.mark.parametrize(
    ("line", "named"),
    [
        ("", "no day"),
        ("after", "no day"),
        (", moved away", "no day"),
        ("moved away", '"moved" is not understood'),
        ("after dec 18 moved away", '"moved" is not understood'),
        ("after nov 20", "has passed"),
        ("after feb 30", "feb 30"),
        ("x" * 301, "too long"),
    ],
)
def test_what_is_not_understood_is_named_with_lines_that_work(line, named):
    with pytest.raises(BadInput) as refused:
        read(line)
    assert named in str(refused.value)
    if len(line) < 300:
        assert '"after dec 18" or "today, moved away"' in str(refused.value)
