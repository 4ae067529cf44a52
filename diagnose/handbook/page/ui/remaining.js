// After a fix that made it better: what is left, by what was seen before or in words.
var presslore = presslore || {};
presslore.page = presslore.page || {};

(function () {
  'use strict';

  const { make, button, line } = presslore.page.dom;
  const flow = presslore.page.flow;

  /** @type {Page['remaining']['leftView']} */
  function leftView(app) {
    /** @type {Keys} */
    const keys = {};
    const left = presslore.evidence.left(app.consultation.evidence);
    const same = { key: 'u', label: 'The same as before', act: () => app.go(flow.remained(app.state, [])) };
    const picked = left.length > 1 ? picking(app, keys, left) : null;
    return {
      above: presslore.page.parts.strip(app),
      kind: 'Test piece',
      title: 'What is left, exactly?',
      keys,
      back: true,
      body: [...(picked ? picked.body : []), inWords(app, left), presslore.page.parts.choices(keys, [], [same])],
      done: picked ? picked.done : undefined
    };
  }

  /**
   * What was seen before, to choose what is still there of it.
   * @param {App} app @param {Keys} keys @param {string[]} left
   */
  function picking(app, keys, left) {
    /** @type {Set<string>} */
    const still = new Set();
    const gone = () => left.filter((id) => !still.has(id));
    const label = make('span', {}, 'Choose what is still there');
    const done = button([presslore.page.parts.keycap('y'), label], () => app.go(flow.remained(app.state, gone())), {
      class: 'primary',
      disabled: true
    });
    const answers = left.map((id) => ({
      label: presslore.known(app.knowledge.defects, id).title,
      pressed: false,
      act: (/** @type {HTMLElement} */ node) => {
        if (!still.delete(id)) still.add(id);
        node.setAttribute('aria-pressed', String(still.has(id)));
        done.disabled = still.size === 0;
        label.textContent = still.size ? 'Only this is left' : 'Choose what is still there';
      }
    }));
    return {
      body: [line('Choose each that is still there.', 'hint'), presslore.page.parts.choices(keys, answers)],
      done
    };
  }

  /** @param {App} app @param {string[]} left */
  function inWords(app, left) {
    const field = make(
      'textarea',
      {
        id: 'pl-words',
        rows: 2,
        'aria-labelledby': 'pl-question',
        'aria-describedby': 'pl-hint',
        autocomplete: 'off',
        enterkeyhint: 'go',
        on: { keydown: (event) => event.key === 'Enter' && !event.shiftKey && asked.said(event) }
      },
      app.state.words
    );
    /** @param {string} words */
    function take(words) {
      const found = app.ears.sights(words);
      const gone = left.filter((id) => found.notSeen.includes(id) && !found.defects.includes(id));
      if (found.defects.length + found.unsure.length > 0)
        return app.go(flow.heard(app.state, words, presslore.page.opening.understood(app, found)));
      if (gone.length) return app.go(flow.remained(app.state, gone));
      if (found.elsewhere) return app.ears.elsewhere(found.elsewhere);
      return 'I did not recognise that. Say it another way, or that it is the same as before.';
    }
    const hint = 'Or your own words. Nothing typed: the same as before.';
    const without = () => app.go(flow.remained(app.state, []));
    const asked = presslore.page.asking.form(app, { field, hint, kept: 'words', without, take });
    return asked.node;
  }

  presslore.page.remaining = { leftView };
})();
