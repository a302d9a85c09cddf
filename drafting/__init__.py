"""The engine: geometry, bodies, patterns, alterations and checks. Knows no blocks and no file formats."""
