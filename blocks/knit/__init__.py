"""The knit top for a woman, without darts, and its sleeve.

Where to look: draft.py has what is asked for and puts front and back together from the dartless frame and pieces of
blocks/shared; side.py has the side seam, from the bust through the waist to the hip.
"""

from blocks.knit.draft import BACK, FRONT, Style, draft_knit_top

__all__ = ["BACK", "FRONT", "Style", "draft_knit_top"]
