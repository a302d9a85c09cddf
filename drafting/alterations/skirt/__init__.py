"""Alterations of the skirt: flare, gathers, pleats, wrap, godets, a yoke or a shaped band, a pointed waist."""
