"""The roster at the desk."""
