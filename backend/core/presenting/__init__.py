"""Presenting: between what a person types or reads and what the core calculates with."""
