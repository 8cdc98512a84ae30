"""Inquiries on the screen."""
