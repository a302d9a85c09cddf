"""Derived pieces: facings and bands, drawn to a garment, and drawn again whenever it changes."""
