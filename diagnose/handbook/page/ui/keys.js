// The dialogue by single keys, as on the command line: numbers answer, letters do what their key marks say.
var presslore = presslore || {};
presslore.page = presslore.page || {};

(function () {
  'use strict';

  const TYPING = 'input, textarea, select, [contenteditable]';

  /**
   * Listen for keys meant for the dialogue, and take them before the site's own shortcuts do.
   * @type {Page['keys']['listen']}
   */
  function listen(app) {
    document.addEventListener(
      'keydown',
      (event) => {
        const act = !modified(event) && ours(app, event.target) && app.keys[event.key.toLowerCase()];
        if (!act || !presslore.page.keep.keysOn()) return;
        event.preventDefault();
        event.stopPropagation();
        act();
      },
      true
    );
  }

  /** @param {KeyboardEvent} event */
  function modified(event) {
    return event.ctrlKey || event.altKey || event.metaKey || event.isComposing || event.repeat;
  }

  /** @param {App} app @param {EventTarget | null} target */
  function ours(app, target) {
    if (target === document.body || target === document.documentElement) return true;
    return target instanceof Element && app.root.contains(target) && !target.closest(TYPING);
  }

  /** What the keys are, and the way to switch them off. */
  function legend() {
    const { make } = presslore.page.dom;
    /** @type {HTMLInputElement} */
    const box = make('input', {
      type: 'checkbox',
      checked: presslore.page.keep.keysOn(),
      on: { change: () => presslore.page.keep.switchKeys(box.checked) }
    });
    const text = ' Single keys answer: numbers, and the letters on the buttons';
    return make('p', { class: 'legend' }, make('label', {}, [box, make('span', {}, text)]));
  }

  presslore.page.keys = { listen, legend };
})();
