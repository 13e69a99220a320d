/** What differs between two trees of one section, marked in the newer one. */

/** @typedef {import("../page/saying.mjs").Tree} Tree */

/** Elements that are marked as a whole: what stands in them changed. */
const MARKED = new Set(["td", "th", "mrow", "math", "p", "li", "pre"]);

/**
 * The newer tree, with the class `changed` on the smallest marked elements that hold a difference.
 * @param {Tree} older
 * @param {Tree} newer
 * @returns {Tree}
 */
export function markChanges(older, newer) {
  return mark(older, newer).tree;
}

/** The tree, and whether it holds a difference that no element inside it was marked for. */
function mark(older, newer) {
  if (older === newer) return { tree: newer, isOpen: false };
  if (typeof newer === "string" || typeof older === "string") return { tree: newer, isOpen: true };
  const [tag, attributes, ...all] = newer;
  const [oldTag, oldAttributes, ...allBefore] = older;
  const [before, children] = [joinSigns(allBefore), joinSigns(all)];
  const found = align(before, children).map(([old, child]) => (old === undefined ? { tree: child, isOpen: true } : mark(old, child)));
  const isOpen = tag !== oldTag || !sameAttributes(attributes, oldAttributes) || before.length > children.length || found.some((each) => each.isOpen);
  const isMarked = isOpen && MARKED.has(tag);
  const written = found.flatMap((each) => partSign(each.tree));
  return { tree: [tag, isMarked ? withClass(attributes, "changed") : attributes, ...written], isOpen: isOpen && !isMarked };
}

const isTerm = (tree) => tree?.[1]?.class === "term";
const isSign = (tree) => tree?.[0] === "mo";

/** Each term with the sign before it, so that where only one sign of a sum changes only its term is marked. */
function joinSigns(trees) {
  if (!trees.some(isTerm)) return trees;
  return trees.flatMap((tree, at) => {
    if (isSign(tree) && isTerm(trees[at + 1])) return [];
    const sign = isTerm(tree) && isSign(trees[at - 1]) ? trees[at - 1] : undefined;
    return sign ? [[tree[0], { ...tree[1], sign }, ...tree.slice(2)]] : [tree];
  });
}

/** The sign before its term again, marked with it. */
function partSign(tree) {
  if (!tree[1]?.sign) return [tree];
  const [tag, { sign, ...attributes }, ...children] = tree;
  return [isTerm(tree) ? sign : [sign[0], withClass(sign[1], "changed"), ...sign.slice(2)], [tag, attributes, ...children]];
}

/** Each child with the one it came from: the one about the same thing, else the one in its place. A battery has two rows. */
function align(before, children) {
  const keyed = new Map();
  for (const old of before) {
    const key = keyOf(old);
    if (key) keyed.set(key, [...(keyed.get(key) ?? []), old]);
  }
  return children.map((child, at) => [keyed.get(keyOf(child))?.shift() ?? before[at], child]);
}

function keyOf(tree) {
  if (typeof tree === "string") return "";
  const { "data-loop": loop, "data-junction": junction, "data-part": part, "data-current": current, "data-origin": origin } = tree[1];
  const key = [loop, junction, part, current, origin].filter(Boolean).join(" ");
  return key && (isTerm(tree) || ["tr", "li", "section"].includes(tree[0])) ? `${tree[0]} ${key}` : "";
}

/** Ids and numbers of rows are no change by themselves. */
function sameAttributes(some, others) {
  const told = ({ id, class: name, "aria-labelledby": label, ...rest }) => JSON.stringify(rest);
  return told(some) === told(others);
}

const withClass = (attributes, name) => ({ ...attributes, class: attributes.class ? `${attributes.class} ${name}` : name });
