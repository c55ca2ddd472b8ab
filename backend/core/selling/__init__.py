"""Sell: what a basket comes to, the change, and what the cash box should hold."""
