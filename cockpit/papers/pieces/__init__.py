"""Papers about the pieces of a student."""
