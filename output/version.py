"""Which version this is.

It stands here, and not in the installed metadata alone, because reading that takes longer than starting Python does.
"""

from typing import Final

__all__ = ["VERSION"]

VERSION: Final = "0.1.0"
