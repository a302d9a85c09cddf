"""The fitted bodice: front and back with bust dart, back shoulder dart and waist darts, for a set-in sleeve.

Where to look: frame.py has the numbers and what gives way, waist.py the darts and side seams, pieces.py the pieces;
the neck and armhole curves are in blocks/parts.
"""

from blocks.bodice.blouse import draft_blouse
from blocks.bodice.draft import plan_bodice

__all__ = ["draft_blouse", "plan_bodice"]
