"""What must never be proposed: what is kept from families, and what belongs to another family."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cockpit.studio.completion.completion import ghost
from cockpit.studio.completion.memory import Memory, memory_of
from cockpit.studio.completion.stock import LINES, WORDS

KEPT_BACK = (
    "Private: quibbling zonked grumpy zebra",
    "Private (to her mother): quibbling zonked grumpy zebra",
    "Follow-up: quibbling zonked grumpy zebra",
    "Next time: quibbling zonked grumpy zebra",
    "Private:\nquibbling zonked grumpy zebra",
    "Scales: D major. Private: quibbling zonked grumpy zebra",
    "Private - quibbling zonked grumpy zebra",
    "Private quibbling zonked grumpy zebra",
)
NOBODY = memory_of()
HIDDEN = ("quibbling", "zonked", "grumpy", "zebra")
STOCK = {word.lower() for text in (*LINES, *WORDS) for word in text.replace(":", " ").split()}
ASKED = (
    "",
    "Q",
    "q",
    "quib",
    "z",
    "Piece: ",
    "Scales: D major. ",
    "quibbling ",
    "quibbling zonked ",
    "zonked grumpy ",
    "Pr",
)


def proposals(memory: Memory, *more: str) -> list[str]:
    """What is proposed for lines of many beginnings."""
    asked = (*ASKED, *more)
    return [ghost(memory, above, line) for line in asked for above in ([], ["Scales: D major"], ["Private:"])]


def assert_hidden(found: list[str], words: tuple[str, ...] = HIDDEN) -> None:
    """That none of the words, nor their ends, was proposed."""
    ends = {word[at:] for word in words for at in range(len(word) - 3)}
    assert not [each for each in found for end in ends if end.lower() in each.lower()]


@pytest.mark.parametrize("line", KEPT_BACK)
def test_a_kept_back_line_never_completes_what_the_family_gets(line: str) -> None:
    assert_hidden(proposals(memory_of(bodies=(line, line))))


@pytest.mark.parametrize("line", KEPT_BACK)
def test_a_kept_back_line_of_others_completes_nothing(line: str) -> None:
    memory = memory_of(others=((line, line), (line,), (line,)))
    assert_hidden(
        proposals(memory, "Private: ", "Private: q", "Private: quibbling ", "Next time: z", "Follow-up: quib")
    )


def test_a_kept_back_line_completes_its_like_once_its_label_stands() -> None:
    memory = memory_of(bodies=("Private: zonked by the growth spurt",))
    assert ghost(memory, [], "Private: zon") == "ked by the growth spurt"
    assert ghost(memory, [], "Priv") == "ate: "


def test_the_words_of_one_other_family_are_not_proposed() -> None:
    line = "a wobbly quavery saraband"
    once = memory_of(others=((line, line, line), ("Scales: D major",)))
    assert_hidden(proposals(once, "a wob", "a wobbly ", "quav"), ("wobbly", "quavery", "saraband"))


def test_short_sequences_that_come_with_two_students_are_proposed() -> None:
    memory = memory_of(others=(("use a wobbly bow",), ("not a wobbly bow",)))
    assert ghost(memory, [], "Try a wob").startswith("bly bow")


def test_names_that_the_studio_knows_are_not_proposed_however_often_they_come() -> None:
    line = "play it to odalys fenwright-okafor"
    others = ((line, line), (line,), (line,))
    assert ghost(memory_of(others=others), [], "play it to od").startswith("alys")
    hidden = memory_of(others=others, names=("Odalys", "Fenwright-Okafor"))
    assert_hidden(
        proposals(hidden, "play it to ", "play it to od", "fen", "to odalys "), ("odalys", "fenwright", "okafor")
    )


def test_names_that_nobody_knows_are_not_proposed_either() -> None:
    line = "Duet with Zerlindra on Friday"
    memory = memory_of(others=((line,), (line,), (line,)))
    assert_hidden(proposals(memory, "Duet with ", "Duet with Z", "zerl"), ("Zerlindra",))


NAMES = st.from_regex(r"[BDFGKLMNPRTVZ][aeiou]x[bdfgkl][aeiou]q[a-z]{0,3}", fullmatch=True)
SENTENCES = (
    "{} has to count",
    "Great work with {} today!",
    "Piece: duet with {}, q=60",
    "{}",
    "Private: {} was sick",
    "for {}",
)


@given(
    name=NAMES,
    notes=st.lists(st.lists(st.sampled_from(SENTENCES), min_size=1, max_size=5), min_size=2, max_size=4),
    start=st.sampled_from(("", "Great work with ", "Piece: duet with ", "for ", "Private: ")),
    typed=st.integers(0, 3),
)
def test_no_name_in_the_notes_of_others_is_ever_proposed(
    name: str, notes: list[list[str]], start: str, typed: int
) -> None:
    memory = memory_of(others=[["\n".join(lines).format(*[name] * len(lines))] for lines in notes])
    line = start + name[:typed]
    assert name.lower() not in (line + ghost(memory, [], line)).lower()


@given(
    words=st.lists(st.sampled_from(HIDDEN), min_size=1, max_size=4),
    label=st.sampled_from(("Private", "Follow-up", "Next time")),
)
def test_no_kept_back_word_of_others_is_ever_proposed(words: list[str], label: str) -> None:
    body = f"Scales: D major\n{label}: {' '.join(words)}"
    memory = memory_of(others=((body,), (body,), (body,)))
    assert_hidden(proposals(memory, f"{label}: ", f"{label}: {words[0][:2]}", f"{label}: {words[0]} "))
    assert not STOCK & set(HIDDEN)


NOTES = st.lists(
    st.sampled_from((*SENTENCES[:2], "Scales: D major, q=60", "use the whole bow", "zonked again", "{}")), max_size=5
)
BODIES = st.lists(NOTES.map(lambda lines: "\n".join(lines).replace("{}", "Zerlindra")), max_size=3)
BEGINNINGS = (
    "",
    "Z",
    "z",
    "use ",
    "use the wh",
    "Scales: ",
    "Great work w",
    "Great work with ",
    "zonked ",
    "Private: ",
)


@given(bodies=BODIES)
def test_the_notes_of_one_other_student_alone_change_nothing(bodies: list[str]) -> None:
    assert proposals(memory_of(others=[bodies]), *BEGINNINGS) == proposals(NOBODY, *BEGINNINGS)


@given(bodies=BODIES, kept_back=st.lists(st.sampled_from(KEPT_BACK), min_size=1, max_size=3))
def test_what_is_kept_back_in_the_notes_of_others_changes_nothing(bodies: list[str], kept_back: list[str]) -> None:
    with_it = [f"{body}\n" + "\n".join(line for line in kept_back if not line.startswith("Scales")) for body in bodies]
    memory, expected = memory_of(others=[with_it, with_it]), memory_of(others=[bodies, bodies])
    assert proposals(memory, *BEGINNINGS) == proposals(expected, *BEGINNINGS)


@pytest.mark.parametrize("written", ["josé", "jose", "josé's", "jose’s", "jose\u0301"])
def test_a_name_is_known_without_its_accents_and_endings(written: str) -> None:
    others = ((f"hand it to {written} gently",),) * 3
    assert_hidden(
        proposals(memory_of(others=others, names=("José Ibarra",)), "hand it to ", "jo", "to j"), ("jose", "josé")
    )


def test_a_kept_back_label_is_proposed_without_what_followed_it() -> None:
    memory = memory_of(bodies=("Scales: D major\nNext time: zonked zebra",) * 3)
    assert ghost(memory, ["Scales: D major"], "") == "Next time: "
    assert ghost(memory, ["Scales: D major"], "N") == "ext time: "


def test_words_of_kept_back_lines_are_not_known_in_others() -> None:
    memory = memory_of(bodies=("Private: quibbling zonked\nPrivate: quibbling zonked",) * 4)
    assert_hidden(proposals(memory, "The quib", "Piece: quib", "so zon"))
    assert ghost(memory, [], "Private: so zon").startswith("ked")
