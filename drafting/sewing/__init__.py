"""How a pattern is sewn: the order of the steps, and what has to be bought for them."""

from drafting.sewing.sewing_order import sewing_order
from drafting.sewing.sewing_step import Act, DartFold, Fastening, SewingStep, Stay, StayKind

__all__ = ["Act", "DartFold", "Fastening", "SewingStep", "Stay", "StayKind", "sewing_order"]
