"""Students brought in from a file."""
