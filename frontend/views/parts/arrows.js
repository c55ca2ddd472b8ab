/* Many buttons that are one stop for the Tab key: arrow keys go from one to the next. */
import { useLayoutEffect } from 'preact/hooks';

// those that the arrows reach are written with tabindex -1; where the focus was last has 0
const buttonsIn = (list) => [...list.querySelectorAll('[tabindex]:not(:disabled)')];

/** What a list, whose buttons have tabindex -1, needs for it: {onKeyDown, onFocusIn}. */
export function useArrows(list) {
  useLayoutEffect(() => {
    // each change looks here, and hardly ever finds none
    if (!list.current || list.current.querySelector('[tabindex="0"]:not(:disabled)')) return;
    const [first] = buttonsIn(list.current);
    if (first) first.tabIndex = 0;
  });
  return { onKeyDown: go, onFocusIn: stay };
}

function stay({ currentTarget, target }) {
  if (!target.matches('[tabindex]')) return;
  for (const button of currentTarget.querySelectorAll('[tabindex="0"]')) if (button !== target) button.tabIndex = -1;
  if (target.tabIndex !== 0) target.tabIndex = 0;
}

function go(event) {
  const { currentTarget, target, key } = event;
  // in a number the arrows to the sides go from digit to digit
  if (target.matches('input') && !UP_OR_DOWN.includes(key)) return;
  if (!(key in NEXT)) return;
  // at an end, too: the page, scrolled by the key, would glide away from what the next key comes to
  event.preventDefault();
  NEXT[key](buttonsIn(currentTarget), target)?.focus();
}

const UP_OR_DOWN = ['ArrowUp', 'ArrowDown'];
const NEXT = {
  ArrowRight: (all, from) => all[all.indexOf(from) + 1],
  ArrowLeft: (all, from) => all[all.indexOf(from) - 1],
  ArrowDown: (all, from) => nearest(all, from, (box, start) => box.top - start.bottom),
  ArrowUp: (all, from) => nearest(all, from, (box, start) => start.top - box.bottom),
  Home: (all) => all[0],
  End: (all) => all.at(-1),
};

// of those beyond an edge the closest row, and in it what is most straight ahead
function nearest(all, from, beyond) {
  const start = from.getBoundingClientRect();
  const aside = (box) => Math.abs(box.left + box.width / 2 - start.left - start.width / 2);
  const found = all.map((button) => ({ button, box: button.getBoundingClientRect() })).filter(({ box }) => beyond(box, start) >= -1);
  const closest = Math.min(...found.map(({ box }) => beyond(box, start)));
  const row = found.filter(({ box }) => beyond(box, start) < closest + start.height / 2);
  return row.sort((a, b) => aside(a.box) - aside(b.box))[0]?.button;
}
