"""How many examples a property is tried on."""

from hypothesis import settings

_LONG = 20


def examples(usual: int) -> settings:
    """This many, and many times as many with `--hypothesis-profile=long`."""
    return settings(max_examples=usual * (_LONG if settings.get_current_profile_name() == "long" else 1))
