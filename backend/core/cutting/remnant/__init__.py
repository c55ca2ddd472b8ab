"""Remnant: the most valuable pieces that one remnant gives."""
