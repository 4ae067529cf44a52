// Free words, turned into what the session understands: what dialogue/hearing.py does.
var presslore = presslore || {};

(function () {
  'use strict';

  const { COLOUR, KEPT_IN_THE_TEXT, THE_REST } = presslore.shared.hearing;
  const { words, numbers } = presslore;

  /**
   * What some words were taken for: {defects, notSeen, figures: [name, value, words], answers: [check, outcome], causes,
   * item, facts, refused, elsewhere, unsure, notUnderstood}. `unsure`: defects of which one may be meant, the likeliest
   * first. An id of a defect is taken as it stands.
   * @type {Words['hear']}
   */
  function hear(lexicon, text) {
    if (lexicon.knowledge.defects.has(text.trim())) return { ...nothing(), defects: [text.trim()] };
    const short = words.taken(text);
    const figures = words.figuresTold(short);
    const cut = figures.filter((figure) => figure.name !== KEPT_IN_THE_TEXT);
    const { left, ground } = withoutGround(lexicon, words.withoutFigures(short, cut));
    const understood = words.understand(lexicon, left === short ? text : left);
    const item = understood.item;
    const doubtful = understood.defects.find((one) => one.near.length);
    const rest = left !== short && words.isCut(text) ? [THE_REST] : [];
    return {
      defects: understood.defects.filter((one) => one !== doubtful).map((one) => one.id),
      notSeen: understood.notSeen,
      figures: figures.map(({ name, value, first, last }) => [name, value, short.slice(first, last).trim()]),
      answers: understood.outcomes.map((one) => [one.check, one.outcome]),
      causes: understood.causes.map((one) => one.told[0]),
      item: item ? item.id : '',
      facts: numbers.sorted(Array.from(new Map([...factsOf(item), ...ground])), (pair) => [pair[0]]),
      refused: item ? item.refused : '',
      elsewhere: understood.elsewhere,
      unsure: doubtful ? [doubtful.id, ...doubtful.near] : [],
      notUnderstood: understood.notUnderstood.concat(rest)
    };
  }

  /** @returns {Sights} */
  function nothing() {
    return {
      defects: [],
      notSeen: [],
      figures: [],
      answers: [],
      causes: [],
      item: '',
      facts: [],
      refused: '',
      elsewhere: '',
      unsure: [],
      notUnderstood: []
    };
  }

  /**
   * What is said of the goods. A colour beside no goods is one of the print.
   * @param {FoundItem | null} item
   */
  function factsOf(item) {
    return item ? Array.from(item.facts).filter(([fact]) => item.id || fact !== COLOUR) : [];
  }

  /**
   * The text without a part that is nothing but the colour of the goods ("T-shirt, red, large"), and what it says. A
   * colour that is the name of a defect as well ("mug, pale") is none of the goods.
   * @param {Lexicon} lexicon @param {string} text
   * @returns {{ left: string, ground: [fact: string, value: Value][] }}
   */
  function withoutGround(lexicon, text) {
    const fact = lexicon.knowledge.facts.get(COLOUR);
    const parts = text.split(',');
    /** @type {Map<string, string>} */
    const named = new Map();
    const told = new Map(fact ? fact.words : []);
    if (fact && parts.length > 1) {
      fact.oneOf.forEach((value) => [value, ...(told.get(value) || [])].forEach((name) => named.set(name, value)));
    }
    const said = parts.filter((part) => named.has(plain(part)) && !lexicon.whole(plain(part)));
    const kept = parts.filter((part) => part !== said[0]).join(',');
    const goods = said.length === 1 ? words.findItem(lexicon, kept) : null;
    if (!goods || !goods.id) return { left: text, ground: [] };
    return { left: kept, ground: [[COLOUR, presslore.known(named, plain(said[0]))]] };
  }

  /** @param {string} part */
  function plain(part) {
    return words.cut(part).join(' ');
  }

  Object.assign(words, { hear });
})();
