// @ts-check
/* The two sorts of changes. */

/** Whether a change states a fact, and is no edit of a description.
    @param {Change} change */
export const isFact = (change) => change.record === undefined;
