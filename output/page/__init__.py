"""The page: her people and garments in a browser, on her own machine, and the server it asks."""
