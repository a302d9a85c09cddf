"""Trousers, front and back: the points, the crotch, the leg, the waist, and what is marked on them."""
