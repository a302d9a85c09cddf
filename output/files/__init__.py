"""Files: a whole folder is written or nothing, and nothing of a person's is touched."""
