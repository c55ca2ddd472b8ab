// @ts-check
/* When a page is painted. */

/** Resolves after the next paint; at once in a page that nobody looks at, as that is not painted. */
export function painted() {
  return /** @type {Promise<void>} */ (
    new Promise((resolve) => {
      if (document.hidden) resolve();
      else requestAnimationFrame(() => setTimeout(resolve));
    })
  );
}
