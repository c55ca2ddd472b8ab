"""Planning: from records to what is to be cut and bought."""
