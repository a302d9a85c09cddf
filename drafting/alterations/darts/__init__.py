"""Darts moved, left unsewn, or drawn on into a seam."""
