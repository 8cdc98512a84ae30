"""A near miss of a private label is kept back, and said: in any place of a line, in four languages, one edit away."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cockpit.studio.notes.kept_back import is_kept_back
from cockpit.studio.notes.labels import area_label
from cockpit.studio.notes.notes import Line, for_family, kept_back, no_labels, read_line, read_notes
from cockpit.studio.notes.spelling import folded, is_within_one_edit

SECRET = "parents-separated-7"
NEAR = {
    Line.PRIVATE: [
        "Prviate", "Privat", "Pivate", "Primate", "Privvate", "privste", "Pr1vate", "pri vate", "Priv", "Pvt", "PRV", "Priv note",
        "Note to self", "note to slef", "Notes to self", "NTS", "Internal", "Teacher's note", "Not for parents", "For me only",
        "Confidential", "Confidental", "Private stuff", "Private lesson with mum",
        "Privat", "Vertraulich", "vertaulich", "Nur für mich", "Notiz an mich", "Persönlich", "Nicht für Eltern",
        "Privé", "Privée", "Note privée", "Confidentiel", "Pour moi", "Note pour moi", "Ne pas envoyer",
        "Privado", "Privada", "Nota privada", "Confidencial", "Para mí", "Sólo para mí", "No enviar",
    ],
    Line.FOLLOW_UP: [
        "Follow-up note", "Follow-op", "folow up", "Follow uo", "Followup notes", "TODO", "To do", "to-do", "F/U", "Action item",
        "Nachfassen", "Wiedervorlage", "Zu erledigen", "À faire", "Suivi", "Seguimiento", "Pendiente", "Por hacer",
    ],
    Line.NEXT_TIME: [
        "Nxt time", "Next tiem", "next-tme", "Nextt time", "Nächstes Mal", "Beim nächsten Mal", "Prochaine fois",
        "La prochaine fois", "Próxima vez", "La proxima vez",
    ],
}  # fmt: skip
LABELS = [(label, line) for line, labels in NEAR.items() for label in labels]


AT_THE_BEGINNING = ("{}: ", "{} : ", "- {}: ", "1. {}: ", "**{}:** ", "({}): ", "{} (mum): ", "{} - ", "{}：")
IN_THE_MIDDLE = ("{}. {}: {}", "{} ({}: {})", "{} - {}: {}", "{}, {}: {}")


@pytest.mark.parametrize(("label", "line"), LABELS)
def test_a_near_miss_at_the_beginning_of_a_line_is_kept_back(label: str, line: Line) -> None:
    for form in AT_THE_BEGINNING:
        for spelled in (label, label.upper(), label.lower()):
            body = f"Lovely tone.\n{form.format(spelled)}{SECRET}\nElbow low."
            read = read_notes(body)[1]

            assert (read.line, read.text) == (line, SECRET), body
            assert SECRET not in repr(for_family(body))


_PLAIN_WORDS = [
    "Lovely week", "Scales: D major", "Piece: Gavotte mm. 1-8 q=72", "She was sad", "Élan, bravo", "Etude: no. 3", "Bow: low",
]  # fmt: skip


@pytest.mark.parametrize("label", [label for label, _ in LABELS])
def test_a_near_miss_in_the_middle_of_a_line_is_kept_back(label: str) -> None:
    for form in IN_THE_MIDDLE:
        for before in _PLAIN_WORDS:
            body = form.format(before, label, SECRET)

            assert SECRET not in repr(for_family(body)), body
            assert next(iter(kept_back(body).values())) <= body.index(label) + len(label)


@pytest.mark.parametrize(
    ("typed", "seen"),
    [
        ("Lovely week - Private - {}", "Lovely week"),
        ("Lovely week – privat – {}", "Lovely week"),
        ("Lovely week (private) {}", "Lovely week"),
        ("Lovely week [pvt] {}", "Lovely week"),
        ("Piece: Gavotte next time: {}", "Gavotte"),
        ("Piece: Gavotte prviate: {}", "Gavotte"),
        ("Scales: D major folow up: {}", "D major"),
        ("Piece: Gavotte. Private: one Prviate: {}", "Gavotte."),
        ("great week / priv: {}", "great week /"),
        ("This is private: {}", "This is"),
    ],
)
def test_a_label_between_dashes_brackets_or_words_keeps_back_the_rest(typed: str, seen: str) -> None:
    family = for_family(typed.format(SECRET))

    assert SECRET not in repr(family)
    assert [*family.remarks, *(line.text for line in family.assignments)] == [seen]


@pytest.mark.parametrize(
    "typed",
    [
        "Play it in private: nobody listens", "For next time: learn page 2", "What to do as a follow up: rest",
        "Things to do: slow practice", "Interval: thirds", "Personal best: 80", "Pirate song: slowly", "Gavotte (next time)",
        "Goal for the next time: all of it", "We learn the rest next time", "Internet: send the link",
    ],
)  # fmt: skip
def test_a_sentence_that_only_speaks_of_it_reaches_the_family(typed: str) -> None:
    assert for_family(typed).remarks == (typed,)


@pytest.mark.parametrize(("label", "line"), LABELS)
def test_a_near_miss_is_said_to_be_taken_for_one(label: str, line: Line) -> None:
    read = read_line(f"{label}: x")

    assert read.line is line
    assert read.kept_back_by == label or folded(label).startswith(("private", "followup"))


def test_no_label_of_an_assignment_is_near_one_that_is_kept_back() -> None:
    words = [
        "warm-up",
        "scales",
        "technique",
        "etude",
        "method book",
        "piece",
        "review",
        "theory",
        "ear",
        "sight-reading",
        "listening",
    ]
    assert all(area_label(f"{word}:") and not is_kept_back(word) for word in words)


def distance(one: str, two: str) -> int:
    """Optimal string alignment, by the whole table."""
    table = [
        [max(row, column) if 0 in (row, column) else 0 for column in range(len(two) + 1)] for row in range(len(one) + 1)
    ]
    for row in range(1, len(one) + 1):
        for column in range(1, len(two) + 1):
            best = min(
                table[row - 1][column] + 1,
                table[row][column - 1] + 1,
                table[row - 1][column - 1] + (one[row - 1] != two[column - 1]),
            )
            if row > 1 and column > 1 and one[row - 1] == two[column - 2] and one[row - 2] == two[column - 1]:
                best = min(best, table[row - 2][column - 2] + 1)
            table[row][column] = best
    return table[-1][-1]


@given(st.text("abc", max_size=5), st.text("abc", max_size=5))
def test_within_one_edit_is_a_distance_of_one_by_the_whole_table(one: str, two: str) -> None:
    assert is_within_one_edit(one, two) == (distance(one, two) <= 1)


def one_edit(word: str, kind: int, at: int, letter: str) -> str:
    at %= len(word)
    match kind:
        case 0:
            return word[:at] + word[at + 1 :]
        case 1:
            return word[:at] + letter + word[at:]
        case 2:
            return word[:at] + letter + word[at + 1 :]
        case _:
            return word[:at] + word[at : at + 2][::-1] + word[at + 2 :]


@given(
    st.sampled_from(["Private", "Follow-up", "Next time"]),
    st.integers(0, 3),
    st.integers(0, 20),
    st.characters(categories=["L", "N"]),
    st.sampled_from(_PLAIN_WORDS),
)
def test_one_edit_away_a_secret_never_gets_through(word: str, kind: int, at: int, letter: str, before: str) -> None:
    label = one_edit(word, kind, at, letter)

    for body in (f"{label}: {SECRET}", f"{before}. {label}: {SECRET}", f"{before} ({label}: {SECRET})"):
        assert SECRET not in repr(for_family(body)), body


def test_a_letter_that_is_spelled_with_several_is_one_to_type():
    several = [chr(code) for code in range(0x80, 0x10000) if chr(code).isalpha() and len(folded(chr(code))) > 1]
    assert len(several) > 100
    for letter in several:
        for label in (f"{letter}Private", f"Priv{letter}te", f"Private{letter}"):
            assert is_kept_back(label), label


def test_named_words_and_kept_back_ones_never_overlap() -> None:
    for label, _ in LABELS:
        assert no_labels(f"{label}: {SECRET}") == ()


HURRIED = [
    "Piece for me: {}", "Practice for me: {}", "Homework for me: {}", "Remark for myself: {}",
    "Anmerkung f\xfcr mich: {}", "Devoir pour moi: {}", "Tarea para m\xed: {}", "Next time with Ilse: {}",
    "Next time I see her: {}", "Next time 8 Dec: {}", "Next time, 8 Dec: {}", "Next time 12/8: {}",
    "Note to self about mum: {}", "do not send to parents: {}", "Don't send this line: {}", "Not for mum & dad: {}",
    "not for mum/dad: {}", "not for Mrs Perreault: {}", "not for the family's eyes: {}", "only for my eyes: {}",
    "to do for me: {}", "ne pas envoyer aux parents: {}", "pas pour la m\xe8re: {}", "no enviar a los padres: {}",
    "Note to self, {}", "note to self {}", "For me only. {}", "Don't send, {}", "Next time; {}", "Next time = {}",
    "N\xe4chstes Mal, {}", "Nur f\xfcr mich. {}", "(Next time) {}", "[To do] {}", "**Note to self** {}",
    "Next time \u2015 {}", "Note to self \u2212 {}", "nur f\xfcr mich! - {}", "{} private.", "{} private",
    "{} confidential", "({} private)", "{} (please keep private)", "{} (not for mum)", "{} (don't send)",
    "{} (note to self)", "{} - next time",
    "keep it to yourself: {}", "This stays between you and me: {}", "Keep this to yourself: {}", "just me: {}", "Just us: {}", "eyes only: {}", "my ears only - {}",
    "Between ourselves: {}", "for us only: {}", "keep this secret: {}", "Good lesson. Keep it to yourself: {}", "good lesson, just me: {}", "Piece: Minuet private - {}", "Piece: Minuet pvt {}", "Ilse private - {}",
    "This is private, {}", "Pri\u034fvate: {}", "Pri\ufe00vate: {}", "Note to self \u02d0 {}", "Private:\n\n{}",
    "Next time\n{}", "Note to self\n{}", "Pvt. {}", "Pvt... {}", "nts {}", "Theory (private, mum): {}",
]  # fmt: skip


@pytest.mark.parametrize("typed", HURRIED)
def test_no_private_word_goes_out_in_silence_however_it_is_said(typed):
    body = typed.format(SECRET)
    assert SECRET not in repr(for_family(body)) or no_labels(body), "neither kept back nor named"


@pytest.mark.parametrize(
    ("typed", "seen"),
    [
        ("Good lesson. note for me: {}", "Good lesson."), ("Good lesson. Reminder for me: {}", "Good lesson."),
        ("Good lesson Don't send this: {}", "Good lesson"), ("good lesson, don't send this line: {}", "good lesson,"),
        ("Good lesson. Not for mum and dad: {}", "Good lesson."), ("Schöne Woche. Notiz für mich: {}", "Schöne Woche."),
        ("Bonne semaine. Ne pas envoyer aux parents: {}", "Bonne semaine."), ("Bien hecho. Nota para mí: {}", "Bien hecho."),
        ("Piece: Gavotte. Next time with Ilse: {}", "Gavotte."), ("homework for teacher: {}", None),
        ("Good week. For the teacher: {}", "Good week."), ("Rappel pour moi: {}", None), ("NEXT TIME! - {}", None),
    ],
)  # fmt: skip
def test_behind_a_sign_words_are_read_as_those_that_a_line_begins_with(typed: str, seen: str | None) -> None:
    family = for_family(typed.format(SECRET))

    assert [*family.remarks, *(line.text for line in family.assignments)] == ([seen] if seen else [])


@pytest.mark.parametrize(
    ("typed", "named"),
    [
        ("Piece for next time: {}", "Piece for next time:"), ("Notes for next time: {}", "Notes for next time:"),
        ("Scales for the next time: {}", "Scales for the next time:"), ("P: {}", "P:"), ("Good week. S: {}", "S:"),
        ("Piece: Minuet. Next time {}", "Next time"), ("Piece: Minuet, next time with {}", "next time"),
        ("notes for myself {}", "notes for myself"), ("memo to self {}", "memo to self"), ("Notiz an mich {}", "Notiz an mich"),
        ("pour moi {}", "pour moi"), ("for me {}", "for me"), ("Für mich {}", "Für mich"), ("para mí {}", "para mí"), ("TO DO call {}", "TO DO"),
        ("Do not mention {}", "Do not mention"), ("keep this between us {}", "keep this between"),
        ("good lesson don't send this {}", "don't send"), ("// {}", "//"), ("//{}", "//"), ("# {}", "#"), ("## {}", "##"),
        ("!! {}", "!!"), ("? {}", "?"), ("@{}", "@"), ("% {}", "%"), ("Good lesson // {}", "//"), ("Piece: Minuet // {}", "//"),
        (">> {}", ">>"), ("/* {} */", "/*"), ("<!-- {} -->", "<!--"), ("~ {}", "~"), ("^ {}", "^"), ("{{{}}}", "{"), ("(({}))", "(("),
        ("[[{}]]", "[["), ("§ {}", "§"), ("🤫 {}", "🤫"), ("Good lesson /* {} */", "/*"),
        ("Todo call {}", "Todo"), ("to-do call {}", "to-do"), ("F.U. call {}", "F.U."), ("f. u. {}", "f. u."), ("N.T. {}", "N.T."), ("nt {}", "nt"), ("intern {}", "intern"),
        ("Interne {}", "Interne"), ("(just me) {}", "just me"), ("Lovely week (just me) {}", "just me"), ("[only us] {}", "only us"),
        ("please keep it to yourself {}", "keep it to yourself"), ("This stays here with me: {}", "This stays here with me:"),
        ("Mum - {}", "Mum -"), ("Mom – {}", "Mom –"), ("Dad- {}", "Dad-"), ("Ilse's mum - {}", "Ilse's mum -"), ("Her dad - {}", "Her dad -"),
        ("Parents - {}", "Parents -"), ("Fees - {}", "Fees -"), ("Unpaid – {}", "Unpaid –"), ("Oma - {}", "Oma -"), ("Maman – {}", "Maman –"),
    ],
)  # fmt: skip
def test_what_may_be_hers_alone_is_named(typed: str, named: str) -> None:
    assert no_labels(typed.format(SECRET)) == (named,)


@pytest.mark.parametrize(
    ("typed", "seen"),
    [
        ("Piece: Gavotte m1-8 private: {}", "Gavotte m1-8"), ("Piece: Gavotte m1-8 priv: {}", "Gavotte m1-8"),
        ("Piece: Gavotte mm. 1-16 follow-up: {}", "Gavotte mm. 1-16"), ("Piece: Gavotte q=60-2 next time: {}", "Gavotte q=60-2"),
        ("Piece: Gavotte, 8 private: {}", "Gavotte, 8"), ("Piece: Gavotte 3/4 private: {}", "Gavotte 3/4"),
        ("Piece: Gavotte m. 5. 8 Private: {}", "Gavotte m. 5. 8"), ("Piece: Gavotte part B private: {}", "Gavotte part B"),
        ("Piece: Gavotte A-B private: {}", "Gavotte A-B"), ("Piece: Gavotte, HS m1-8 Next time with Ilse: {}", "Gavotte, HS m1-8"),
        ("Scales: D 60-7 vertraulich: {}", "D 60-7"), ("Etude: no. 5 note to self: {}", "no. 5"), ("Etude: no. 5 privé: {}", "no. 5"),
        ("Scales: D, 2 confidential: {}", "D, 2"), ("Piece: Gavotte m1–8 privado: {}", "Gavotte m1–8"),
        ("Lovely week. A private note: {}", "Lovely week."), ("Piece: Gavotte not for mum: {}", "Gavotte"),
        ("Piece: Gavotte note to self: {}", "Gavotte"), ("Piece: Gavotte m1-8 note to self: {}", "Gavotte m1-8"),
        ("Piece: Gavotte HS for me: {}", "Gavotte HS"), ("Scales: D do not send to parents: {}", "D"),
        ("Piece: Old Mill, Minuet not for mum: {}", "Old Mill, Minuet"), ("Piece: Gavotte for me: {}", "Gavotte"),
        ("Please do not send to parents: {}", "Please"), ("Piece: Gavotte m1-8 homework for me: {}", "Gavotte m1-8 homework"), ("Piece: Gavotte 1. 2 self: {}", "Gavotte 1."),
    ],
)  # fmt: skip
def test_a_number_or_a_letter_of_what_stands_before_is_no_part_of_a_label(typed: str, seen: str) -> None:
    family = for_family(typed.format(SECRET))

    assert [*family.remarks, *(line.text for line in family.assignments)] == [seen]


@pytest.mark.parametrize(
    "typed", ["{}: x", "{}.: x", "Good week, {}.: x", "Piece: Gavotte m1-8 {}.: x", "{}. note: x", "({}.: x)"]
)
@pytest.mark.parametrize(
    "label",
    ["Vertr", "vertr", "Vertraul", "Priv", "Conf", "confid", "Pers", "Persönl", "Pvt", "prv", "Strictly conf", "Streng vertr", "Str. vertr",
     "Privately", "Confidentially", "Vertraulicher", "confidentiellement", "confidencialmente", "En privé",
     "In private", "In confidence", "Im Vertrauen", "En confianza", "reservado"],
)  # fmt: skip
def test_a_short_or_a_long_form_of_a_private_label_is_kept_back_and_said(label: str, typed: str) -> None:
    every = read_notes(typed.format(label).replace("x", SECRET))

    assert every[-1].line is Line.PRIVATE
    assert every[-1].text.rstrip(")") == SECRET
    assert every[-1].kept_back_by is not None


@pytest.mark.parametrize(
    "label",
    [
        "Streng privat",
        "Strictly confid.",
        "Very private",
        "strictly between us",
        "Estrictamente privado",
        "Str. vertr.",
    ],
)
def test_how_strictly_a_label_is_meant_is_a_part_of_it(label: str) -> None:
    assert for_family(f"{label}: {SECRET}").is_empty
    assert for_family(f"Lovely week. {label}: {SECRET}").remarks == ("Lovely week.",)


@pytest.mark.parametrize(
    ("typed", "named"),
    [
        ("Played privately at home {}", "privately"), ("Piece: Gavotte m1-8, privately {}", "privately"), ("Privately {}", "Privately"), ("Privately, {}", "Privately"),
        ("Good week, confidentially her mother {}", "confidentially"), ("Lovely (confidentially, {})", "confidentially"),
        ("Gute Woche. Vertraulicher Hinweis {}", "Vertraulicher"), ("confidentiellement {}", "confidentiellement"),
        ("Muy bien, privadamente {}", "privadamente"), ("Vertr. {}", "Vertr"), ("Gute Woche, vertr. {}", "vertr"),
        ("conf. {}", "conf"), ("Persönl. {}", "Persönl"), ("In private, {}", "In private"), ("Good week. In confidence {}", "In confidence"),
        ("Im Vertrauen {}", "Im Vertrauen"), ("En privé, {}", "En privé"), ("In private she {}", "In private"),
        ("she told me privately {}", "privately"), ("Piece: Gavotte pp. 2-3 todo: {}", "todo:"), ("Piece: Gavotte 3x nt: {}", "nt:"), ("Piece: Gavotte m1-8 in private: {}", "private:"), ("Unter vier Augen {}", "Unter vier Augen"),
    ],
)  # fmt: skip
def test_an_inflected_private_word_is_named(typed: str, named: str) -> None:
    assert no_labels(typed.format(SECRET)) == (named,)


@pytest.mark.parametrize(
    "typed",
    ["Play with confidence", "Confident tone today", "She played it with great confidence: bravo", "In time: tap your foot",
     "Personally I love this tempo", "Conference: Tuesday at noon", "Vertical bow"],
)  # fmt: skip
def test_a_word_that_only_begins_like_one_is_said_to_the_family(typed: str) -> None:
    assert for_family(typed).remarks == (typed,)


@pytest.mark.parametrize(
    "typed",
    ["~ 60 bpm", "<3 lovely", "<- see there", "(Bring the stand)", "Great job - the bow arm is low", "Bow arm - low and free", "Lovely - keep on",
     "Bravo – well done", "L.H. alone", "P.S. bring the stand", "N.B. concert on Sunday", "a.m. practice works best", "Mum was a great help",
     "Reminder - recital Friday", "Interesting week", "Keep the bow straight between the bridge and you", "Just me and my shadow went well",
     "Keep a steady beat: count aloud", "Intermezzo sounds lovely", "Personal best at 120",
     "# 5 by Thursday", "#5 slower", "- bow", "* bow", "• bow", "1. bow", "https://a.b/c", "♪ bow", "> bow", "…"],
)  # fmt: skip
def test_a_sign_of_a_list_keeps_nothing_back_and_is_not_asked_about(typed: str) -> None:
    assert no_labels(typed) == ()


@pytest.mark.parametrize(
    "typed",
    ["Private Dancer - Tina Turner", "Private Eyes – trio", "Confidential Blues - by ear", "Private Dancer mm. 1-8"],
)
def test_a_title_behind_a_label_is_played_and_named(typed: str) -> None:
    family = for_family(f"Piece: {typed}")

    assert [line.text for line in family.assignments] == [typed]
    assert no_labels(f"Piece: {typed}") == (typed.split()[0],)


@pytest.mark.parametrize(
    "typed",
    ["Piece: Private - {}", "Piece: Private lesson - {}", "Piece: Private Dancer: {}", "Lovely - Private Lesson - {}"],
)
def test_a_private_word_behind_a_label_is_no_title(typed: str) -> None:
    assert SECRET not in repr(for_family(typed.format(SECRET)))


@pytest.mark.parametrize(
    ("body", "remarks"),
    [
        ("A\n\nPrivate: x\n\nB", ("A", "B")), ("A\n\nPrivate: x\nB", ("A", "B")), ("A\nPrivate:\nx\n\nB", ("A", "B")),
        ("A\nNext time:\n\nx\n\nB", ("A", "B")), ("A\n\nB\nPrivate: x", ("A", "", "B")), ("Private: x\n\nA\n\nB", ("A", "", "B")),
        ("A\n\nPrivate: x\nB\n\nC", ("A", "B", "", "C")), ("A\n\n\nB\n\n", ("A", "", "B")),
    ],
)  # fmt: skip
def test_a_line_that_is_kept_back_leaves_no_gap(body: str, remarks: tuple[str, ...]) -> None:
    assert for_family(body).remarks == remarks


@pytest.mark.parametrize(
    "typed",
    ["Slower next time", "Play it for me slowly", "Piece: Secret Garden mm. 1-8", "Next time we start with the coda",
     "Homework for next time: scales", "Song for mum: Lullaby", "Listening for fun: jazz", "Follow the slurs",
     "Good work today, for the family it was a treat", "To do this well, count", "She took a private lesson"],
)  # fmt: skip
def test_what_is_said_to_the_family_is_neither_kept_back_nor_asked_about(typed):
    assert not no_labels(typed)
    assert not for_family(typed).is_empty


def test_a_label_alone_over_an_empty_line_covers_what_comes_below_that():
    assert SECRET not in repr(for_family(f"Private:\n\n{SECRET}"))
    assert "Lovely" in repr(for_family(f"Private:\n\n{SECRET}\n\nLovely tone"))


@pytest.mark.parametrize(
    "label", ["N.T.", "F.U.", "n.t.s.", "N.T.S.", "f. u.", "P.v.t.", "Notiz f. mich", "1. N.T.", "Piece: Gavotte. F.U."]
)
def test_a_short_form_with_dots_in_it_keeps_its_line_back(label: str) -> None:
    assert SECRET not in repr(for_family(f"{label}: {SECRET}"))


@pytest.mark.parametrize(
    "braced", ["{D major}", "{rhythm 4/4 q e e h}", "{B F}", "{F#7}", "{major sixth above Eb}", "{key Ab}"]
)
def test_theory_in_braces_is_no_try_to_keep_words_back_and_prose_is(braced):
    assert read_line(braced).no_label is None
    assert read_line("{He was tired}").no_label == "{"
    assert read_line("{" + f"{SECRET}" + "}").no_label == "{"
