"""Whole minutes shared by weight, so that they add up exactly."""

from collections.abc import Sequence


def shares(total: int, weights: Sequence[int]) -> tuple[int, ...]:
    """What each weight gets of a total, in whole numbers that add up to it: by the method of largest remainders.

    Of equal remainders the earlier one is rounded up. Where all weights are 0, everyone weighs the same. A total below
    0 shares nothing.
    """
    if not weights or total <= 0:
        return (0,) * len(weights)
    counted = list(weights) if sum(weights) else [1] * len(weights)
    exact = [divmod(total * weight, sum(counted)) for weight in counted]
    by_remainder = sorted(range(len(exact)), key=lambda each: (-exact[each][1], each))
    rounded_up = frozenset(by_remainder[: total - sum(whole for whole, _ in exact)])
    return tuple(whole + (each in rounded_up) for each, (whole, _) in enumerate(exact))
