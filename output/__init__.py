"""What a person touches: the command, the report, and the writers of every format. Writers never import blocks."""

__all__ = ["__version__"]

__version__ = "0.2.0"
