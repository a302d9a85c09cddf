"""Bodies: what is measured and how, what a person wrote down, what is estimated and how surely."""
