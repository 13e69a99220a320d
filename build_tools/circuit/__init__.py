"""Read: the text of a circuit file becomes a checked Circuit, or a report of every fault in it."""
