"""Whether an assignment has numbers that were not understood."""

import re

from cockpit.studio.assignments.assignment import Assignment

_NUMBER = re.compile(r"(?<![\w#])\d+(?!\w)")


def has_other_numbers(assignment: Assignment) -> bool:
    """Whether a number of the line was not understood.

    It can be of more measures or of another tempo ("mm. 1-8, then 9-16"), so that those that were understood are not to
    be told, or cut into days, as if they were all.
    """
    return any(
        not any(stretch.begins <= number.start() < stretch.ends for stretch in assignment.stretches)
        for number in _NUMBER.finditer(assignment.text)
    )
