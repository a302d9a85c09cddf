"""What a body can have, typed anew: the least and the most of every length, and what lengths have to leave each other.

The ranges are ours, made to refuse slips of the tape and of the unit: they reach well beyond the bodies of the surveys
(tests/drafting/body/test_terms.py). The rules stand back from the least that any of the 1,104 women of the open half of
the 1988 survey has (tests/drafting/body/test_plausible.py).
"""

from __future__ import annotations

import pytest

from drafting.body import plausible
from drafting.body.terms import MEASUREMENTS

# of a woman, and of a girl or a boy from two years up; the least and the most, cm
LIMITS = """
    stature                             120   215   45   205
    bust_girth                           60   190   28   150
    waist_girth                          45   190   26   150
    hip_girth                            60   200   26   160
    upper_chest_girth                    60   180   28   150
    under_bust_girth                     50   170   26   140
    head_girth                           47    66   30    64
    neck_base_girth                      26    60   16    52
    shoulder_length                       7    22  2.5    20
    interscye_mid_distance               20    60   10    52
    interscye_distance                   20    60   10    52
    biacromial_breadth                   24    50   10    48
    bust_point_breadth                    8    38    4    32
    neck_to_bust_point                   14    50    5    40
    back_waist_length                    24    58   10    54
    front_waist_length_from_neck_pit     18    58    8    52
    scye_depth                           10    34    5    30
    scye_girth                           22    75   10    60
    shoulder_drop                         1    14  0.5    12
    upper_arm_girth                      15    65    8    52
    elbow_girth                          14    50    7    42
    wrist_girth                           9    30    6    28
    arm_length                           35    80   10    75
    shoulder_to_elbow                    20    52    6    50
    waist_to_hip                          8    38    3    34
    cervicale_height                     95   195   30   185
    neck_side_height                     95   195   30   185
    neck_pit_height                      90   190   28   180
    shoulder_height                      88   188   28   180
    axilla_height                        80   175   24   170
    bust_height                          75   170   22   160
    waist_height                         65   145   16   140
    hip_height                           50   125   10   120
    crotch_height                        45   115    8   112
    knee_height                          25    75    5    72
    crotch_length                        45   130   22   115
    thigh_girth                          35   110   12    95
    knee_girth                           24    75   10    62
    calf_girth                           22    70    9    58
    ankle_girth                          14    45    6    38
"""

# the lengths, and the least, mm, that the room between them may be
RULES = """
    shoulder_to_elbow arm_length: 50
    scye_depth back_waist_length: 50
    shoulder_drop shoulder_length: 20
    bust_point_breadth neck_to_bust_point: 30
    wrist_girth elbow_girth: 10
    elbow_girth upper_arm_girth: -30
    upper_arm_girth scye_girth: 0
    ankle_girth calf_girth: 0
    knee_girth thigh_girth: 0
    thigh_girth hip_girth: 100
    under_bust_girth bust_girth: -30
    interscye_mid_distance bust_girth: -40
    interscye_distance bust_point_breadth bust_girth: 100
    shoulder_length shoulder_drop biacromial_breadth: 0
    cervicale_height stature: 80
    neck_pit_height cervicale_height: 0
    shoulder_height neck_side_height: 0
    axilla_height shoulder_height: 30
    bust_height axilla_height: -40
    waist_height bust_height: 0
    hip_height waist_height: 50
    crotch_height hip_height: -10
    knee_height crotch_height: 80
    back_waist_length cervicale_height waist_height: -40
    front_waist_length_from_neck_pit neck_pit_height waist_height: -20
    neck_to_bust_point neck_side_height bust_height: -20
    crotch_length waist_height crotch_height: 0
    waist_to_hip waist_height hip_height: -30 measured only
    shoulder_drop neck_side_height shoulder_height: -30 measured only
"""


def test_the_range_of_every_measurement_is_the_one_that_was_meant() -> None:
    rows = [line.split() for line in LIMITS.strip().splitlines()]
    meant = {key: tuple(float(number) * 10.0 for number in numbers) for key, *numbers in rows}
    assert {each.key: (*each.woman, *each.child) for each in MEASUREMENTS} == {
        key: pytest.approx(limits) for key, limits in meant.items()
    }


def test_what_lengths_have_to_leave_each_other_is_what_was_meant() -> None:
    rows = [line.strip().partition(": ") for line in RULES.strip().splitlines()]
    meant = {keys: figure for keys, _, figure in rows}
    has = {" ".join(rule.keys): f"{rule.least:g}{' measured only' if rule.exact else ''}" for rule in plausible._RULES}
    assert has == meant
