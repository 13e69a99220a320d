/** The rows of ../slips.mjs by their names. */
import words from "../slips.mjs";

const rows = new Map(words.slips.map((row) => [row.name, row]));

/** The kind of a slip: "sign", "missing", "extra", "value" or "emf sign". */
export const kindOfSlip = (name) => rows.get(name).kind;

/** The row of a slip: its title, rule, section and source. */
export const slipRow = (name) => rows.get(name) ?? null;
