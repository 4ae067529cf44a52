// The opening: what was pressed, what is seen, and what was understood of it.
var presslore = presslore || {};
presslore.page = presslore.page || {};

(function () {
  'use strict';

  const { make, button, line, list, firstSentence } = presslore.page.dom;
  const flow = presslore.page.flow;
  const FAMILIES = new Map([
    ['cloth', 'Polyester cloth'],
    ['blend', 'Blends with cotton'],
    ['padded', 'Padded goods'],
    ['ceramic', 'Mugs and tiles'],
    ['glass', 'Glass'],
    ['metal', 'Metal'],
    ['board', 'Boards'],
    ['plastic', 'Plastic'],
    ['slate', 'Slate']
  ]);

  /**
   * The question for the item.
   * @type {Page['opening']['itemView']}
   */
  function itemView(app) {
    /** @type {Keys} */
    const keys = {};
    const going = flow.started(app.state);
    const field = make('input', {
      type: 'text',
      id: 'pl-words',
      maxlength: presslore.shared.spelling.LONGEST_TEXT, // what the engine reads of it
      'aria-labelledby': 'pl-question',
      'aria-describedby': 'pl-hint',
      autocomplete: 'off',
      enterkeyhint: 'next',
      value: app.state.itemWords
    });
    /** @param {string} words */
    function take(words) {
      const found = app.ears.item(words);
      if (found && found.refused) {
        field.select();
        return app.ears.refusal(found.refused);
      }
      if (found) return app.go(flow.pressed(app.state, { id: found.id, facts: plain(found.facts) }, words));
      const told = app.ears.sights(words);
      if (!going && seen(told)) return app.go(allAtOnce(app, told, words));
      field.select();
      if (told.elsewhere) return app.ears.elsewhere(told.elsewhere);
      return (
        'I do not know that item. Try its stuff and shape: cotton bag, glass coaster, fleece. ' +
        'Or take it from the list.'
      );
    }
    const skip = () => app.go(flow.pressed(app.state, { id: '', facts: {} }, ''));
    const hint = 'A few words, such as: polyester tea towel, coated mug.';
    const asked = presslore.page.asking.form(app, { field, hint, kept: 'itemWords', without: skip, take });
    keys.u = skip;
    return {
      title: 'What was pressed?',
      keys,
      back: going,
      body: [
        asked.node,
        presslore.page.parts.choices(keys, [], [{ key: 'u', label: 'I cannot say', act: skip }]),
        make('details', { class: 'fold' }, [make('summary', {}, 'Take it from the list'), ...families(app)])
      ]
    };
  }

  /**
   * Facts as a plain object, whichever way the engine hands them over.
   * @param {Iterable<[string, Value]>} facts
   */
  function plain(facts) {
    return Object.fromEntries(facts);
  }

  /** @param {App} app */
  function families(app) {
    /** @type {Map<string, Item[]>} */
    const groups = new Map();
    app.knowledge.items.forEach((item) => {
      const alike = groups.get(item.family);
      if (alike) alike.push(item);
      else groups.set(item.family, [item]);
    });
    return Array.from(groups).flatMap(([family, items]) => [
      make('h3', {}, FAMILIES.get(family) || family),
      list(
        'ul',
        items.map((item) =>
          button(item.title, () => app.go(flow.pressed(app.state, { id: item.id, facts: {} }, item.title)), {
            class: 'answer'
          })
        ),
        'answers'
      )
    ]);
  }

  /**
   * The question for the press, where the shop has several.
   * @type {Page['opening']['pressView']}
   */
  function pressView(app) {
    /** @type {Keys} */
    const keys = {};
    const act = (/** @type {string} */ id) => () => app.go(flow.onPress(app.state, id));
    const presses = Array.from(app.knowledge.presses.values(), (press) => ({ label: press.title, act: act(press.id) }));
    return {
      title: 'On which press?',
      keys,
      back: true,
      above: pressedLine(app),
      body: [presslore.page.parts.choices(keys, presses, [{ key: 'u', label: 'I cannot say', act: act('') }])]
    };
  }

  /**
   * Goods that should not be pressed at all: why, what to do instead, and going on only if that is wanted.
   * @type {Page['opening']['barredView']}
   */
  function barredView(app, bars) {
    /** @type {Keys} */
    const keys = {};
    return {
      kind: 'First of all',
      title: 'This should not be pressed',
      keys,
      back: true,
      above: flow.started(app.state) ? null : pressedLine(app),
      body: [
        ...bars.map((bar) => line(`${bar.why} ${bar.instead}`)),
        presslore.page.parts.choices(keys, [
          { label: 'Something else was pressed', act: () => app.go(flow.at(app.state, 'item')) },
          { label: 'Look for the fault all the same', act: () => app.go(flow.allowed(app.state, bars)) }
        ])
      ]
    };
  }

  /**
   * The question for what is seen.
   * @type {Page['opening']['seenView']}
   */
  function seenView(app) {
    /** @type {Keys} */
    const keys = {};
    const field = make(
      'textarea',
      {
        id: 'pl-words',
        rows: 3,
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
      if (seen(found)) return app.go(flow.heard(app.state, words, understood(app, found)));
      if (found.elsewhere) return app.ears.elsewhere(found.elsewhere);
      return 'I did not recognise that. Say it another way, or look through the pictures or the list.';
    }
    const hint = 'Your own words; several things at once if you like.';
    const without = () => 'A few words, please; or look through the pictures or the list.';
    const asked = presslore.page.asking.form(app, { field, hint, kept: 'words', without, take });
    const others = [
      { key: 'v', label: 'Look through pictures', act: () => app.go(flow.at(app.state, 'pictures')) },
      { key: 'l', label: 'Take it from a list', act: () => app.go(flow.at(app.state, 'list')) }
    ];
    if (app.state.after) others.push({ key: 'u', label: 'Nothing new after all', act: () => app.go(nothingNew(app)) });
    return {
      title: flow.started(app.state) ? 'What shows now?' : 'What do you see?',
      keys,
      back: true,
      above: flow.started(app.state) ? null : pressedLine(app),
      body: [asked.node, presslore.page.parts.choices(keys, [], others)]
    };
  }

  /** @param {Sights} found */
  function seen(found) {
    return found.defects.length + found.unsure.length > 0;
  }

  /**
   * The goods and what is seen were told in one.
   * @param {App} app @param {Sights} told @param {string} words
   */
  function allAtOnce(app, told, words) {
    const item = { id: told.item, facts: plain(told.facts) };
    return flow.pressed(flow.heard(app.state, words, understood(app, told)), item, words);
  }

  /** @type {Page['opening']['understood']} */
  function understood(app, found) {
    return {
      defects: Array.from(found.defects),
      notSeen: Array.from(found.notSeen),
      answers: Array.from(found.answers, ([check, outcome]) => /** @type {[string, string]} */ ([check, outcome])),
      causes: Array.from(found.causes),
      unsure: Array.from(found.unsure),
      item: found.item,
      facts: plain(found.facts),
      refusal: found.refused ? app.ears.refusal(found.refused) : '',
      notUnderstood: Array.from(found.notUnderstood)
    };
  }

  /** @param {App} app */
  function nothingNew(app) {
    return flow.agreed(flow.lookAgain(app.state, app.state.after));
  }

  /**
   * What was taken to be pressed, and the way to change it.
   * @param {App} app
   */
  function pressedLine(app) {
    const said = app.state.item;
    const facts = Object.entries(said ? said.facts : {}).map(([fact, value]) => factWords(app, fact, value));
    const change = () => app.go(flow.at(app.state, 'item'));
    const act = button('Change', change, { class: 'text', 'aria-label': 'Change what was pressed' });
    return presslore.page.parts.about(app.consultation.then(flow.pressedAlone(app.state)), facts, act);
  }

  /** @param {App} app @param {string} fact @param {Value} value */
  function factWords(app, fact, value) {
    const stub = { knowledge: app.knowledge, job: new Map([[fact, value]]) };
    return presslore.speech.factWords(stub, fact);
  }

  /**
   * What was understood: to be taken, or put right.
   * @type {Page['opening']['understoodView']}
   */
  function understoodView(app) {
    const state = app.state;
    if (state.unsure.length) return whichView(app);
    /** @type {Keys} */
    const keys = {};
    const agree = () => app.go(flow.agreed(state));
    const ready = state.defects.length > 0;
    if (ready) keys.y = agree;
    if (ready && !flow.started(state)) app.thinkAhead(flow.agreed(state));
    state.defects.slice(0, 9).forEach((_, place) => {
      keys[String(place + 1)] = () => app.go(flow.struck(state, 'defects', place));
    });
    return {
      title: ready ? 'I take it that you see:' : 'Nothing is left of it. What do you see?',
      keys,
      back: true,
      above: flow.started(state) ? null : pressedLine(app),
      body: [
        list(
          'ul',
          state.defects.map((id, place) => defectCard(app, id, place)),
          'heard'
        ),
        ...also(
          app,
          'You looked, and this is not there:',
          'notSeen',
          (id) => presslore.known(app.knowledge.defects, id).title
        ),
        ...also(app, 'And you say:', 'answers', ([check, outcome]) => answerWords(app, check, outcome)),
        ...also(app, 'And you think it is this:', 'causes', (id) => presslore.known(app.knowledge.causes, id).title),
        state.refusal ? line(state.refusal, 'hint') : null,
        state.left.length ? line(`Not understood: ${state.left.join(', ')}`, 'hint') : null,
        ready
          ? button([presslore.page.parts.keycap('y'), make('span', {}, 'Right, go on')], agree, {
              class: 'primary'
            })
          : null,
        presslore.page.parts.choices(
          keys,
          [],
          [
            { key: 'a', label: 'Say it again', act: () => app.go(flow.at(state, 'seen')) },
            { key: 'v', label: 'Add from pictures', act: () => app.go(flow.at(state, 'pictures')) },
            { key: 'l', label: 'Add from a list', act: () => app.go(flow.at(state, 'list')) }
          ]
        )
      ]
    };
  }

  /**
   * Words that may mean one thing or another: which of them.
   * @param {App} app
   */
  function whichView(app) {
    /** @type {Keys} */
    const keys = {};
    const act = (/** @type {string} */ id) => () => app.go(flow.meant(app.state, id));
    const near = app.state.unsure.map((id) => ({ label: defectWords(app, id), act: act(id) }));
    return {
      title: 'Which do you mean?',
      keys,
      back: true,
      above: flow.started(app.state) ? null : pressedLine(app),
      body: [presslore.page.parts.choices(keys, near, [{ key: 'n', label: 'None of these', act: act('') }])]
    };
  }

  /** @param {App} app @param {string} id */
  function defectWords(app, id) {
    const { title, looks } = presslore.known(app.knowledge.defects, id);
    return `${title}: ${firstSentence(looks)}`;
  }

  /** @param {App} app @param {string} check @param {string} outcome */
  function answerWords(app, check, outcome) {
    return presslore.speech.sentence({ kind: 'answer', id: check, detail: outcome }, app.consultation);
  }

  /** @param {App} app @param {string} id @param {number} place */
  function defectCard(app, id, place) {
    const defect = presslore.known(app.knowledge.defects, id);
    const picture = app.pictures.get(id);
    return [
      picture ? make('img', { src: picture.src, alt: '', width: 640, height: 300, loading: 'lazy' }) : null,
      make('p', {}, [make('strong', {}, defect.title), `: ${firstSentence(defect.looks)}`]),
      strike(app, 'defects', place, defect.title)
    ].filter(Boolean);
  }

  /**
   * @param {App} app
   * @param {string} title
   * @param {'notSeen' | 'answers' | 'causes'} kind
   * @param {(one: any) => string} words
   */
  function also(app, title, kind, words) {
    if (!app.state[kind].length || flow.started(app.state)) return [];
    const entries = app.state[kind].map((one, place) => {
      const text = words(one);
      return [line(text), strike(app, kind, place, text)];
    });
    return [line(title, 'lead'), list('ul', entries, 'heard')];
  }

  /** @param {App} app @param {Sayings} kind @param {number} place @param {string} what */
  function strike(app, kind, place, what) {
    const number = kind === 'defects' && place < 9 ? presslore.page.parts.keycap(String(place + 1)) : null;
    return button([number, 'Strike out'].filter(Boolean), () => app.go(flow.struck(app.state, kind, place)), {
      class: 'text',
      'aria-label': `Strike out: ${what}`
    });
  }

  presslore.page.opening = { itemView, pressView, barredView, seenView, understoodView, understood };
})();
