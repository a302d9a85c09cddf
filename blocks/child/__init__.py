"""The children's blocks, without darts: a bodice that can go on below the waist, and a skirt.

Where to look: openings.py has how the head gets through, draft.py puts front and back together from the dartless frame
and pieces of blocks/shared; skirt.py has the skirt. The sleeve is the one that women's armholes get.
"""

from blocks.child.draft import draft_childs_bodice

__all__ = ["draft_childs_bodice"]
