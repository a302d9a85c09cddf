"""The rows of the table of blocks, by kind of garment: how an order is put to the block that drafts it."""
