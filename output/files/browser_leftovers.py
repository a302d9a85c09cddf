"""What a file browser leaves in a folder that was looked into: nobody's work, as far as its content says so."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from typing import Final

from output.files.open_folder import OpenFolder

__all__ = ["left_by_a_browser"]

_LARGEST: Final = 1_000_000
"""Bytes. What is kept on a hundred files is a tenth of it."""

# what Windows writes by itself when a view is changed; a line more, and somebody chose it
_VIEW: Final = re.compile(r"\s*(\[(\.ShellClassInfo|ViewState)\]\s*|(Mode|Vid|FolderType)=[\w{}-]*\s*)*", re.IGNORECASE)


def _is_store(content: bytes) -> bool:
    """The store of the Finder: its four letters follow the number one (from memory)."""
    return content.startswith(b"\x00\x00\x00\x01Bud1")


def _is_thumbs(content: bytes) -> bool:
    """A compound file, which the thumbnails of Windows are ([MS-CFB] 2.2, header signature)."""
    return content.startswith(b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1")


def _is_view(content: bytes) -> bool:
    text = content.decode("utf-16" if content.startswith((b"\xff\xfe", b"\xfe\xff")) else "utf-8", "replace")
    return _VIEW.fullmatch(text) is not None


_KNOWN: Final[Mapping[str, Callable[[bytes], bool]]] = {
    ".DS_Store": _is_store,
    "Thumbs.db": _is_thumbs,
    "desktop.ini": _is_view,
}


def left_by_a_browser(folder: OpenFolder, name: str) -> bool:
    """Whether a plain file in a folder is such a thing: by its name, small, and empty or begun as they begin."""
    known = _KNOWN.get(name)
    if known is None or folder.about(name).st_size > _LARGEST:
        return False
    content = folder.content(name, most=_LARGEST)
    return not content or known(content)
