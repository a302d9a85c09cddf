"""The shipped ease table; `SOURCES.md` says where each figure comes from."""
