/** Units as they are typed behind a number, and the choices of units in which an equation may be meant. */
import { fraction, ONE } from "./fraction.mjs";

const sizes = { M: fraction(1000000n), k: fraction(1000n), K: fraction(1000n), m: fraction(1n, 1000n), "\u00b5": fraction(1n, 1000000n), u: fraction(1n, 1000000n), n: fraction(1n, 1000000000n) };

// The Greek letter may be followed by anything; a latin letter must end there, or it is the start of a name.
const shape = /([MkKm\u00b5un]?)(?:(\u03a9)|(?:([Oo]hms?)|([Vv]olts?|[Vv])|([Aa]mp(?:ere)?s?|[Aa]))(?![A-Za-z0-9_]))|([kK])(?![A-Za-z_]*[0-9_]?[A-Za-z]*hm)/y;

/**
 * The unit that begins at a place of a folded text.
 * @returns {{measures: "voltage" | "resistance" | "current", size: object, length: number} | null}
 */
export function readUnit(text, at) {
  shape.lastIndex = at;
  const found = shape.exec(text);
  if (!found) return null;
  const [typed, prefix, greek, ohm, volt, , alone] = found;
  const measures = greek || ohm || alone ? "resistance" : volt ? "voltage" : "current";
  return { measures, size: sizes[prefix || alone] ?? ONE, length: typed.length };
}

/** The size of a unit symbol such as kΩ, in the SI unit. */
export const sizeOf = (symbol) => (symbol.length > 1 ? sizes[symbol[0]] : ONE);

/** The symbol of a unit of current of a size; none where it is not in use. */
export const symbolOf = (size) => ["kA", "A", "mA", "µA", "nA"].find((symbol) => sizeOf(symbol)?.equals(size));

/**
 * The choices of units in which a typed equation may be meant, the page's own first.
 * In each, voltage = resistance × current.
 * @returns {{voltage: object, resistance: object, current: object, symbols: object}[]}
 */
export function unitChoices(units) {
  const choices = [units, ...ordinary].map((symbols) => ({
    voltage: sizeOf(symbols.voltage), resistance: sizeOf(symbols.resistance), current: sizeOf(symbols.current), symbols,
  }));
  const key = (choice) => `${choice.symbols.voltage} ${choice.symbols.current}`;
  return choices.filter((choice, at) => choices.findIndex((other) => key(other) === key(choice)) === at);
}

const ordinary = [
  { voltage: "V", resistance: "Ω", current: "A" },
  { voltage: "V", resistance: "kΩ", current: "mA" },
  { voltage: "V", resistance: "MΩ", current: "µA" },
  { voltage: "mV", resistance: "Ω", current: "mA" },
];

/** How large a typed quantity is in a choice of units. */
export const inUnits = (value, unit, choice) => value.times(unit.size).over(choice[unit.measures]);
