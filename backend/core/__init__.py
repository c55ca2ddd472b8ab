"""The calculations, written once: see README.md for the rules that keep them portable."""
