/** What was typed stays with the entry of the history, for a reload and the back button; what an example keeps besides is in go-on.mjs. */

/** @param {string} name whose it is */
export const keptOf = (name) => history.state?.typed?.[name];

/**
 * @param {string} name
 * @param {object} value plain data
 */
export function keepTyped(name, value) {
  try {
    history.replaceState({ ...history.state, typed: { ...history.state?.typed, [name]: value } }, "");
  } catch {
    // A frame that may keep nothing.
  }
}
