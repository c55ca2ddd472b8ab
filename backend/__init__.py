"""Boltfair's server side; start reading at app.py."""
