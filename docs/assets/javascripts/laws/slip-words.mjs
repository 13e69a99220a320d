/** The rows of ../slips.mjs by their names, and their sentences and those of ../verdicts.mjs with the places filled. */
import list from "../slips.mjs";
import verdicts from "../verdicts.mjs";

const rows = new Map(list.slips.map((row) => [row.name, row]));

/** The kind of a slip: "sign", "missing", "extra", "value" or "emf sign". */
export const kindOfSlip = (name) => rows.get(name).kind;

/** The row of a slip: its rule and its section of the page; null for no slip. A published site has no more of it. */
export const slipRow = (name) => rows.get(name) ?? null;

/**
 * A sentence of ../slips.mjs or ../verdicts.mjs with its places filled.
 * @param {{key: string, values: Record<string, string | null>, when?: object[]}} say what a check says
 * @returns {string}
 */
export function sentence({ key, values, when = [] }) {
  const [name, variant] = key.split(".");
  const row = rows.get(name);
  const text = verdicts.said[key] ?? verdicts.unread[key] ?? row?.sentences?.[variant] ?? row?.[variant ?? "sentence"] ?? "";
  const clauses = when.map((each) => sentence({ key: `${each.key.split(".")[0]}.when`, values: each.values }) || sentence(each));
  return fill(text, { ...values, when: clauses[0], orWhen: clauses[1] });
}

const fill = (text, values) => text.replace(/\{(\w+)\}/g, (_, name) => values[name] ?? "");
