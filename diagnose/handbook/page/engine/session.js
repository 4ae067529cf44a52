// A diagnosis in progress, as a value that never changes: the moves made so far, oldest first.
// A move is as it is saved: {move: 'saw', defects: [...]} and so on. The command line reads and writes the same JSON.
var presslore = presslore || {};

(function () {
  'use strict';

  const { FORMAT, VERSION, MOST_TIMES, GOODS, PRESS_NAME, MANY_UNTOLD, MANY_IN_VAIN } = presslore.shared.session;
  /** @typedef {[fits: (value: unknown) => boolean, usual?: unknown]} Field */

  const DAMAGED = 'the saved session is damaged: start afresh, or mend the file';
  const byText = presslore.numbers.byText;

  /** The fields of each kind of move: what they hold, with what stands in where they may be left out. */
  const KINDS = new Map(
    /** @type {[string, Record<string, Field>][]} */ ([
      ['pressed', { item: [isText], facts: [isFacts, {}], press: [isText, ''] }],
      ['saw', { defects: [isTexts] }],
      ['did-not-see', { defects: [isTexts] }],
      ['answered', { check: [isText], outcome: [isText], again: [isYesOrNo, false] }],
      ['measured', { figures: [isFigures], check: [isText, ''] }],
      ['named', { cause: [isText] }],
      ['last-good', { on: [isText], figures: [isFigures, {}], used: [isWords, {}] }],
      ['found-lately', { cause: [isText], on: [isText], times: [isTimes] }],
      ['used', { used: [isWords] }],
      ['cannot-tell', { check: [isText] }],
      ['tried', { fix: [isText], change: [isText, ''], gone: [isTexts, []] }],
      ['cannot-do', { fix: [isText] }],
      ['cured', { fix: [isText, ''] }],
      ['handed-over', {}]
    ])
  );

  /**
   * @param {unknown} value
   * @returns {value is string}
   */
  function isText(value) {
    return typeof value === 'string';
  }

  /** @param {unknown} value */
  function isWords(value) {
    return isObject(value) && Object.keys(value).every((kind) => isText(value[kind]));
  }

  /** @param {unknown} value */
  function isTimes(value) {
    return typeof value === 'number' && value > 0 && value <= MOST_TIMES;
  }

  /** @param {unknown} value */
  function isYesOrNo(value) {
    return typeof value === 'boolean';
  }

  /** @param {unknown} value */
  function isTexts(value) {
    return Array.isArray(value) && value.every(isText);
  }

  /** @param {unknown} value */
  function isFacts(value) {
    return (
      isObject(value) &&
      Object.keys(value).every((fact) => ['string', 'number', 'boolean'].includes(typeof value[fact]))
    );
  }

  /** @param {unknown} value */
  function isFigures(value) {
    return isObject(value) && Object.keys(value).every((name) => isSensible(name, value[name]));
  }

  /** @param {string} name @param {unknown} value */
  function isSensible(name, value) {
    return typeof value === 'number' && presslore.measures.sensible(name, value);
  }

  /**
   * @param {unknown} value
   * @returns {value is Record<string, unknown>}
   */
  function isObject(value) {
    return typeof value === 'object' && value !== null && !Array.isArray(value);
  }

  /** @param {Array<Object>} moves */
  class Session {
    /** @param {readonly Move[]} [moves] */
    constructor(moves) {
      /** @type {readonly Move[]} */
      this.moves = Object.freeze((moves || []).slice());
      Object.freeze(this);
    }

    /**
     * The session after one more move.
     * @param {Made} move
     */
    make(move) {
      return new Session(this.moves.concat([whole(move)]));
    }

    /** The id of the item, '' where unknown. */
    item() {
      return this.moves.reduce((item, move) => (move.move === 'pressed' ? move.item : item), '');
    }

    /** The id of the press, '' where nobody said; later words win. */
    press() {
      const named = this.facts().get(PRESS_NAME);
      const said = this.moves.reduce((press, move) => (move.move === 'pressed' && move.press) || press, '');
      return said || String(named === undefined ? '' : named);
    }

    /** What the person said of the job; later words win. */
    facts() {
      const told = new Map();
      this.moves.forEach((move) => {
        if (move.move !== 'pressed') return;
        Object.keys(move.facts).forEach((fact) => {
          told.set(fact, move.facts[fact]);
        });
      });
      return told;
    }

    /** The findings; they do not depend on the order of answers given between two fixes. */
    evidence() {
      return this.moves.reduce(learn, presslore.evidence.none());
    }

    /** Checks answered or that cannot be told, and fixes the person cannot do. */
    closed() {
      const result = new Set();
      this.moves.forEach((move) => {
        if ('check' in move && move.check) result.add(move.check);
        if (move.move === 'cannot-do') result.add(move.fix);
      });
      return result;
    }

    /** Checks that could not be told, in their order. */
    untold() {
      const answered = this.evidence().answers;
      const told = new Set(this.moves.flatMap((move) => (move.move === 'cannot-tell' ? [move.check] : [])));
      return Array.from(told).filter((check) => !answered.has(check));
    }

    /** Whether so many checks in a row could not be told that a way out is offered. */
    stuck() {
      return this.moves.reduce((many, move) => (move.move === 'cannot-tell' ? many + 1 : 0), 0) >= MANY_UNTOLD;
    }

    /** How many fixes changed nothing, one after another, up to the last move; a fault told since starts anew. */
    inVain() {
      const told = this.moves.filter((move) => ['tried', 'saw', 'did-not-see'].includes(move.move));
      if (!told.length || told[told.length - 1] !== this.moves[this.moves.length - 1]) return 0;
      return told.reduce((many, move) => (move.move === 'tried' && move.change === 'same' ? many + 1 : 0), 0);
    }

    /** Whether so many fixes were in vain that the piece is best looked at afresh. */
    doubtful() {
      return this.inVain() >= MANY_IN_VAIN;
    }

    /** Checks that were looked at a second time, or could not be. */
    lookedAgain() {
      /** @type {Set<string>} */
      const once = new Set();
      /** @type {Set<string>} */
      const twice = new Set();
      this.moves.forEach((move) => {
        if (move.move === 'answered' || move.move === 'cannot-tell')
          (once.has(move.check) ? twice : once).add(move.check);
      });
      return twice;
    }

    /** The figures measured, in the order told: [{period, figures}]. */
    figures() {
      /** @type {ToldFigures[]} */
      const told = [];
      let period = 0;
      this.moves.forEach((move) => {
        if (move.move === 'measured') told.push({ period, figures: move.figures });
        if (move.move === 'tried') period += 1;
      });
      return told;
    }

    /**
     * The last good piece; null where the shop knows of none.
     * @returns {LastGood | null}
     */
    lastGood() {
      return this.moves.reduce(
        (good, move) => (move.move === 'last-good' ? move : good),
        /** @type {LastGood | null} */ (null)
      );
    }

    /** The causes that were found on this press lately, by cause, each once. */
    foundLately() {
      /** @type {Map<string, FoundLately>} */
      const found = new Map();
      this.moves.forEach((move) => {
        if (move.move === 'found-lately') found.set(move.cause, move);
      });
      return Array.from(found.values()).sort((one, other) => byText(one.cause, other.cause));
    }

    /**
     * By name, each figure as it was told last, with the number of fixes tried before.
     * @returns {Map<string, Now>}
     */
    figuresNow() {
      return new Map(
        this.figures().flatMap(({ period, figures }) =>
          Object.keys(figures).map((name) => /** @type {[string, Now]} */ ([name, { now: figures[name], period }]))
        )
      );
    }

    /**
     * By kind, the goods that were used, as they were told last, with the number of fixes tried before.
     * @returns {Map<string, Now>}
     */
    usedNow() {
      /** @type {Map<string, Now>} */
      const told = new Map();
      let period = 0;
      this.moves.forEach((move) => {
        if (move.move === 'used') {
          Object.keys(move.used).forEach((kind) => {
            told.set(kind, { now: move.used[kind], period });
          });
        }
        if (move.move === 'tried') period += 1;
      });
      return told;
    }

    /** The move that ended the session, or null while it goes on. */
    over() {
      const last = this.moves[this.moves.length - 1];
      return last && (last.move === 'cured' || last.move === 'handed-over') ? last : null;
    }
  }

  /** @param {Known} evidence @param {Move} move */
  function learn(evidence, move) {
    const changed = presslore.evidence.changed;
    if (move.move === 'saw') {
      const seen = joined(evidence.seen, move.defects);
      return changed(evidence, { seen, notSeen: less(evidence.notSeen, move.defects) });
    }
    if (move.move === 'did-not-see') {
      return changed(evidence, { notSeen: joined(evidence.notSeen, less(move.defects, evidence.seen)) });
    }
    if (move.move === 'named') return presslore.evidence.withNamed(evidence, move.cause);
    if (move.move === 'answered') return presslore.evidence.withAnswer(evidence, move);
    if (move.move === 'tried') {
      const tried = { fix: move.fix, change: move.change, gone: move.gone.slice().sort(byText) };
      return changed(evidence, { tried: evidence.tried.concat([tried]) });
    }
    return evidence;
  }

  /** @param {string[]} one @param {string[]} other */
  function joined(one, other) {
    return Array.from(new Set(one.concat(other))).sort(byText);
  }

  /** @param {string[]} one @param {string[]} other */
  function less(one, other) {
    return Array.from(new Set(one))
      .filter((id) => other.indexOf(id) < 0)
      .sort(byText);
  }

  /**
   * A move with every field in its place. Throws where it is none.
   * @param {unknown} entry
   */
  function whole(entry) {
    const fields = isObject(entry) && isText(entry.move) && KINDS.get(entry.move);
    if (!isObject(entry) || !fields) throw new TypeError('no such move');
    /** @type {Record<string, unknown>} */
    const result = { move: entry.move };
    Object.keys(fields).forEach((name) => {
      const usual = fields[name][1];
      const value = hasOwn(entry, name) ? entry[name] : usual;
      if (!fields[name][0](value)) throw new TypeError(`unexpected ${name}`);
      result[name] = value;
    });
    Object.keys(entry).forEach((name) => {
      if (!hasOwn(result, name)) throw new TypeError(`unexpected ${name}`);
    });
    return /** @type {Move} */ (result);
  }

  /** @param {object} value @param {string} name */
  function hasOwn(value, name) {
    return Object.prototype.hasOwnProperty.call(value, name);
  }

  /**
   * The session as JSON text.
   * @type {Sessions['toJson']}
   */
  function toJson(session, version) {
    const whole = { format: FORMAT, version: versionOf(session), knowledge: version, moves: session.moves.map(spared) };
    return `${JSON.stringify(whole, null, 1)}\n`;
  }

  /**
   * The oldest version that can hold the session.
   * @param {Session} session
   */
  function versionOf(session) {
    if (session.moves.some((move) => ['last-good', 'found-lately', 'used'].includes(move.move))) return VERSION;
    if (session.moves.some((move) => move.move === 'answered' && move.again)) return 4;
    if (session.moves.some((move) => move.move === 'named')) return 3;
    return session.figures().length ? 2 : 1;
  }

  /**
   * The move as it is written: no press, no check that figures answer, and no second look, where there is none.
   * @param {Move} move
   */
  function spared(move) {
    const told = Object.entries(move).filter(
      ([name, value]) => value !== false && (value !== '' || (name !== 'press' && name !== 'check'))
    );
    return Object.fromEntries(told);
  }

  /**
   * The session in a JSON text. Throws an Error that says in plain words why it cannot be had.
   * @type {Sessions['fromJson']}
   */
  function fromJson(text) {
    let saved;
    try {
      saved = JSON.parse(text);
      if (!isObject(saved) || !hasOwn(saved, 'format')) throw new TypeError('no session');
    } catch (_) {
      throw new Error(DAMAGED);
    }
    if (saved.format !== FORMAT) throw new Error('not a saved session: choose a file that presslore saved');
    if (typeof saved.version === 'number' && saved.version > VERSION) {
      throw new Error('saved by a newer presslore: update this one, then resume');
    }
    try {
      if (typeof saved.version !== 'number' || !hasOwn(saved, 'knowledge')) throw new TypeError('no version');
      if (!Array.isArray(saved.moves)) throw new TypeError('no moves');
      return new Session(saved.moves.map(whole));
    } catch (_) {
      throw new Error(DAMAGED);
    }
  }

  /**
   * The saved session, checked against this knowledge. Throws where it does not fit.
   * @type {Sessions['resume']}
   */
  function resume(text, knowledge) {
    const session = fromJson(text);
    const strange = new Set();
    session.moves.forEach((move) => {
      unknown(move, knowledge).forEach((id) => {
        strange.add(id);
      });
    });
    if (!strange.size) return session;
    const named = Array.from(strange).sort(byText).join(', ');
    throw new Error(`the saved session speaks of things no longer known: ${named}`);
  }

  /** @param {Move} move @param {Knowledge} knowledge */
  function unknown(move, knowledge) {
    if (move.move === 'pressed') {
      return missing([move.item], knowledge.items).concat(missing(Object.keys(move.facts), knowledge.facts, true));
    }
    if (move.move === 'saw' || move.move === 'did-not-see') return missing(move.defects, knowledge.defects, true);
    if (move.move === 'answered') {
      const check = knowledge.checks.get(move.check);
      return check && presslore.outcomeOf(check, move.outcome) ? [] : [`${move.check}=${move.outcome}`];
    }
    if (move.move === 'measured') {
      const strange = Object.keys(move.figures).filter((name) => !presslore.measures.WINDOWS.has(name));
      return strange.concat(missing([move.check], knowledge.checks));
    }
    if (move.move === 'last-good' || move.move === 'used') {
      const figures = 'figures' in move ? Object.keys(move.figures) : [];
      const strange = figures.filter((name) => !presslore.measures.WINDOWS.has(name));
      return strange.concat(Object.keys(move.used).filter((kind) => !(kind in GOODS)));
    }
    if (move.move === 'named' || move.move === 'found-lately') return missing([move.cause], knowledge.causes, true);
    if (move.move === 'cannot-tell') return missing([move.check], knowledge.checks, true);
    if (move.move === 'tried') {
      const change = ['', 'better', 'same'].indexOf(move.change) < 0 ? [move.change] : [];
      return change.concat(missing([move.fix], knowledge.fixes, true), missing(move.gone, knowledge.defects, true));
    }
    return 'fix' in move ? missing([move.fix], knowledge.fixes) : [];
  }

  /**
   * The ids that are not known; '' is let pass unless an id is needed.
   * @param {string[]} ids @param {Map<string, unknown>} entries @param {boolean} [needed]
   */
  function missing(ids, entries, needed) {
    return ids.filter((id) => !entries.has(id) && (needed || id !== ''));
  }

  presslore.session = { PRESS_NAME, Session, isFigures, toJson, fromJson, resume };
})();
