"""Inquiries at the desk."""
