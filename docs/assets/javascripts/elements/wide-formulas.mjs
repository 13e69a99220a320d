/** What is wider than its place scrolls there; then the keyboard must reach it too. */

const scrolling = ".equation, pre > code, .figure-frame, .formula-frame, .table-frame";

/**
 * Let the tab key stop at every formula, table, figure and piece of code of an article that scrolls, and at no other. What the
 * browser passes over is left for when it is shown: to measure it would lay it out.
 * @param {Element} article
 */
export function openToKeys(article) {
  const places = [...article.querySelectorAll(scrolling)].filter((place) => place.checkVisibility({ contentVisibilityAuto: true }));
  const wide = places.filter((place) => place.scrollWidth > place.clientWidth + 1 || place.matches(".cut .figure-frame"));
  for (const place of places) {
    if (wide.includes(place)) place.setAttribute("tabindex", "0");
    else place.removeAttribute("tabindex");
  }
  // The theme puts the copy button of each piece of code into a landmark without a name.
  for (const landmark of article.querySelectorAll("nav.md-code__nav")) landmark.setAttribute("role", "none");
}
