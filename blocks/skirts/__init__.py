"""Skirts by flare, gore, tier and pleat: circle, gored, tiered and pleated, each drawn to the waist it is sewn to."""
