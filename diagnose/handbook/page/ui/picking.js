// Picking what is seen from a list or from a wall of pictures; several at once.
var presslore = presslore || {};
presslore.page = presslore.page || {};

(function () {
  'use strict';

  const { make, button, list, firstSentence } = presslore.page.dom;
  const flow = presslore.page.flow;

  function listView(app) {
    return view(app, 'What do you see?', false);
  }

  function picturesView(app) {
    return view(app, 'Which looks like yours?', true);
  }

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
    const names = said(app.knowledge);
    const cards = sorted(app.knowledge).map((defect) =>
      card(app, defect, { pictures, chosen, tally, said: names.get(defect.id) })
    );
    const none = make('p', { class: 'hint', role: 'status' });
    const field = make('input', {
      type: 'search',
      id: 'pl-narrow',
      autocomplete: 'off',
      on: { input: () => narrow(cards, field.value, none) }
    });
    tally();
    return {
      title,
      keys: {},
      back: true,
      wide: pictures,
      body: [
        make('p', { class: 'narrow' }, [
          make('label', { for: 'pl-narrow' }, 'Only those that speak of:'),
          field
        ]),
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

  function sorted(knowledge) {
    const byTitle = (defect) => [defect.title.toLowerCase(), defect.id];
    return presslore.numbers.sorted(Array.from(knowledge.defects.values()), byTitle);
  }

  /** What people call each defect, to narrow the choice by. */
  function said(knowledge) {
    const names = (presslore.vocabulary || {}).defects || [];
    return new Map(Array.from(knowledge.defects.keys(), (id, at) => [id, names[at] || '']));
  }

  function card(app, defect, { pictures, chosen, tally, said }) {
    const picture = pictures ? app.pictures.get(defect.id) : null;
    const node = button(
      [
        picture
          ? make('img', { src: picture.src, alt: picture.alt, width: 640, height: 300, loading: 'lazy' })
          : null,
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
    return { node, text: [defect.title, defect.looks, said].join(' ').toLowerCase() };
  }

  /** Hide the cards that do not hold every word. */
  function narrow(cards, text, none) {
    const words = text.toLowerCase().split(/\s+/).filter(Boolean);
    let shown = 0;
    cards.forEach((one) => {
      const fits = words.every((word) => one.text.includes(word));
      one.node.parentElement.hidden = !fits;
      shown += fits ? 1 : 0;
    });
    none.textContent = words.length ? (shown ? `${shown} of ${cards.length}` : 'None speaks of that.') : '';
  }

  presslore.page.picking = { listView, picturesView };
})();
