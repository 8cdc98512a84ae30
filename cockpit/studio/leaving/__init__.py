"""A family that leaves."""
