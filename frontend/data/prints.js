/* A short text that changes with what it is of: whether something is still as it was. */

/** The print of a value that JSON can write, by version of the app: FNV-1a, twice 32 bits. */
export function printOf(value) {
  const text = JSON.stringify(value);
  let [one, other] = [0x811c9dc5, 0x2f0b4a27];
  for (let at = 0; at < text.length; at += 1) {
    const code = text.charCodeAt(at);
    one = Math.imul(one ^ code, 0x01000193);
    other = Math.imul(other ^ code ^ at, 0x01000193);
  }
  return `${document.documentElement.dataset.version} ${text.length} ${one >>> 0} ${other >>> 0}`;
}
