"""The pieces on the cloth: where each lies while she cuts, and how much to buy."""
