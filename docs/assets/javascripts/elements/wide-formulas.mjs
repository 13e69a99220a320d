/** A formula that is wider than its place scrolls there; then the keyboard must reach it too. */

/**
 * Let the tab key stop at every formula of an article that scrolls, and at no other.
 * @param {Element} article
 */
export function openToKeys(article) {
  const formulas = [...article.querySelectorAll(".equation")];
  const wide = formulas.filter((formula) => formula.scrollWidth > formula.clientWidth + 1);
  for (const formula of formulas) {
    if (wide.includes(formula)) formula.setAttribute("tabindex", "0");
    else formula.removeAttribute("tabindex");
  }
}
