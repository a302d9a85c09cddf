"""What can be drafted: blocks, each from measurements and ease, and garments, which join them."""
