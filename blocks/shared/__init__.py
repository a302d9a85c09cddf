"""Parts that blocks share: necks, armholes, side seams, edges with darts in them, a bodice without any."""
