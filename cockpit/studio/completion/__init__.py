"""The rest of a line that is being typed."""
