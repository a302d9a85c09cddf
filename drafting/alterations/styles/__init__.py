"""Style lines: seams across the pieces of a bodice, and sleeves cut in one with a part of it."""
