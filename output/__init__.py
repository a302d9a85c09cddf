"""What a person touches: the command, the report, and the writers of every format. Writers never import blocks."""
