"""What a plan implies: one typed function for each worked value, kept with its steps and sources."""
