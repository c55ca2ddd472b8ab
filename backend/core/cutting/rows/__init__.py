"""Rows: the least cost of rows that hold all pieces, by branch and price."""
