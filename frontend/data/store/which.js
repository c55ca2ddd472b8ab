// @ts-check
/* Which store this page has: the maker's own, or that of the invented year. */

/** Under what the browser remembers that pages show the invented year. */
export const MARK = 'invented-year';
/** Whether this page shows the invented year. That has a store of its own, and nothing of it is ever sent. */
export const invented = isMarked();
export const INVENTED_STORE = 'boltfair-invented';
export const STORE = invented ? INVENTED_STORE : 'boltfair';

function isMarked() {
  try {
    return localStorage.getItem(MARK) === 'yes';
  } catch {
    return false; // a browser that refuses it keeps nothing, and shows no invented year
  }
}
