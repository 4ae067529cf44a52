// The knowledge that the page carries, with everything left out filled in again and found by its id.
var presslore = presslore || {};

(function () {
  'use strict';

  /** @type {never[]} */
  const NOTHING = [];
  const NO_WAIT = { time: 0, what: '' };

  /**
   * Knowledge by id, in the order it was written.
   * @type {Engine['unpack']}
   */
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
      bars: (packed.bars || NOTHING).map((entry) => ({ if: NOTHING, ...entry })),
      dangers: byId(packed.dangers, (entry) => ({ said: NOTHING, ...entry })),
      cautions: byId(packed.cautions, plain),
      beforePress: packed.beforePress,
      readings: (packed.readings || NOTHING).map(reading),
      press: packed.press || null,
      presses: byId(packed.presses || NOTHING, ofShop),
      salvage: (packed.salvage || NOTHING).map(salvage),
      spoilt: packed.spoilt,
      packed
    };
  }

  /**
   * @template {{ id: string }} Least, Whole
   * @param {Least[]} entries @param {(entry: Least) => Whole} fill
   * @returns {Map<string, Whole>}
   */
  function byId(entries, fill) {
    return new Map(entries.map((entry) => [entry.id, fill(entry)]));
  }

  /** @param {Caution} entry */
  function plain(entry) {
    return entry;
  }

  /** @param {Packed['facts'][number]} entry */
  function fact(entry) {
    return { unit: '', oneOf: NOTHING, words: NOTHING, yesNo: false, ...entry };
  }

  /** @param {Packed['causes'][number]} entry */
  function cause(entry) {
    return { origin: '', shapes: NOTHING, later: false, ...entry };
  }

  /** @param {PackedCheck} entry */
  function check(entry) {
    const usual = {
      origin: '',
      trial: false,
      waits: NO_WAIT,
      spends: {},
      if: NOTHING,
      cautions: NOTHING
    };
    const outcomes = entry.outcomes.map(outcome);
    return { ...usual, ...entry, outcomes, asksFor: askedFor(outcomes) };
  }

  /**
   * The facts of the job that a check is there to ask for: those that each of its outcomes tells of, and nothing of a
   * cause.
   * @param {Outcome[]} outcomes
   */
  function askedFor(outcomes) {
    if (!outcomes.length || outcomes.some((one) => !one.facts.length || one.shows.length)) return NOTHING;
    const told = outcomes.map((one) => presslore.conditions.factsAsked([one.facts]));
    return told[0].filter((fact) => told.every((facts) => facts.includes(fact)));
  }

  /** @param {PackedOutcome} entry */
  function outcome(entry) {
    return { said: NOTHING, facts: NOTHING, shows: NOTHING, otherwise: 0, nextSpoils: 0, ...entry };
  }

  /** @param {Packed['fixes'][number]} entry */
  function fix(entry) {
    return {
      origin: '',
      trial: false,
      waits: NO_WAIT,
      spends: {},
      if: NOTHING,
      cures: NOTHING,
      cautions: NOTHING,
      ...entry
    };
  }

  /** @param {PackedDefect} entry */
  function defect(entry) {
    const rules = (entry.rules || []).map((rule) => ({
      cause: rule[0],
      brings: rule[1],
      if: rule[2] || NOTHING,
      trial: rule[3] === 1
    }));
    return { said: NOTHING, otherwise: 0, tells: NOTHING, ...entry, rules };
  }

  /** @param {Packed['items'][number]} entry */
  function item(entry) {
    /** @type {Item} */
    const filled = { facts: NOTHING, job: usualJob(entry), said: NOTHING, cautions: NOTHING, ...entry };
    if (entry.windows && entry.pressure !== undefined) {
      const [temperature, dwell] = entry.windows.map((window) => (window[0] + window[1]) / 2);
      filled.usual = { temperature, dwell, pressure: entry.pressure, sheets: entry.sheets || 0, offset: 0 };
    }
    return filled;
  }

  /**
   * What is known of a job with such an item as long as nobody has told.
   * @param {Packed['items'][number]} entry
   * @returns {[fact: string, value: Value | Usual][]}
   */
  function usualJob(entry) {
    const mayBe = new Map(entry.mayBe || NOTHING);
    return (entry.facts || NOTHING).map(([fact, value]) => {
      const others = mayBe.get(fact);
      if (!others) return [fact, value];
      const share = 1 - presslore.numbers.sum(others.map((other) => other[1]));
      return [fact, { shares: [[value, share], ...others] }];
    });
  }

  /** @param {PackedPress} entry */
  function ofShop(entry) {
    const known = (entry.known || []).map(([cause, turnsUp, told]) => ({ cause, turnsUp, told }));
    return { facts: NOTHING, ...entry, known };
  }

  /** @param {PackedSalvage} entry */
  function salvage(entry) {
    const ways = entry.ways.map(([way, comesOut, says, minutes]) => ({ way, comesOut, says, minutes: minutes || 0 }));
    return { if: NOTHING, ...entry, ways };
  }

  /** @param {Lean<Measure, 'settles'>} entry */
  function reading(entry) {
    return { settles: NOTHING, ...entry };
  }

  /**
   * The outcome of a check with this id; undefined where it has none such.
   * @type {Engine['outcomeOf']}
   */
  function outcomeOf(check, id) {
    return check.outcomes.find((one) => one.id === id);
  }

  presslore.unpack = unpack;
  presslore.outcomeOf = outcomeOf;
})();
