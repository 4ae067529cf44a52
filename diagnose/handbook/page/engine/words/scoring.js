// The names of which enough is found among some units.
var presslore = presslore || {};

(function () {
  'use strict';

  const { MOST_TIMES, LEAST_SHARE } = presslore.shared.scoring;

  /**
   * Name -> its parts, where enough of it is there; a part is [unit of the text, unit of the name, surety, weight]. First
   * whatever may be enough at most, then what is.
   * @type {Words['foundNames']}
   */
  function foundNames(index, units) {
    const lookedUp = heeded(units).flatMap(([number, unit]) =>
      unit.features.map((pair) => ({ number, surety: pair[1], places: index.at(pair[0]) }))
    );
    /** @type {Map<number, number>} */
    const most = new Map();
    lookedUp.forEach((each) => {
      each.places.forEach((place) => most.set(place[0], (most.get(place[0]) || 0) + place[2] * each.surety));
    });
    /** @type {Map<number, NamePart[]>} */
    const parts = new Map();
    lookedUp.forEach((each) => {
      each.places.forEach((place) => {
        const name = place[0];
        if (presslore.known(most, name) <= LEAST_SHARE * index.totals[name]) return;
        /** @type {NamePart} */
        const part = [each.number, place[1], each.surety, place[2]];
        const before = parts.get(name);
        if (before) before.push(part);
        else parts.set(name, [part]);
      });
    });
    return new Map(Array.from(parts).filter((entry) => share(index, entry[0], entry[1]) > LEAST_SHARE));
  }

  /**
   * The units with their numbers, but none that was said twice before.
   * @param {Unit[]} units
   */
  function heeded(units) {
    /** @type {Map<string, number>} */
    const said = new Map();
    return units
      .map((unit, number) => /** @type {[number, Unit]} */ ([number, unit]))
      .filter(([, unit]) => {
        const times = (said.get(unit.features[0][0]) || 0) + 1;
        said.set(unit.features[0][0], times);
        return times <= MOST_TIMES;
      });
  }

  /**
   * How much of a name is there, by weight.
   * @param {NameIndex} index @param {number} name @param {NamePart[]} parts
   */
  function share(index, name, parts) {
    /** @type {Map<number, number>} */
    const best = new Map();
    parts.forEach((part) => {
      const value = part[2] * part[3];
      if (value > (best.get(part[1]) || 0)) best.set(part[1], value);
    });
    return presslore.numbers.sum(Array.from(best.values())) / (index.totals[name] || 1);
  }

  presslore.words.foundNames = foundNames;
})();
