"""Recitals at the desk."""
