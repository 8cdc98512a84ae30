"""Typed lines that say when something is."""
