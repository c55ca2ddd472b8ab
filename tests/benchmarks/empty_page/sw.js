/* Keeps the two files of the empty page. */
self.addEventListener('install', (event) => {
  event.waitUntil(caches.open('empty').then((cache) => cache.addAll(['/', '/page.js'])));
});
self.addEventListener('fetch', (event) => event.respondWith(caches.match(event.request)));
