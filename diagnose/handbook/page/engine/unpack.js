// The knowledge that the page carries, with everything left out filled in again and found by its id.
var presslore = presslore || {};

(function () {
  'use strict';

  const NOTHING = [];

  /** Knowledge by id, in the order it was written. */
  function unpack(packed) {
    return {
      version: packed.version,
      currency: packed.currency || '',
      unit: packed.unit || 'C',
      rates: packed.rates,
      scale: packed.scale.map((pair) => ({ word: pair[0], value: pair[1] })),
      facts: byId(packed.facts, fact),
      causes: byId(packed.causes, cause),
      checks: byId(packed.checks, check),
      fixes: byId(packed.fixes, fix),
      defects: byId(packed.defects, defect),
      items: byId(packed.items, item),
      cautions: byId(packed.cautions, plain),
      beforePress: packed.beforePress,
      readings: (packed.readings || NOTHING).map(reading),
      press: packed.press || null,
      packed
    };
  }

  function byId(entries, fill) {
    return new Map(entries.map((entry) => [entry.id, fill(entry)]));
  }

  function plain(entry) {
    return entry;
  }

  function fact(entry) {
    return { unit: '', oneOf: NOTHING, words: NOTHING, yesNo: false, ...entry };
  }

  function cause(entry) {
    return { origin: '', shapes: NOTHING, ...entry };
  }

  function check(entry) {
    const filled = { origin: '', trial: false, how: NOTHING, spends: {}, if: NOTHING, cautions: NOTHING, ...entry };
    filled.outcomes = entry.outcomes.map(outcome);
    return filled;
  }

  function outcome(entry) {
    return { said: NOTHING, shows: NOTHING, otherwise: 0, ...entry };
  }

  function fix(entry) {
    return { origin: '', trial: false, spends: {}, if: NOTHING, cures: NOTHING, cautions: NOTHING, ...entry };
  }

  function defect(entry) {
    const filled = { said: NOTHING, otherwise: 0, ...entry };
    filled.rules = (entry.rules || NOTHING).map((rule) => ({
      cause: rule[0],
      brings: rule[1],
      if: rule[2] || NOTHING,
      trial: rule[3] === 1
    }));
    return filled;
  }

  function item(entry) {
    const filled = { facts: NOTHING, said: NOTHING, cautions: NOTHING, ...entry };
    if (entry.windows) {
      const [temperature, dwell] = entry.windows.map((window) => (window[0] + window[1]) / 2);
      filled.usual = { temperature, dwell, pressure: entry.pressure, sheets: entry.sheets || 0, offset: 0 };
    }
    return filled;
  }

  function reading(entry) {
    return { settles: NOTHING, ...entry };
  }

  /** The outcome of a check with this id; undefined where it has none such. */
  function outcomeOf(check, id) {
    return check.outcomes.find((one) => one.id === id);
  }

  presslore.unpack = unpack;
  presslore.outcomeOf = outcomeOf;
})();
