/* Read in the page by the tests: what the outputs hold. */
(() => {
  const sorted = (value) => {
    if (Array.isArray(value)) return value.map(sorted);
    if (value === null || typeof value !== 'object') return value;
    return Object.fromEntries(
      Object.keys(value)
        .sort()
        .map((key) => [key, sorted(value[key])]),
    );
  };

  const holds = (text, wanted) => {
    if (wanted === null) return text === '';
    if (typeof wanted === 'string') return text === wanted;
    return text !== '' && JSON.stringify(sorted(JSON.parse(text))) === JSON.stringify(sorted(wanted));
  };

  const valuesOf = (name) => [...document.querySelectorAll(`[data-output="${name}"]`)].map((element) => element.dataset.value);

  /** The outputs that do not show what is wanted, as [name, texts shown]. */
  return (wanted) =>
    Object.entries(wanted)
      .map(([name, value]) => [name, value, valuesOf(name)])
      .filter(([, value, texts]) => !texts.every((text) => holds(text, value)) || (value !== null && !texts.length))
      .map(([name, , texts]) => [name, texts]);
})();
