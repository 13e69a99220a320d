"""Write: a solved and drawn circuit becomes the blocks of one page."""
