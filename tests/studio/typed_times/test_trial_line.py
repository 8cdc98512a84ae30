"""Trial lessons out of a typed line; common practice, no source.

It is Tuesday 1 December 2026, 10:00 in Chicago.
"""

import re
import unicodedata
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.studio import BRANDVOLD, HOME, ILSE, OKONJO, TEODOR, family, home, student

from cockpit.studio.errors import BadInput
from cockpit.studio.people.people import FamilyId, StudentId
from cockpit.studio.typed_times.studio_names import StudioNames
from cockpit.studio.typed_times.trial_line import TrialLine, read_trial
from cockpit.studio.typed_times.when import Reference

REFERENCE = Reference(now=home("2026-12-01 10:00"), around=date(2026, 12, 1), home_zone=HOME)
BERG = family(id=FamilyId(9), name="Berg")
LONDON = family(id=FamilyId(12), name="London", zone="Europe/London")
FAMILIES = [BRANDVOLD, OKONJO, BERG, LONDON]
STUDENTS = [
    *(ILSE, TEODOR, student(id=StudentId(9), family_id=BERG.id, name="Ada")),
    *(student(id=StudentId(n), family_id=f.id, name="Nora") for n, f in ((11, BERG), (12, LONDON))),
]


def read(text: str) -> TrialLine:
    return read_trial(text, StudioNames(FAMILIES, STUDENTS), REFERENCE)


def refusal(text: str) -> str:
    with pytest.raises(BadInput) as refused:
        read(text)
    return str(refused.value)


@pytest.mark.parametrize(
    ("line", "name", "at"),
    [
        ("tim mayer thu 4pm", "Tim Mayer", "2026-12-03 16:00"), ("Jack London fri 5pm", "Jack London", "2026-12-04 17:00"),
        ("Otto Berg thu 4pm", "Otto Berg", "2026-12-03 16:00"), ("sydney thu 4pm", "Sydney", "2026-12-03 16:00"),
        ("sun li thu 4pm", "Sun Li", "2026-12-03 16:00"), ("may 3 dec 4pm", "May", "2026-12-03 16:00"),
        ("wednesday addams thu 4pm", "Wednesday Addams", "2026-12-03 16:00"), ("thu 4pm tim mayer", "Tim Mayer", "2026-12-03 16:00"),
        ("thu tim mayer 4pm", "Tim Mayer", "2026-12-03 16:00"), ("tomorrow tim 5pm", "Tim", "2026-12-02 17:00"),
        ("thu 4pm for tim mayer", "Tim Mayer", "2026-12-03 16:00"), ("trial for tim mayer thu 4pm", "Tim Mayer", "2026-12-03 16:00"),
        ("trial: tim mayer thu 4pm", "Tim Mayer", "2026-12-03 16:00"), ("tim mayer trial thu 4pm", "Tim Mayer", "2026-12-03 16:00"),
        ("tim mayer's trial fri 4:30", "Tim Mayer", "2026-12-04 16:30"), ("new student tim fri 4:30", "Tim", "2026-12-04 16:30"),
        ("Zoë O'Brien-Smith 4.12. 17:00", "Zoë O'Brien-Smith", "2026-12-04 17:00"), ("J.P. Morris sat 9:30am", "J.P. Morris", "2026-12-05 09:30"),
        ("Ana María de la Cruz sat 10am", "Ana María de la Cruz", "2026-12-05 10:00"), ("tim today 4pm", "Tim", "2026-12-01 16:00"),
        ("tim mayer thu 4pm!!", "Tim Mayer", "2026-12-03 16:00"), ("viola stone thu 4pm", "Viola Stone", "2026-12-03 16:00"),
        ("John Bass thu 4pm", "John Bass", "2026-12-03 16:00"), ("tim mayer freitag 17:00", "Tim Mayer", "2026-12-04 17:00"),
        ("Mo Said thu 4pm", "Mo Said", "2026-12-03 16:00"), ("June thu 4pm", "June", "2026-12-03 16:00"), ("April Stone 3. Dez 16 Uhr", "April Stone", "2026-12-03 16:00"),
        ("thu 4pm for June Stone", "June Stone", "2026-12-03 16:00"),
    ],
)  # fmt: skip
def test_a_name_stands_before_the_moment_behind_it_or_in_it(line, name, at):
    found = read(line)
    assert (found.name, found.when.starts_at, found.when.zone, found.student) == (name, home(at), HOME, None)


@pytest.mark.parametrize(
    ("line", "zone"),
    [
        ("tim thu 4pm phoenix", "America/Phoenix"), ("tim thu 4 new york time", "America/New_York"),
        ("tim thu at 4 in boston", "America/New_York"), ("sat 10am, tim, phoenix", "America/Phoenix"),
        ("tim mayer thu 4pm okonjo", "Europe/London"), ("thu 4pm phoenix time tim mayer", "America/Phoenix"),
    ],
)  # fmt: skip
def test_a_place_or_a_family_is_one_after_the_time(line, zone):
    assert read(line).when.zone == zone


@pytest.mark.parametrize(
    ("line", "instrument"),
    [
        ("tim mayer cello thu 4pm", "cello"), ("tim mayer thu 4pm viola", "viola"), ("thu 4pm for tim mayer, piano", "piano"),
        ("tim mayer on the flute thu 4pm", "flute"), ("tim mayer thu 4pm", None), ("tim mayer electric guitar thu 4pm", "electric guitar"),
        ("tim mayer bass clarinet thu 4pm", "bass clarinet"), ("thu 4pm tim mayer, alto sax", "alto sax"), ("tim mayer bass guitar thu 4pm", "bass guitar"),
        ("tim mayer jazz piano thu 4pm", "jazz piano"), ("Tim Mayer Geige Do 16 Uhr", "geige"), ("Probestunde Tim Mayer, Klavier, Do 16 Uhr", "klavier"),
        ("Probestunde für Tim Mayer Do 16 Uhr", None), ("Tim Mayer violon jeu 16h", "violon"), ("Tim Mayer violín jue 4pm", "violín"),
        ("Tim Mayer Violon jeudi 16h", "violon"), ("Tim Mayer jeudi à 16h, flûte à bec", "flûte à bec"), ("tim mayer violino thu 4pm", "violino"),
        ("tim mayer violonchelo jue 16h", "violonchelo"), ("tim mayer contrebasse jeu 16h", "contrebasse"), ("Tim Mayer jeu 16h chant", "chant"),
        ("Tim Mayer Querflote Do 16 Uhr", "querflote"),
    ],
)  # fmt: skip
def test_an_instrument_is_understood(line, instrument):
    found = read(line)
    assert (found.name, found.instrument) == ("Tim Mayer", instrument)


@pytest.mark.parametrize(
    ("line", "lines"),
    [
        ("thu 4pm jack london", ["jack london thu 4pm", "jack thu 4pm london"]),
        ("sat 10am phoenix tim", ["phoenix tim sat 10am", "tim sat 10am phoenix"]),
        ("thu 4pm otto berg", ["otto berg thu 4pm", "otto thu 4pm berg"]),
        ("tim mayer viola thu 4pm", ["Tim Mayer Viola thu 4pm", "tim mayer thu 4pm viola"]),
        ("nora thu 4pm", ["Nora, family Berg thu 4pm", "Nora, family London thu 4pm"]),
        ("tim mayer 4pm", ["tim mayer today 4pm"]), ("lea chant jeu 16h", ["Lea Chant jeu 16h", "lea jeu 16h chant"]),
        ("thu 4pm phoenix, tim", ["tim thu 4pm phoenix"]), ("thu 4pm Paris, Texas", ["Texas thu 4pm Paris"]),
    ],
)  # fmt: skip
def test_what_could_be_two_things_is_refused_with_lines_that_work(line, lines):
    said = refusal(line)
    for each in lines:
        assert f'"{each}"' in said
        assert read(each)


@pytest.mark.parametrize(
    ("line", "word"),
    [
        ("tim mayer 10 yrs thu 4pm", "yrs"), ("tim mayer thu 4pm 10 years", "years"), ("tim mayer (10) thu 4pm", "10"),
        ("tim mayer age 10 thu 4pm", "age"), ("tim@mayer.org thu 4pm", "tim@mayer.org"), ("tim 555-1234 thu 4pm", "555-1234"),
        ("tim and tom thu 4pm", "and"), ("tim mayer wants thu 4pm", "wants"), ("tim from boston thu 4pm", "from"),
        ("tim, boston, thu 4pm", "boston"), ("tim mayer (mom sara) thu 4pm", "mom"), ("tim thu 4pm, zoom", "zoom"),
        ("tim mon or tue 4pm", "or"), ("tim mayer freitga 17:00", "freitga"), ("nora dec thu 4pm", "dec"), ("hi can tim come thu 4pm", "hi"), ("Thu 4pm Portland, Oregon, Kim", "Oregon"), ("thu 4pm kim, sam", "sam"), ("Nora Tue thu 4pm", "tue"), ("thu 4pm dec", "dec"),
        ("thu 4pm nora noon", "noon"), ("nora thrusday dec 3 4pm", "thrusday"), ("nora seven thu 4pm", "seven"),
        ("nora half past thu 4pm", "half"), ("nora month thu 4pm", "month"), ("nora maybe thu 4pm", "maybe"), ("nora probably thu 4pm", "probably"),
        ("tim piano and voice thu 4pm", "and"), ("Luis guitarra española thu 4pm", "española"), ("Lea février jeu 16h", "février"), ("Lea lundi jeu 16h", "lundi"),
        ("Marco violino gio 16:00", "gio"),
        ("tim thu 4pm except berg", "except"), ("tim thu 4pm, mother sara", "mother"), ("Mayer, Tim thu 4pm", "Tim"),
        ("tim (berg) thu 4pm", "berg"), ("move tim mayer thu 4pm", "move"), ("tim mayer moved thu 4pm", "moved"), ("tim (mayer) thu 4pm", "mayer"),
    ],
)  # fmt: skip
def test_what_is_no_name_is_named_and_never_a_surname(line, word):
    assert f'"{word}"' in refusal(line)


@pytest.mark.parametrize(
    "line",
    [
        "Dec 21 - Jan 3", "Thu 4pm for Nov 24", "Dec 21, 23", "mar 3 thu 4pm", "sun thu 4pm", "thu 4pm Paris, Texas", "dec thu 4pm", "tue nora thu 4pm",
        "nora thu 4pm?", "thu 4pm nora?", "may 21 - jan 3", "Dez 21 17 Uhr", "Di thu 4pm", "december 4pm thu", "noon thu 4pm", "thu 4pm Dezember",
        "thu 4pm seven", "Thu 4pm for Fri 5pm", "may ,", "nora may for", "Dienstag Do 17 Uhr",
    ],
)  # fmt: skip
def test_a_month_a_weekday_and_a_clock_word_are_nobody(line):
    assert refusal(line)


@pytest.mark.parametrize(
    ("line", "last"),
    [
        ("Otto Facetime thu 4pm", "Facetime"), ("otto facetime thu 4pm", "Facetime"), ("Otto London UK thu 4pm", "UK"), ("Otto thu 4pm", ""),
        ("Ana María de la Cruz thu 4pm", "de la Cruz"), ("Mary Ann Stone thu 4pm", "Stone"), ("Ludwig van Beek thu 4pm", "van Beek"),
        ("Sam Stone Jr. thu 4pm", "Stone Jr."), ("van Beek thu 4pm", "Beek"),
    ],
)  # fmt: skip
def test_the_last_name_is_told_apart(line, last):
    assert read(line).last_name == last


@pytest.mark.parametrize(
    ("line", "word"),
    [
        ("Otto facetime thu 4pm", "facetime"), ("Otto prospective thu 4pm", "prospective"), ("Tim mayer thu 4pm", "mayer"), ("Otto Stone new-ish thu 4pm", "new-ish"),
        ("Otto London UK thu 4pm", "UK"), ("Otto TX thu 4pm", "TX"), ("thu 4pm for Otto zzyzx", "zzyzx"),
        ("Otto mnoday thu 4pm", "mnoday"), ("otto mnoday thu 4pm", "mnoday"), ("Otto Tuseday thu 4pm", "Tuseday"), ("Otto Marsh thu 4pm", "Marsh"),
        ("otto beginer thu 4pm", "beginer"), ("Otto Tomorow thu 4pm", "Tomorow"), ("otto ukelele thu 4pm", "ukelele"), ("otto stone evning thu 4pm", "evning"),
        ("Otto March thu 4pm", "March"), ("thu 4pm for Otto March", "March"), ("Nora December dec 3 4pm", "December"),
    ],
)  # fmt: skip
def test_a_word_that_may_be_no_name_is_asked_about(line, word):
    try:
        asks = read(line).asks
    except BadInput as refused:
        asks = (str(refused),)
    assert asks[0].startswith((f'"{word}" is read as part of the name', f'"{word}" is not part of a name.'))


@pytest.mark.parametrize(
    "line",
    [
        "tim mayer thu 4pm", "Tim Mayer thu 4pm", "TIM MAYER thu 4pm", "Tim Mayer-Stone thu 4pm", "JP Morris thu 4pm", "Otto B thu 4pm",
        "Otto B. Stone thu 4pm", "Ana María de la Cruz thu 4pm", "Ludwig van Beek thu 4pm", "Jean DUPONT thu 4pm", "Tim O'Hara thu 4pm",
        "Julio Stone thu 4pm", "Avril Stone thu 4pm", "Domingo Stone thu 4pm", "Lea Janvier thu 4pm", "Lea Mars thu 4pm", "Lea Harper jeu 16h", "Lea Canto jue 16h",
        "Mai Linh thu 4pm", "Marc Stone thu 4pm", "Tina Frida Stone thu 4pm", "Juli Stone thu 4pm", "June Stone thu 4pm", "April May thu 4pm",
    ],
)  # fmt: skip
def test_an_everyday_name_is_not_asked_about(line):
    assert read(line).asks == ()


def test_a_month_is_a_last_name_where_the_day_stands_elsewhere():
    found = read("Otto March thu 4pm")
    assert (found.name, found.asks) == (
        "Otto March",
        ('"March" is read as part of the name, not as "march". If it is not, take it out.',),
    )
    assert read("Otto March 3 4pm").name == "Otto"
    assert '"march" is not part of a name' in refusal("Otto march thu 4pm")
    assert '"March" is not part of a name' in refusal("March thu 4pm")


@pytest.mark.parametrize(
    ("line", "word", "meant"),
    [
        ("Otto mnoday 4pm", "mnoday", "monday"), ("otto firday 4pm", "firday", "friday"), ("Otto Stone sundya 4pm", "sundya", "sunday"),
        ("otto stone tomorow 4pm", "tomorow", "tomorrow"), ("otto wensday 4pm", "wensday", None),
    ],
)  # fmt: skip
def test_a_day_that_is_misspelled_is_not_added_to_the_name(line, word, meant):
    said = refusal(line)
    assert f'"{word}" is not understood. Did you mean "{meant}"?' in said if meant else "The line has no day." in said


@pytest.mark.parametrize(
    ("line", "title", "works"),
    [
        ("Mrs Berg thu 4pm", "Mrs", "nora, family Berg thu 4pm"), ("Dr. Stone thu 4pm", "Dr.", "nora thu 4pm"),
        ("trial for Frau Berg fri 5pm cello", "Frau", "nora, family Berg fri 5pm cello"), ("thu 4pm for Mr Stone", "Mr", "nora thu 4pm"),
    ],
)  # fmt: skip
def test_a_title_is_nobodys_first_name(line, title, works):
    assert f'"{title}" is a title.' in refusal(line)
    assert refusal(line).endswith(f'such as "{works}".')


def test_a_student_of_the_studio_is_asked_about_and_never_doubled():
    for line in ("ilse thu 4pm", "Ilse Brandvold thu 4pm", "thu 4pm ilse", "nora, family berg thu 4pm"):
        found = read(line)
        assert found.student in STUDENTS
        assert "is already your student" in found.asks[0]


@pytest.mark.parametrize(
    ("line", "known", "then"),
    [
        ("Otto Berg thu 4pm", "The Berg family", "Otto, family Berg thu 4pm"),
        ("Ilsa thu 4pm", "Ilse of the Brandvold family", "Ilse, family Brandvold thu 4pm"),
        ("ilse stone thu 4pm", "Ilse of the Brandvold family", "Ilse, family Brandvold thu 4pm"),
    ],
)
def test_somebody_new_who_is_called_like_one_of_the_studio_is_asked_about(line, known, then):
    found = read(line)
    assert found.student is None
    assert found.asks[0].startswith(f"{known} is already")
    assert f'"{then}"' in found.asks[0]
    assert read(then).family in FAMILIES


def test_somebody_new_can_join_a_family():
    for line in ("tim, family berg thu 4pm", "tim thu 4pm family berg"):
        found = read(line)
        assert (found.name, found.family, found.student, found.asks) == ("Tim", BERG, None, ())
    assert "No family in your studio" in refusal("tim, family stone thu 4pm")


VOCABULARY = """
    tim mayer jack london otto berg sydney ilse phoenix okonjo family thu sun may 4pm 16:00 5 45m 12/3 3 dec tomorrow today
    at for in trial lesson , ; time cello viola violon violín jeudi jue janvier and or with 10 yrs zzyzx @home new same next week morning not 30 min
"""
LINES = st.lists(st.sampled_from(VOCABULARY.split()), min_size=1, max_size=8).map(" ".join)
NAMES = {"tim", "mayer", "jack", "london", "otto", "berg", "sydney", "ilse", "phoenix", "okonjo", "zzyzx"}
NEVER_A_NAME = {"and", "or", "with", "10", "yrs", "@home", "not", "today", "tomorrow", "week", "4pm", "16:00", "trial"}


@given(LINES)
def test_of_a_trial_no_word_is_lost_and_none_becomes_a_name_in_silence(line):
    try:
        found = read(line)
    except BadInput:
        return
    name = found.name.casefold().split()
    assert not NEVER_A_NAME.intersection(name)
    about = {*name, *found.when.zone.casefold().replace("/", " ").split(), found.instrument}
    about |= {found.family.name.casefold()} if found.family is not None else set()
    about |= {"okonjo"} if found.when.zone == "Europe/London" else set()
    about |= {"berg", "brandvold"} if found.when.zone == "America/Phoenix" else set()
    assert {word for word in line.split() if word in NAMES | {"cello", "violon", "violín"}} <= about
    assert not {"and", "or", "yrs", "@home", "not"}.intersection(line.split())


ANY_WORD = st.text(st.characters(categories=["Ll", "Lu"], max_codepoint=0xFF), min_size=1, max_size=9)
ODD_WORD = st.sampled_from(
    ["Otto", "waitlist", "Mrs", "March", "mnoday", "UK", "prospective", "de", "Stone", "beginer"]
)
SMALL = {
    "on",
    "at",
    "the",
    "for",
    "with",
    "a",
    "an",
    "lesson",
    "thu",
    "4pm",
    "trial",
    "intro",
    "taster",
    "sample",
    "class",
}
SMALL |= {"new", "free", "first", "book", "add", "student", "next", "this", "coming"}


@given(st.lists(ANY_WORD | ODD_WORD, min_size=1, max_size=4))
def test_every_word_before_the_day_is_in_the_name_or_the_refusal_names_one_of_the_line(words):
    line = unicodedata.normalize("NFKC", f"{' '.join(words)} thu 4pm")
    try:
        found, said = read(line), ""
    except BadInput as refused:
        found, said = None, str(refused)
    if found is None:
        named = " ".join(re.findall('"([^"]+)"', said)[:1]).casefold()
        assert "no name" in said or set(named.split()) <= set(line.casefold().split())
    else:
        told = f"{found.name} {found.instrument}".casefold()
        assert [word for word in line.casefold().split() if word not in told and word not in SMALL] == []
        assert (found.last_name == "") == (" " not in found.name)
