"""Lessons, and when they are."""
