/** What a reader looks at and works with stays where it is while sections are written anew around it. */

/**
 * Do something to a page, and give the focus and the scroll position back afterwards.
 * @param {Element} article
 * @param {() => void} action
 */
export function holdStill(article, action) {
  const mark = findMark(article, document.activeElement);
  const before = mark?.getBoundingClientRect().top;
  const again = holdFocus(article, action);
  const held = mark?.isConnected ? mark : again;
  const moved = held ? Math.round(held.getBoundingClientRect().top - before) : 0;
  if (moved) scrollBy({ top: moved, behavior: "instant" });
}

/** Do something to a page, and give the focus to what stands in the place of what had it; nothing is measured. */
export function holdFocus(article, action) {
  const focused = document.activeElement;
  const item = focused?.closest("li[data-junction]");
  action();
  const again = focused?.isConnected ? null : findAgain(article, focused, item);
  again?.focus({ preventScroll: true });
  return again;
}

/** The control that does the same now; else the item of its junction, which is left out now and has none. */
function findAgain(article, focused, item) {
  const control = article.querySelector(`[data-focus="${CSS.escape(focused?.dataset.focus ?? "")}"]`);
  if (control || !item) return control;
  const place = article.querySelector(`li[data-junction="${CSS.escape(item.dataset.junction)}"]`);
  place?.setAttribute("tabindex", "-1");
  return place;
}

/** What must not move: the control in use where it can be seen, else the heading that was read last. */
function findMark(article, focused) {
  if (focused && focused !== document.body && article.contains(focused) && isSeen(focused)) return focused;
  const headings = [...article.querySelectorAll("h1, h2")].filter((heading) => heading.getBoundingClientRect().top < innerHeight / 2);
  return headings.at(-1);
}

/** Whether any of an element is on the screen. */
export function isSeen(element) {
  const { top, bottom } = element.getBoundingClientRect();
  return bottom > 0 && top < innerHeight;
}
