"""Tables of growth: `SOURCES.md` says where each comes from."""
