"""Bands, sewn along an edge and turned over it."""
