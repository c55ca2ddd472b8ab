"""Count: what is where, folded from facts, and how far counts and books agree."""
