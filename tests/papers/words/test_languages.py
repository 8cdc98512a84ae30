"""A family's papers in its language: nothing English is left in them, dates are the CLDR's, and English stays as it was.

The translations are from memory, in the words of music teaching; no source stands behind a phrase. The names of days
and months below are written from memory too, and held against those that Babel has of the Unicode CLDR. Orders, commas,
dots and cities are those of Babel 2.17, 2.18 and 2.19; a later release that writes one of them otherwise is looked at, and
then named here.
"""

import re
import subprocess
import sys
from ast import Call, Constant, parse, walk
from datetime import date, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.examples import examples
from support.golden import assert_golden
from support.pages import Shown
from support.papers import paper, planned
from support.phrases import (
    CAUTION,
    ENGLISH,
    FILES,
    IN_ENGLISH,
    NO_PHRASES,
    OTHERS,
    ROOT,
    SPOKEN,
    english_left,
    phrases_in,
)
from support.plans import LINES, RULES, WEEKS
from support.studio import ISHAAN, booking, home

from cockpit.papers.notes.page import practice_notes_page
from cockpit.papers.notes.plan import days_words
from cockpit.papers.notes.text import practice_notes_markdown, practice_notes_text
from cockpit.papers.words.dates import city, clock_time, long_date, short_date, short_dates
from cockpit.papers.words.phrases import places, read_phrases
from cockpit.printing.phrase_files import phrases_of
from cockpit.studio.notes.notes import Area, FamilyNotes, Line, NoteLine
from cockpit.studio.people.people import PlanForm
from cockpit.studio.practice.notes import PracticeNotes
from cockpit.studio.practice.plan import week_plan
from cockpit.studio.values import replace

STYLE = "p { margin: 0; }\n"
LONG = """\
Warm-up: long tones, 3 min
Scales: D major 2 oct, q = 60 to 72, 5 min
Piece: Bourrée, mm. 1-32, q = 72 to 96, HS before HT, in turns
Piece: Minuet in 3/4, mm. 1-8, q. = 60, in turns
Method book: pp. 12-13
Sight-reading: one new line, Mon Wed Fri
Theory: page 7, Sun only
Get: new strings (A, D), book 2
The left hand is much freer now.
"""


def full_paper(hours: int = 24) -> PracticeNotes:
    """A paper that has everything: a plan of all kinds of days, remarks, days without a lesson across a new year."""
    notes = planned(LONG, practice_days=frozenset({0, 1, 2, 3, 5}))
    return replace(notes, hours=hours, none_on=(date(2026, 12, 3), date(2027, 1, 1)), none_until=date(2027, 1, 5))


def test_there_are_four_languages_to_begin_with():
    assert sorted(FILES) == ["de", "en", "es", "fr"]


def test_every_file_has_the_same_phrases_with_the_same_words_to_fill_in():
    found = {
        language: {key: sorted(places(phrase)) for key, phrase in read_phrases(text).items()}
        for language, text in FILES.items()
    }
    for language in OTHERS:
        assert found[language] == found["en"]


def test_a_program_without_its_english_phrases_still_makes_a_whole_paper():
    notes = full_paper()
    text = practice_notes_text(notes, NO_PHRASES)
    shown = Shown(practice_notes_page(notes, STYLE, NO_PHRASES))
    for line in notes.notes.assignments:
        assert line.text in text
        assert any(line.text in words for _, words in shown.blocks)
    assert text.startswith("title, Ilse\nWhen, Tuesday, December 1, 2026, time 24, 15:02, Phoenix\n")


def test_the_caution_of_every_language_says_to_stop_and_whom_to_ask():
    assert "Stop if it hurts" in CAUTION
    assert "licensed clinician" in CAUTION
    assert all(len(read_phrases(text)["notes.caution"]) > 100 for text in FILES.values())


def test_every_phrase_that_is_asked_for_is_there():
    asked = set()
    for path in (*(ROOT / "cockpit" / "papers").rglob("*.py"), ROOT / "cockpit" / "printing" / "printing.py"):
        for node in walk(parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, Call) and getattr(node.func, "attr", "") == "say" and node.args:
                asked |= {each.value for each in walk(node.args[0]) if isinstance(each, Constant)}
    whole = {key for key in asked if isinstance(key, str) and re.fullmatch(r"[a-z]+\.\w+", key)}
    assert len(whole) > 30
    assert whole <= set(ENGLISH)
    assert {f"areas.{area}" for area in (*Area, Line.ASSIGNMENT)} <= set(ENGLISH)


@pytest.mark.parametrize("language", OTHERS)
def test_no_phrase_is_left_out_or_left_in_english_by_mistake(language):
    # Written alike in both, or a form without words.
    alike = {
        "de": {"chart.again", "chart.times", "notes.label", "dates.first_of_month", "dates.time_12", "tempo.beat", "mail.subject",
               "recital.for", "recital.online", "recital.link", "recital.day_in"},
        "es": {"chart.again", "chart.times", "notes.label", "words.minutes_short", "dates.first_of_month", "dates.time_12", "dates.time_24", "tempo.beat",
               "clocks.old", "mail.subject", "recital.for", "recital.calendar", "recital.calendar_file"},
        "fr": {"chart.again", "chart.times", "chart.minutes", "words.minutes_one", "words.minutes_other", "dates.time_12", "dates.time_24", "areas.technique", "areas.improvisation", "tempo.beat",
               "clocks.old", "mail.subject", "recital.costume"},
    }  # fmt: skip
    # The parts of a beat are said with the same signs and syllables; chord symbols are international.
    counted = {
        "counting.half",
        "counting.quarter",
        "counting.compound_third",
        "counting.compound_two_thirds",
        "theory.triad_major",
    }
    alike["de"] |= counted | {
        "theory.then",
        "theory.with",
        "theory.triad_minor",
        "theory.triad_diminished",
        "theory.triad_augmented",
        "theory.octave_of_440",
    }
    alike["de"] |= {f"note_names.{letter}" for letter in "acdefg"}
    alike["es"] |= counted | {"counting.three_quarters", "theory.with", "theory.octave_of_440"}
    alike["fr"] |= counted | {"counting.three_quarters", "theory.interval_8"}
    own, english = read_phrases(FILES[language]), read_phrases(FILES["en"])
    assert {key for key, phrase in own.items() if phrase == english[key]} == alike[language]


@pytest.mark.parametrize("form", ["md", "html", "txt"])
@pytest.mark.parametrize("language", OTHERS)
def test_a_full_paper_is_the_golden_one_in_every_form(language, form):
    notes, phrases = full_paper(12 if language == "es" else 24), SPOKEN[language]
    forms = {
        "md": practice_notes_markdown(notes, phrases),
        "html": practice_notes_page(notes, STYLE, phrases),
        "txt": practice_notes_text(notes, phrases),
    }
    assert_golden(forms[form], f"language-{language}.{form}")


@pytest.mark.parametrize("language", OTHERS)
def test_the_page_says_its_language(language):
    assert f'<html lang="{language}">' in practice_notes_page(full_paper(), STYLE, SPOKEN[language])
    assert '<html lang="en">' in practice_notes_page(full_paper(), STYLE, IN_ENGLISH)


# Nothing English is left

# Made-up words stand for what a teacher types, so that every other word on the paper is the program's.
TYPED = "Qqq"


@st.composite
def papers(draw: st.DrawFn) -> PracticeNotes:
    """Papers of any week, in which nothing is typed but made-up words."""
    lines = [replace(each, text=draw(st.sampled_from([TYPED, f"{TYPED} 3/4", TYPED * 15]))) for each in draw(LINES)]
    given_out = tuple(NoteLine(line=Line.ASSIGNMENT, text=TYPED, typed=TYPED, area=each.area) for each in lines)
    at = datetime(2026, 1, 1, 3, 5) + timedelta(minutes=draw(st.integers(0, 525_000)))
    hours = draw(st.sampled_from([12, 24]))
    return replace(
        paper(""),
        student=TYPED,
        instrument=draw(st.none() | st.just(TYPED)),
        minutes=draw(st.integers(1, 90)),
        taught_at=at,
        hours=hours,
        notes=FamilyNotes(assignments=given_out, remarks=(TYPED,)),
        next_at=draw(st.none() | st.just(home("2026-12-08 16:00"))),
        none_on=tuple(at.date() + timedelta(days=each) for each in draw(st.lists(st.integers(1, 300), max_size=3))),
        plan=week_plan(lines, draw(WEEKS), draw(RULES)),
    )


@examples(25, long=150)
@given(papers(), st.sampled_from(OTHERS))
def test_no_placeholder_and_no_english_word_of_ours_is_left(notes, language):
    text = practice_notes_text(notes, SPOKEN[language])
    assert not set("{}") & set(text)
    # Spanish and French write 3 p. m. and 3 PM; the latter is German too, by the CLDR.
    said = re.sub(r"\d\u202f[AP]M|\d\u202f[ap]\.\u202fm\.", " ", text).replace("Phoenix", " ").replace("UTC", " ")
    assert english_left(said, language) == set()


def test_an_english_word_that_is_left_is_found():
    assert english_left("Gammes : 5 min, three times", "fr") == {"three", "times"}
    assert english_left("Dienstag 1 December", "de") == {"december"}


@given(papers())
def test_english_papers_say_the_same_with_the_file_and_without(notes):
    assert practice_notes_text(notes, phrases_of("en", None)) == practice_notes_text(notes, IN_ENGLISH)


def test_only_a_paper_in_another_language_loads_babel():
    code = (
        "import sys\nsys.path.insert(0, 'tests')\nfrom cockpit.studio.values import replace\nfrom support.papers import planned\nfrom support.studio import preferences\n"
        "from cockpit.printing.printing import OurPrinter\n"
        "printer, notes = OurPrinter(preferences()), planned()\n"
        "for language in ('en', 'de'):\n"
        "    printer.page(replace(notes, language=language))\n    print('babel' in sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=True)
    assert done.stdout.split() == ["False", "True"]


# Dates: names from memory, patterns as in the Unicode CLDR (common/main/de.xml, es.xml, fr.xml, calendar gregorian)

DAYS = {
    "de": "Montag Dienstag Mittwoch Donnerstag Freitag Samstag Sonntag",
    "es": "lunes martes miércoles jueves viernes sábado domingo",
    "fr": "lundi mardi mercredi jeudi vendredi samedi dimanche",
}
MONTHS = {
    "de": "Januar Februar März April Mai Juni Juli August September Oktober November Dezember",
    "es": "enero febrero marzo abril mayo junio julio agosto septiembre octubre noviembre diciembre",
    "fr": "janvier février mars avril mai juin juillet août septembre octobre novembre décembre",
}
PATTERNS = {
    "de": "{day}, {n}. {month} {year}",
    "es": "{day}, {n} de {month} de {year}",
    "fr": "{day} {n} {month} {year}",
}


@pytest.mark.parametrize("language", OTHERS)
def test_the_days_and_months_of_a_year_are_named_as_in_the_cldr(language):
    days, months = DAYS[language].split(), MONTHS[language].split()
    for on in (date(2026, 1, 2) + timedelta(days=each) for each in range(365)):
        first = language == "fr" and on.day == 1
        said = PATTERNS[language].format(
            day=days[on.weekday()], n="1er" if first else on.day, month=months[on.month - 1], year=on.year
        )
        assert long_date(on, SPOKEN[language]) == said


@pytest.mark.parametrize(("language", "said"), [
    ("de", ["Di., 1. Dezember", "Di. 1. Dezember und Do. 3. Dezember", "Wien", "Phoenix"]),
    ("es", ["mar, 1 de diciembre", "mar 1 de diciembre y jue 3 de diciembre", "Viena", "Phoenix"]),
    ("fr", ["mar. 1er décembre", "mar. 1er décembre et jeu. 3 décembre", "Vienne", "Phoenix"]),
    ("en", ["Tue, December 1", "Tue December 1 and Thu December 3", "Vienna", "Phoenix"]),
])  # fmt: skip
def test_short_dates_lists_of_them_and_cities(language, said):
    phrases, first, third = SPOKEN.get(language, IN_ENGLISH), date(2026, 12, 1), date(2026, 12, 3)
    found = [short_date(first, phrases), short_dates([first, third], phrases)]
    assert [*found, city("Europe/Vienna", phrases), city("America/Phoenix", phrases)] == said


@pytest.mark.parametrize(("language", "said"), [
    ("de", ["3:02\u202fPM", "15:02 Uhr", "09:05 Uhr"]), ("es", ["3:02\u202fp.\u202fm.", "15:02", "9:05"]),
    ("fr", ["3:02\u202fPM", "15:02", "09:05"]), ("en", ["3:02 pm", "15:02", "9:05"]),
])  # fmt: skip
def test_the_clock_is_the_familys_own_of_12_or_24_hours(language, said):
    phrases, at, early = SPOKEN.get(language, IN_ENGLISH), datetime(2026, 12, 1, 15, 2), datetime(2026, 12, 1, 9, 5)
    assert [clock_time(at, 12, phrases), clock_time(at, 24, phrases), clock_time(early, 24, phrases)] == said


@pytest.mark.parametrize(("language", "said"), [
    ("de", ["Mittwoch, 2. Dezember", "Mittwoch 2. bis Freitag 4. und Sonntag 6. Dezember", "Dienstag 29. Dezember bis Freitag 1. Januar"]),
    ("es", ["miércoles, 2 de diciembre", "del miércoles 2 al viernes 4 y domingo 6 de diciembre",
            "del martes 29 de diciembre al viernes 1 de enero"]),
    ("fr", ["mercredi 2 décembre", "du mercredi 2 au vendredi 4 et dimanche 6 décembre", "du mardi 29 décembre au vendredi 1er janvier"]),
])  # fmt: skip
def test_ranges_of_days(language, said):
    days = [[2], [2, 3, 4, 6], [29, 30, 31, 32]]
    first = date(2026, 11, 30)
    assert [days_words([first + timedelta(days=each) for each in some], SPOKEN[language]) for some in days] == said


def test_a_day_on_another_clock_is_the_familys_in_every_language():
    # 16:00 in Chicago in winter is 3:30 of the next day in Kolkata.
    notes = paper(who=booking(ISHAAN, began_at=home("2026-12-01 16:02")))
    # Babel 2.17 and 2.19 spell the city Kalkutta, and 2.18 has no name for it.
    expected = f"Mittwoch, 9. Dezember 2026, 03:30 Uhr, Ortszeit {city('Asia/Kolkata', SPOKEN['de'])} (UTC+05:30)"
    assert expected in practice_notes_text(notes, SPOKEN["de"])


def test_a_language_that_the_cldr_does_not_know_has_english_dates():
    phrases = phrases_in("qqq", {"notes.title": "Hoo {student}"})
    text = practice_notes_text(full_paper(), phrases)
    assert text.startswith("Hoo Ilse\nTuesday, December 1, 2026, 15:02 Phoenix time\n")
    assert text.splitlines()[1:] == practice_notes_text(full_paper(), IN_ENGLISH).splitlines()[1:]


def test_british_english_has_the_day_before_the_month_and_all_else_in_english():
    phrases, first, third = phrases_of("en-GB", None), date(2026, 12, 1), date(2026, 12, 3)
    assert long_date(first, phrases).replace(",", "") == "Tuesday 1 December 2026"  # releases differ in the comma
    assert short_date(first, phrases).replace(",", "") == "Tue 1 December"
    assert short_dates([first, third], phrases) == "Tue 1 December and Thu 3 December"
    assert (
        days_words([first + timedelta(days=each) for each in range(3)], phrases)
        == "Tuesday 1 through Thursday 3 December"
    )
    paper_of_hers = practice_notes_text(full_paper(12), phrases)
    assert "3:02 pm Phoenix time" in paper_of_hers
    assert '<html lang="en-GB">' in practice_notes_page(full_paper(), STYLE, phrases)
    assert phrases.whose("Thomas") == "Thomas's"


# Other languages that a teacher may add: the fields stay in the CLDR's order, and a month of figures stays one.
@pytest.mark.parametrize(
    ("language", "said"), [("ja", "12月1日(火)"), ("it", "mar 1 dicembre"), ("pl", "wt., 1 grudnia")]
)
def test_dates_of_other_languages(language, said):
    assert short_date(date(2026, 12, 1), phrases_in(language)) == said


# Phrases are text like any other

SIGNS = "<b>*x*</b> _y_ `z` # & \\ [a](b)"


def test_signs_in_a_phrase_are_shown_as_they_are():
    by_key = {key: f"{SIGNS}{phrase}" for key, phrase in ENGLISH.items() if key.startswith(("notes.", "plan."))}
    phrases = phrases_in("en", by_key)
    shown = Shown(practice_notes_page(full_paper(), STYLE, phrases))
    assert {"b", "i", "em", "code"} & shown.within == set()
    headings = [text for element, text in shown.blocks if element in {"h1", "h2"}]
    assert headings == [
        SIGNS + ENGLISH[key].format(student="Ilse")
        for key in ("notes.title", "notes.remarks", "notes.assignments", "plan.heading", "notes.to_get")
    ]
    assert shown.blocks[-1] == ("p", SIGNS + ENGLISH["notes.caution"])


def test_what_was_typed_is_never_translated_nor_filled_in():
    notes = planned("Piece: {student} {0} practice plan, 5 min\n{title} {")
    for phrases in (IN_ENGLISH, *SPOKEN.values()):
        text = practice_notes_text(notes, phrases)
        assert "{student} {0} practice plan" in text
        assert "\n  {title} {\n" in text


@pytest.mark.parametrize("every_so_many", [10, pytest.param(1, marks=pytest.mark.long)])
def test_a_teacher_may_bring_in_any_language_of_the_cldr(every_so_many):
    from babel.localedata import locale_identifiers

    every = [each for each in locale_identifiers() if re.fullmatch("[a-z]{2,3}", each)]
    assert len(every) > 200
    for language in every[::every_so_many]:
        lines = practice_notes_text(full_paper(), phrases_in(language)).splitlines()
        assert not set("{}") & set("".join(lines))
        assert lines[0] == "Practice notes for Ilse"


@pytest.mark.parametrize(
    ("language", "said"),
    [
        ("de", ["Takt 41 bis zum Ende", "Viertel = 60 bis 72", "Schule:", "Einsingen:", "Taubheitsgefühl"]),
        ("fr", ["de la mesure 41 à la fin", "noire = 60 à 72", "Consignes de travail pour", "jour de pratique"]),
        ("es", ["desde el compás 41 hasta el final", "negra = 60 a 72", "que no desaparecen", "Calentamiento vocal:"]),
        ("en", ["measure 41 to the end", "quarter = 60 to 72", "Warm-up:", "Method book:"]),
    ],
)
def test_what_each_language_says_in_its_own_way(language, said):
    body = "Scales: D major, q = 60 to 72, 5 min\nPiece: Gavotte, mm. 41 to end\nWarm-up: hum, 2 min\nMethod book: p. 2, Sun\n"
    notes = replace(planned(body, 20, frozenset(range(6))), instrument="Voice")
    text = practice_notes_text(notes, SPOKEN.get(language, IN_ENGLISH))
    for words in said:
        assert words in text
    assert "q = 60" not in text
    chart = practice_notes_page(replace(notes, form=PlanForm.CHART), STYLE, SPOKEN.get(language, IN_ENGLISH))
    assert "♩ = 60" in chart
    assert "q = 60" not in chart


def test_who_plays_has_the_usual_word_for_a_warm_up():
    notes = planned("Warm-up: hum, 2 min")
    assert "Einspielen:" in practice_notes_text(notes, SPOKEN["de"])
    assert "Einspielen:" in practice_notes_text(replace(notes, instrument=None), SPOKEN["de"])
