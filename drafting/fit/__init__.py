"""Fit: the cloth, the ease chosen for it, and the least ease a garment can have."""
