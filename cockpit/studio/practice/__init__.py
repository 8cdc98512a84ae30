"""The plan of a week of practice."""
