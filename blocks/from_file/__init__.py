"""A garment as it is written in a file: its blocks, parts, steps, paper and wearer, read with every problem noted."""
