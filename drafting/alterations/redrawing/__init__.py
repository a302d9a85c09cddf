"""How alterations see a piece and redraw it: its sides, darts, armhole and cap, waist and hem; none of it is a step."""
