"""What is said of the lines of a note: what looks like a label and is none."""

from collections.abc import Sequence

from cockpit.studio.clocks.words import listed


def no_label_sentence(words: Sequence[str]) -> str:
    """What she is told of words that look like labels: `'Mum:' is no label: the family will read this line`."""
    sentences = []
    for bare, one, several in ((False, "is no label", "are no labels"), (True, "has no colon", "have no colon")):
        names = [f"'{each}'" for each in words if each.endswith(":") is not bare]
        if names:
            is_one = len(names) == 1
            lines = "this line" if is_one else "these lines"
            sentences.append(f"{listed(names)} {one if is_one else several}: the family will read {lines}.")
    return " ".join(sentences)
