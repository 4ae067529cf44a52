// Names that count wherever they stand, and what a shop has of its own, which the table knows nothing of.
var presslore = presslore || {};

(function () {
  'use strict';

  const { LONGEST, OF_CHANCE, EVERYWHERE, RARE, MOST, OWN_BIAS } = presslore.shared.names;
  const { A_FIGURE } = presslore.shared.tokens;
  const words = presslore.words;

  /**
   * The tokens of a name.
   * @type {Words['ownTokens']}
   */
  function ownTokens(reader, speller, text) {
    const typed = words.clauses(words.taken(text));
    return words.tokens(typed, reader.typed(typed, speller), speller);
  }

  /**
   * What each name tells, by its keys in a row.
   * @type {Words['saidWherever']}
   */
  function saidWherever(named) {
    /** @type {Map<string, string[]>} */
    const found = new Map();
    named.forEach(({ told, name }) => {
      if (!name.length || name.length > LONGEST) return;
      const before = found.get(keys(name));
      if (!before) found.set(keys(name), [told]);
      else if (!before.includes(told)) before.push(told);
    });
    return found;
  }

  /**
   * What a run of tokens is known by as a name.
   * @type {Words['keys']}
   */
  function keys(name) {
    return name.map((token) => token.key).join(' ');
  }

  /**
   * The layer with what it does not hold: classes of a shop's own, weighed by the names they go by.
   * @type {Words['withOwn']}
   */
  function withOwn(layer, named) {
    const held = new Set(layer.classes);
    const mine = named.filter(({ told }) => !held.has(told));
    const own = Array.from(new Set(mine.map(({ told }) => told)));
    if (!own.length) return layer;
    /** @type {Map<string, Map<number, number>>} */
    const extra = new Map();
    own.forEach((told, place) => {
      const names = mine.filter((each) => each.told === told).map(({ name }) => name);
      counted(names).forEach((count, feature) => {
        const share = RARE + EVERYWHERE * Math.min(1, layer.row(feature).own.size / layer.classes.length);
        const weight = Math.log((count + OF_CHANCE * share) / ((names.length + OF_CHANCE) * share));
        const steps = presslore.numbers.rounded(Math.min(MOST, Math.max(0, weight)) / layer.table.step, 0);
        const before = extra.get(feature) || new Map();
        extra.set(feature, before.set(layer.classes.length + place, steps * layer.table.step));
      });
    });
    const bias = [...layer.bias, ...own.map(() => OWN_BIAS)];
    return new words.Layer([...layer.classes, ...own], bias, layer.table, extra);
  }

  /**
   * In how many names each feature is found.
   * @param {TextToken[][]} names
   */
  function counted(names) {
    /** @type {Map<string, number>} */
    const counts = new Map();
    names.forEach((name) => {
      new Set(featuresOf(name)).forEach((feature) => counts.set(feature, (counts.get(feature) || 0) + 1));
    });
    return counts;
  }

  /** @param {TextToken[]} name */
  function featuresOf(name) {
    const paired = name.slice(1).map((token, place) => words.pair(name[place], token));
    const each = name.filter((token) => token.key !== A_FIGURE).flatMap((token) => token.features);
    return each.concat(paired.filter(Boolean));
  }

  Object.assign(words, { ownTokens, saidWherever, keys, withOwn });
})();
