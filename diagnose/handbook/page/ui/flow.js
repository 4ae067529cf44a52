// Where the person is, as a value: the opening's draft and the session. Every step gives a new state.
var presslore = presslore || {};
presslore.page = presslore.page || {};

(function () {
  'use strict';

  const STAGES = ['item', 'press', 'seen', 'list', 'pictures', 'understood', 'step', 'left', 'known', 'stop'];
  const FIGURES = Object.keys(presslore.shared.wording.TITLES);
  const NOTHING_HEARD = {
    words: '',
    defects: [],
    notSeen: [],
    figures: [],
    beside: [],
    answers: [],
    causes: [],
    unsure: [],
    left: []
  };

  /**
   * The state at the very start.
   * `stage`: which view; `several`: whether the shop has presses to choose from; `item`: {id, facts} once said; `press`:
   * its id once said, '' where the person cannot say; `words`, `defects`, `notSeen`, `figures`, `answers`, `causes` and
   * `left`: what was said is seen and how it was understood, with the `refusal` of goods that take no dye; `beside`:
   * figures that were told with the item; `unsure`: defects of which one may be meant, the likeliest first; `opening`: how
   * many moves the opening made; `warned`: cautions already read in full; `after`: the fix after which something else shows,
   * `better`: or after which this is left of it;
   * `allowed`: what bars such goods and was gone on with all the same, by id.
   * @type {Flow['begin']}
   */
  function begin(knowledge) {
    return {
      stage: 'item',
      several: knowledge.presses.size > 1,
      item: null,
      press: null,
      itemWords: '',
      words: '',
      defects: [],
      notSeen: [],
      figures: [],
      beside: [],
      answers: [],
      causes: [],
      unsure: [],
      left: [],
      refusal: '',
      opening: 0,
      warned: [],
      after: '',
      allowed: [],
      better: false,
      session: new presslore.session.Session()
    };
  }

  /** @param {State} state @param {Partial<State>} parts */
  function changed(state, parts) {
    return { ...state, ...parts };
  }

  /** @type {Flow['at']} */
  function at(state, stage) {
    return changed(state, { stage });
  }

  /**
   * Whether a dialogue is under way.
   * @type {Flow['started']}
   */
  function started(state) {
    return state.session.moves.length > 0;
  }

  /**
   * The item was said: {id, facts}, with `figures` beside it or with all that was heard. Within a dialogue it takes the
   * place of what was said of it before.
   * @type {Flow['pressed']}
   */
  function pressed(state, item, words, figures) {
    const next = changed(state, { item, itemWords: words || '', allowed: [] });
    if (figures) Object.assign(next, { figures, beside: figures });
    return state.several && state.press === null && !started(state) ? at(next, 'press') : begunWith(next);
  }

  /**
   * The press was said, or that the person cannot say it ('').
   * @type {Flow['onPress']}
   */
  function onPress(state, press) {
    return begunWith(changed(state, { press }));
  }

  /**
   * On to what is seen; within a dialogue what was pressed, and on what, takes the place of what was said before.
   * @param {State} state
   */
  function begunWith(state) {
    if (!started(state)) return at(state, state.defects.length + state.unsure.length ? 'understood' : 'seen');
    const moves = state.session.moves.map((move, place) => (place === 0 ? pressedMove(state) : move));
    return changed(state, { session: new presslore.session.Session(moves), stage: 'step' });
  }

  /**
   * @param {State} state
   * @returns {Move}
   */
  function pressedMove({ item, press }) {
    return { move: 'pressed', item: item ? item.id : '', facts: item ? item.facts : {}, press: press || '' };
  }

  /**
   * A session that says what was pressed, on what, and no more.
   * @type {Flow['pressedAlone']}
   */
  function pressedAlone(state) {
    return new presslore.session.Session([pressedMove(state)]);
  }

  /**
   * Words were heard. What they say of the item counts where no other was named; of two figures of a name the later one.
   * @type {Flow['heard']}
   */
  function heard(state, words, found) {
    const figures = latest([...state.beside, ...found.figures]);
    const next = changed(state, {
      words,
      stage: 'understood',
      defects: found.defects,
      notSeen: found.notSeen,
      figures,
      beside: found.defects.length + found.unsure.length ? state.beside : figures,
      answers: found.answers,
      causes: found.causes,
      unsure: found.unsure,
      left: found.notUnderstood,
      refusal: ''
    });
    if (started(state)) return next;
    const before = state.item || { id: '', facts: {} };
    if (!before.id && !Object.keys(before.facts).length) next.refusal = found.refusal;
    const merely = before.id && found.item && found.item !== before.id; // goods that are merely mentioned are no other item
    if (!merely && (found.item || Object.keys(found.facts).length)) {
      next.item = { id: found.item || before.id, facts: { ...before.facts, ...found.facts } };
    }
    return next;
  }

  /** @param {HeardFigure[]} figures */
  function latest(figures) {
    return Array.from(new Map(figures.map((one) => [one[0], one])).values());
  }

  /**
   * Defects were picked by hand.
   * @type {Flow['picked']}
   */
  function picked(state, defects) {
    const next = changed(state, { defects, stage: 'understood' });
    next.notSeen = state.notSeen.filter((id) => defects.indexOf(id) < 0);
    return next;
  }

  /**
   * One thing that was understood is struck out: `kind` is defects, notSeen, figures, answers or causes.
   * @type {Flow['struck']}
   */
  function struck(state, kind, place) {
    return changed(state, { [kind]: state[kind].filter((_, at) => at !== place) });
  }

  /**
   * Of several that came near each other this defect is meant; '' where it is none of them.
   * @type {Flow['meant']}
   */
  function meant(state, id) {
    return changed(state, { defects: Array.from(new Set(id ? [id, ...state.defects] : state.defects)), unsure: [] });
  }

  /**
   * What was understood is right: the dialogue starts, or goes on with what shows now.
   * @type {Flow['agreed']}
   */
  function agreed(state) {
    if (!started(state)) {
      const session = told(pressedAlone(state), state);
      return changed(state, { session, opening: session.moves.length, stage: 'step' });
    }
    const left = state.better ? presslore.evidence.left(state.session.evidence()) : [];
    const [defects, notSeen] = [state.defects, state.notSeen].map((all) => all.filter((id) => !left.includes(id)));
    const tried = state.after ? state.session.make(result(state, left)) : state.session;
    const session = told(tried, { ...state, defects, notSeen });
    const stage = session.evidence().seen.length ? 'step' : 'seen';
    return changed(state, { ...NOTHING_HEARD, after: '', better: false, stage, session });
  }

  /**
   * The session after what was heard. A defect that is denied after it was seen is taken back, unless it may be a fix that
   * took it away.
   * @param {Session} session @param {State} state
   */
  function told(session, { after, defects, notSeen, figures, answers, causes }) {
    /** @type {Made[]} */
    const moves = [
      ...(defects.length ? [/** @type {Made} */ ({ move: 'saw', defects })] : []),
      ...(notSeen.length ? [/** @type {Made} */ ({ move: 'did-not-see', defects: notSeen })] : []),
      ...figures.map(([name, value]) => /** @type {Made} */ ({ move: 'measured', figures: { [name]: value } })),
      ...answers.map(([check, outcome]) => /** @type {Made} */ ({ move: 'answered', check, outcome })),
      ...causes.map((cause) => /** @type {Made} */ ({ move: 'named', cause }))
    ];
    const before = new presslore.session.Session(takenBack(session.moves, after ? [] : notSeen));
    return moves.reduce((so, move) => so.make(move), before);
  }

  /** @param {readonly Move[]} moves @param {string[]} denied */
  function takenBack(moves, denied) {
    return moves.flatMap((move) => {
      if (move.move !== 'saw') return [move];
      const defects = move.defects.filter((id) => !denied.includes(id));
      return defects.length ? [{ ...move, defects }] : [];
    });
  }

  /**
   * What the fix did. Where it made it better: of what was `left` before has gone what is said to be, else what is not among
   * what is seen.
   * @param {State} state @param {string[]} left
   * @returns {Made}
   */
  function result({ after, better, defects, notSeen }, left) {
    if (!better) return { move: 'tried', fix: after };
    const went = left.filter((id) => notSeen.includes(id));
    const gone = (went.length ? went : left).filter((id) => !defects.includes(id));
    return { move: 'tried', fix: after, change: 'better', gone };
  }

  /**
   * The fix made it better, and these have gone: where that is all, it is cured.
   * @type {Flow['remained']}
   */
  function remained(state, gone) {
    const left = presslore.evidence.left(state.session.evidence());
    const fix = state.after;
    const next =
      gone.length && gone.length === left.length
        ? moved(state, { move: 'cured', fix }, [])
        : moved(state, { move: 'tried', fix, change: 'better', gone }, []);
    return changed(next, { ...NOTHING_HEARD, after: '', better: false });
  }

  /**
   * One more move of the dialogue. `read`: the cautions that stood before it.
   * @type {Flow['moved']}
   */
  function moved(state, move, read) {
    const warned = Array.from(new Set(state.warned.concat(read || [])));
    return changed(state, { session: state.session.make(move), warned, stage: 'step' });
  }

  /**
   * Goods that should not be pressed are gone on with all the same.
   * @type {Flow['allowed']}
   */
  function allowed(state, bars) {
    return changed(state, { allowed: [...state.allowed, ...bars.map((bar) => bar.id)] });
  }

  /**
   * Something else shows after a fix, or beside what was seen (no fix).
   * @type {Flow['lookAgain']}
   */
  function lookAgain(state, fix) {
    return changed(state, { ...NOTHING_HEARD, after: fix, better: false, stage: 'seen' });
  }

  /**
   * A fix made it better: what is left of it is asked. `read`: the cautions that stood before it.
   * @type {Flow['askWhatIsLeft']}
   */
  function askWhatIsLeft(state, fix, read) {
    const warned = Array.from(new Set(state.warned.concat(read)));
    return changed(state, { ...NOTHING_HEARD, warned, after: fix, better: true, stage: 'left' });
  }

  /**
   * One step back; the same state at the very start.
   * @type {Flow['back']}
   */
  function back(state) {
    if (state.stage === 'list' || state.stage === 'pictures') {
      return at(state, state.defects.length ? 'understood' : 'seen');
    }
    if (state.stage === 'understood') return at(state, state.better ? 'left' : 'seen');
    if (state.stage !== 'step') {
      if (started(state)) return changed(state, { stage: 'step', after: '', better: false });
      return at(state, state.several && state.stage === 'seen' ? 'press' : 'item');
    }
    const moves = stepBack(state.session.moves);
    if (moves.length < state.opening) return reopened(state);
    return changed(state, { session: new presslore.session.Session(moves) });
  }

  /**
   * The moves before the last one. What was seen with the result of a fix goes with the fix, as it was told in one.
   * @param {readonly Move[]} moves
   */
  function stepBack(moves) {
    const last = moves.length - 1;
    const before = moves[last - 1];
    const told = moves[last].move === 'saw' && before && before.move === 'tried' && before.change !== 'same';
    return moves.slice(0, told ? last - 1 : last);
  }

  /**
   * The opening as it was, to be put right.
   * @param {State} state
   */
  function reopened(state) {
    const evidence = state.session.evidence();
    return changed(state, {
      session: new presslore.session.Session(),
      stage: 'understood',
      opening: 0,
      defects: evidence.seen,
      notSeen: evidence.notSeen,
      figures: state.session
        .figures()
        .flatMap((told) => Object.entries(told.figures).map(([name, value]) => [name, value, ''])),
      answers: Array.from(evidence.answers).map(([check, answer]) => [check, answer.outcome]),
      causes: evidence.named.map((one) => one.cause)
    });
  }

  /**
   * Throws where a kept draft does not fit the knowledge.
   * @type {Flow['proven']}
   */
  function proven(state, knowledge) {
    const known =
      STAGES.indexOf(state.stage) >= 0 &&
      state.defects.concat(state.notSeen, state.unsure).every((id) => knowledge.defects.has(id)) &&
      state.answers.every(
        ([check, outcome]) =>
          knowledge.checks.has(check) && presslore.outcomeOf(presslore.known(knowledge.checks, check), outcome)
      ) &&
      state.causes.every((id) => knowledge.causes.has(id)) &&
      state.figures.concat(state.beside).every(([name]) => FIGURES.includes(name)) &&
      (!state.item || state.item.id === '' || knowledge.items.has(state.item.id)) &&
      (!state.press || started(state) || knowledge.presses.has(state.press)) &&
      (state.several || state.stage !== 'press') &&
      (state.after === '' || knowledge.fixes.has(state.after)) &&
      (started(state) || ['step', 'left', 'known', 'stop'].indexOf(state.stage) < 0);
    if (!known) throw new Error('speaks of things no longer known');
  }

  presslore.page.flow = {
    begin,
    at,
    started,
    pressed,
    onPress,
    pressedAlone,
    heard,
    picked,
    struck,
    meant,
    agreed,
    moved,
    allowed,
    lookAgain,
    askWhatIsLeft,
    remained,
    back,
    proven
  };
})();
