"""Lead a side: side seams seen, and moved in or out."""
