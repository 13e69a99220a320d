/** Random choices that are the same in every run. */

/** Numbers from 0 to below 1, from a seed (mulberry32). */
export function makeRandom(seed) {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

export const pick = (list, random) => list[Math.floor(random() * list.length)];

export function shuffle(list, random) {
  return list.map((value) => [random(), value]).sort(([one], [other]) => one - other).map(([, value]) => value);
}
