"""Openings and hems: where a garment opens and how its edges end."""
