// Picking what is seen from a list or from a wall of pictures; several at once.
var presslore = presslore || {};
presslore.page = presslore.page || {};

(function () {
  'use strict';

  /**
   * @typedef {{ node: HTMLElement, id: string }} Card
   * @typedef {{ pictures: boolean, chosen: Set<string>, tally: () => void }} Picking
   */

  const { make, button, list, firstSentence } = presslore.page.dom;
  const flow = presslore.page.flow;

  /** @type {Page['picking']['listView']} */
  function listView(app) {
    return view(app, 'What do you see?', false);
  }

  /** @type {Page['picking']['picturesView']} */
  function picturesView(app) {
    return view(app, 'Which looks like yours?', true);
  }

  /** @param {App} app @param {string} title @param {boolean} pictures */
  function view(app, title, pictures) {
    const chosen = new Set(app.state.defects);
    const count = make('span', { 'aria-live': 'polite' });
    const yes = presslore.page.parts.keycap('y');
    const done = button([yes, count], () => app.go(flow.picked(app.state, Array.from(chosen))), {
      class: 'primary'
    });
    function tally() {
      const number = chosen.size;
      count.textContent = number ? `Go on with ${number} chosen` : 'Choose what you see';
      done.disabled = number === 0;
    }
    const cards = sorted(app.knowledge).map((defect) => card(app, defect, { pictures, chosen, tally }));
    const none = make('p', { class: 'hint', role: 'status' });
    /** @type {HTMLInputElement} */
    const field = make('input', {
      type: 'search',
      id: 'pl-narrow',
      autocomplete: 'off',
      on: { input: () => narrow(app, cards, field.value, none) }
    });
    tally();
    return {
      title,
      keys: {},
      back: true,
      wide: pictures,
      body: [
        make('p', { class: 'narrow' }, [make('label', { for: 'pl-narrow' }, 'Only those that speak of:'), field]),
        none,
        list(
          'ul',
          cards.map((one) => one.node),
          pictures ? 'wall' : 'answers'
        )
      ],
      done
    };
  }

  /** @param {Knowledge} knowledge */
  function sorted(knowledge) {
    const byTitle = (/** @type {Defect} */ defect) => [defect.title.toLowerCase(), defect.id];
    return presslore.numbers.sorted(Array.from(knowledge.defects.values()), byTitle);
  }

  /**
   * The words of each defect, to narrow the choice by: what it is called too, once that is there.
   * @param {App} app
   */
  function spoken(app) {
    if (app.spoken && app.spoken.named === app.ears.ready()) return app.spoken.texts;
    const names = app.ears.names();
    /** @type {Map<string, string>} */
    const texts = new Map();
    Array.from(app.knowledge.defects.values()).forEach((defect, at) => {
      texts.set(defect.id, ` ${presslore.words.cut(`${defect.title} ${defect.looks}`).join(' ')} ${names[at]}`);
    });
    app.spoken = { named: app.ears.ready(), texts };
    return texts;
  }

  /** @param {App} app @param {Defect} defect @param {Picking} picking */
  function card(app, defect, { pictures, chosen, tally }) {
    const picture = pictures ? app.pictures.get(defect.id) : null;
    const node = button(
      [
        picture ? make('img', { src: picture.src, alt: picture.alt, width: 640, height: 300, loading: 'lazy' }) : null,
        make('span', { class: 'name' }, [
          make('strong', {}, defect.title),
          make('span', { class: 'tick', 'aria-hidden': 'true' }, '✓ chosen')
        ]),
        make('span', { class: 'looks' }, firstSentence(defect.looks))
      ].filter(Boolean),
      () => {
        if (!chosen.delete(defect.id)) chosen.add(defect.id);
        node.setAttribute('aria-pressed', String(chosen.has(defect.id)));
        tally();
      },
      { class: 'pick', 'aria-pressed': String(chosen.has(defect.id)) }
    );
    return { node, id: defect.id };
  }

  /**
   * Hide the cards that do not hold every word, or words that begin with it.
   * @param {App} app @param {Card[]} cards @param {string} text @param {HTMLElement} none
   */
  function narrow(app, cards, text, none) {
    const words = presslore.words.cut(text);
    const texts = spoken(app);
    let shown = 0;
    cards.forEach((one) => {
      const fits = words.every((word) => holds(texts.get(one.id) || '', word));
      if (one.node.parentElement) one.node.parentElement.hidden = !fits;
      shown += fits ? 1 : 0;
    });
    none.textContent = words.length ? (shown ? `${shown} of ${cards.length}` : 'None speaks of that.') : '';
  }

  /** @param {string} text @param {string} word */
  function holds(text, word) {
    return text.includes(` ${word}`) || text.includes(` ${presslore.words.withoutPlural(word)}`);
  }

  presslore.page.picking = { listView, picturesView };
})();
