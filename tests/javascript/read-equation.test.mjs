import assert from "node:assert/strict";
import { test } from "node:test";
import { findLaws } from "../../docs/assets/javascripts/laws/check-laws.mjs";
import { readEquation } from "../../docs/assets/javascripts/laws/read-equation.mjs";
import { findExample, loadRecords } from "../measure/examples.mjs";

const records = loadRecords();
// I1 to I5; E1 12.8 V with 0.2 Ω, E2 12.2 V with 0.2 Ω, R1 6 Ω, R2 4 Ω, W1 a bare wire; V, Ω and A.
const link = findLaws(findExample(records, "link-wire"));
// kΩ and mA.
const bridge = findLaws(findExample(records, "frost-bridge"));

const rowOf = (text, laws = link, choice = 0, reading = {}) => {
  const read = readEquation(text, laws, laws.choices[choice], reading);
  return read.unreadable ? read.unreadable : read.row.map(String).join(" ");
};

const written = {
  // numbers
  "12 - 4 I1 - 5*I2 = 0": "-4 -5 0 0 0 12",
  "12.8 = 0.2 I1": "-1/5 0 0 0 0 64/5",
  "12,8 = 0,2 I1": "-1/5 0 0 0 0 64/5",
  ".5I1 = ,5I2": "1/2 -1/2 0 0 0 0",
  "5. = I1": "-1 0 0 0 0 5",
  "4 700 I1 = 1 000,5": "4700 0 0 0 0 -2001/2",
  "1,234.5 = I1": "-1 0 0 0 0 2469/2",
  "1.234,5 = I1": "-1 0 0 0 0 2469/2",
  "½ I1 = ¾": "1/2 0 0 0 0 -3/4",
  "12 - 4.7*10^-3 I1 = 0": "-47/10000 0 0 0 0 12",
  "12 = 4.7·10⁻³ I1": "-47/10000 0 0 0 0 12",
  "１２＝Ｉ１": "-1 0 0 0 0 12",
  // signs
  "12 − 4I1 – 5I2 = 0": "-4 -5 0 0 0 12",
  "-(-4)I1 = +5": "4 0 0 0 0 -5",
  "12 - -4 I1 = 0": "4 0 0 0 0 12",
  "12 + -4 I1 = 0": "-4 0 0 0 0 12",
  "4·I1 = 5×I2 + 3∙I3 + 2⋅I4": "4 -5 -3 -2 0 0",
  "4 x I1 = 5xI2 + 3 X I3 + 2X(I4 - I5)": "4 -5 -3 -2 2 0",
  "I1 x 4 = 12": "4 0 0 0 0 -12",
  "E1 − R1 x I1 = R2xI2": "-6 -4 0 0 0 64/5",
  "4 Ω x I1 = 12 V x -1": "4 0 0 0 0 12",
  "4.7 x 10^-3 I1 = 0": "47/10000 0 0 0 0 0",
  // sides, order and brackets
  "I1=I2+I3": "1 -1 -1 0 0 0",
  "0 = I1 - I2 - I3": "-1 1 1 0 0 0",
  "I3 + I2 = I1": "-1 1 1 0 0 0",
  "4(I1 + I2) = 12": "4 4 0 0 0 -12",
  "(I1+I2)*4 = 12": "4 4 0 0 0 -12",
  "2[3 - {I1 - (I2 + 1)}] = 0": "-2 2 0 0 0 8",
  "(4 + 0.2) I1 = 12": "21/5 0 0 0 0 -12",
  "((((((I1)))))) = 0": "1 0 0 0 0 0",
  // fractions
  "3/2 I1 = 1": "3/2 0 0 0 0 -1",
  "I1/2 = 1": "1/2 0 0 0 0 -1",
  "(I1 + I2)/2 = 1": "1/2 1/2 0 0 0 -1",
  "3 I1 / 4 = 1 ÷ 2": "3/4 0 0 0 0 -1/2",
  "I1 = 12/17": "1 0 0 0 0 -12/17",
  "I1*4 = 12": "4 0 0 0 0 -12",
  // subscripts
  "I_1 = i1": "0 0 0 0 0 0",
  "I_{2} + I₃ = I 4": "0 1 1 -1 0 0",
  "l1 + |2 = I_(3)": "1 1 -1 0 0 0",
  "2i_1=i_{2}": "2 -1 0 0 0 0",
  // names of parts are their values
  "E1 - R1 I1 - R2 I2 = 0": "-6 -4 0 0 0 64/5",
  "E1 - R1I1 = R2·I2": "-6 -4 0 0 0 64/5",
  "ε1 = e1 - r2 I5": "0 0 0 0 1/5 0",
  "E_1 - r_1 I_1 - R_1 I_2 = 0": "-1/5 -6 0 0 0 64/5",
  "V1 = U2": "0 0 0 0 0 3/5",
  "(R1 + R2) I1 = 0": "10 0 0 0 0 0",
  "W1 I3 = 0": "0 0 0 0 0 0",
  // units
  "12 V - 4 Ω I1 - 5ohm*I2 = 0 V": "-4 -5 0 0 0 12",
  "12V-4Ω·I1=0": "-4 0 0 0 0 12",
  "12000 mV = 0.004 kΩ I1": "-4 0 0 0 0 12",
  "12 v = 4 Ohms I1": "-4 0 0 0 0 12",
  "4k I1 = 12": "4000 0 0 0 0 -12",
  "I1 = 420 mA": "1 0 0 0 0 -21/50",
  "12 V / 4 Ω = I1": "-1 0 0 0 0 3",
  "12 V = 4 Ω (I1 + 1 A)": "-4 0 0 0 0 8",
  // names as factors, in every way of writing a product
  "E1 - R1 I1 - R2*I2 = 0": "-6 -4 0 0 0 64/5",
  "E1 − I1R1 − R2×I2 = 0": "-6 -4 0 0 0 64/5",
  "E₁ − R₁·I₁ − I₂ ⋅ R₂ = 0": "-6 -4 0 0 0 64/5",
  "12,8 − I1·6 − R2I2 = 0": "-6 -4 0 0 0 64/5",
  // LaTeX
  "I_{1} R_{1} - 12\\,\\mathrm{V} = 0": "6 0 0 0 0 -12",
  "$E_1 - R_1 I_1 - R_{2}\\cdot I_{2} = 0$": "-6 -4 0 0 0 64/5",
  "\\mathcal{E}_1-R_1\\times I_1-R_2\\,I_2=0": "-6 -4 0 0 0 64/5",
  "\\varepsilon_1 - 6\\,\\Omega\\, I_{1} - 4\\;\\Omega\\; I_2 = 0\\,\\text{V}": "-6 -4 0 0 0 64/5",
  "\\[ 12{,}8\\,\\mathrm{V} - 0.006\\,\\mathrm{k\\Omega} \\cdot I_{1} - 4~\\Omega\\,I_{\\text{2}} = 0 \\]": "-6 -4 0 0 0 64/5",
  "\\frac{12}{4} = I_1": "-1 0 0 0 0 3",
  "\\dfrac{1}{2} I_1 + \\frac{I_2 + I_{3}}{\\frac{4}{2}} = 0": "1/2 1/2 1/2 0 0 0",
  "2 \\left( I_1 + I_2 \\right) &= 12 \\\\": "2 2 0 0 0 -12",
  "4{,}7\\cdot 10^{-3}I_{1} = 0": "47/10000 0 0 0 0 0",
};

test("an equation is read as it is typed", () => {
  for (const [text, row] of Object.entries(written)) assert.equal(rowOf(text), row, text);
});

test("a name that begins with x stays a name", () => {
  const named = { ...link, part: { ...link.part, X1: link.part.R1 }, parts: link.parts.map((part) => (part.name === "R1" ? { ...part, name: "X1" } : part)), unknowns: ["I1", "x2", "I3", "I4", "I5"] };
  assert.equal(rowOf("E1 = X1 I1 + 4 x2", named), "-6 -4 0 0 0 64/5");
  assert.equal(rowOf("E1 = X1 x I1 + 4 x x2", named), "-6 -4 0 0 0 64/5");
});

test("units that are typed are turned into the units that are meant", () => {
  assert.equal(rowOf("12 V = 4700 Ω I1", bridge), "-47/10 0 0 0 0 0 12");
  assert.equal(rowOf("12 V = 4.7 kΩ I1", bridge), "-47/10 0 0 0 0 0 12");
  assert.equal(rowOf("I1 = 0.002 A", bridge), "1 0 0 0 0 0 -2");
  assert.equal(rowOf("12 V = 4.7 kΩ I1", bridge, 1), "-4700 0 0 0 0 0 12");
});

test("where a comma may stand for thousands the caller may ask for it", () => {
  assert.equal(rowOf("4,700 I1 = 0"), "47/10 0 0 0 0 0");
  assert.equal(rowOf("4,700 I1 = 0", link, 0, { byThousands: true }), "4700 0 0 0 0 0");
});

const unreadable = {
  "": ["empty", 0, 0],
  "   ": ["empty", 0, 0],
  "12 - 4 I1 =": ["ends-early", 10, 1],
  "12 - * I1 = 0": ["term-missing", 5, 1],
  "= 12": ["term-missing", 0, 1],
  "I1 = I2 = I3": ["two-equals", 8, 1],
  "12 - 4 I7 = 0": ["no-such-current", 7, 2],
  "12 - 4 I_{12} = 0": ["no-such-current", 7, 6],
  "12 - 4 x = 0": ["unknown-name", 7, 1],
  "12 - x I1 = 0": ["unknown-name", 5, 1],
  "12 - 4 x y = 0": ["unknown-name", 9, 1],
  "12 - R9 I1 = 0": ["unknown-name", 5, 2],
  "12 - 4 I1 & I2 = 0": ["strange-sign", 10, 1],
  "<b>12</b> = I1": ["strange-sign", 0, 1],
  "12 - (4 I1 = 0": ["bracket-open", 5, 1],
  "12 - (4 I1": ["bracket-open", 5, 1],
  "12 - I_{1": ["bracket-open", 7, 1],
  "12 - x(1": ["unknown-name", 5, 3],
  "12 - 4 I1) = 0": ["bracket-close", 9, 1],
  "I1 I2 = 0": ["product-of-currents", 3, 2],
  "(I1 + 1)(I2) = 0": ["product-of-currents", 8, 4],
  "12 / I1 = 4": ["divided-by-current", 3, 4],
  "12 / 0 = I1": ["divided-by-zero", 3, 3],
  "12 / (2 - 2) = I1": ["divided-by-zero", 3, 9],
  "0^-1 = I1": ["divided-by-zero", 1, 3],
  "I1^2 = 4": ["power", 2, 2],
  "I1² = 4": ["power", 2, 1],
  "10^99 = I1": ["power-too-high", 2, 3],
  "I1 5 = 3": ["number-behind", 3, 1],
  "4 5 I1 = 3": ["number-behind", 2, 1],
  "1.2.3 = I1": ["number-behind", 3, 2],
  "1234567890123456789012345 = I1": ["too-many-digits", 0, 25],
  "12 - 4\\,I_{1} \\oplus I_2 = 0": ["unknown-command", 14, 6],
  "\\sqrt{2} I_1 = 0": ["unknown-command", 0, 5],
  "\\frac{12} = I_1": ["unknown-command", 0, 5],
  "12\\,V - 4\\,I_{7} = 0": ["no-such-current", 11, 5],
  "$I_{1} = I_{2} = I_3$": ["two-equals", 15, 1],
  "\\frac{12}{0} = I_1": ["divided-by-zero", 9, 3],
};

test("what cannot be read is marked at the spot, with its reason", () => {
  for (const [text, [reason, at, length]] of Object.entries(unreadable)) assert.deepEqual(rowOf(text), { at, length, reason }, text);
});

test("length and depth have their limits", () => {
  assert.equal(rowOf(`${"(".repeat(21)}I1${")".repeat(21)} = 0`).reason, "too-deep");
  assert.equal(rowOf("1+".repeat(150) + "1 = I1").reason, "too-long");
  assert.equal(rowOf(`${"-".repeat(290)}1=I1`), "-1 0 0 0 0 1");
});
