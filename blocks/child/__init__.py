"""The children's blocks, without darts: a bodice that can go on below the waist, and a skirt.

Where to look: frame.py has the numbers and what gives way, pieces.py the two pieces, openings.py how the head gets
through, draft.py puts them together; skirt.py has the skirt. The sleeve is the one that women's armholes get.
"""

from blocks.child.draft import draft_childs_bodice

__all__ = ["draft_childs_bodice"]
