"""The file that `new` writes: a commented circuit that already solves, to be changed line by line."""

from __future__ import annotations

starter = """\
# One circuit, one file. The file's name is its address on the site: examples/{name}/
# Change one line at a time and run: python -m build_tools check circuits/{name}.toml

title = "{title}"
question = "Find the current through the lamp R2. Which battery gives power?"   # Markdown
level = "core"                          # first steps | core | stretch
topics = ["two batteries"]
asked = ["R2"]                          # the parts whose current the question asks for

# Where the points stand on a drawing grid: x to the right, y upwards.
# Leave the whole section out and the tool lays the circuit out by itself.
[points]
a = [0, 0]
b = [0, 3]
c = [3, 3]
d = [3, 0]
e = [6, 3]
f = [6, 0]

# One line for each part. Names: a letter, then up to five letters or digits.
#   battery     {{ battery = "12 V", minus = "a", plus = "b", internal_resistance = "0.5 ohm" }}   (the last is optional)
#   resistor    {{ resistor = "4.7 kohm", between = ["b", "c"] }}
#   bare wire   {{ wire = "bare", between = ["a", "d"] }}
#   switch      {{ switch = "open", between = ["c", "e"] }}          open | closed
#   ammeter     {{ ammeter = "ideal", between = ["e", "f"] }}        or its resistance
#   voltmeter   {{ voltmeter = "ideal", between = ["b", "d"] }}      or its resistance
#   capacitor   {{ capacitor = "10 uF", between = ["b", "d"] }}      long after switching: no current
[parts]
E1 = {{ battery = "12 V", minus = "a", plus = "b" }}
R1 = {{ resistor = "2 ohm", between = ["b", "c"] }}
R2 = {{ resistor = "4 ohm", between = ["c", "d"] }}
R3 = {{ resistor = "1 ohm", between = ["c", "e"] }}
E2 = {{ battery = "9 V", minus = "f", plus = "e" }}

# Plain lines that draw one junction in two places; they carry no current of their own.
[drawing]
joined = [["a", "d"], ["d", "f"]]

# Optional: your own assumed directions. What you leave out is chosen, always the same way.
[currents]
I1 = {{ through = "R1", toward = "c" }}
I2 = {{ through = "R2", toward = "d" }}
I3 = {{ through = "R3", toward = "c" }}

# Optional: your own loops, in walking order.
# [loops]
# L1 = {{ start = "a", through = ["E1", "R1", "R2"] }}

# Optional: the junction whose equation is not used.
# [equations]
# leave_out = "a"
"""


def starter_text(name: str) -> str:
    """The text of a new circuit file of this name."""
    title = name.replace("-", " ").replace("_", " ")
    return starter.format(name=name, title=title[:1].upper() + title[1:])
