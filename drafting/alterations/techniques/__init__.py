"""What alterations are made of, by kind of act: cut, pivot, spread, redraw, move a side. None is a step by itself."""
