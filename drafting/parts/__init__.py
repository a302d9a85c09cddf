"""Derived pieces: collars, cuffs, facings, bands, linings, drawn to a garment and drawn again whenever it changes."""
