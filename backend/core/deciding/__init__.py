"""Decide: which market, how many of each, what to sew next."""
