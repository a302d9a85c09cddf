"""What can be drafted: each block from measurements and ease; the garment joins them. One block never imports another."""
