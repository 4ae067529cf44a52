// What the words deny: "no ghost", "not blurred" must not be taken as seen.
var presslore = presslore || {};

(function () {
  'use strict';

  const LEAST = 4;
  const A_NAME = 0.75;
  const words = presslore.words;

  /** The defects that runs of denied units would speak for, had they not been denied: {owner, units}. */
  function denials(index, units) {
    const found = [];
    runs(units).forEach((run) => {
      const asSaid = run.map((number) => units[number]);
      const affirmed = new words.Evidence(index, asSaid.map(affirm));
      const best = affirmed.best(affirmed.scores());
      if (!best || best.score < LEAST) return;
      const named = affirmed.closeness(best.owner, 0, run.length) >= A_NAME;
      if (named || best.score > strongest(new words.Evidence(index, asSaid))) {
        found.push({ owner: best.owner, units: run });
      }
    });
    return found;
  }

  function runs(units) {
    const result = [];
    units.forEach((unit, number) => {
      if (!unit.denied) return;
      const last = result[result.length - 1];
      const follows =
        last && last[last.length - 1] === number - 1 && units[number - 1].clause === unit.clause;
      if (follows) last.push(number);
      else result.push([number]);
    });
    return result;
  }

  function affirm(unit) {
    const features = unit.features.map((pair) => [
      pair[0].startsWith(words.NOT) ? pair[0].slice(words.NOT.length) : pair[0],
      pair[1]
    ]);
    return { ...unit, denied: false, features };
  }

  function strongest(seen) {
    const best = seen.best(seen.scores());
    return best ? best.score : 0;
  }

  words.denials = denials;
})();
