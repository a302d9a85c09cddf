"""Sheets to print: the pieces laid on one large sheet, and that cut into sheets of paper that join."""
