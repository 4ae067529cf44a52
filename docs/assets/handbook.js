// Names what the theme leaves without a name, and opens what is folded away before a page is printed.
(function () {
  'use strict';

  function nameThings() {
    const search = document.querySelector('[data-md-component=search]');
    if (search) search.setAttribute('aria-label', 'Search');
  }

  /** @type {HTMLDetailsElement[]} */
  let opened = [];
  window.addEventListener('beforeprint', () => {
    opened = Array.from(document.querySelectorAll('details')).filter((one) => !one.open);
    opened.forEach((one) => {
      one.open = true;
    });
  });
  window.addEventListener('afterprint', () => {
    opened.forEach((one) => {
      one.open = false;
    });
    opened = [];
  });

  if (document.readyState === 'loading') document.addEventListener('DOMContentLoaded', nameThings);
  else nameThings();
})();
