// How it ends: help is called for, or the print is good. And what is known on the way.
var presslore = presslore || {};
presslore.page = presslore.page || {};

(function () {
  'use strict';

  const { make, button, line, list, clean } = presslore.page.dom;
  const flow = presslore.page.flow;

  /**
   * Where nothing is left to try.
   * @type {Page['ending']['callView']}
   */
  function callView(app) {
    /** @type {Keys} */
    const keys = {};
    const done = { label: 'Done, I call', act: () => app.go(flow.moved(app.state, { move: 'handed-over' })) };
    return {
      above: presslore.page.parts.strip(app),
      kind: 'Enough tried here',
      title: 'Call for help',
      keys,
      back: true,
      handsOver: true,
      beliefs: true,
      body: [
        line(presslore.speech.whyStep(app.consultation)),
        line('Send this to your supplier or technician:', 'lead'),
        ...summary(app),
        presslore.page.parts.afterwards(app),
        ...care(app),
        presslore.page.parts.choices(keys, [done])
      ]
    };
  }

  /**
   * What to hand over, asked for in the midst of the dialogue, which goes on where it was unless it ends here.
   * @type {Page['ending']['stopView']}
   */
  function stopView(app) {
    /** @type {Keys} */
    const keys = {};
    return {
      above: presslore.page.parts.strip(app),
      kind: 'Stop here',
      title: 'What to tell my supplier',
      keys,
      back: true,
      handsOver: true,
      beliefs: true,
      body: [
        line('What was pressed, seen, found out and tried so far, and what may still be behind it:'),
        ...summary(app),
        presslore.page.parts.choices(keys, [
          { label: 'Go on with the next step', act: () => app.go(flow.back(app.state)) },
          { label: 'I stop, and send this', act: () => app.go(flow.moved(app.state, { move: 'handed-over' })) }
        ])
      ]
    };
  }

  /** @type {Page['ending']['handedView']} */
  function handedView(app) {
    return {
      kind: 'Handed over',
      title: 'Help is on its way',
      keys: {},
      back: true,
      body: [
        line('The summary says all that is known.'),
        ...summary(app),
        presslore.page.parts.afterwards(app),
        again(app)
      ]
    };
  }

  /** @type {Page['ending']['curedView']} */
  function curedView(app) {
    const seen = presslore.speech.seen(app.consultation.session.evidence().seen, app.knowledge);
    const over = app.consultation.session.over();
    const fix = over && over.move === 'cured' ? app.knowledge.fixes.get(over.fix) : undefined;
    return {
      kind: 'Good print',
      title: `Done. Put right: ${seen}.`,
      good: true,
      keys: {},
      back: true,
      body: [
        fix ? make('p', {}, ['What did it: ', make('strong', {}, presslore.speech.marked(fix))]) : null,
        presslore.page.parts.afterwards(app),
        ...care(app),
        line('For your records:', 'lead'),
        ...summary(app),
        again(app)
      ]
    };
  }

  /**
   * What to tell the customer, and the care note of the item, where the handbook has one.
   * @param {App} app
   */
  function care(app) {
    const item = app.consultation.item;
    const note = item && app.care.find((one) => one.items.includes(item.id));
    if (!note) return [];
    const seen = app.consultation.session.evidence().seen;
    const tell = note.tell && seen.some((defect) => note.defects.includes(defect)) ? note.tell : '';
    return [
      make('h3', {}, 'For the customer'),
      tell ? line(`If a customer came back with it: “${tell}”`) : null,
      make('p', {}, ['Care note: ', make('a', { href: note.href }, note.title)])
    ];
  }

  /** @param {App} app */
  function again(app) {
    return button('Start over', () => app.startOver(), { class: 'primary' });
  }

  /**
   * The summary with the ways to copy it and, where the device has one, to share it.
   * @param {App} app
   */
  function summary(app) {
    const text = clean(presslore.speech.summary(app.consultation).join('\n'));
    const paper = make('pre', { class: 'summary', tabindex: 0, role: 'region', 'aria-label': 'Summary' }, text);
    const told = make('span', { role: 'status', class: 'told' });
    const copy = button('Copy the summary', () => {
      copied(text, paper).then(
        () => {
          told.textContent = 'Copied.';
        },
        () => {
          told.textContent = 'It is marked: copy it with your device’s own copy.';
        }
      );
    });
    const share = button('Share it', () => {
      navigator.share({ title: 'Summary', text }).catch(() => {}); // whoever closes the sheet goes on here
    });
    return [paper, make('p', { class: 'row' }, [copy, 'share' in navigator ? share : null, told])];
  }

  /** @param {string} text @param {HTMLElement} paper */
  function copied(text, paper) {
    mark(paper);
    if (navigator.clipboard) return navigator.clipboard.writeText(text);
    return document.execCommand('copy') ? Promise.resolve() : Promise.reject(new Error('no copying here'));
  }

  /** @param {HTMLElement} paper */
  function mark(paper) {
    const range = document.createRange();
    range.selectNodeContents(paper);
    const selection = getSelection();
    if (!selection) return;
    selection.removeAllRanges();
    selection.addRange(range);
  }

  /**
   * All that is known so far, and the ways to change it.
   * @type {Page['ending']['knownView']}
   */
  function knownView(app) {
    /** @type {Keys} */
    const keys = {};
    const [item, ...rest] = presslore.speech.summary(app.consultation);
    const findings = rest.filter((one) => one.startsWith('- ')).map((one) => one.slice(2));
    const believed = app.consultation.suspects.length ? Math.min(5, app.consultation.suspects.length) : 0;
    const told = findings.slice(0, app.consultation.session.over() ? undefined : findings.length - believed);
    return {
      kind: 'So far',
      title: 'All that is known',
      keys,
      back: true,
      body: [
        line(item, 'lead'),
        app.consultation.press ? line(rest[0]) : null,
        list('ul', told),
        presslore.page.parts.choices(keys, [
          { label: 'Go on', act: () => app.go(flow.at(app.state, 'step')) },
          { label: 'Change what was pressed', act: () => app.go(flow.at(app.state, 'item')) },
          ...(app.state.several ? [{ label: 'Change the press', act: () => app.go(flow.at(app.state, 'press')) }] : []),
          { label: 'I see something else as well', act: () => app.go(flow.lookAgain(app.state, '')) },
          { label: 'Start over', act: () => app.startOver() }
        ])
      ]
    };
  }

  presslore.page.ending = { callView, stopView, handedView, curedView, knownView };
})();
