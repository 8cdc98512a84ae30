"""Inquiries: who asked about lessons, what was promised, and what became of it."""
