"""Mails."""
