"""The door: what a person writes is read here, with its units, and every problem is reported at once."""
