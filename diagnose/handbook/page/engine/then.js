// What came out well before, held against what is so now: what differs speaks for causes of its kind, what is alike
// against them.
var presslore = presslore || {};

(function () {
  'use strict';

  const { DIFFERS, CHECK, GOODS, LESS, MORE, ALIKE, APART, DECIMALS } = presslore.shared.then;
  const numbers = presslore.numbers;

  /**
   * The last good piece held against this one, as far as both were told: [{kind, was, now, way, ratios, period}].
   * Goods say nothing more where it was answered what of them is new.
   * @type {Engine['thenAndNow']}
   */
  function thenAndNow(session, knowledge) {
    const good = session.lastGood();
    if (!good) return [];
    const answered = session.evidence().answers.has(CHECK);
    return [
      ...figuresThen(good.figures, session.figuresNow(), knowledge),
      ...(answered ? [] : goodsThen(good.used, session.usedNow(), knowledge))
    ];
  }

  /**
   * @param {Record<string, number>} good @param {Map<string, Now>} told @param {Knowledge} knowledge
   * @returns {Then[]}
   */
  function figuresThen(good, told, knowledge) {
    const causes = Array.from(knowledge.causes.keys());
    return Object.keys(APART).flatMap((kind) => {
      const found = told.get(kind);
      if (!found || !(kind in good)) return [];
      const [was, now] = [good[kind], Number(found.now)];
      const away = off(kind, was, now);
      const way = Math.abs(away) < APART[kind] ? 'alike' : away < 0 ? 'less' : 'more';
      const ratio = way === 'alike' ? rounded(1 / DIFFERS) : DIFFERS;
      const spoken = way === 'alike' ? [...LESS[kind], ...MORE[kind], ...(ALIKE[kind] || [])] : ofWay(way)[kind];
      const places = spoken.map((cause) => causes.indexOf(cause)).filter((place) => place >= 0);
      return [{ kind, was, now, way, ratios: new Map(places.map((place) => [place, ratio])), period: found.period }];
    });
  }

  /** @param {string} way */
  function ofWay(way) {
    return way === 'less' ? LESS : MORE;
  }

  /**
   * By how much a figure lies over the last good one; times by the logarithm of their ratio.
   * @param {string} kind @param {number} was @param {number} now
   */
  function off(kind, was, now) {
    if (kind !== 'dwell') return now - was;
    return now > 0 && was > 0 ? Math.log(now / was) : Infinity;
  }

  /**
   * @param {Record<string, string>} good @param {Map<string, Now>} told @param {Knowledge} knowledge
   * @returns {Then[]}
   */
  function goodsThen(good, told, knowledge) {
    const check = knowledge.checks.get(CHECK);
    return Object.keys(GOODS).flatMap((kind) => {
      const found = told.get(kind);
      if (!found || !(kind in good)) return [];
      const way = plain(good[kind]) === plain(String(found.now)) ? 'alike' : 'other';
      const outcome = check && presslore.outcomeOf(check, GOODS[kind]);
      const ratios = new Map(outcome ? outcome.shows.map((pair) => [pair[0], ratioOf(pair[1], outcome, way)]) : []);
      return [{ kind, was: good[kind], now: found.now, way, ratios, period: found.period }];
    });
  }

  /** @param {number} chance @param {Outcome} outcome @param {string} way */
  function ratioOf(chance, { otherwise }, way) {
    if (way === 'alike') return bounded(1 - chance);
    return bounded(otherwise ? (chance + (1 - chance) * otherwise) / otherwise : Infinity);
  }

  /** @param {string} text */
  function plain(text) {
    return text.toLowerCase().split(/\s+/).filter(Boolean).join(' ');
  }

  /** @param {number} ratio */
  function bounded(ratio) {
    return rounded(Math.max(1 / DIFFERS, Math.min(DIFFERS, ratio)));
  }

  /** @param {number} ratio */
  function rounded(ratio) {
    return numbers.rounded(ratio, DECIMALS);
  }

  presslore.thenAndNow = thenAndNow;
  presslore.THEN_CHECK = CHECK;
})();
