"""Textual: keys in, screens out."""
