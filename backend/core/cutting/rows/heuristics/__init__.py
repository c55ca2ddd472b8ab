"""Heuristics: good rows soon, without a proof."""
