// The two-layer network: causes that are there or not, and findings they bring on (a noisy-MAX with a leak).
var presslore = presslore || {};

(function () {
  'use strict';

  const { MOST, LEAST_LEAK } = presslore.shared.network;
  const sum = presslore.numbers.sum;
  const conditions = presslore.conditions;

  /**
   * The network for a job: priors shaped by it, and the rules and checks that may hold for it. What is `known` of the
   * press sets the prior of its cause, told by its number; a cause that cannot be there in such a job stays out.
   * `told`: what answers tell of the job (`read`). A node is {id, leak, links: Map<cause, chances>, outcomes}.
   * @type {Engine['network']}
   */
  function network(knowledge, job, known, told) {
    const causes = Array.from(knowledge.causes.values());
    const ofPress = new Map(known.map((each) => [each.cause, Math.min(each.turnsUp, MOST)]));
    const jobs = causes.map((_, at) => jobOf(knowledge, job, told, at));
    const whole = told.length ? learntFrom(job, told) : job;
    return {
      causes: causes.map((cause) => cause.id),
      priors: causes.map((cause, at) => priorOn(ofPress.get(at), prior(cause, jobs[at]))),
      defects: mapped(knowledge.defects, (defect) => defectNode(defect, causes, jobs)),
      checks: mapped(fitting(knowledge.checks, whole), checkNode),
      cures: mapped(fitting(knowledge.fixes, whole), (fix) => new Map(fix.cures))
    };
  }

  /** @param {Job} job @param {Read[]} told */
  function learntFrom(job, told) {
    return conditions.learnt(
      job,
      told.map((each) => each.facts)
    );
  }

  /**
   * The job as a cause has it: an answer that speaks of it by itself does not do so again by way of what it tells of
   * the job.
   * @param {Knowledge} knowledge @param {Job} job @param {Read[]} told @param {number} at
   */
  function jobOf(knowledge, job, told, at) {
    if (!told.length) return job;
    /** @param {Read} each */
    const speaks = (each) =>
      presslore
        .known(knowledge.checks, each.check)
        .outcomes.some((outcome) => outcome.shows.some((shown) => shown[0] === at));
    return learntFrom(
      job,
      told.filter((each) => !speaks(each))
    );
  }

  /**
   * What answers, by check, tell of the job they go with.
   * @type {Engine['read']}
   */
  function read(knowledge, job, answers) {
    /** @type {Read[]} */
    const told = [];
    Array.from(answers.keys())
      .sort(presslore.numbers.byText)
      .forEach((id) => {
        const check = knowledge.checks.get(id);
        if (!check || !conditions.mayHold(check.if, job)) return;
        const outcome = presslore.outcomeOf(check, presslore.known(answers, id).outcome);
        if (outcome?.facts.length) told.push({ check: id, facts: outcome.facts });
      });
    return told;
  }

  /**
   * @template {{ if: Test[] }} Entry
   * @param {Map<string, Entry>} entries @param {Job} job
   */
  function fitting(entries, job) {
    return Array.from(entries).filter((pair) => conditions.mayHold(pair[1].if, job));
  }

  /**
   * @template Entry, Made
   * @param {Iterable<[string, Entry]>} entries @param {(entry: Entry) => Made} make
   * @returns {Map<string, Made>}
   */
  function mapped(entries, make) {
    return new Map(Array.from(entries, (pair) => [pair[0], make(pair[1])]));
  }

  /**
   * How often the cause turns up in such a job: its first shape that holds, else its usual chance. Over facts that are
   * merely usual it is the mean, by how often each is so.
   * @param {Cause} cause @param {Job} job
   */
  function prior(cause, job) {
    const asked = conditions.factsAsked(cause.shapes.map((shape) => shape.if));
    return sum(conditions.worlds(job, asked).map(([world, share]) => share * turnsUp(cause, world)));
  }

  /** @param {Cause} cause @param {Job} job */
  function turnsUp(cause, job) {
    const shape = cause.shapes.find((one) => conditions.holds(one.if, job));
    return (shape || cause).turnsUp;
  }

  /** @param {number | undefined} ofPress @param {number} usual */
  function priorOn(ofPress, usual) {
    return usual && ofPress !== undefined ? ofPress : usual;
  }

  /** @param {Defect} defect @param {Cause[]} causes @param {Job[]} jobs */
  function defectNode(defect, causes, jobs) {
    /** @type {Map<number, Rule[]>} */
    const byCause = new Map();
    defect.rules.forEach((rule) => {
      if (!conditions.mayHold(rule.if, jobs[rule.cause])) return;
      const others = byCause.get(rule.cause);
      if (others) others.push(rule);
      else byCause.set(rule.cause, [rule]);
    });
    /** @type {Map<number, number[]>} */
    const links = new Map();
    byCause.forEach((rules, cause) => {
      const asked = [...causes[cause].shapes, ...defect.rules.filter((rule) => rule.cause === cause && rule.if.length)];
      links.set(cause, [Math.min(brings(causes[cause], rules, jobs[cause], asked), MOST)]);
    });
    return { id: defect.id, leak: [Math.max(defect.otherwise, LEAST_LEAK)], links, outcomes: [] };
  }

  /**
   * How surely a cause brings a defect on: by the strongest of its rules that may hold, and over facts that are merely
   * usual the mean of that, by how often the cause is there as they are.
   * @param {Cause} cause @param {Rule[]} rules @param {Job} job @param {{ if: Test[] }[]} asked
   */
  function brings(cause, rules, job, asked) {
    const conditional = rules.some((rule) => rule.if.length);
    const found = conditional ? conditions.worlds(job, conditions.factsAsked(asked.map((each) => each.if))) : [];
    if (found.length < 2) return Math.max(...rules.map((rule) => rule.brings));
    let weights = found.map(([world, share]) => share * turnsUp(cause, world));
    const strongest = found.map(([world]) =>
      Math.max(0, ...rules.filter((rule) => conditions.mayHold(rule.if, world)).map((rule) => rule.brings))
    );
    let total = sum(weights);
    if (!total) {
      weights = found.map((each) => each[1]);
      total = 1;
    }
    return sum(weights.map((weight, at) => weight * strongest[at])) / total;
  }

  /** @param {Check} check */
  function checkNode(check) {
    const loud = check.outcomes.slice(1);
    /** @type {Map<number, number[]>} */
    const links = new Map();
    loud.forEach((outcome, level) => {
      outcome.shows.forEach((shown) => {
        if (!links.has(shown[0]))
          links.set(
            shown[0],
            loud.map(() => 0)
          );
        presslore.known(links, shown[0])[level] = shown[1];
      });
    });
    links.forEach((chances, cause) => {
      links.set(cause, scaled(chances));
    });
    return {
      id: check.id,
      leak: scaled(loud.map((outcome) => Math.max(outcome.otherwise, LEAST_LEAK))),
      links,
      outcomes: check.outcomes.map((outcome) => outcome.id)
    };
  }

  /**
   * The chances, shrunk where they would leave too little for the quiet level.
   * @param {number[]} chances
   */
  function scaled(chances) {
    const total = sum(chances);
    return total <= MOST ? chances : chances.map((chance) => (chance * MOST) / total);
  }

  presslore.network = network;
  presslore.read = read;
})();
