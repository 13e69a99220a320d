/** A row of keys for what the keyboard of a phone hides; arrow keys go along it. */

import { nameRuns } from "../page/prose.mjs";
import { say } from "../page/check-saying.mjs";

const SIGNS = ["+", "−", "·", "/", "(", ")", "=", "Ω", "k"];
const [SMALLEST, GAP] = [44, 3];
const SPACED = new Set(["+", "−", "="]);

/** A name as it is set elsewhere, but not one that a tap lights in the figure. */
export function viewName(name) {
  const [first, below] = nameRuns(name);
  return [["i", {}, first], ...(below ? [["sub", {}, below]] : [])];
}

/** @param {string[]} currents @returns {import("../page/saying.mjs").Tree} */
export function viewKeys(currents) {
  const signs = SIGNS.map((sign) => ["button", { type: "button", tabindex: "-1", "data-key": sign, "aria-label": say(`check.key.${sign}`) }, sign]);
  const names = currents.map((name, at) => ["button", { type: "button", tabindex: at ? "-1" : "0", "data-key": name }, ...viewName(name)]);
  return ["div", { class: "keys", role: "toolbar", "aria-label": say("check.keys") }, ...names, ...signs];
}

/**
 * Let the keys of a form type into its field, where the cursor stands.
 * @param {Element} keys
 * @param {HTMLInputElement} field
 * @param {AbortSignal} signal
 */
export function listenToKeys(keys, field, signal) {
  const watcher = new ResizeObserver(() => layOut(keys));
  watcher.observe(keys);
  signal.addEventListener("abort", () => watcher.disconnect());
  // The field keeps the focus, so that the keyboard stays.
  keys.addEventListener("pointerdown", (event) => event.preventDefault(), { signal });
  keys.addEventListener("click", (event) => typeKey(event.target.closest("[data-key]")?.dataset.key, field), { signal });
  keys.addEventListener("keydown", (event) => moveAlong(event, [...keys.children]), { signal });
}

/** As few rows as have room, and as many keys in each of them. */
function layOut(keys) {
  const count = keys.children.length;
  const most = Math.max(Math.floor((keys.clientWidth + GAP) / (SMALLEST + GAP)), 1);
  keys.style.gridTemplateColumns = `repeat(${Math.ceil(count / Math.ceil(count / most))}, 1fr)`;
}

function typeKey(key, field) {
  if (!key) return;
  const [start, end] = [field.selectionStart ?? field.value.length, field.selectionEnd ?? field.value.length];
  const before = field.value.slice(0, start);
  const isApart = SPACED.has(key) || (key.length > 1 && /[\p{L}\p{N})]$/u.test(before));
  const text = `${isApart && before && !before.endsWith(" ") ? " " : ""}${key}${SPACED.has(key) ? " " : ""}`;
  field.setRangeText(text, start, end, "end");
  field.scrollLeft = field.scrollWidth;
  field.dispatchEvent(new Event("input", { bubbles: true }));
}

function moveAlong(event, keys) {
  const ways = { ArrowRight: 1, ArrowLeft: -1, Home: -Infinity, End: Infinity };
  if (!(event.key in ways)) return;
  event.preventDefault();
  const at = Math.min(Math.max(keys.indexOf(document.activeElement) + ways[event.key], 0), keys.length - 1);
  keys.forEach((key, other) => key.setAttribute("tabindex", other === at ? "0" : "-1"));
  keys[at].focus();
}
