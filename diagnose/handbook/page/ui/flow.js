// Where the person is, as a value: the opening's draft and the session. Every step gives a new state.
var presslore = presslore || {};
presslore.page = presslore.page || {};

(function () {
  'use strict';

  const STAGES = ['item', 'seen', 'list', 'pictures', 'understood', 'step', 'gone', 'known'];

  /**
   * The state at the very start.
   * `stage`: which view; `item`: {id, facts} once said; `words`, `defects`, `notSeen`, `answers` and `left`: what was
   * said is seen and how it was understood, with the `refusal` of goods that take no dye; `opening`: how many moves the opening made; `warned`: cautions already
   * read in full; `after`: the fix after which something else shows.
   */
  function begin() {
    return {
      stage: 'item',
      item: null,
      itemWords: '',
      words: '',
      defects: [],
      notSeen: [],
      answers: [],
      left: [],
      refusal: '',
      opening: 0,
      warned: [],
      after: '',
      session: new presslore.session.Session()
    };
  }

  function changed(state, parts) {
    return { ...state, ...parts };
  }

  function at(state, stage) {
    return changed(state, { stage });
  }

  /** Whether a dialogue is under way. */
  function started(state) {
    return state.session.moves.length > 0;
  }

  /** The item was said: {id, facts}. Within a dialogue it takes the place of what was said of it before. */
  function pressed(state, item, words) {
    const next = changed(state, { item, itemWords: words || '' });
    if (!started(state)) return at(next, state.defects.length ? 'understood' : 'seen');
    const moves = state.session.moves.map((move, place) => (place === 0 ? pressedMove(item) : move));
    return changed(next, { session: new presslore.session.Session(moves), stage: 'step' });
  }

  function pressedMove(item) {
    return { move: 'pressed', item: item ? item.id : '', facts: item ? item.facts : {} };
  }

  /** Words were heard. What they say of the item counts where none was named. */
  function heard(state, words, found) {
    const next = changed(state, {
      words,
      stage: 'understood',
      defects: found.defects,
      notSeen: found.notSeen,
      answers: found.answers,
      left: found.notUnderstood,
      refusal: ''
    });
    const named = state.item && (state.item.id || Object.keys(state.item.facts).length);
    if (!named && !started(state)) next.refusal = found.refusal;
    if (found.item && !named && !started(state)) next.item = { id: found.item, facts: found.facts };
    return next;
  }

  /** Defects were picked by hand. */
  function picked(state, defects) {
    const next = changed(state, { defects, stage: 'understood' });
    next.notSeen = state.notSeen.filter((id) => defects.indexOf(id) < 0);
    return next;
  }

  /** One thing that was understood is struck out: `kind` is defects, notSeen or answers. */
  function struck(state, kind, place) {
    return changed(state, { [kind]: state[kind].filter((_, at) => at !== place) });
  }

  /** What was understood is right: the dialogue starts, or goes on with what shows now. */
  function agreed(state) {
    const clean = { words: '', defects: [], notSeen: [], answers: [], left: [], after: '', stage: 'step' };
    if (started(state)) {
      let session = state.session;
      if (state.after) session = session.make({ move: 'tried', fix: state.after });
      if (state.defects.length) session = session.make({ move: 'saw', defects: state.defects });
      return changed(state, Object.assign(clean, { session }));
    }
    const session = opened(state);
    return changed(state, { session, opening: session.moves.length, stage: 'step' });
  }

  function opened(state) {
    let session = new presslore.session.Session([pressedMove(state.item)]);
    session = session.make({ move: 'saw', defects: state.defects });
    if (state.notSeen.length) session = session.make({ move: 'did-not-see', defects: state.notSeen });
    return state.answers.reduce(
      (so, [check, outcome]) => so.make({ move: 'answered', check, outcome }),
      session
    );
  }

  /** One more move of the dialogue. `read`: the cautions that stood before it. */
  function moved(state, move, read) {
    const warned = Array.from(new Set(state.warned.concat(read || [])));
    return changed(state, { session: state.session.make(move), warned, stage: 'step' });
  }

  /** Something else shows after a fix, or beside what was seen (no fix). */
  function lookAgain(state, fix) {
    return changed(state, {
      after: fix,
      stage: 'seen',
      words: '',
      defects: [],
      notSeen: [],
      answers: [],
      left: []
    });
  }

  /** One step back; the same state at the very start. */
  function back(state) {
    if (state.stage === 'list' || state.stage === 'pictures') {
      return at(state, state.defects.length ? 'understood' : 'seen');
    }
    if (state.stage === 'understood') return at(state, 'seen');
    if (state.stage !== 'step') {
      if (started(state)) return changed(state, { stage: 'step', after: '' });
      return at(state, 'item');
    }
    const moves = stepBack(state.session.moves);
    if (moves.length < state.opening) return reopened(state);
    return changed(state, { session: new presslore.session.Session(moves) });
  }

  /** The moves before the last one. What was seen after a fix goes with the fix, as it was told in one. */
  function stepBack(moves) {
    const last = moves.length - 1;
    const before = moves[last - 1];
    const told = moves[last].move === 'saw' && before && before.move === 'tried' && before.change === '';
    return moves.slice(0, told ? last - 1 : last);
  }

  /** The opening as it was, to be put right. */
  function reopened(state) {
    const evidence = state.session.evidence();
    return changed(state, {
      session: new presslore.session.Session(),
      stage: 'understood',
      opening: 0,
      defects: evidence.seen,
      notSeen: evidence.notSeen,
      answers: Array.from(evidence.answers).map(([check, answer]) => [check, answer.outcome])
    });
  }

  /** Throws where a kept draft does not fit the knowledge. */
  function proven(state, knowledge) {
    const known =
      STAGES.indexOf(state.stage) >= 0 &&
      state.defects.concat(state.notSeen).every((id) => knowledge.defects.has(id)) &&
      state.answers.every(
        ([check, outcome]) =>
          knowledge.checks.has(check) && presslore.outcomeOf(knowledge.checks.get(check), outcome)
      ) &&
      (!state.item || state.item.id === '' || knowledge.items.has(state.item.id)) &&
      (state.after === '' || knowledge.fixes.has(state.after)) &&
      (started(state) || ['step', 'gone', 'known'].indexOf(state.stage) < 0);
    if (!known) throw new Error('speaks of things no longer known');
  }

  presslore.page.flow = {
    begin,
    at,
    started,
    pressed,
    heard,
    picked,
    struck,
    agreed,
    moved,
    lookAgain,
    back,
    proven
  };
})();
