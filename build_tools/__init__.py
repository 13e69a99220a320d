"""From short circuit files to a static site of worked multi-loop DC circuits.

Rooms, each importing only from rooms above it: circuit, laws, figure, page, site.
`pipeline.py` lists the stages in order; `__main__.py` is the command line.
"""
