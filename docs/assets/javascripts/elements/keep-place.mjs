/**
 * Where a reader was on a page stays where it was, after a reload too: what is chosen, and what is left to be filled in,
 * gives the page another height than the browser remembers, and comes bit by bit.
 */

/** So long a place is held after a reload, unless a hand moves the page [ms]; a page that takes longer to work is left as it is. */
const HELD_FOR = 2500;

/** A page that has not been scrolled for so long is at rest [ms]. Browsers let the history be written a hundred times in half a minute. */
const AT_REST = 500;

/** Far up on the screen stands what is read. */
const READ_ABOVE = 1 / 3;

/** The last thing with an id that a reader has begun, and where it stands. */
function findPlace(article) {
  // What is passed over out of sight is not laid out for this.
  const isBegun = (each) => each.checkVisibility({ contentVisibilityAuto: true }) && each.getBoundingClientRect().top < innerHeight * READ_ABOVE;
  const last = [...article.querySelectorAll("[id]")].findLast(isBegun);
  return last ? { id: last.id, top: Math.round(last.getBoundingClientRect().top) } : undefined;
}

/**
 * Remember the place, each time a page with choices in its address has come to rest, since what is written while a page is
 * left is lost; lead back to it where the page was asked for again.
 */
export function keepPlace(article, signal) {
  let resting;
  const note = () => {
    clearTimeout(resting);
    resting = setTimeout(() => location.search && history.replaceState({ ...history.state, place: findPlace(article) }, ""), AT_REST);
  };
  addEventListener("scroll", note, { signal, passive: true });
  const [{ type } = {}] = performance.getEntriesByType("navigation");
  const { place } = history.state ?? {};
  const isAgain = type === "reload" && place && location.search && !new URLSearchParams(location.search).has("step");
  if (isAgain && performance.now() < HELD_FOR) hold(place);
}

function hold({ id, top }) {
  const until = performance.now() + HELD_FOR;
  const hands = new AbortController();
  for (const sign of ["pointerdown", "wheel", "keydown", "touchmove"]) addEventListener(sign, () => hands.abort(), { signal: hands.signal, passive: true });
  const lead = () => {
    if (hands.signal.aborted || performance.now() > until) return hands.abort();
    const element = document.getElementById(id);
    const off = element?.checkVisibility() ? element.getBoundingClientRect().top - top : 0;
    if (Math.abs(off) > 1) scrollBy({ top: off, behavior: "instant" });
    requestAnimationFrame(lead);
  };
  lead();
}
