// Names what the theme leaves without a name, and opens what is folded away before a page is printed.
(function () {
  'use strict';

  function nameThings() {
    const search = document.querySelector('[data-md-component=search]');
    if (search) search.setAttribute('aria-label', 'Search');
  }

  let opened = [];
  window.addEventListener('beforeprint', () => {
    opened = [...document.querySelectorAll('details:not([open])')];
    opened.forEach((one) => { one.open = true; });
  });
  window.addEventListener('afterprint', () => {
    opened.forEach((one) => { one.open = false; });
    opened = [];
  });

  if (document.readyState === 'loading') document.addEventListener('DOMContentLoaded', nameThings);
  else nameThings();
})();
