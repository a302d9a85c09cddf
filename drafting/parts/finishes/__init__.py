"""Facings and the fly: what finishes an edge or an opening from inside."""
