"""Draw: a solved circuit becomes one SVG figure and the words of direction that go with it."""
