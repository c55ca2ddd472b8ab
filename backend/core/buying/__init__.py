"""Buying: how much cloth, which cloth, and what a remnant still gives."""
