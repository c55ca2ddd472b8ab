"""Numbers: what both runtimes count, round, divide, order and write alike."""
