"""Make: what is cut, and what waits to be sewn."""
