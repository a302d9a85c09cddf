"""Which version this is.

It stands here, and not in the installed metadata alone, because reading that takes longer than starting Python does.
"""

__all__ = ["VERSION"]

VERSION = "0.2.0"
