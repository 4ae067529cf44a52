// Have the served site kept on this device, so that it opens without a network after the first visit. What this machine
// serves itself is looked at while it is worked on, and is not kept.
(function () {
  'use strict';

  const script = document.currentScript;
  if (location.protocol === 'file:' || !navigator.serviceWorker || !(script instanceof HTMLScriptElement)) return;
  const worker = new URL('../worker.js', script.src);
  const local = /^(localhost|.*\.localhost|127\.[\d.]+|\[::1\])$/.test(location.hostname);

  /** Let go of a worker that was registered for this site before. */
  async function release() {
    const found = await navigator.serviceWorker.getRegistration(new URL('.', worker));
    const own = found && (found.active || found.waiting || found.installing);
    if (own && own.scriptURL === worker.href) await found.unregister();
  }

  window.addEventListener('load', () => {
    const done = local ? release() : navigator.serviceWorker.register(worker, { updateViaCache: 'none' });
    done.catch(() => {
      // The site works all the same; it is only not kept.
    });
  });
})();
