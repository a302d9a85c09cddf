"""Small pieces that are made first and then set on at a mark: ties, a sash, loops, tabs."""
