"""The cell of a roster that says how a student may be shown: `named; recorded until 2027-06-30: "for the audition"; not in pictures`."""

from cockpit.studio.errors import BadInput
from cockpit.studio.people.permissions import PermissionSaid, permissions_cell
from cockpit.studio.roster.values import read_date
from cockpit.studio.typed_times.line_parts import parts_of
from cockpit.studio.typed_times.permission_line import read_permissions


def permissions_in(text: str) -> tuple[PermissionSaid, ...]:
    """What a cell says.

    Raises:
        BadInput: something in it is not understood.
    """
    try:
        said, others = read_permissions(parts_of(text), read_date, is_sure=True)
    except BadInput as fault:
        raise BadInput(str(fault).removesuffix(".")) from fault
    if others:
        raise BadInput('Write what may be, such as "named; recorded until 2027-06-30; not in pictures"')
    return said


def read_permissions_cell(text: str) -> str:
    """The same as the cell that it is kept as."""
    return permissions_cell(permissions_in(text))
