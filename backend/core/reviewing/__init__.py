"""What a day at a market came to: the report, the cash boxes, the days."""
