"""How a pattern is sewn: the order of the steps, and what has to be bought for them."""

from drafting.sewing.cautions import Caution, cautions, is_under_three, possible_cautions
from drafting.sewing.collar_rules import ends_under_facing
from drafting.sewing.sewing_order import sewing_order
from drafting.sewing.sewing_step import Act, DartFold, Fastening, SewingStep, Stay, StayKind, Strip
from drafting.sewing.stays import times_cut
from drafting.sewing.strips import KNIT_BINDING, STRIP_END, UNDERLAP
from drafting.sewing.supplies import ELASTIC_JOIN, Supply, SupplyKind, supplies

__all__ = [
    "ELASTIC_JOIN",
    "KNIT_BINDING",
    "STRIP_END",
    "UNDERLAP",
    "Act",
    "Caution",
    "DartFold",
    "Fastening",
    "SewingStep",
    "Stay",
    "StayKind",
    "Strip",
    "Supply",
    "SupplyKind",
    "cautions",
    "ends_under_facing",
    "is_under_three",
    "possible_cautions",
    "sewing_order",
    "supplies",
    "times_cut",
]
