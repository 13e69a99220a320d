import assert from "node:assert/strict";
import { test } from "node:test";
import { readCurrent } from "../../docs/assets/javascripts/laws/read-current.mjs";

const told = (text, unit = "A", byThousands = false) => {
  const { value, unit: step, figures, unreadable } = readCurrent(text, unit, byThousands);
  return unreadable ? [unreadable.reason, unreadable.at, unreadable.length] : [`${value}`, `${step}`, figures];
};

// As typed: the value [A], one unit of the last figure [A], the significant figures.
const written = {
  "0.42 A": ["21/50", "1/100", 2],
  "420 mA": ["21/50", "1/1000", 3],
  "0,42": ["21/50", "1/100", 2],
  "0.420A": ["21/50", "1/1000", 3],
  "-1/3 A": ["-1/3", "0", Infinity],
  "−1/3": ["-1/3", "0", Infinity],
  "1 1/3 A": ["4/3", "0", Infinity],
  "-½ A": ["-1/2", "0", Infinity],
  "I1 = 2.5 A": ["5/2", "1/10", 2],
  "I_{1}=2.5 A": ["5/2", "1/10", 2],
  "≈ 0.42 A": ["21/50", "1/100", 2],
  "= - 3 A": ["-3", "1", 1],
  "4.2·10^-1 A": ["21/50", "1/100", 2],
  "4.2 x 10^-1 A": ["21/50", "1/100", 2],
  "4.2x10^-1": ["21/50", "1/100", 2],
  "4.2e-1 A": ["21/50", "1/100", 2],
  "1,234.5 mA": ["2469/2000", "1/10000", 5],
  "15 µA": ["3/200000", "1/1000000", 2],
  "15 uA": ["3/200000", "1/1000000", 2],
  "2 amps": ["2", "1", 1],
  "0": ["0", "1", 0],
  " 3\u00a0A ": ["3", "1", 1],
  "$I_{1} = 0{,}42\\,\\mathrm{A}$": ["21/50", "1/100", 2],
  "4{,}2\\cdot 10^{-1}~\\text{A}": ["21/50", "1/100", 2],
};

test("a current is read as it is typed", () => {
  for (const [text, expected] of Object.entries(written)) assert.deepEqual(told(text), expected, text);
});

test("a missing unit is the one of the page", () => {
  assert.deepEqual(told("2.5", "mA"), ["1/400", "1/10000", 2]);
  assert.deepEqual(told("2.5 A", "mA"), ["5/2", "1/10", 2]);
});

test("where a comma may stand for thousands the caller may ask for it", () => {
  assert.deepEqual(told("1,200 mA", "A"), ["3/2500", "1/1000000", 4]);
  assert.deepEqual(told("1,200 mA", "A", true), ["6/5", "1/1000", 4]);
});

const unreadable = {
  "": ["no-number", 0, 0],
  "abc": ["no-number", 0, 3],
  "A": ["no-number", 0, 1],
  "3 V": ["wrong-unit.voltage", 2, 1],
  "3 Ω": ["wrong-unit.resistance", 2, 1],
  "3 A x": ["wrong-unit", 3, 2],
  "3\\,\\mathrm{V}": ["wrong-unit.voltage", 11, 2],
  "1/0 A": ["divided-by-zero", 1, 4],
  "<img src=x>": ["no-number", 0, 11],
  "1234567890123456789012345 A": ["too-many-digits", 0, 25],
};

test("what is no current is marked at the spot, with its reason", () => {
  for (const [text, expected] of Object.entries(unreadable)) assert.deepEqual(told(text), expected, text);
  assert.deepEqual(told("1".repeat(61)), ["too-long", 60, 1]);
});
