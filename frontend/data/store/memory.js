// @ts-check
/* What of the store is held in memory, so that no screen waits for the disk: all but the log. */

/** @type {{outbox: Map<string, OwnChange>, descriptions: Map<string, Description>, totals: Map<string, Total>, remembered: Map<string, any>}} */
export const memory = { outbox: new Map(), descriptions: new Map(), totals: new Map(), remembered: new Map() };

/** What was remembered and is not on the disk yet.
    @type {Map<string, any>} */
export const unwritten = new Map();
