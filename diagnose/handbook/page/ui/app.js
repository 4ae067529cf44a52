// The page that diagnoses: it shows the view for the state, keeps the state, and says each new question.
var presslore = presslore || {};
presslore.page = presslore.page || {};

(function () {
  'use strict';

  const { make, button, line, tell } = presslore.page.dom;
  const flow = presslore.page.flow;
  const VIEWS = {
    item: presslore.page.opening.itemView,
    press: presslore.page.opening.pressView,
    seen: presslore.page.opening.seenView,
    understood: presslore.page.opening.understoodView,
    list: presslore.page.picking.listView,
    pictures: presslore.page.picking.picturesView,
    step: presslore.page.steps.stepView,
    gone: presslore.page.steps.goneView,
    known: presslore.page.ending.knownView
  };

  function start(root) {
    const knowledge = presslore.unpack(presslore.knowledge);
    const more = presslore.more || {};
    const app = {
      root,
      knowledge,
      links: JSON.parse(root.dataset.links || '{}'),
      care: more.care || [],
      kinds: kinds(knowledge, more.kinds || ''),
      pictures: pictures(root),
      ears: presslore.page.ears(knowledge, root.dataset.vocabulary),
      keys: {},
      state: flow.begin(knowledge),
      consultation: new presslore.Consultation(knowledge, new presslore.session.Session()),
      go: (state) => go(app, state),
      jot: (parts) => jot(app, parts),
      startOver: () => startOver(app),
      thinkAhead: (state) => thinkAhead(app, state)
    };
    app.voice = make('p', { class: 'unseen', role: 'status', 'aria-live': 'polite' });
    app.stage = make('div', { class: 'stage' });
    app.notice = make('div', { class: 'notice' });
    root.replaceChildren(app.voice, app.notice, app.stage, presslore.page.keys.legend());
    root.classList.add('running');
    presslore.page.keys.listen(app);
    window.addEventListener('hashchange', () => begin(app));
    begin(app);
    presslore.page.app = app;
  }

  /** Go on where it was left, or begin with what the address names: #saw=ghosting&item=ceramic-tile, or with ?. */
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

  function named(knowledge) {
    const query = new URLSearchParams(`${location.search.slice(1)}&${location.hash.slice(1)}`);
    const defects = query.getAll('saw').filter((id) => knowledge.defects.has(id));
    const item = query.get('item');
    const state = { ...flow.begin(knowledge), defects };
    if (knowledge.items.has(item)) return flow.pressed(state, { id: item, facts: {} });
    return defects.length ? state : null;
  }

  /** Whether more was done than to type what was pressed. */
  function begun(state) {
    return state.stage !== 'item' || flow.started(state);
  }

  function unfinished(app) {
    try {
      const left = presslore.page.keep.kept(app.knowledge);
      return left && (begun(left.state) || left.state.itemWords) ? left : null;
    } catch (error) {
      presslore.page.keep.forget();
      app.notice.replaceChildren(
        line(
          `What was kept here from last time does not fit any more (${error.message}). Here is a new start.`
        )
      );
      return null;
    }
  }

  /** Keep what is being typed, and leave what is shown as it is. */
  function jot(app, parts) {
    app.state = { ...app.state, ...parts };
    presslore.page.keep.keep(app.state, app.knowledge.version);
  }

  function greet(app, at, asked) {
    const style = { dateStyle: 'medium', timeStyle: 'short' };
    const when = Number.isNaN(at.getTime()) ? '' : `, ${at.toLocaleString([], style)}`;
    const other = asked
      ? button('Begin with what you chose instead', () => app.go(asked), { class: 'text' })
      : button('Start over', () => startOver(app), { class: 'text' });
    app.notice.replaceChildren(line(`Going on from where you left${when}.`), other);
  }

  function startOver(app) {
    presslore.page.keep.forget();
    app.go(flow.begin(app.knowledge));
  }

  function go(app, state) {
    app.state = state;
    look(app);
    app.notice.replaceChildren();
    if (!presslore.page.keep.keep(state, app.knowledge.version)) {
      app.notice.replaceChildren(
        line('This device does not let the page keep your answers: do not close it.')
      );
    }
    show(app);
    arrive(app);
  }

  /** Look at the session anew where it is another one. */
  function look(app) {
    const session = app.state.session;
    if (app.consultation.session === session) return;
    const ready = app.ahead && JSON.stringify(app.ahead.session.moves) === JSON.stringify(session.moves);
    app.consultation = ready ? app.ahead : app.consultation.then(session);
  }

  /** Work out the step after this state while the person still reads. */
  function thinkAhead(app, state) {
    presslore.page.later(() => {
      app.ahead = app.consultation.then(state.session);
      app.ahead.advice;
    });
  }

  function show(app) {
    const view = VIEWS[app.state.stage](app);
    const why = view.why ? presslore.page.panels.why(view.why) : null;
    const beliefs = view.beliefs ? presslore.page.panels.beliefs(app) : null;
    const heading = make('h2', { id: 'pl-question', tabindex: -1 }, view.title);
    app.keys = view.keys;
    if (why) app.keys['?'] = why.flip;
    if (beliefs) app.keys.w = beliefs.flip;
    if (view.done) app.keys.y = () => view.done.click();
    app.stage.className = `stage${view.wide ? ' wide' : ''}${view.good ? ' good' : ''}`;
    app.stage.replaceChildren(
      ...[
        view.above,
        view.kind ? line(view.kind, 'kind') : null,
        heading,
        why && why.panel,
        ...view.body,
        beliefs && beliefs.panel,
        bar(app, view, [why, beliefs])
      ].filter(Boolean)
    );
    app.heading = heading;
    tell(app.voice, `${view.kind ? `${view.kind}. ` : ''}${view.title}`);
  }

  /** What can be done at every step, where the thumb is. */
  function bar(app, view, folds) {
    const back = () => app.go(flow.back(app.state));
    if (view.back) app.keys.b = back;
    const buttons = [
      view.back ? button([presslore.page.parts.keycap('b'), make('span', {}, 'Back')], back) : null,
      ...folds.map((fold) => fold && fold.toggle),
      view.done
    ].filter(Boolean);
    if (!buttons.length) return null;
    return make('div', { class: 'bar-below', role: 'group', 'aria-label': 'At any step' }, buttons);
  }

  /** Take eye and focus to the new question. */
  function arrive(app) {
    app.heading.focus({ preventScroll: true });
    app.root.scrollIntoView({ block: 'start' });
  }

  function kinds(knowledge, letters) {
    return new Map(Array.from(knowledge.checks.keys(), (id, at) => [id, letters[at]]));
  }

  /** The pictures that stand in the page already, by defect. */
  function pictures(root) {
    return new Map(
      Array.from(root.querySelectorAll('[data-defect] img'), (img) => [
        img.closest('[data-defect]').dataset.defect,
        { src: img.getAttribute('src'), alt: img.alt }
      ])
    );
  }

  const root = document.getElementById('presslore');
  if (root) start(root);
})();
