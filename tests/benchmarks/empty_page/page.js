/* The least an offline page can be that answers, counts taps, and keeps what they came to. */
const [typed, echo] = [document.querySelector('input'), document.querySelector('[data-output]')];

function show() {
  echo.dataset.value = typed.value;
  echo.textContent = typed.value;
}

const [add, keep] = document.querySelectorAll('button');
const [total, last] = document.querySelectorAll('[data-total], .sell-last-sale');
const opening = indexedDB.open('empty');
let pieces = 0;

function count(now) {
  pieces = now;
  total.dataset.total = total.textContent = now || '';
}

add.addEventListener('click', () => count(pieces + 1));
keep.addEventListener('click', () => {
  const tx = opening.result.transaction('kept', 'readwrite', { durability: 'strict' });
  const adding = tx.objectStore('kept').add(pieces);
  tx.oncomplete = () => {
    count(0);
    last.textContent = `Number ${adding.result} is kept`;
  };
});
opening.onupgradeneeded = () => opening.result.createObjectStore('kept', { autoIncrement: true });
typed.addEventListener('input', show);
show();
await navigator.serviceWorker.register('/sw.js');
await navigator.serviceWorker.ready;
document.documentElement.dataset.offlineReady = '';
