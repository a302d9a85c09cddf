"""Alterations of the whole garment: its lengths, its girths, its size."""
