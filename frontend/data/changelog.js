/* The change log that the app ships with. */

/** Releases, newest first: [{version, day, changes}]. */
export async function changes() {
  return (await fetch('/changelog.json')).json();
}
