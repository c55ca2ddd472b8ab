// @ts-check
/* What can be had of the server. */

/** Whether a file can be had from it now.
    @param {string} address */
export const isServed = (address) =>
  fetch(address, { cache: 'no-store' }).then(
    ({ ok }) => ok,
    () => false,
  );
