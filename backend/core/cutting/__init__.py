"""Cutting: layouts and rolls with nothing wasted, and the proof of it."""
