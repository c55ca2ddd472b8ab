/* Runs in a phone's page: waits by what changes in it, never by the clock. */
self.until = (look) =>
  new Promise((resolve) => {
    const ask = () => {
      const found = look();
      if (!found) return;
      watch.disconnect();
      resolve(found);
    };
    const watch = new MutationObserver(ask);
    watch.observe(document, { subtree: true, childList: true, attributes: true, characterData: true });
    ask();
  });
