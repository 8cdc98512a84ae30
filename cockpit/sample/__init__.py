"""A sample studio of our own invention, with some weeks behind it."""
