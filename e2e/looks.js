/* Read in the page by the tests: what a hand, an eye or a large text finds wrong there. */
(() => {
  const name = (element) =>
    `${element.tagName.toLowerCase()}${element.id && `#${element.id}`}.${element.className} "${(element.textContent || element.name || '').trim().slice(0, 40)}"`;

  const seen = (element) => element.checkVisibility({ visibilityProperty: true }) && !element.closest('.skip');

  const all = (selector) => [...document.querySelectorAll(selector)].filter(seen);

  // a tick is made by a tap on its label, too
  const tappedBox = (element) => {
    const boxes = [element, element.closest('label')].filter(Boolean).map((part) => part.getBoundingClientRect());
    return { width: Math.max(...boxes.map((box) => box.width)), height: Math.max(...boxes.map((box) => box.height)) };
  };

  // links in the middle of a sentence are exempt (WCAG 2.2, 2.5.8)
  const inSentence = (element) => element.matches('p > a:not(.button), small a');

  const channels = (colour) => {
    const [red, green, blue, alpha = 1] = colour.match(/[\d.]+/g).map(Number);
    return { rgb: [red, green, blue], alpha };
  };

  // WCAG 2.2, relative luminance
  const luminance = (rgb) => {
    const [red, green, blue] = rgb.map((part) => part / 255).map((part) => (part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4));
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
  };

  const backgroundOf = (element) => {
    for (let at = element; at; at = at.parentElement) {
      const { rgb, alpha } = channels(getComputedStyle(at).backgroundColor);
      if (alpha === 1) return rgb;
    }
    return [255, 255, 255];
  };

  const contrast = (element) => {
    const [one, other] = [channels(getComputedStyle(element).color).rgb, backgroundOf(element)].map(luminance);
    return (Math.max(one, other) + 0.05) / (Math.min(one, other) + 0.05);
  };

  const hasOwnText = (element) => [...element.childNodes].some((node) => node.nodeType === 3 && node.data.trim());

  return {
    smallTargets: (least) =>
      all('button, a[href], input, select, summary, textarea')
        .filter((element) => !inSentence(element))
        .map((element) => [element, tappedBox(element)])
        .filter(([, box]) => Math.min(box.width, box.height) < least - 0.5)
        .map(([element, box]) => `${name(element)}: ${box.width} × ${box.height}`),

    // iOS zooms the page into what is typed in or chosen from, where its letters are smaller
    smallLetters: (least) =>
      all('input:not([type="checkbox"], [type="radio"]), select, textarea')
        .map((element) => [element, parseFloat(getComputedStyle(element).fontSize)])
        .filter(([, size]) => size < least)
        .map(([element, size]) => `${name(element)}: ${size}`),

    lowContrast: (least) =>
      all('#app *, #app input, #app select')
        .filter((element) => !element.closest('svg') && (hasOwnText(element) || element.value))
        .map((element) => [element, contrast(element)])
        .filter(([, ratio]) => ratio < least)
        .map(([element, ratio]) => `${name(element)}: ${ratio.toFixed(2)}`),

    // the page scrolls one way only, and no words are cut off
    outOfPlace: () => {
      const width = document.documentElement.clientWidth;
      const wrong = document.scrollingElement.scrollWidth > width ? [`the page is ${document.scrollingElement.scrollWidth} wide`] : [];
      for (const element of all('#app *')) {
        const box = element.getBoundingClientRect();
        if (box.width && (box.right > width + 1 || box.left < -1)) wrong.push(`${name(element)}: ${box.left} to ${box.right} of ${width}`);
        // a word in a drawing has no box that could cut it off
        const spills = !(element instanceof SVGElement) && element.clientWidth && element.scrollWidth > element.clientWidth + 1;
        if (spills && !element.matches('input, select')) wrong.push(`${name(element)}: holds ${element.scrollWidth} in ${element.clientWidth}`);
      }
      return wrong;
    },

    // where a column is too narrow, a word or a figure goes on in the next line
    brokenWords: (selector) => {
      const range = document.createRange();
      const isBroken = (node, from, length) => {
        range.setStart(node, from);
        range.setEnd(node, from + length);
        return new Set([...range.getClientRects()].map(({ top }) => Math.round(top))).size > 1;
      };
      return all(selector)
        .flatMap((element) => [...element.childNodes].filter((node) => node.nodeType === 3))
        .flatMap((node) => [...node.data.matchAll(/\S+/g)].filter(({ 0: word, index }) => isBroken(node, index, word.length)).map(([word]) => word));
    },

    // fields beside each other stand at one height, also where the name of one takes two lines
    unevenFields: () =>
      all('.fields').flatMap((fields) => {
        const heights = new Map();
        for (const field of [...fields.children].filter((field) => field.querySelector(':scope > .control'))) {
          const { top } = field.getBoundingClientRect();
          const { top: control } = field.querySelector(':scope > .control').getBoundingClientRect();
          heights.set(top, [...(heights.get(top) ?? []), [name(field), control]]);
        }
        return [...heights.values()]
          .filter((row) => row.some(([, control]) => Math.abs(control - row[0][1]) > 1))
          .map((row) => row.map(([named]) => named).join(' beside '));
      }),

    // the words chosen are cut off where they take more room than the field has
    cutChoice: (selector) => {
      const field = document.querySelector(selector);
      const free = field.cloneNode(true);
      free.replaceChildren(field.selectedOptions[0].cloneNode(true));
      free.style.width = 'max-content';
      free.style.position = 'absolute';
      field.after(free);
      const cut = free.offsetWidth > field.offsetWidth;
      free.remove();
      return cut;
    },

    reachable: () => all('a[href], button:not(:disabled), input:not(:disabled), select, summary').map(name),

    focused: () => {
      const element = document.activeElement;
      const rings = [element, element.closest('.control')].filter(Boolean).map((part) => getComputedStyle(part));
      // WCAG 2.2, 2.4.11: what sticks to an edge must not cover it
      const box = element.getBoundingClientRect();
      const atop = document.elementFromPoint(box.x + box.width / 2, box.y + box.height / 2);
      return {
        name: name(element),
        covered: !atop?.closest('.control, label')?.contains(element) && !element.contains(atop),
        ringed: rings.some((ring) => ring.outlineStyle !== 'none' && parseFloat(ring.outlineWidth) >= 2),
      };
    },
  };
})();
