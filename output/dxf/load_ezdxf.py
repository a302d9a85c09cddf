"""The DXF library, loaded without anything of the user's: ezdxf reads settings and a list of fonts when it is imported.

Measured (ezdxf 1.4): `ezdxf.ini` in the working folder and in the folder for settings, the file that EZDXF_CONFIG_FILE
names, and a list of fonts in the folder for caches, which it makes there if there is none. A file it cannot read ends
the program, and settings change what is written; a pattern needs neither.
"""

from __future__ import annotations

import os
import sys
import tempfile
import threading
from collections.abc import Iterator, Mapping
from configparser import ConfigParser
from contextlib import contextmanager
from pathlib import Path
from typing import Final

__all__ = ["load_ezdxf"]

_ONE_AT_A_TIME: Final = threading.Lock()
_NO_FONTS: Final = '{"version": 5, "font-faces": []}'


def load_ezdxf() -> None:
    """Import ezdxf, unless it is there, kept from every file but its own. Called before any import of it."""
    with _ONE_AT_A_TIME:
        if "ezdxf" in sys.modules:
            return
        with tempfile.TemporaryDirectory() as folder:
            fonts = Path(folder, "ezdxf", "font_manager_cache.json")
            fonts.parent.mkdir()
            fonts.write_text(_NO_FONTS, encoding="ascii")
            with _nothing_of_hers({"XDG_CONFIG_HOME": folder, "XDG_CACHE_HOME": folder}):
                import ezdxf.fonts.fonts  # noqa: F401  # it reads its list when it is imported


@contextmanager
def _nothing_of_hers(places: Mapping[str, str]) -> Iterator[None]:
    """For as long as this lasts no file of settings is read, and these stand in the environment."""
    before, read = dict(os.environ), ConfigParser.read
    try:
        for name in [name for name in before if name.startswith("EZDXF_")]:
            del os.environ[name]
        os.environ.update(places)
        ConfigParser.read = _read_nothing  # type: ignore[method-assign,assignment]
        yield
    finally:
        ConfigParser.read = read  # type: ignore[method-assign]
        for name in places:
            os.environ.pop(name, None)
        os.environ.update(before)


def _read_nothing(*_given: object, **_named: object) -> list[str]:
    return []
