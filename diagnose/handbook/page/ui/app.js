// The page that diagnoses: it shows the view for the state, keeps the state, and says each new question.
var presslore = presslore || {};
presslore.page = presslore.page || {};

(function () {
  'use strict';

  const { make, button, line, tell } = presslore.page.dom;
  const flow = presslore.page.flow;
  /** @type {Record<string, Viewer>} */
  const VIEWS = {
    item: presslore.page.opening.itemView,
    press: presslore.page.opening.pressView,
    seen: presslore.page.opening.seenView,
    understood: presslore.page.opening.understoodView,
    list: presslore.page.picking.listView,
    pictures: presslore.page.picking.picturesView,
    step: presslore.page.steps.stepView,
    left: presslore.page.remaining.leftView,
    known: presslore.page.ending.knownView,
    stop: presslore.page.ending.stopView
  };

  const STOP = 'Stop: what to tell my supplier';

  /** @param {HTMLElement} root */
  function start(root) {
    const knowledge = presslore.unpack(presslore.knowledge);
    const more = presslore.more || {};
    /** @type {App} */
    const app = {
      root,
      knowledge,
      links: JSON.parse(root.dataset.links || '{}'),
      care: more.care || [],
      kinds: kinds(knowledge, more.kinds || ''),
      pictures: pictures(root),
      ears: presslore.page.ears(knowledge, root.dataset.vocabulary || ''),
      doing: presslore.page.doing(knowledge, root.dataset.doing || ''),
      keys: {},
      state: flow.begin(knowledge),
      consultation: new presslore.Consultation(knowledge, new presslore.session.Session()),
      voice: make('p', { class: 'unseen', role: 'status', 'aria-live': 'polite' }),
      stage: make('div', { class: 'stage' }),
      notice: make('div', { class: 'notice' }),
      heading: make('h2'),
      go: (state) => go(app, state),
      alarm: (danger) => alarm(app, danger),
      jot: (parts) => jot(app, parts),
      startOver: () => startOver(app),
      thinkAhead: (state) => thinkAhead(app, state)
    };
    root.replaceChildren(app.voice, app.notice, app.stage, presslore.page.keys.legend());
    root.classList.add('running');
    presslore.page.keys.listen(app);
    window.addEventListener('hashchange', () => begin(app));
    begin(app);
    presslore.page.app = app;
  }

  /**
   * Go on where it was left, or begin with what the address names: #saw=ghosting&item=ceramic-tile, or with ?.
   * @param {App} app
   */
  function begin(app) {
    const asked = named(app.knowledge);
    const found = unfinished(app);
    const done = found && (found.state.session.over() || !begun(found.state));
    const left = asked && done ? null : found;
    if (left) app.state = left.state;
    else if (asked) app.state = asked;
    look(app);
    show(app);
    if (left) greet(app, left.at, asked);
  }

  /** @param {Knowledge} knowledge */
  function named(knowledge) {
    const query = new URLSearchParams(`${location.search.slice(1)}&${location.hash.slice(1)}`);
    const defects = query.getAll('saw').filter((id) => knowledge.defects.has(id));
    const item = query.get('item');
    const state = { ...flow.begin(knowledge), defects };
    if (item && knowledge.items.has(item)) return flow.pressed(state, { id: item, facts: {} });
    return defects.length ? state : null;
  }

  /**
   * Whether more was done than to type what was pressed.
   * @param {State} state
   */
  function begun(state) {
    return state.stage !== 'item' || flow.started(state);
  }

  /** @param {App} app */
  function unfinished(app) {
    try {
      const left = presslore.page.keep.kept(app.knowledge);
      return left && (begun(left.state) || left.state.itemWords) ? left : null;
    } catch (error) {
      presslore.page.keep.forget();
      app.notice.replaceChildren(
        line(
          `What was kept here from last time does not fit any more (${/** @type {Error} */ (error).message}). Here is a new start.`
        )
      );
      return null;
    }
  }

  /**
   * Keep what is being typed, and leave what is shown as it is.
   * @param {App} app @param {Partial<State>} parts
   */
  function jot(app, parts) {
    app.state = { ...app.state, ...parts };
    presslore.page.keep.keep(app.state, app.knowledge.version);
  }

  /** @param {App} app @param {Date} at @param {State | null} asked */
  function greet(app, at, asked) {
    /** @type {Intl.DateTimeFormatOptions} */
    const style = { dateStyle: 'medium', timeStyle: 'short' };
    const when = Number.isNaN(at.getTime()) ? '' : `, ${at.toLocaleString([], style)}`;
    const other = asked
      ? button('Begin with what you chose instead', () => app.go(asked), { class: 'text' })
      : button('Start over', () => startOver(app), { class: 'text' });
    app.notice.replaceChildren(line(`Going on from where you left${when}.`), other);
  }

  /** @param {App} app */
  function startOver(app) {
    presslore.page.keep.forget();
    app.go(flow.begin(app.knowledge));
  }

  /** @param {App} app @param {State} state */
  function go(app, state) {
    app.state = state;
    look(app);
    app.notice.replaceChildren();
    if (!presslore.page.keep.keep(state, app.knowledge.version)) {
      app.notice.replaceChildren(line('This device does not let the page keep your answers: do not close it.'));
    }
    show(app);
    arrive(app);
  }

  /**
   * Look at the session anew where it is another one.
   * @param {App} app
   */
  function look(app) {
    const session = app.state.session;
    if (app.consultation.session === session) return;
    const ahead = app.ahead;
    const ready = ahead && JSON.stringify(ahead.session.moves) === JSON.stringify(session.moves);
    app.consultation = ready ? ahead : app.consultation.then(session);
  }

  /**
   * Work out the step after this state while the person still reads.
   * @param {App} app @param {State} state
   */
  function thinkAhead(app, state) {
    presslore.page.later(() => {
      const ahead = app.consultation.then(state.session);
      app.ahead = ahead;
      void ahead.advice; // worked out now, kept for then
    });
  }

  /**
   * Tell of a danger, whatever stood there; the state is kept as it is.
   * @param {App} app @param {Danger} danger
   */
  function alarm(app, danger) {
    app.notice.replaceChildren();
    show(app, presslore.page.alarm.view(app, danger));
    arrive(app);
  }

  /**
   * The view of the state; goods that should not be pressed stand before all but the questions for what was pressed, and the
   * handing over.
   * @param {App} app
   */
  function viewOf(app) {
    const { state, consultation } = app;
    const asked = ['item', 'press', 'stop'].includes(state.stage);
    const now = flow.started(state) ? consultation : consultation.then(flow.pressedAlone(state));
    const bars = asked || state.session.over() ? [] : now.barred.filter((bar) => !state.allowed.includes(bar.id));
    return bars.length ? presslore.page.opening.barredView(app, bars) : VIEWS[state.stage](app);
  }

  /** @param {App} app @param {View} view */
  function show(app, view = viewOf(app)) {
    const why = view.why ? presslore.page.panels.why(view.why) : null;
    const beliefs = view.beliefs ? presslore.page.panels.beliefs(app) : null;
    const heading = make('h2', { id: 'pl-question', tabindex: -1 }, view.title);
    app.keys = view.keys;
    if (why) app.keys['?'] = why.flip;
    if (beliefs) app.keys.w = beliefs.flip;
    const done = view.done;
    if (done) app.keys.y = () => done.click();
    app.stage.className = `stage${view.wide ? ' wide' : ''}${view.good ? ' good' : ''}${view.alarm ? ' alarm' : ''}`;
    app.stage.replaceChildren(
      ...[
        view.above,
        view.kind ? line(view.kind, 'kind') : null,
        heading,
        why && why.panel,
        ...view.body,
        beliefs && beliefs.panel,
        foot(view, bar(app, view, [why, beliefs]))
      ].flatMap((one) => one || [])
    );
    app.heading = heading;
    tell(app.voice, `${view.kind ? `${view.kind}. ` : ''}${view.title}`);
  }

  /**
   * What stays at the lower edge: the answers, where a view has them there, and what can be done at every step.
   * @param {View} view @param {HTMLElement | null} below
   */
  function foot(view, below) {
    return view.foot ? make('div', { class: 'foot' }, [...view.foot, below]) : below;
  }

  /**
   * What can be done at every step, where the thumb is.
   * @param {App} app @param {View} view @param {(FoldOut | null)[]} folds
   */
  function bar(app, view, folds) {
    const back = () => app.go(flow.back(app.state));
    const stop = stopping(app, view) ? () => app.go(flow.at(app.state, 'stop')) : null;
    if (view.back) app.keys.b = back;
    if (stop) app.keys.c = stop;
    const buttons = [
      view.back ? button([presslore.page.parts.keycap('b'), make('span', {}, 'Back')], back) : null,
      ...folds.map((fold) => fold && fold.toggle),
      stop ? button([presslore.page.parts.keycap('c'), make('span', {}, STOP)], stop, { class: 'stop' }) : null,
      view.done
    ].filter(Boolean);
    if (!buttons.length) return null;
    return make('div', { class: 'bar-below', role: 'group', 'aria-label': 'At any step' }, buttons);
  }

  /**
   * Whether the person may want to hand over from here: a dialogue is under way, and the view is not about that itself.
   * @param {App} app @param {View} view
   */
  function stopping(app, view) {
    return flow.started(app.state) && !app.consultation.session.over() && !view.handsOver && !view.alarm;
  }

  /**
   * Take eye and focus to the new question.
   * @param {App} app
   */
  function arrive(app) {
    app.heading.focus({ preventScroll: true });
    app.root.scrollIntoView({ block: 'start' });
  }

  /** @param {Knowledge} knowledge @param {string} letters */
  function kinds(knowledge, letters) {
    return new Map(Array.from(knowledge.checks.keys(), (id, at) => [id, letters[at]]));
  }

  /**
   * The pictures that stand in the page already, by defect.
   * @param {HTMLElement} root
   */
  function pictures(root) {
    const shown = /** @type {NodeListOf<HTMLImageElement>} */ (root.querySelectorAll('[data-defect] img'));
    return new Map(
      Array.from(shown, (img) => {
        const defect = img.closest('[data-defect]');
        const id = (defect && defect.getAttribute('data-defect')) || '';
        return /** @type {const} */ ([id, { src: img.getAttribute('src') || '', alt: img.alt }]);
      })
    );
  }

  const root = document.getElementById('presslore');
  if (root) start(root);
})();
