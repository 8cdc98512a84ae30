"""The end of the day."""
