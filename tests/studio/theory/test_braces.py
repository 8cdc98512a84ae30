"""Braces in a line: which are read, what is left of the line without them, and that nothing of it takes long."""

from time import process_time

from hypothesis import given
from hypothesis import strategies as st

from cockpit.studio.theory.braces import braced_in, with_answer, without_braces, written_in
from cockpit.studio.theory.reading import Unclear


def read(line: str) -> list[str]:
    return [line[each.begins : each.ends] for each in braced_in(line)]


def test_each_pair_of_braces_is_read_where_it_stands():
    line = "Scales: {D major}, and {chord F#7} then"
    assert read(line) == ["{D major}", "{chord F#7}"]
    bare, found = without_braces(line)
    assert bare == "Scales: D major, and chord F#7 then"
    assert [bare[each.begins : each.ends] for each in found] == ["D major", "chord F#7"]


def test_braces_that_are_never_closed_nested_empty_or_too_long_are_text():
    for line in ("{D major", "D major}", "{{D major}}", "{chord {C}}", "{}", "{  }", f"{{{'D major ' * 1250}}}", "} {"):
        assert braced_in(line) == ()
        assert without_braces(line) == (line, ())
    assert read("{D major} {A {B} {C} major") == ["{D major}"]


def test_what_is_not_understood_stays_as_typed_with_its_braces():
    assert without_braces("Piece: {foo} and {D major}")[0] == "Piece: {foo} and D major"
    for line in ("{\u202eD major}", "{סולם}", "{rhythm 4/4 q q q}"):
        assert without_braces(line) == (line, ())
    assert isinstance(braced_in("{סולם}")[0].meaning, Unclear)


def test_an_answer_that_was_written_out_is_known_again_with_its_words():
    line = f"then {with_answer('B F', 'diminished fifth (6)')}, and {with_answer('D major', 'D E')} and (= so (on"
    assert [line[each.begins : each.ends] for each in written_in(line)] == [
        "B F (= diminished fifth (6))",
        "D major (= D E)",
    ]
    assert all(each.answer is not None for each in written_in(line))
    (other,) = written_in("milk (= white)")
    assert other.answer is None
    assert (other.begins, other.answered_at) == (4, 4)


@given(st.text(alphabet="{}(=) Dd#bAm7majorq/4", max_size=300))
def test_any_written_answers_are_apart_and_in_order(line):
    ends = 0
    for each in written_in(line):
        assert ends <= each.begins <= each.answered_at < each.ends
        assert line[each.answered_at :].startswith(" (= ")
        assert line[each.ends - 1] == ")"
        ends = each.ends


@given(st.text(alphabet="{} DdF#bAm7majorinchkeyrhtqes/4(3).|~שא\u202e♯", max_size=300))
def test_any_line_is_read_and_nothing_but_braces_leaves_it(line):
    bare, found = without_braces(line)
    assert len(bare) == len(line) - 2 * len(found)
    assert bare.replace("{", "").replace("}", "") == line.replace("{", "").replace("}", "")
    for each in braced_in(line):
        assert line[each.begins] == "{"
        assert line[each.ends - 1] == "}"


def test_ten_thousand_signs_take_as_long_as_the_line_is():
    for line in ("{" * 10_000, "{}" * 5_000, "{" * 5_000 + "}" * 5_000, "{D " * 3_000, "{" + "q " * 5_000 + "}"):
        began = process_time()
        braced_in(line)
        assert process_time() - began < 0.2
    for line in (" (= " * 2_500, "D major (= D)" * 800, "a " * 5_000 + "(= " + "(" * 5_000, "D " * 5_000 + " (= D)"):
        began = process_time()
        written_in(line)
        assert process_time() - began < 0.2
    longest = [
        "rhythm 4/4 " + "q " * 94, "chords in " + "a" * 180, "D " + "," * 190, "eb major for " + "a and " * 31, "d major " + "up " * 60,
    ]  # fmt: skip
    for words in longest:
        began = process_time()
        assert braced_in(f"{{{words}}}")
        assert process_time() - began < 0.1
