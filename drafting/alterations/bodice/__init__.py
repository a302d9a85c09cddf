"""Alterations of the bodice: bust, back, shoulder, armhole and neckline."""
