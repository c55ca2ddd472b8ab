"""Make: what is cut, what waits to be sewn, how long a batch takes and in which order."""
