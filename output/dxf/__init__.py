"""DXF: the pieces written for a cutter or a drawing program, and read back."""
