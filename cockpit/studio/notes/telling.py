"""What is said of the lines of a note: what looks like a label and is none."""

from collections.abc import Sequence

from cockpit.studio.clocks.words import listed

_MOST_NAMED = 2


def no_label_sentence(words: Sequence[str]) -> str:
    """What she is told of words that look like labels: `'Mum:' is no label: the family will read this line`.

    Of many the first two are named, those without a colon first, so that the sentence is read whole.
    """
    if len(words) > _MOST_NAMED:
        bare_first = sorted(words, key=lambda each: each.endswith(":"))
        named = ", ".join(f"'{each}'" for each in bare_first[:_MOST_NAMED])
        return f"{named}, and {len(words) - _MOST_NAMED} more are no labels: the family will read these lines."
    sentences = []
    for bare, one, several in ((False, "is no label", "are no labels"), (True, "has no colon", "have no colon")):
        names = [f"'{each}'" for each in words if each.endswith(":") is not bare]
        if names:
            is_one = len(names) == 1
            lines = "this line" if is_one else "these lines"
            sentences.append(f"{listed(names)} {one if is_one else several}: the family will read {lines}.")
    return " ".join(sentences)
