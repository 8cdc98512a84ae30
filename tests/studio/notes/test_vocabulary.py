"""Which words are labels: hers first, then the built-in ones in four languages, then the areas; and what the family reads."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cockpit.studio.assignments.reading import read_assignment
from cockpit.studio.notes import vocabulary
from cockpit.studio.notes.areas import Area, OwnArea
from cockpit.studio.notes.kept_back import is_kept_back
from cockpit.studio.notes.notes import Line, for_family, kept_back, no_labels, read_line, read_notes
from cockpit.studio.notes.spelling import folded
from cockpit.studio.notes.vocabulary import BUILT_IN, Labels, Meaning

WORDS = {
    Area.PIECE: """Repertoire, Repertory, Song, Solo, Tune, Duet, Trio, Concerto, Hymn, Fun piece, Choice, World, Folk, Memory, By heart,
        Stück, Lied, Vortragsstück, Morceau, Pièce, Chanson, Œuvre, Pieza, Obra, Canción, Auswendig, Par cœur, De memoria""",
    Area.SCALES: "Arpeggios, Chords, Tonleitern, Akkorde, Gammes, Arpèges, Escalas, Acordes, Cadences",
    Area.TECHNIQUE: """Technic, Technical work, Exercise, Exercises, Bow hold, Tone, Shifting, Vibrato, Finger work, Technik, Übungen,
        Fingerübungen, Exercices, Técnica, Ejercicios""",
    Area.ETUDE: "Study, Studies, Caprice, Etüde, Étude, Études, Estudio, Estudios",
    Area.METHOD_BOOK: "Lesson book, Book, Method, Lehrbuch, Heft, Méthode, Livre, Método, Libro",
    Area.THEORY: "Theory book, Worksheet, Note reading, Flashcards, Theorie, Arbeitsblatt, Solfège, Teoría, Solfeo",
    Area.RHYTHM: "Rhythm, Clapping, Counting, Rhythmus, Klatschen, Rythme, Ritmo",
    Area.IMPROVISATION: "Improv, Improvise, Composition, Creative, Improvisieren, Improviser, Improvisación",
    Area.REVIEW: "Old friends, Polished, Review piece, Review pieces, Wiederholung, Révision, Repaso",
    Area.EAR: "Ear, Ear training, Gehörbildung, Dictée, Oído",
    Area.SIGHT_READING: "Sight-reading, Blattspiel, Vom Blatt, Déchiffrage, Lectura a primera vista",
    Area.LISTENING: "Listening, Hören, Écoute, Escuchar",
    Area.WARM_UP: "Warm-up, Einspielen, Einsingen, Échauffement, Calentamiento",
    Area.OTHER: "Homework, Assignment, Practice, Hausaufgabe, Devoirs, Tarea",
}
KNOWN = [(word.strip(), area) for area, words in WORDS.items() for word in words.split(",")]


FORMS = (
    "{}:", "{} :", "1. {}:", "2) {}:", "* {}:", "- {}:", "**{}:**", "{} 2:", "{} #2:", "{} no. 2:", "{} (new):", "{} -", "New {}:",
    "Ilse's {}:",
)  # fmt: skip


@pytest.mark.parametrize(("label", "area"), KNOWN)
def test_a_label_is_known_however_it_is_spelled_and_decorated(label: str, area: Area) -> None:
    for form in FORMS:
        for spelled in (label, label.upper(), label.lower()):
            read = read_line(f"{form.format(spelled)} the first line, q=72 to 88 ")

            assert (read.line, read.area, read.text) == (Line.ASSIGNMENT, area, "the first line, q=72 to 88"), read
            assert read.no_label is None


@pytest.mark.parametrize(
    ("label", "area"),
    [
        ("Scales and arpeggios", Area.SCALES), ("Scales & arpeggios", Area.SCALES), ("Theory & ear", Area.THEORY),
        ("Ear and theory", Area.EAR), ("Scales, chords & arpeggios", Area.SCALES), ("Songs/hymns", Area.PIECE),
        ("Tonleitern und Akkorde", Area.SCALES), ("Gammes et arpèges", Area.SCALES), ("Escalas y arpegios", Area.SCALES),
        ("Warm-up + scales", Area.WARM_UP), ("Piece for the recital", Area.PIECE), ("2nd piece", Area.PIECE),
    ],
)  # fmt: skip
def test_of_two_areas_in_one_label_the_first_counts(label: str, area: Area) -> None:
    assert read_line(f"{label}: x").area == area


@pytest.mark.parametrize(
    "label",
    ["Scales and mum", "Sonata", "Mum", "Old", "Piece and", "D major scales", "Interval", "First", "Scale the wall"],
)
def test_a_label_with_a_word_that_is_not_known_is_none(label: str) -> None:
    assert read_line(f"{label}: x").line is Line.REMARK
    assert no_labels(f"{label}: x") == (f"{label}:",)


@pytest.mark.parametrize(
    ("typed", "printed"),
    [
        ("Repertoire: Gavotte", "Repertoire"), ("Piece: Gavotte", None), ("pieces: Gavotte", None), ("Warmups: long tones", None),
        ("1. Piece: Gavotte", None), ("Piece 2: Gavotte", "Piece 2"), ("Etude #5: slowly", "Etude #5"), ("Scales - D", None),
        ("Piece (new): Gavotte", "Piece (new)"), ("New piece: Gavotte", "New piece"), ("Stück: Menuett", "Stück"),
        ("Scales  &  arpeggios: D", "Scales & arpeggios"), ("étude: no. 3", None), ("**Hymn:** Abide", "Hymn"),
    ],
)  # fmt: skip
def test_the_family_reads_her_word_where_it_is_not_just_the_areas_name(typed: str, printed: str | None) -> None:
    assert read_line(typed).own_label == printed


@pytest.mark.parametrize(
    ("typed", "number"),
    [("Etude #5: slowly", "5"), ("Etude 5: slowly", "5"), ("Exercise 12b: slowly", "12b"), ("Lesson book 2: p. 4", "2"),
     ("Piece 2: Gavotte", None), ("Song #2: Gavotte", "2"), ("Etude: no. 7", "7"), ("Etude #5: no. 7", "7")],
)  # fmt: skip
def test_the_number_of_a_label_is_the_number_of_the_thing_unless_it_only_counts(typed: str, number: str | None) -> None:
    assert read_assignment(read_line(typed)).number == number


@pytest.mark.parametrize(
    ("typed", "area"),
    [
        ("Homework: Gavotte mm. 1-8", Area.PIECE), ("Homework: p. 12", Area.OTHER), ("Practice: 20 min", Area.OTHER),
        ("Practice: slow and hands apart", Area.OTHER), ("Hausaufgabe: Menuett in G", Area.PIECE),
    ],
)  # fmt: skip
def test_homework_is_a_piece_where_a_title_follows(typed: str, area: Area) -> None:
    assert read_assignment(read_line(typed)).area == area


WORLD = OwnArea(name="world music", is_titled=True)
HERS = Labels(
    own={"hymn": Meaning(Area.REVIEW), "goal": Meaning(None), "worldmusic": Meaning(WORLD), "samba": Meaning(WORLD)}
)


def test_her_own_labels_come_first() -> None:
    body = "Hymn: Abide\nHymns: Amazing\nGoal: calm\nSamba: Rio mm. 1-8\nPiece: Gavotte"
    lines = read_notes(body, HERS)

    assert [(line.line, line.area) for line in lines] == [
        (Line.ASSIGNMENT, Area.REVIEW), (Line.ASSIGNMENT, Area.REVIEW), (Line.REMARK, None), (Line.ASSIGNMENT, WORLD),
        (Line.ASSIGNMENT, Area.PIECE),
    ]  # fmt: skip
    assert no_labels(body, HERS) == ()
    assert read_assignment(lines[3]).title == "Rio"


def test_built_in_words_are_of_one_area_each_and_near_nothing_that_is_kept_back() -> None:
    seen: dict[str, Area | None] = {}
    for area, words in vocabulary._BUILT_IN.items():
        for word in vocabulary._ones(words):
            assert seen.setdefault(word, area) == area, word
    assert not [word for word in seen if is_kept_back(word)]


_MEANINGS = st.sampled_from([*(Meaning(area) for area in Area), Meaning(WORLD), Meaning(None)])
_KEPT = [
    "Private",
    "Prviate",
    "Follow-up",
    "Next time",
    "Priv",
    "TODO",
    "Vertraulich",
    "Note to self",
    "Privé",
    "Internal",
]
_labels = st.dictionaries(
    st.one_of(st.sampled_from(list(map(folded, _KEPT))), st.text("privatfolwuenx", min_size=1)), _MEANINGS
)


@given(
    _labels,
    st.sampled_from(_KEPT),
    st.sampled_from(["{}: {}", "Scales: D. {}: {}", "- {} : {}", "{}:\n{}", "Lovely ({}: {})"]),
)
def test_no_entry_of_hers_can_make_a_line_visible_that_is_kept_back(
    own: dict[str, Meaning], label: str, form: str
) -> None:
    body, hers = form.format(label, "parents-separated-7"), Labels(own=own)

    assert "parents-separated-7" not in repr(for_family(body, hers))
    assert kept_back(body)
    kept = {Line.PRIVATE, Line.FOLLOW_UP, Line.NEXT_TIME}
    assert [line.line for line in read_notes(body, hers) if line.line in kept] == [
        line.line for line in read_notes(body) if line.line in kept
    ]


@given(
    st.lists(st.sampled_from([label for label, _ in KNOWN] + _KEPT + ["Mum", "Goal", "x"]), max_size=3),
    st.text(max_size=20),
)
def test_the_label_and_the_text_together_make_the_line(labels: list[str], rest: str) -> None:
    typed = " and ".join(labels) + ": " + " ".join(rest.split())
    for line in read_notes(typed, BUILT_IN):
        words = f"{line.label or ''} {line.text}" if line.line is not Line.REMARK else line.text
        assert sorted(folded(line.typed)) == sorted(folded(words))
