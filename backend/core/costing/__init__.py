"""Costing: what one piece costs, its price, and whether a day or an offer pays."""
