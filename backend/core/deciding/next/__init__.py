"""What to sew next: the bench as whole numbers, its bound under prices, plans by filling, the search."""
