// The answer to one check in a person's own words.
var presslore = presslore || {};

(function () {
  'use strict';

  const { LEAST, CLEARLY } = presslore.shared.outcomes;
  const words = presslore.words;

  /**
   * The outcome of one check that a reply speaks for, by its id; '' where it speaks for none, or for two nearly alike.
   * @type {Words['answer']}
   */
  function answer(lexicon, checkId, text) {
    const check = presslore.known(lexicon.knowledge.checks, checkId);
    text = words.taken(text);
    const plain = text.toLowerCase();
    const literal = check.outcomes.find((outcome) => {
      const names = lexicon.outcomeNames.get(`${check.id} ${outcome.id}`) || [];
      return plain === outcome.id || names.some((name) => name.toLowerCase() === plain);
    });
    if (literal) return literal.id;
    const typed = words.clauses(text);
    const tokens = lexicon.tokens(typed, lexicon.reader.typed(typed, lexicon.speller));
    const own = new Map(check.outcomes.map((outcome) => [`${check.id} ${outcome.id}`, outcome.id]));
    const named = (lexicon.said.get(words.keys(tokens)) || []).find((told) => own.has(told));
    return named === undefined ? spokenFor(lexicon.answers, own, tokens) : presslore.known(own, named);
  }

  /** @param {Layer} layer @param {Map<string, string>} own @param {TextToken[]} tokens */
  function spokenFor(layer, own, tokens) {
    const spoken = new words.Spoken(layer, tokens);
    const free = tokens.map(() => true);
    /** @type {{ gain: number, id: string }[]} */
    const runs = [];
    layer.classes.forEach((told, number) => {
      const id = own.get(told);
      const run = id === undefined ? null : spoken.best(number, free);
      if (id !== undefined && run) runs.push({ gain: run.gain - layer.bias[number], id });
    });
    const [first, next] = presslore.numbers.sorted(runs, (run) => [-run.gain, run.id]);
    if (!first || first.gain < LEAST || (next && first.gain - next.gain < CLEARLY)) return '';
    return first.id;
  }

  Object.assign(words, { answer });
})();
