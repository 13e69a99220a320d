/**
 * What is kept under a key, made the first time that it is asked for.
 * @template K, V
 * @param {Map<K, V> | WeakMap<K, V>} kept
 * @param {K} key
 * @param {() => V} make
 * @returns {V}
 */
export function keep(kept, key, make) {
  if (!kept.has(key)) kept.set(key, make());
  return kept.get(key);
}
