"""Safety: the checklist shown where blades, needles and irons are used."""
