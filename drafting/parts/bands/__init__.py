"""Bands, elastic and casings, sewn along an edge and turned over it."""
