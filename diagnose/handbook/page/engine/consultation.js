// What the session amounts to: the beliefs, the causes that come up and the next step, for one state of it.
var presslore = presslore || {};

(function () {
  'use strict';

  const TURNING_CHECKS = 3;

  /**
   * A session looked at through the knowledge. Everything is worked out when asked for, and once:
   * item, press, known, job, net, readings, settled, evidence, beliefs, suspects, advice, reasons, turns.
   */
  function Consultation(knowledge, session, nets) {
    this.knowledge = knowledge;
    this.session = session;
    this.nets = nets || new Map();
    this.worked = {};
  }

  const parts = {
    item(self) {
      return self.knowledge.items.get(self.session.item()) || null;
    },

    /** The shop's press: the one that was named, or the only one there is; null where it is not known. */
    press(self) {
      const presses = self.knowledge.presses;
      const named = self.session.press();
      if (named) return presses.get(named) || null;
      return presses.size === 1 ? presses.values().next().value : null;
    },

    /** What is known of the press. */
    known(self) {
      return self.press ? self.press.known : [];
    },

    /** The item's facts and the press's, with what the person said laid over them. */
    job(self) {
      const job = new Map([...(self.item ? self.item.facts : []), ...(self.press ? self.press.facts : [])]);
      self.session.facts().forEach((value, fact) => {
        job.set(fact, value);
      });
      if (self.press) job.set(presslore.session.PRESS_NAME, self.press.id);
      return job;
    },

    net(self) {
      const key = JSON.stringify(presslore.numbers.sorted(Array.from(self.job), (pair) => [pair[0]]));
      if (!self.nets.has(key)) self.nets.set(key, presslore.network(self.knowledge, self.job, self.known));
      return self.nets.get(key);
    },

    /** The session's evidence; answers that do not go with the job, or that a figure has settled, are left aside. */
    evidence(self) {
      const evidence = self.session.evidence();
      const counts = (check, answer) =>
        self.net.checks.has(check) &&
        !(self.settled.has(check) && answer.period <= self.settled.get(check));
      const answers = new Map(Array.from(evidence.answers).filter((pair) => counts(pair[0], pair[1])));
      const weighed = self.readings.flatMap((reading) =>
        Array.from(reading.ratios)
          .filter((pair) => pair[1] !== 1)
          .map(([cause, ratio]) => ({ measure: reading.measure.id, cause, ratio, period: reading.period }))
      );
      return presslore.evidence.changed(evidence, { answers, weighed });
    },

    /** What was measured, and what it says. */
    readings(self) {
      const figures = self.session.figures();
      return figures.length ? presslore.measures.readings(figures, self.item, self.knowledge) : [];
    },

    /** Checks that a figure takes the place of, with the number of fixes tried before it was read. */
    settled(self) {
      const settled = new Map();
      self.readings.forEach((reading) => {
        reading.measure.settles.forEach((check) => {
          settled.set(check, Math.max(reading.period, settled.get(check) || 0));
        });
      });
      return settled;
    },

    beliefs(self) {
      return presslore.believe(self.net, self.evidence);
    },

    suspects(self) {
      return presslore.suspects(self.net, self.beliefs);
    },

    advice(self) {
      const desk = { knowledge: self.knowledge, item: self.item, closed: self.session.closed() };
      self.settled.forEach((_, check) => {
        desk.closed.add(check);
      });
      return presslore.advise(self.net, self.beliefs, self.evidence, desk);
    },

    /** By cause index, for the causes that come up. */
    reasons(self) {
      const causes = self.suspects.map((suspect) => suspect.index);
      const found = presslore.reasons.reasons(self.net, self.evidence, self.beliefs, causes);
      self.known.forEach((each) => {
        const reason = ofPress(self, each);
        if (reason && found.has(each.cause))
          found.set(each.cause, presslore.reasons.heaviestFirst([...found.get(each.cause), reason]));
      });
      return found;
    },

    /** What would put another cause first, among the checks best worth asking. */
    turns(self) {
      const asked = self.advice.options
        .filter((option) => option.step && option.step.likelihoods)
        .slice(0, TURNING_CHECKS)
        .map((option) => option.step.id);
      return presslore.reasons.turns(self.net, self.evidence, self.beliefs, asked);
    }
  };

  /** What is known of the press as a reason, null where the cause cannot be there in such a job. */
  function ofPress(self, each) {
    const cause = self.net.causes[each.cause];
    const usual = presslore.network.prior(self.knowledge.causes.get(cause), self.job);
    if (!usual) return null;
    const { decibans } = presslore.reasons; // the odds before any finding carry over to the odds after them all
    const weight = decibans(self.net.priors[each.cause]) - decibans(usual);
    return { finding: { kind: 'press', id: cause, detail: each.told }, weight };
  }

  Object.keys(parts).forEach((name) => {
    Object.defineProperty(Consultation.prototype, name, {
      get() {
        if (!(name in this.worked)) this.worked[name] = parts[name](this);
        return this.worked[name];
      }
    });
  });

  /** The consultation on another session; the networks already built are shared. */
  Consultation.prototype.then = function (session) {
    return new Consultation(this.knowledge, session, this.nets);
  };

  presslore.Consultation = Consultation;
})();
