"""Strips cut on the bias, which finish an edge."""
