"""Phrases, dates and places in a language."""
