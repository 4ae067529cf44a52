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
   * Cautions, before the step they belong to: whole at first, folded under their titles once they were read, or where
   * they are told in `brief`.
   * @type {Parts['cautions']}
   */
  function cautions(app, ids, brief) {
    if (!ids.length) return null;
    const folded = app.state.warned.concat(brief);
    const entries = ids.map((id) => caution(presslore.known(app.knowledge.cautions, id), folded.includes(id)));
    return list('ul', entries, 'cautions');
  }

  /** @param {Caution} known @param {boolean} read */
  function caution(known, read) {
    const title = [make('span', { class: 'word' }, 'Caution: '), make('strong', {}, known.title)];
    if (read) return make('details', {}, [make('summary', {}, title), make('p', {}, known.text)]);
    return make('p', {}, [...title, make('span', {}, `. ${known.text}`)]);
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

  presslore.page.parts = { keycap, choices, cautions, strip, about, spent, link, afterwards };
})();
