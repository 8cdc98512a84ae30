"""The settings of practice, and the file that a new studio begins with."""

import re
from datetime import date, time, timedelta

import pytest
from support.sample import sample_studio
from support.studio import preferences

from cockpit.cli.main import main
from cockpit.sample import history
from cockpit.settings.settings import Settings, parse_settings, with_theme
from cockpit.settings.text import FIRST
from cockpit.studio.clocks.home import Home, Stay
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.clocks.teaching_hours import TeachingHours, TeachingSpan
from cockpit.studio.errors import BadSettings
from cockpit.studio.lessons.pacing import USUAL
from cockpit.studio.notes.notes import Area
from cockpit.studio.people.people import PlanForm
from cockpit.studio.post.channels import SendingRules
from cockpit.studio.practice.rules import WEIGHTS, HealthLine, LoadRules, PlanRules, PracticeRules
from cockpit.studio.preferences import Preferences
from cockpit.studio.theory.lesson_theory import CountingSystem, LessonTheory
from cockpit.wiring import keep_theme

ZONE = 'home_zone = "America/Chicago"\n'


def parsed(text):
    return parse_settings(f"{ZONE}{text}", "settings.toml")


def test_the_file_that_a_new_studio_begins_with_says_what_is_so_without_it():
    written = parse_settings(FIRST.format(zone="America/Chicago"), "settings.toml")
    assert written == Settings(preferences=preferences()) == parsed("")


def test_what_is_said_of_practice_is_taken_and_the_rest_is_as_usual():
    text = """
    [practice]
    plan = "list"
    health_line = "never"
    days = "Mon-Fri"
    largest_step = 1
    longest_passage = 12
    span_measures = 4
    overlap = 0
    turn_minutes = 5
    review_gaps = [2, 7]
    sudden_increase_percent = 30
    sudden_increase_minutes = 5
    [practice.weights]
    piece = 20
    "method book" = 0
    """
    assert parsed(text).preferences.practice == PracticeRules(
        form=PlanForm.LIST,
        health_line=HealthLine.NEVER,
        days=frozenset(range(5)),
        plan=PlanRules(
            weights=dict(WEIGHTS) | {Area.PIECE: 20, Area.METHOD_BOOK: 0},
            largest_step=1,
            longest_passage=12,
            span_measures=4,
            overlap=0,
            turn_minutes=5,
            review_gaps=(2, 7),
        ),
        load=LoadRules(percent=30, minutes=5),
    )


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ('plan = "table"', ["practice, plan", '"table"', "chart, list, none"]),
        ("plan = true", ["practice, plan", "True", "in quotes"]),
        ('health_line = "weekly"', ["practice, health_line", '"weekly"', "monthly, always, never"]),
        ('days = "Mon-Xyz"', ["practice, days", '"Mon-Xyz"', "Mon-Sat"]),
        ("days = 5", ["practice, days", "5", "in quotes"]),
        ("largest_step = 0", ["practice, largest_step", "0", "1 to 39"]),
        ("longest_passage = 0", ["practice, longest_passage", "1 to 999"]),
        ("span_measures = 0", ["practice, span_measures", "1 to 999"]),
        ("overlap = 8", ["practice, overlap", "8", "fewer measures than span_measures, 8"]),
        ("span_measures = 1", ["practice, overlap", "fewer measures than span_measures, 1"]),
        ("overlap = -1", ["practice, overlap", "-1"]),
        ("turn_minutes = 0", ["practice, turn_minutes", "1 to 60"]),
        ("review_gaps = []", ["practice, review_gaps", "[]", "[1, 2, 3, 4]"]),
        ("review_gaps = [1, 0]", ["practice, review_gaps", "[1, 0]"]),
        ("review_gaps = [1, true]", ["practice, review_gaps", "True"]),
        ("review_gaps = 3", ["practice, review_gaps", "3"]),
        ("sudden_increase_percent = -1", ["practice, sudden_increase_percent", "0 to 1000"]),
        ("sudden_increase_minutes = 1.5", ["practice, sudden_increase_minutes", "1.5"]),
        ("largest = 2", ["practice, largest", "an unknown key", "largest_step"]),
        ("[practice.weights]\nscale = 2", ["practice, weights, scale", "an unknown key", "scales"]),
        ("[practice.weights]\nscales = 101", ["practice, weights, scales", "101", "0 to 100"]),
        ("weights = 3", ["practice, weights", "3", "a section [weights]"]),
    ],
)
def test_a_fault_in_what_is_said_of_practice_names_file_key_found_and_expected(text, words):
    with pytest.raises(BadSettings) as told:
        parsed(f"[practice]\n{text}")
    for word in ("settings.toml", *words):
        assert word in str(told.value)


@pytest.mark.parametrize("kind", ["md", "html", "text"])
def test_the_notes_of_the_command_line_show_the_plan_by_these_settings(tmp_path, capsys, kind):
    with sample_studio(tmp_path) as (studio, _clock):
        studio.desk.notes.write(studio.desk.day.shown.lesson.id, "Piece: Evening Echo, q = 60 to 96, 5 min")
        studio.desk.teaching.finish()
    practice = '[practice]\nplan = "list"\ndays = "Wed Thu Fri"\nlargest_step = 1\n'
    (tmp_path / "settings.toml").write_text(f"{history.SETTINGS}{practice}", encoding="utf-8")
    assert main(["notes", "Ilse", "--on", "2026-12-01", "--as", kind, "--folder", str(tmp_path)]) == 0
    shown = capsys.readouterr().out
    assert "5 of 20 minutes each practice day." in shown
    assert "Friday, December 4" in shown
    assert "Piece: Evening Echo, quarter = 66, 5 min" in shown
    assert "Saturday" not in shown
    assert "quarter = 69" not in shown


@pytest.mark.parametrize("length", ["²", "4²", "٣٠", "①", "9" * 5000, "-45", "4_5", " 45"])
def test_a_lesson_length_in_other_digits_is_told_with_the_file_the_key_and_what_works(length):
    with pytest.raises(BadSettings) as told:
        parsed(f'[wrap_up_minutes]\n"{length}" = 1\n')
    said = f'settings.toml, wrap_up_minutes.{length}: found "{length}" = 1. Use a lesson length and minutes, such as 45 = 4.'
    assert str(told.value) == said


@pytest.mark.parametrize("value", ["9" * 5000, "[" * 5000])
def test_a_value_that_nothing_can_read_is_told_with_the_file(value):
    with pytest.raises(BadSettings, match=r"^settings\.toml could not be read as TOML: "):
        parsed(f"wait_minutes = {value}\n")


def test_every_preference_in_the_file_is_taken():
    text = """
    hours = 24
    family_hours = 24
    notice_hours = 48
    early_minutes = 20
    gap_minutes = 5
    day_begins = 8
    day_ends = 24
    month_first = false
    promised_lessons = 40
    year_begins = "08-15"
    keep_months = 0
    [sending]
    language = "de"
    [[away]]
    zone = "Europe/Lisbon"
    from = 2027-02-01
    """
    assert parsed(text).preferences == Preferences(
        home=TeacherClock(
            zone=Home(zone="America/Chicago", stays=(Stay(zone="Europe/Lisbon", from_on=date(2027, 2, 1)),)), hours=24
        ),
        family_hours=24,
        notice_hours=48,
        early_minutes=20,
        gap_minutes=5,
        day_begins=time(8),
        day_ends=time(0),
        month_first=False,
        lesson_times=40,
        year_begins=(8, 15),
        keep_months=0,
        sending=SendingRules(language="de"),
    )


def test_how_long_an_ended_family_is_kept_is_a_number_of_months():
    assert parsed("").preferences.keep_months == 24
    with pytest.raises(BadSettings, match=r"settings\.toml, keep_months: found 241\. Use 0 to 240 months\."):
        parsed("keep_months = 241\n")


def test_the_window_has_a_title_unless_the_file_says_otherwise():
    assert parsed("").window_title
    assert not parsed("window_title = false\n").window_title
    with pytest.raises(BadSettings, match=r"settings\.toml, window_title: found 1\. Use true or false\."):
        parsed("window_title = 1\n")


def test_rhythms_are_counted_by_numbers_unless_the_file_says_otherwise():
    assert parsed("").preferences.counting is CountingSystem.NUMBERS
    lesson = parsed('counting = "takadimi"\n').preferences.theory_for("cello")
    assert lesson == LessonTheory(instrument="cello", counting=CountingSystem.TAKADIMI)
    expected = r'settings\.toml, counting: found "eastman"\. Use one of numbers, takadimi\.'
    with pytest.raises(BadSettings, match=expected):
        parsed('counting = "eastman"\n')


def test_the_curtain_shows_the_minutes_left_unless_the_file_says_otherwise():
    assert parsed("").curtain_clock
    assert not parsed("curtain_clock = false\n").curtain_clock
    with pytest.raises(BadSettings, match=r"settings\.toml, curtain_clock: found no\. Use true or false\."):
        parsed('curtain_clock = "no"\n')


@pytest.mark.parametrize(
    ("before", "after"),
    [
        (f'{ZONE}theme = "ebony"  # at night\nhours = 24\n', f'{ZONE}theme = "ivory"  # at night\nhours = 24\n'),
        (f"{ZONE}\ttheme='ebony'\r\nhours = 24", f'{ZONE}\ttheme="ivory"\r\nhours = 24'),
        (f"{ZONE}[keys]\n", f'theme = "ivory"\n{ZONE}[keys]\n'),
        (f'# theme = "rosin"\n{ZONE}', f'theme = "ivory"\n# theme = "rosin"\n{ZONE}'),
        ("", 'theme = "ivory"\n'),
    ],
)
def test_another_theme_changes_its_line_and_nothing_else(before, after):
    assert with_theme(before, "ivory") == after


@pytest.mark.parametrize(
    "text",
    [
        f'{ZONE}greeting = """\ntheme = "a rose"\n"""\n',
        f'{ZONE}"theme" = "ebony"\n',
        f'{ZONE}[sending]\ntheme = "ebony"\n',
        f'{ZONE}theme = """ebony"""\n',
        "theme =\n",
    ],
)
def test_a_file_whose_theme_stands_in_another_way_is_not_changed(text):
    with pytest.raises(ValueError):
        with_theme(text, "ivory")


def test_the_theme_is_kept_in_the_file_of_its_studio(tmp_path):
    real = tmp_path / "elsewhere.toml"
    real.write_bytes(f'{ZONE}theme = "ebony"\n'.encode())
    real.chmod(0o640)
    studio = tmp_path / "studio"
    studio.mkdir()
    (studio / "settings.toml").symlink_to(real)
    assert keep_theme(studio, "ivory") is None
    assert (studio / "settings.toml").is_symlink()
    assert real.read_text(encoding="utf-8") == f'{ZONE}theme = "ivory"\n'
    assert real.stat().st_mode & 0o777 == 0o640


def test_a_theme_that_cannot_be_kept_is_told(tmp_path):
    path = tmp_path / "settings.toml"
    assert keep_theme(tmp_path, "ivory") == f"{path} was not changed (No such file or directory)."
    path.write_bytes(b'home_zone = "Am\xe9rica"\n')
    assert keep_theme(tmp_path, "ivory") == f"{path} was not changed (its line `theme` was not found)."
    assert path.read_bytes() == b'home_zone = "Am\xe9rica"\n'


def test_an_unknown_key_is_told_with_every_key_that_a_new_file_explains():
    with pytest.raises(BadSettings) as told:
        parsed('colour = "x"')
    plain = re.findall(r"^(\w+) = ", FIRST.split("\n[", 1)[0], re.MULTILINE)
    sections = re.findall(r"^(?:# )?\[{1,2}(\w+)[.\]]", FIRST, re.MULTILINE)
    assert len(plain) > 10
    assert str(told.value) == (
        f"settings.toml, colour: found an unknown key. Use one of {', '.join(sorted({*plain, *sections}))}."
    )


def test_teaching_hours_are_spans_of_weekdays_and_a_day_that_is_not_named_is_not_taught_on():
    teaching = parsed(
        '[teaching]\ntue = "14:00-20:00"\nsat = "1 pm - 3:30 pm, 9:00-12:00, 12:00-13:00"\nsun = ""\n'
    ).preferences.teaching
    assert teaching == TeachingHours(
        days={
            1: (TeachingSpan(begins=time(14), ends=time(20)),),
            5: (TeachingSpan(begins=time(9), ends=time(15, 30)),),
            6: (),
        }
    )
    assert [bool(teaching.on(date(2026, 11, 30) + timedelta(days=n))) for n in range(7)] == [0, 1, 0, 0, 0, 1, 0]
    assert parsed('[teaching]\nfri = "20:00 to 24:00"\n').preferences.teaching.days[4][0].ends == time()
    assert parsed("").preferences.teaching_on(date(2026, 12, 1)) == (TeachingSpan(begins=time(7), ends=time(21)),)


@pytest.mark.parametrize(
    ("line", "found"),
    [
        ('tue = "14:00"', 'teaching, tue: found "14:00". Use hours in quotes, such as "14:00-20:00"'),
        ('tue = "2-8"', 'teaching, tue: found "2-8". Use hours in quotes'),
        ('tue = "20:00-14:00"', 'teaching, tue: found "20:00-14:00", which ends before it begins. Use'),
        ('tue = "9:00-12:00, 11:00-13:00"', "where two spans share time. Use hours in quotes"),
        ('tue = "9:00-24:00, 22:00-23:00"', "where two spans share time. Use hours in quotes"),
        ('tue = "9:00-25:00"', 'teaching, tue: found "9:00-25:00". Use hours in quotes'),
        ("tue = 14", "teaching, tue: found 14. Use words in quotes."),
        (
            'tuesday = "9:00-12:00"',
            "teaching, tuesday: found an unknown key. Use one of mon, tue, wed, thu, fri, sat, sun.",
        ),
    ],
)
def test_teaching_hours_that_cannot_be_read_are_named(line, found):
    with pytest.raises(BadSettings, match=re.escape(found)):
        parsed(f"[teaching]\n{line}\n")


def test_the_parts_of_a_lesson_can_be_shared_out_in_another_way_or_not_shown():
    own = parsed('[pacing]\n45 = "hello 3, Scales and arpeggios 8, piece 30,wrap-up 4"\n')
    assert own.pacing == {**USUAL, 45: (("hello", 3), ("Scales and arpeggios", 8), ("piece", 30), ("wrap-up", 4))}
    assert parsed("pacing = false\n").pacing == {}
    assert parsed("pacing = true\n").pacing == parsed("").pacing == USUAL


@pytest.mark.parametrize(
    ("line", "found"),
    [
        ('45 = "hello 3, piece 30"', "pacing.45: found 33 minutes in all. Use parts that add up to 45."),
        ('45 = "hello, piece 42"', 'pacing.45: found "hello". Use parts and minutes in quotes, such as '),
        ('45 = "3, piece 42"', 'pacing.45: found "3". Use parts and minutes in quotes, such as '),
        ("45 = 3", "pacing.45: found 3. Use parts and minutes in quotes, such as "),
        ('long = "piece 45"', 'pacing.long: found "long" = piece 45. Use parts and minutes in quotes, such as '),
        ('45 = ""', 'pacing.45: found "". Use parts and minutes in quotes, such as '),
    ],
)
def test_parts_of_a_lesson_that_cannot_be_read_are_named(line, found):
    with pytest.raises(BadSettings, match=re.escape(found)):
        parsed(f"[pacing]\n{line}\n")
