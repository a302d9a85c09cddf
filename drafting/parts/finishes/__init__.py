"""Facings: what finishes an edge from inside."""
