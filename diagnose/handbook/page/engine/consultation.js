// What the session amounts to: the beliefs, the causes that come up and the next step, for one state of it.
var presslore = presslore || {};

(function () {
  'use strict';

  const { TURNING_CHECKS, NAMED, NAMED_RATIO, LATELY, THEN } = presslore.shared.consultation;

  /**
   * A session looked at through the knowledge. Everything is worked out when asked for, and once.
   */
  class Consultation {
    /** @param {Knowledge} knowledge @param {Session} session @param {Map<string, Network>} [nets] */
    constructor(knowledge, session, nets) {
      this.knowledge = knowledge;
      this.session = session;
      /** @type {Map<string, Network>} */
      this.nets = nets || new Map();
      /** @type {Map<string, any>} what was worked out, by its name */
      this.worked = new Map();
    }

    /**
     * The consultation on another session; the networks already built are shared. What figures say takes a reckoning of
     * heat: it is handed on where they and the item are the same.
     * @param {Session} session
     */
    // biome-ignore lint/suspicious/noThenProperty: nobody awaits a consultation
    then(session) {
      const other = new Consultation(this.knowledge, session, this.nets);
      const measured = (/** @type {Session} */ one) => JSON.stringify([one.item(), one.figures()]);
      if (this.worked.has('readings') && measured(session) === measured(this.session))
        other.worked.set('readings', this.readings);
      return other;
    }

    /**
     * @template Found
     * @param {string} name @param {() => Found} work
     * @returns {Found}
     */
    once(name, work) {
      if (!this.worked.has(name)) this.worked.set(name, work());
      return this.worked.get(name);
    }

    /** @returns {Item | null} */
    get item() {
      return this.once('item', () => this.knowledge.items.get(this.session.item()) || null);
    }

    /**
     * The shop's press: the one that was named, or the only one there is for such an item; null where it is not known.
     * @returns {ShopPress | null}
     */
    get press() {
      return this.once('press', () => {
        const presses = this.knowledge.presses;
        const named = this.session.press();
        if (named) return presses.get(named) || null;
        const job = new Map(this.item ? this.item.job : []);
        const fitting = Array.from(presses.values()).filter((press) => goesWith(press, job));
        return fitting.length === 1 ? fitting[0] : null;
      });
    }

    /**
     * What is known of the job: as is usual for the item and as the press is, with what the person said laid over that,
     * and what answers tell of it.
     * @returns {Job}
     */
    get job() {
      return this.once('job', () =>
        presslore.conditions.learnt(
          this.saidJob,
          this.read.map((each) => each.facts)
        )
      );
    }

    /** @returns {Job} */
    get saidJob() {
      return this.once('saidJob', () => {
        const job = new Map([...(this.item ? this.item.job : []), ...(this.press ? this.press.facts : [])]);
        this.session.facts().forEach((value, fact) => {
          job.set(fact, value);
        });
        if (this.press) job.set(presslore.session.PRESS_NAME, this.press.id);
        return job;
      });
    }

    /** @returns {Read[]} */
    get read() {
      return this.once('read', () => presslore.read(this.knowledge, this.saidJob, this.session.evidence().answers));
    }

    /** @returns {Network} */
    get net() {
      return this.once('net', () => this.netOn(knownOf(this.press)));
    }

    /**
     * The network of the job, with what is known of the press.
     * @param {KnownOfPress[]} known
     * @returns {Network}
     */
    netOn(known) {
      const job = presslore.numbers.sorted(Array.from(this.saidJob), (pair) => [pair[0]]);
      const key = JSON.stringify([job, this.read, known.length]);
      if (!this.nets.has(key)) this.nets.set(key, presslore.network(this.knowledge, this.saidJob, known, this.read));
      return presslore.known(this.nets, key);
    }

    /**
     * The session's evidence; answers that do not go with the job, or that a figure has settled, are left aside.
     * @returns {Known}
     */
    get evidence() {
      return this.once('evidence', () => {
        const evidence = this.session.evidence();
        /** @param {string} check @param {Answer} answer */
        const counts = (check, answer) =>
          this.net.checks.has(check) &&
          !(this.settled.has(check) && answer.period <= presslore.known(this.settled, check));
        const answers = new Map(Array.from(evidence.answers).filter((pair) => counts(pair[0], pair[1])));
        const named = evidence.named.flatMap(({ cause, period }) => {
          const index = this.net.causes.indexOf(cause);
          return index < 0 ? [] : [{ measure: NAMED, id: cause, cause: index, ratio: NAMED_RATIO, period }];
        });
        const read = this.readings.flatMap((reading) =>
          Array.from(reading.ratios)
            .filter((pair) => pair[1] !== 1)
            .map(([cause, ratio]) => ({ measure: reading.measure.id, cause, ratio, period: reading.period }))
        );
        return presslore.evidence.changed(evidence, { answers, weighed: [...named, ...this.recalled, ...read] });
      });
    }

    /**
     * What the last cases on this press and the last good piece say.
     * @returns {Weighed[]}
     */
    get recalled() {
      const lately = this.session.foundLately().flatMap(({ cause, times }) => {
        const index = this.net.causes.indexOf(cause);
        return index < 0 ? [] : [{ measure: LATELY, id: cause, cause: index, ratio: times, period: 0 }];
      });
      const then = this.thenAndNow.flatMap(({ kind, ratios, period }) =>
        Array.from(ratios).map(([cause, ratio]) => ({ measure: THEN + kind, cause, ratio, period }))
      );
      return [...lately, ...then];
    }

    /**
     * The last good piece held against this one, as far as both were told.
     * @returns {Then[]}
     */
    get thenAndNow() {
      return this.once('thenAndNow', () => presslore.thenAndNow(this.session, this.knowledge));
    }

    /** The check that need not be asked, because goods were held against those of the last good piece. */
    get compared() {
      return this.thenAndNow.some((each) => typeof each.was === 'string') ? [presslore.THEN_CHECK] : [];
    }

    /**
     * Why such goods should not be pressed at all, by what is told and else by what is usual; [] where they may be.
     * @returns {Bar[]}
     */
    get barred() {
      const taken = new Map(
        Array.from(this.job, ([fact, value]) => [fact, typeof value === 'object' ? value.shares[0][0] : value])
      );
      const { holds, mayHold } = presslore.conditions;
      return this.knowledge.bars.filter((bar) => holds(bar.refuted, taken) && mayHold(bar.if, taken));
    }

    /**
     * What was measured, and what it says.
     * @returns {Reading[]}
     */
    get readings() {
      return this.once('readings', () => {
        const figures = this.session.figures();
        return figures.length ? presslore.measures.readings(figures, this.item, this.knowledge) : [];
      });
    }

    /**
     * Checks that a figure takes the place of, with the number of fixes tried before it was read.
     * @returns {Map<string, number>}
     */
    get settled() {
      return this.once('settled', () => {
        /** @type {Map<string, number>} */
        const settled = new Map();
        this.readings.forEach((reading) => {
          reading.measure.settles.forEach((check) => {
            settled.set(check, Math.max(reading.period, settled.get(check) || 0));
          });
        });
        return settled;
      });
    }

    /**
     * Checks whose answer was told when a defect was named.
     * @returns {Set<string>}
     */
    get said() {
      const left = presslore.evidence.left(this.evidence);
      return new Set(left.flatMap((defect) => presslore.known(this.knowledge.defects, defect).tells));
    }

    /**
     * Answers that do not go with the rest, by check; those that were looked at again, or cannot be, are left out.
     * @returns {Map<string, string>}
     */
    get doubted() {
      return this.once('doubted', () => {
        const found = presslore.doubt.doubted(this.net, this.evidence, this.beliefs);
        const again = this.session.lookedAgain();
        return new Map(Array.from(found).filter(([check]) => !again.has(check) && !this.said.has(check)));
      });
    }

    /** @returns {Beliefs} */
    get beliefs() {
      return this.once('beliefs', () => presslore.believe(this.net, this.evidence));
    }

    /** @returns {Suspect[]} */
    get suspects() {
      return this.once('suspects', () => presslore.suspects(this.net, this.beliefs));
    }

    /** @returns {Advice} */
    get advice() {
      return this.once('advice', () => {
        const closed = new Set([...this.session.closed(), ...this.settled.keys(), ...this.said, ...this.compared]);
        const waiting = neverToBeMet(this.knowledge, this.job, closed);
        const desk = {
          knowledge: this.knowledge,
          item: this.item,
          closed: new Set([...closed, ...waiting]),
          doubted: this.doubted
        };
        const found = presslore.advise(this.net, this.beliefs, this.evidence, desk);
        return askingFirst(found, this.knowledge, this.job, closed);
      });
    }

    /**
     * By cause index, for the causes that come up.
     * @returns {Map<number, Reason[]>}
     */
    get reasons() {
      return this.once('reasons', () => {
        const causes = this.suspects.map((suspect) => suspect.index);
        const found = presslore.reasons.reasons(this.net, this.evidence, this.beliefs, causes);
        knownOf(this.press).forEach((each) => {
          const own = found.get(each.cause);
          const reason = own && ofPress(this, each);
          if (reason) found.set(each.cause, presslore.reasons.heaviestFirst([...own, reason]));
        });
        return found;
      });
    }

    /**
     * What would put another cause first, among the checks best worth asking.
     * @returns {Turn[]}
     */
    get turns() {
      return this.once('turns', () => {
        const asked = this.advice.options
          .flatMap((option) => (option.step && option.step.likelihoods ? [option.step.id] : []))
          .slice(0, TURNING_CHECKS);
        return presslore.reasons.turns(this.net, this.evidence, this.beliefs, asked);
      });
    }
  }

  /**
   * Whether such a job may be done on a press.
   * @param {ShopPress} press @param {Job} job
   */
  function goesWith(press, job) {
    return presslore.conditions.mayHold(
      press.facts.map(([fact, value]) => ({ fact, values: [value] })),
      job
    );
  }

  /**
   * The checks and fixes that wait for a fact of which nobody can tell.
   * @param {Knowledge} knowledge @param {Job} job @param {Set<string>} closed
   */
  function neverToBeMet(knowledge, job, closed) {
    const lost = new Map(Array.from(checksFor(knowledge, job)).filter((pair) => closed.has(pair[1])));
    const steps = [...knowledge.checks.values(), ...knowledge.fixes.values()];
    return steps.filter((step) => open(step.if, job, lost).length).map((step) => step.id);
  }

  /**
   * The advice, or the check that has to be asked before its step.
   * @param {Advice} advice @param {Knowledge} knowledge @param {Job} job @param {Set<string>} closed
   * @returns {Advice}
   */
  function askingFirst(advice, knowledge, job, closed) {
    if (advice.kind === 'call') return advice;
    const steps = advice.kind === 'check' ? knowledge.checks : knowledge.fixes;
    const step = presslore.known(/** @type {Map<string, Check | Fix>} */ (steps), advice.id);
    const asked = new Map(Array.from(checksFor(knowledge, job)).filter((pair) => !closed.has(pair[1])));
    const first = open(step.if, job, asked)[0];
    return first ? { ...advice, kind: 'check', id: presslore.known(asked, first) } : advice;
  }

  /**
   * By fact, the id of the check that asks for it in such a job: the first that goes with it and has an answer.
   * @param {Knowledge} knowledge @param {Job} job
   */
  function checksFor(knowledge, job) {
    /** @type {Map<string, string>} */
    const found = new Map();
    knowledge.checks.forEach((check) => {
      if (!check.asksFor.length || !presslore.conditions.holds(check.if, job)) return;
      if (!check.outcomes.some((outcome) => presslore.conditions.mayHold(outcome.facts, job))) return;
      check.asksFor.forEach((fact) => {
        if (!found.has(fact)) found.set(fact, check.id);
      });
    });
    return found;
  }

  /**
   * The facts asked for that leave a condition open.
   * @param {Test[]} tests @param {Job} job @param {Map<string, string>} asked
   */
  function open(tests, job, asked) {
    return tests
      .filter((test) => asked.has(test.fact) && presslore.conditions.holds([test], job) === null)
      .map((test) => test.fact);
  }

  /** @param {ShopPress | null} press */
  function knownOf(press) {
    return press ? press.known : [];
  }

  /**
   * What is known of the press as a reason; null where the cause cannot be there in such a job. The odds before any
   * finding carry over to the odds after them all.
   * @param {Consultation} talk @param {KnownOfPress} each
   */
  function ofPress(talk, each) {
    const cause = talk.net.causes[each.cause];
    const usual = talk.netOn([]).priors[each.cause];
    if (!usual) return null;
    const { decibans } = presslore.reasons;
    const weight = decibans(talk.net.priors[each.cause]) - decibans(usual);
    return { finding: { kind: 'press', id: cause, detail: each.told }, weight };
  }

  presslore.Consultation = Consultation;
})();
