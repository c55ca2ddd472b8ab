"""Declaring: fields and calculators, their reading, and what is wrong as data."""
