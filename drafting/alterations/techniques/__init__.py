"""What alterations are made of, by kind of act: cut, pivot, spread, redraw, lead a side. None is a step by itself."""
