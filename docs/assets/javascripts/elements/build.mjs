/** Trees become elements: the only place where the views of a page meet the document. */

const MATHML = "http://www.w3.org/1998/Math/MathML";

/**
 * Builds the element of a tree; texts become text, never markup.
 * @param {import("../page/saying.mjs").Tree} tree
 * @param {string} [space] the namespace it stands in; empty for HTML
 * @returns {Node}
 */
export function build(tree, space = "") {
  if (typeof tree === "string") return document.createTextNode(tree);
  const [tag, attributes, ...children] = tree;
  const inside = tag === "math" ? MATHML : space;
  const element = inside ? document.createElementNS(inside, tag) : document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) if (value) element.setAttribute(name, value);
  element.append(...children.map((child) => build(child, inside)));
  return element;
}

/**
 * Puts a section in place of the one that stands in the page.
 * @param {import("../page/saying.mjs").Tree} tree of one section, with its `data-section`
 * @returns {Element} the new one
 */
export function replaceSection(tree) {
  const [, attributes] = tree;
  const made = build(tree);
  document.querySelector(`[data-section="${attributes["data-section"]}"]`)?.replaceWith(made);
  return made;
}
