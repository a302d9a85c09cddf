"""Openings, pockets, buttons and hems: where a garment opens, what is put on it, how its edges end."""
