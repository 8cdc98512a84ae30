"""Commands and their keys."""
