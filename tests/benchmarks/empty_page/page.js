/* The least an offline page with an answer can be. */
const [typed, echo] = [document.querySelector('input'), document.querySelector('[data-output]')];

function show() {
  echo.dataset.value = typed.value;
  echo.textContent = typed.value;
}

typed.addEventListener('input', show);
show();
await navigator.serviceWorker.register('/sw.js');
await navigator.serviceWorker.ready;
document.documentElement.dataset.offlineReady = '';
