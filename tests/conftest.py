"""Laws are tried on the same examples every time, so that a change is judged by itself and not by chance.

`--hypothesis-profile=wide` tries others, at random: what that finds is a fault, and becomes a test of its own.
"""

from __future__ import annotations

from hypothesis import settings

settings.register_profile("steady", derandomize=True, database=None)
settings.register_profile("wide", derandomize=False)
settings.load_profile("steady")
