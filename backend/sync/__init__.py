"""The exchange of changes between phones and the log."""
