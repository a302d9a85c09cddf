"""The shipped estimate tables; `SOURCES.md` says where each comes from."""
