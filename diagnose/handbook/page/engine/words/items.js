// Which item a person means, and what their words say of it beyond its usual facts.
var presslore = presslore || {};

(function () {
  'use strict';

  const LEAST_CLOSE = 0.45; // how much of a name must be there when an item was asked for
  const CLOSE_IN_PASSING = 0.79; // and when it is named in passing
  const words = presslore.words;
  const numbers = presslore.numbers;

  /**
   * The item a text names, {id, facts: Map, score, words}; null where it names none and gives no fact away. `id` is
   * '' where the words give away facts but no item that is known.
   */
  function findItem(lexicon, text) {
    const id = text.trim();
    if (!lexicon.knowledge.items.has(id)) return itemAmong(lexicon, text, LEAST_CLOSE);
    return { id, facts: new Map(), score: 100, words: [0, words.clauses(text).length] };
  }

  /** The item named anywhere in a text; `least` is how much of a name must be there. */
  function itemAmong(lexicon, text, least) {
    const asked = lexicon.literalUnits(text).filter((unit) => !unit.denied);
    const found = best(new words.Evidence(lexicon.items(), asked), least || CLOSE_IN_PASSING);
    const said = words.clauses(text).map((word) => word.text);
    const bare = found ? where(found.units, asked) : [0, said.length <= 3 ? said.length : 0];
    const { facts, near } = words.factsBeside(text, said, bare, lexicon.knowledge.facts);
    if (!found) return facts.size ? { id: '', facts, score: 0, words: [0, 0] } : null;
    const usual = new Map(lexicon.knowledge.items.get(found.owner).facts);
    const own = new Map(Array.from(facts).filter((pair) => differs(usual.get(pair[0]), pair[1])));
    const share = own.get('item.polyester');
    if (share > 0 && share < 100 && usual.get('item.family') === 'cloth') own.set('item.family', 'blend');
    return { id: found.owner, facts: own, score: found.score, words: near };
  }

  function differs(usual, told) {
    if (usual === undefined || typeof usual === 'string' || typeof told === 'string') return usual !== told;
    return Number(usual) !== Number(told);
  }

  /** The item of the name that is most fully and most tellingly there: {owner, units, score}; null for none. */
  function best(seen, least) {
    const ranked = [];
    seen.found.forEach((parts, name) => {
      const fullest = new Map();
      parts.forEach((part) => {
        const before = fullest.get(part[1]) || { surety: 0, unit: 0 };
        const more = part[2] > before.surety || (part[2] === before.surety && part[0] < before.unit);
        fullest.set(part[1], more ? { surety: part[2], unit: part[0] } : before);
      });
      const known = seen.index.name(name);
      const there = Array.from(fullest, (pair) => known.weights[pair[0]] * pair[1].surety);
      const share = numbers.sum(there) / (known.total || 1);
      if (share < least) return;
      const owner = seen.index.owners[seen.index.names[name].owner];
      const units = Array.from(fullest.values(), (one) => one.unit).sort((one, other) => one - other);
      ranked.push({ owner, units, score: known.total * Math.pow(share, 3) });
    });
    return numbers.least(ranked, (one) => [-one.score, one.owner, ...one.units]) || null;
  }

  /** The words from the first to the last of some units. */
  function where(found, units) {
    return [
      Math.min(...found.map((n) => units[n].words[0])),
      Math.max(...found.map((n) => units[n].words[1]))
    ];
  }

  Object.assign(words, { findItem, itemAmong });
})();
