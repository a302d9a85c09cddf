"""Alterations of trousers: the crotch, the seat, the thigh, the line of the leg."""
