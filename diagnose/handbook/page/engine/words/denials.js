// What the words deny: "no ghost", "not blurred", "nothing doubled" must never be taken as seen. A lack can be a fault
// as well ("not sharp"): then the denied words stand in its names. And ids typed as such, told or denied.
var presslore = presslore || {};

(function () {
  'use strict';

  const { LEAST, A_NAME, NOTHING, LACKS, REACH } = presslore.shared.denials;
  const words = presslore.words;

  /**
   * What runs of denied units would speak for, had they not been denied: {owner, units}; `owner` is null where that is
   * nothing that is known. Runs that tell a fault by what is lacking are left out.
   * @type {Words['denials']}
   */
  function denials(index, units) {
    /** @type {Denial[]} */
    const found = [];
    runs(units).forEach((run) => {
      const said = run.map((number) => units[number]);
      const affirmed = new words.Evidence(index, said.map(affirm));
      const nearest = affirmed.closest(0, run.length);
      const lack = lackIn(index, units, run);
      if (lack >= A_NAME && lack >= nearest.near) return;
      if (nearest.near >= A_NAME) {
        found.push({ owner: nearest.owner, units: run });
        return;
      }
      const best = strongest(affirmed);
      const asSaid = strongest(new words.Evidence(index, said)).score;
      if (best.score >= LEAST && best.score > asSaid) found.push({ owner: best.owner, units: run });
      else if (asSaid < LEAST) found.push({ owner: null, units: run });
    });
    return found.concat(ofLacks(index, units));
  }

  /**
   * Denials such as "nothing doubled" and "no sign of a ghost", unless the whole is itself the name of a fault.
   * @param {NameIndex} index @param {Unit[]} units
   */
  function ofLacks(index, units) {
    /** @type {Denial[]} */
    const found = [];
    units.forEach((unit, number) => {
      if (unit.denied || !lacks(unit)) return;
      const run = [number];
      for (let next = number + 1; next <= number + REACH && next < units.length; next++) {
        if (units[next].clause !== unit.clause) break;
        run.push(next);
      }
      const rest = run.slice(1).map((each) => units[each]);
      const nearest = new words.Evidence(index, rest).closest(0, rest.length);
      if (nearest.near >= A_NAME && nearest.near > lackIn(index, units, run)) {
        found.push({ owner: nearest.owner, units: run });
      }
    });
    return found;
  }

  /**
   * Whether a unit is "nothing" or a phrase such as "no sign of".
   * @param {Unit} unit
   */
  function lacks(unit) {
    const said = unit.features[0][0];
    return said === NOTHING || LACKS.some((lack) => `${said} `.startsWith(`${lack} `));
  }

  /**
   * How nearly a run as it stands, alone or with the rest of its clause, is the name of a fault.
   * @param {NameIndex} index @param {Unit[]} units @param {number[]} run
   */
  function lackIn(index, units, run) {
    const alone = run.map((number) => units[number]);
    const clause = units.map((_, number) => number).filter((n) => units[n].clause === alone[0].clause);
    const all = clause.map((number) => units[number]);
    const through = run.map((number) => clause.indexOf(number));
    return Math.max(
      new words.Evidence(index, alone).closest(0, alone.length).near,
      new words.Evidence(index, all).closest(0, all.length, through).near
    );
  }

  /**
   * Units denied by the same word, one after the other.
   * @param {Unit[]} units
   */
  function runs(units) {
    /** @type {number[][]} */
    const result = [];
    units.forEach((unit, number) => {
      if (!unit.denied) return;
      const last = result[result.length - 1];
      const follows = last && last[last.length - 1] === number - 1 && units[number - 1].denied === unit.denied;
      if (follows) last.push(number);
      else result.push([number]);
    });
    return result;
  }

  /** @param {Unit} unit */
  function affirm(unit) {
    const features = unit.features.map(([name, surety]) => {
      const bare = name.startsWith(words.NOT) ? name.slice(words.NOT.length) : name;
      return /** @type {Feature} */ ([bare, surety]);
    });
    return { ...unit, denied: 0, features };
  }

  /** @param {Heard} seen */
  function strongest(seen) {
    return seen.best(seen.scores()) || { owner: 0, score: 0 };
  }

  /**
   * The ids that stand in a text as such: {told, denied, words: the numbers of all their words}.
   * @type {Words['typedIds']}
   */
  function typedIds(known, text, typed, units) {
    const pieces = text
      .toLowerCase()
      .split(/\s+/)
      .map((piece) => piece.replace(/^[.,;:!?()"']+|[.,;:!?()"']+$/g, ''));
    /** @type {Ids} */
    const result = { told: [], denied: [], words: new Set() };
    new Set(pieces.filter((piece) => known.has(piece))).forEach((id) => {
      const places = placesOf(typed, words.cut(id));
      const deniers = places.map((place) => denierOf(typed, units, place));
      const denied = places.length > 0 && deniers.every((denier) => denier >= 0);
      (denied ? result.denied : result.told).push(id);
      places.forEach((place) => words.addSpan(result.words, place));
      units.forEach((unit) => {
        if (deniers.some((denier) => isIn(unit, denier))) words.addSpan(result.words, unit.words);
      });
    });
    return result;
  }

  /** @param {TypedWord[]} typed @param {string[]} parts */
  function placesOf(typed, parts) {
    const places = typed.map((_, place) => /** @type {Span} */ ([place, place + parts.length]));
    return places.filter((place) => parts.every((part, i) => typed[place[0] + i] && typed[place[0] + i].text === part));
  }

  /**
   * The number of the "no" shortly before an id, or of the "not" after it that has nothing else to deny ("ghosting is
   * not there"); -1 where there is none.
   * @param {TypedWord[]} typed @param {Unit[]} units @param {Span} place
   */
  function denierOf(typed, units, place) {
    const clause = typed[place[0]].clause;
    for (let number = place[0] - 1; number >= 0 && number > place[0] - 2 - REACH; number--) {
      if (typed[number].clause !== clause || words.CONTRAST.has(typed[number].text)) break;
      if (words.NEGATORS.has(typed[number].text)) return number;
    }
    const no = typed.findIndex((word, n) => n >= place[1] && word.clause === clause && words.NEGATORS.has(word.text));
    const after = units.filter((unit) => unit.clause === clause && unit.words[0] >= place[1]);
    return after.every((unit) => isIn(unit, no)) ? no : -1;
  }

  /**
   * Whether the word of this number is part of a unit.
   * @param {Unit} unit @param {number} number
   */
  function isIn(unit, number) {
    return unit.words[0] <= number && number < unit.words[1];
  }

  Object.assign(words, { denials, typedIds });
})();
