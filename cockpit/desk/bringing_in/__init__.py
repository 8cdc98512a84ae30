"""Rosters and calendars brought in."""
