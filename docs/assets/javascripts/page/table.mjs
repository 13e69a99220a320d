/** Tables as trees. */

/**
 * A table in its frame; a frame with a label can be scrolled with the keyboard.
 * @param {string} name its class
 * @param {import("./saying.mjs").Tree[]} head cells of the heading row; none for a table without one
 * @param {import("./saying.mjs").Tree[]} rows
 * @param {string} [label]
 * @returns {import("./saying.mjs").Tree}
 */
export function table(name, head, rows, label = "") {
  const top = head.length ? [["thead", {}, ["tr", {}, ...head]]] : [];
  return ["div", frame("table-frame", label), ["table", { class: name }, ...top, ["tbody", {}, ...rows]]];
}

/** The attributes of a frame that may scroll. */
export const frame = (name, label) => (label ? { class: name, tabindex: "0", role: "group", "aria-label": label } : { class: name });

/** A heading cell of a column. */
export const column = (child, name = "") => ["th", { scope: "col", class: name }, child];

/** The cell that a row is about. */
export const rowHeading = (...children) => ["th", { scope: "row" }, ...children];

/** A cell. */
export const cell = (...children) => ["td", {}, ...children];

/** A cell with a number. */
export const numberCell = (...children) => ["td", { class: "number" }, ...children];
