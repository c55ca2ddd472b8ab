/* Runs in the page before anything else: notes what happens when, in ms since navigation. */
(() => {
  const seen = { paint: [], shifts: [], tasks: [], frames: [], waits: [], calls: [], workerMade: null, coreUp: null, pageRuns: null, usable: null };
  // after a quick answer to a touch a browser may never call its page idle
  const MOST_IDLE_MS = 500;
  let askedAt = null;

  const observe = (type, note) => {
    new PerformanceObserver((list) => list.getEntries().forEach(note)).observe({ type, buffered: true });
  };
  observe('paint', (entry) => {
    seen.paint.push(entry.startTime);
    benchmark.isPainted();
  });
  const named = (node) => node?.dataset?.output || node?.className || node?.nodeName.toLowerCase();
  observe('layout-shift', (entry) =>
    seen.shifts.push({
      value: entry.value,
      afterInput: entry.hadRecentInput,
      moved: entry.sources.map((source) => named(source.node)).filter(Boolean),
    }),
  );
  observe('longtask', (entry) => seen.tasks.push({ at: entry.startTime, ms: entry.duration }));
  observe('long-animation-frame', (entry) =>
    seen.frames.push({
      at: entry.startTime,
      ms: entry.duration,
      render: entry.renderStart ? entry.startTime + entry.duration - entry.renderStart : 0,
      scripts: entry.scripts.map((script) => ({ ms: script.duration, what: script.invoker, file: script.sourceURL })),
    }),
  );

  // a frame callback comes before the paint; of all that waits, a task of this priority is the first after it
  const afterPaint = (then) =>
    requestAnimationFrame(() => {
      scheduler.postTask(() => then(performance.now()), { priority: 'user-blocking' });
    });

  // waits for the core are told apart from the page's own work
  const Original = Worker;
  window.Worker = class extends Original {
    constructor(...how) {
      super(...how);
      seen.workerMade = performance.now();
      this.addEventListener('message', ({ data }) => {
        const call = seen.calls.find((made) => made.id === data.id);
        if (call) call.got = performance.now();
        // the core's version is told once it is up
        if ('version' in data) {
          seen.coreUp = performance.now();
          benchmark.up();
        }
      });
    }

    postMessage(message) {
      const sent = performance.now();
      seen.pageRuns ??= sent;
      if (message.text) seen.calls.push({ id: message.id, sent, got: null });
      super.postMessage({ ...message, sent: performance.timeOrigin + sent });
    }
  };

  const fromServiceWorker = () => {
    const entries = [...performance.getEntriesByType('navigation'), ...performance.getEntriesByType('resource')];
    // a file that a static route took from the cache never woke the worker
    return entries
      .filter((entry) => entry.workerStart > 0 && entry.workerFinalSourceType !== 'cache')
      .map((entry) => ({ name: new URL(entry.name).pathname, from: entry.workerStart, to: entry.responseStart }));
  };

  // tells how long each answer took to its paint, and when it was asked for and shown, once the page is idle; by itself,
  // as a question put to the page meanwhile would be work of its own
  const time = (event, what, isAnswer) => {
    for (const notes of [seen.shifts, seen.tasks, seen.frames]) notes.length = 0;
    addEventListener(
      event,
      ({ timeStamp }) => {
        askedAt = timeStamp;
      },
      { capture: true },
    );
    new MutationObserver(() => {
      if (askedAt === null || !isAnswer()) return;
      const [from, shown] = [askedAt, performance.now()];
      askedAt = null;
      afterPaint((to) =>
        requestIdleCallback(
          () => {
            const at = (ms) => performance.timeOrigin + ms;
            console.debug(JSON.stringify({ answered: { ms: to - from, asked: at(from), shown: at(shown) } }));
          },
          { timeout: MOST_IDLE_MS },
        ),
      );
    }).observe(document.getElementById('main'), what);
  };

  window.benchmark = {
    seen,
    up: null,
    /** Resolves once the core is up; at once where there is none. */
    get coreUp() {
      return seen.workerMade === null || seen.coreUp !== null ? null : this.comesUp;
    },
    /** Note when an element that matches is first painted; `usable` resolves then. */
    watch(selector) {
      this.usable = new Promise((resolve) => {
        const look = new MutationObserver(() => {
          if (!document.querySelector(selector)) return;
          look.disconnect();
          afterPaint((at) => {
            seen.usable = at;
            resolve();
          });
        });
        look.observe(document, { subtree: true, childList: true, attributes: true });
      });
    },
    /** Everything noted so far. */
    told: () => ({ ...seen, fromServiceWorker: fromServiceWorker() }),
    /** From now on, time each input to the paint of the next changed output, and note only what typing does. */
    timeTyping() {
      time('input', { subtree: true, attributeFilter: ['data-value'] }, () => true);
    },
    /** From now on, time each tap to the paint of a new total or of a sale shown as kept. */
    timeTaps() {
      const shown = () => document.querySelector('[data-total]:not([data-total=""]), .sell-last-sale')?.textContent;
      let before = null;
      addEventListener(
        'click',
        () => {
          before = shown();
        },
        { capture: true },
      );
      time('click', { subtree: true, childList: true, attributes: true }, () => shown() && shown() !== before);
    },
  };
  benchmark.comesUp = new Promise((resolve) => {
    benchmark.up = resolve;
  });
  benchmark.painted = new Promise((resolve) => {
    benchmark.isPainted = resolve;
  });
})();
