"""The year of an invented maker, made from fixtures and a seed: the same on the server and on the phone."""
