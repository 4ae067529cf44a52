// Have the served site kept on this device, so that it opens without a network after the first visit.
(function () {
  'use strict';

  if (location.protocol === 'file:' || !navigator.serviceWorker || !document.currentScript) return;
  const worker = new URL('../worker.js', document.currentScript.src);
  window.addEventListener('load', () => {
    navigator.serviceWorker.register(worker).catch(() => {
      // The site works all the same; it is only not kept.
    });
  });
})();
