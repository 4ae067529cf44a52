// Pieces that several views share: numbered choices, cautions, the strip of what is known, and small print.
var presslore = presslore || {};
presslore.page = presslore.page || {};

(function () {
  'use strict';

  const { make, button, list } = presslore.page.dom;
  const AFTERWARDS = 'The piece, and the rest of the order';

  /**
   * A mark for the key that does the same. Readers leave it out: the key is told once, below.
   * @type {Parts['keycap']}
   */
  function keycap(key) {
    return make('kbd', { class: 'keycap', 'aria-hidden': 'true' }, key);
  }

  /**
   * Numbered answers, one large button each; `others` are answers by letter. The keys are put into `keys`.
   * A choice: {label, act, pressed: whether it is, where it can be}; one of the others: {key, label, act}.
   * @type {Parts['choices']}
   */
  function choices(keys, numbered, others) {
    const entries = numbered.map((choice, at) => answer(keys, String(at + 1), choice, 'answer'));
    (others || []).forEach((choice) => {
      entries.push(answer(keys, choice.key, choice, 'answer quiet'));
    });
    return list('ul', entries, 'answers');
  }

  /** @param {Keys} keys @param {string} key @param {Numbered} choice @param {string} look */
  function answer(keys, key, choice, look) {
    const pressed = 'pressed' in choice ? String(choice.pressed) : null;
    const node = button([keycap(key), make('span', {}, choice.label)], () => choice.act(node), {
      class: look,
      'aria-pressed': pressed
    });
    if (key.length === 1) keys[key] = () => choice.act(node);
    return node;
  }

  /**
   * Cautions, before the step they belong to: a line with a mark each. A tap on any of them opens the full texts.
   * @type {Parts['cautions']}
   */
  function cautions(app, ids) {
    if (!ids.length) return null;
    const known = ids.map((id) => presslore.known(app.knowledge.cautions, id));
    const lines = known.map(({ title }) =>
      make('span', { class: 'line' }, [mark(), make('span', {}, [word(), make('strong', {}, title)])])
    );
    const open = make('span', { class: 'open' }, 'The cautions in full');
    return make('details', { class: 'cautions' }, [make('summary', {}, [...lines, open]), texts(known)]);
  }

  /**
   * The full text of those of the cautions that were not shown before in this dialogue. It comes below what is to be
   * done, so that the steps come first; null where there is none.
   * @type {Parts['inFull']}
   */
  function inFull(app, ids) {
    const fresh = ids.filter((id) => !app.state.warned.includes(id));
    if (!fresh.length) return null;
    const known = fresh.map((id) => presslore.known(app.knowledge.cautions, id));
    return make('section', { class: 'in-full' }, [make('h3', {}, 'The cautions in full'), texts(known)]);
  }

  /** @param {Caution[]} known */
  function texts(known) {
    const entries = known.map(({ title, text }) => [make('strong', {}, title), make('span', {}, `. ${text}`)]);
    return list('ul', entries, 'texts');
  }

  function mark() {
    return make('span', { class: 'mark', 'aria-hidden': 'true' }, '!');
  }

  /** What the mark says, to whoever hears the page. */
  function word() {
    return make('span', { class: 'unseen' }, 'Caution: ');
  }

  /**
   * What the dialogue is about, with the way to see and change it.
   * @type {Parts['strip']}
   */
  function strip(app) {
    const talk = app.consultation;
    const left = presslore.evidence.left(talk.evidence).map((id) => presslore.known(app.knowledge.defects, id).title);
    const known = () => app.go(presslore.page.flow.at(app.state, 'known'));
    return about(talk, left, button('All that is known', known, { class: 'text' }));
  }

  /**
   * One line: the item and the press, what else is to be said, and what can be done about it.
   * @type {Parts['about']}
   */
  function about({ item, press }, more, act) {
    /** @type {Child[]} */
    const parts = [make('span', {}, item ? item.title : 'Item not named')];
    if (press) parts.push(' · ', make('span', {}, press.title));
    more.forEach((text) => parts.push(' · ', make('strong', {}, text)));
    return make('div', { class: 'strip' }, [make('p', {}, parts), act]);
  }

  /**
   * What a step uses up, as the tail of a line.
   * @type {Parts['spent']}
   */
  function spent(spends, currency) {
    const parts = [];
    if (spends.paper) parts.push(counted(spends.paper, 'sheet', ' of paper'));
    if (spends.blank) parts.push(counted(spends.blank, 'blank', ''));
    if (spends.money) parts.push(`about ${presslore.speech.money(spends.money, currency)} for material`);
    return parts.map((part) => ` · ${part}`).join('');
  }

  /** @param {number} number @param {string} what @param {string} tail */
  function counted(number, what, tail) {
    return `${presslore.numbers.general(number)} ${what}${number === 1 ? '' : 's'}${tail}`;
  }

  /**
   * A link to a page of the handbook; the bare text where the page has no such link.
   * @type {Parts['link']}
   */
  function link(app, kind, id, text) {
    const pattern = app.links[kind];
    return pattern ? make('a', { href: pattern.replace('{id}', encodeURIComponent(id)) }, text) : text;
  }

  /**
   * What becomes of the spoiled piece, and of the rest of the order.
   * @type {Parts['afterwards']}
   */
  function afterwards(app) {
    const lines = presslore.speech.afterwards(app.consultation);
    if (!lines.length) return null;
    return make('section', { class: 'afterwards', 'aria-label': AFTERWARDS }, [
      make('h3', {}, AFTERWARDS),
      ...lines.map((text) => make('p', {}, text))
    ]);
  }

  presslore.page.parts = { keycap, choices, cautions, inFull, strip, about, spent, link, afterwards };
})();
