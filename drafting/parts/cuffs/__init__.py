"""Cuffs, drawn to the lower edge of a sleeve."""
