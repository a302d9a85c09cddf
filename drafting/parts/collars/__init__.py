"""Collars, drawn to the neck as it is: flat, standing, with a stand, turned over, sailor."""
