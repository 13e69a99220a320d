/** A bridge of five resistors and a battery, as `solve --json` prints it: the keys that the laws read. */

const ends = { E1: ["a", "b"], R1: ["b", "c"], R2: ["b", "d"], R3: ["c", "a"], R4: ["d", "a"], R5: ["c", "d"] };
const currents = { R1: "I1", R2: "I2", R3: "I3", R4: "I4", R5: "I5", E1: "I6" };
const values = { E1: "9", R1: "3", R2: "2", R3: "1", R4: "12", R5: "3" };

const walk = (name, start, ...steps) => ({ name, start, walk: steps.map((step) => step.replace("-", "")), forward: steps.map((step) => step[0] !== "-") });

export const bridge = {
  address: "bridge",
  asked: ["R5"],
  units: { voltage: "V", resistance: "Ω", current: "A" },
  nodes: { a: "a", b: "b", c: "c", d: "d" },
  junctions: ["a", "b", "c", "d"].map((name) => ({ name, points: [name], used: name !== "a" })),
  branches: Object.entries(currents).map(([part, current]) => ({ current, from: ends[part][0], to: ends[part][1], parts: [part], forward: [true] })),
  loops: [walk("L1", "a", "E1", "R1", "R3"), walk("L2", "b", "R2", "-R5", "-R1"), walk("L3", "c", "R5", "R4", "-R3")],
  parts: Object.fromEntries(
    Object.entries(ends).map(([name, [from, to]]) => {
      const kind = name === "E1" ? "battery" : "resistor";
      return [name, { kind, value: values[name], internal_resistance: null, from, to, state: null }];
    }),
  ),
  checks: { numpy_difference: 0 },
};
