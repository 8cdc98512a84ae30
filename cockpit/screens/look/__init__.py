"""Themes and styles."""
