"""The scrollbar: a thin line that says where in the whole the seen part lies."""

from hypothesis import given
from hypothesis import strategies as st
from support.screens import on_screen

from cockpit.screens.textual_parts.thin_scrollbar import ThinScrollBar


@given(st.integers(1, 60), st.integers(1, 60), st.integers(1, 4000), st.floats(0, 1))
def test_the_line_lies_in_the_bar_and_touches_its_ends_at_the_ends_alone(size, window, more, part):
    begins, ends = ThinScrollBar.seen(size, window + more, window, part * more)
    assert 0 <= begins < ends <= size
    assert ThinScrollBar.seen(size, window + more, window, 0)[0] == 0
    assert ThinScrollBar.seen(size, window + more, window, more)[1] == size
    assert ThinScrollBar.seen(size, window, window, 0) == (0, 0)


def test_a_list_that_goes_on_has_a_thin_line_at_its_right_end_and_one_that_does_not_has_none(tmp_path):
    async def steps(opened):
        await opened.press("f8")
        assert [line[79:] for line in opened.drawn().splitlines()].count("│") > 3
        assert not any(sign in line[75:] for line in opened.drawn().splitlines()[4:] for sign in "▁▂▃▅▆▇")
        await opened.type("nalani")
        assert "│" not in "".join(line[75:] for line in opened.drawn().splitlines()[2:])

    on_screen(tmp_path, steps, size=(80, 24))
