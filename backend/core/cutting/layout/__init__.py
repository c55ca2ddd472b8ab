"""Layout: strips on cloths as a problem of rows, and the rows found in their places."""
