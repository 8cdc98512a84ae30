"""Recitals on the screen."""
