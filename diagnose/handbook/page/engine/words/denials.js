// What is said of a fault without saying that it is there: denied, feared, refused to hear, asked.
var presslore = presslore || {};

(function () {
  'use strict';

  const { LEAST, HEAD, ELSEWHERE, OR } = presslore.shared.denials;
  const FEARS = new Set(presslore.shared.denials.FEARS);
  const TELLING = new Set(presslore.shared.denials.TELLING);
  const SAYINGS = new Set(presslore.shared.denials.SAYINGS);
  const WEAK = new Set(presslore.shared.denials.WEAK);
  const words = presslore.words;

  /**
   * What is denied: after a "not", before one with nothing left to deny, or asked and answered with no.
   * @type {Words['denied']}
   */
  function denied(spoken) {
    const found = spoken.denials.flatMap((denial) => after(spoken, denial));
    spoken.tokens.forEach((_, place) => {
      const span = toldBefore(spoken.tokens, place);
      const run = span && inside(spoken, span, -1);
      if (!run) return;
      const paired = spoken.paired.get(run.told);
      if (!(paired && (paired.get(place) || 0) > 0)) found.push({ ...run, last: endOf(spoken.tokens, place) });
    });
    return found;
  }

  /**
   * What a "not" denies: one thing, and with each "or" the next. It reaches no farther then.
   * @param {Spoken} spoken @param {Denial} denial
   */
  function after(spoken, denial) {
    const [place, start, last] = denial;
    /** @type {Run[]} */
    const found = [];
    if (TELLING.has(spoken.tokens[start].key)) return found;
    let first = place;
    parts(spoken.tokens, start, last).forEach((span) => {
      const run = inside(spoken, span, start);
      if (!run) return;
      found.push({ ...run, first });
      first = run.last;
    });
    if (found.length) spoken.narrow(denial, first);
    return found;
  }

  /**
   * What stands between each "or" and the next, without words that say nothing at its beginning.
   * @param {TextToken[]} tokens @param {number} start @param {number} last
   */
  function parts(tokens, start, last) {
    /** @type {number[]} */
    const ends = [];
    for (let place = start; place < last; place++) if (tokens[place].key === OR) ends.push(place);
    return [start, ...ends].map((first, at) => {
      const end = at < ends.length ? ends[at] : last;
      while (first < end && (tokens[first].key === OR || WEAK.has(tokens[first].key))) first++;
      return /** @type {Span} */ ([first, end]);
    });
  }

  /**
   * What the tokens of a span would tell most, but for what is told by its lack with the "not" before `lack`; null where
   * that is next to nothing.
   * @param {Spoken} spoken @param {Span} span @param {number} lack
   */
  function inside(spoken, [first, last], lack) {
    const free = spoken.tokens.map((_, number) => first <= number && number < last);
    /** @type {Run[]} */
    const runs = [];
    spoken.own.forEach((_, told) => {
      if (spoken.layer.classes[told].startsWith(ELSEWHERE)) return;
      const run = lack >= 0 && spoken.byLack(told, lack) ? null : spoken.best(told, free, true);
      if (run && run.gain >= LEAST) runs.push(run);
    });
    return presslore.numbers.least(runs, (run) => [-run.gain, run.told]) || null;
  }

  /**
   * Whether what a run tells is feared or refused to hear, not seen.
   * @type {Words['onlyThoughtOf']}
   */
  function onlyThoughtOf(tokens, run) {
    const head = tokens.slice(Math.max(0, run.first - HEAD), run.first + 1);
    const keys = head.filter((token) => token.clause === tokens[run.first].clause).map((token) => token.key);
    const refused = keys.slice(1).some((other, place) => keys[place] === words.NOT && SAYINGS.has(other));
    return refused || keys.some((key) => FEARS.has(key));
  }

  /**
   * The tokens that a "not" with nothing left to deny speaks of: those before it in its clause, else the clause before it;
   * null for any other token.
   * @param {TextToken[]} tokens @param {number} place
   * @returns {Span | null}
   */
  function toldBefore(tokens, place) {
    const clause = tokens[place].clause;
    const denies = tokens.slice(place + 1, endOf(tokens, place)).every((token) => WEAK.has(token.key));
    if (tokens[place].key !== words.NOT || !denies) return null;
    const start = startOf(tokens, clause);
    if (tokens.slice(start, place).some((token) => !WEAK.has(token.key))) return [start, place];
    return start ? [startOf(tokens, tokens[start - 1].clause), start] : null;
  }

  /** @param {TextToken[]} tokens @param {number} clause */
  function startOf(tokens, clause) {
    return tokens.findIndex((token) => token.clause === clause);
  }

  /**
   * Where the clause of a token ends.
   * @param {TextToken[]} tokens @param {number} place
   */
  function endOf(tokens, place) {
    const end = tokens.findIndex((token, at) => at > place && token.clause !== tokens[place].clause);
    return end < 0 ? tokens.length : end;
  }

  Object.assign(words, { denied, onlyThoughtOf });
})();
