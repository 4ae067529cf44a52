// What the session amounts to: the beliefs, the causes that come up and the next step, for one state of it.
var presslore = presslore || {};

(function () {
  'use strict';

  const TURNING_CHECKS = 3;

  /**
   * A session looked at through the knowledge. Everything is worked out when asked for, and once:
   * item, job, net, evidence, beliefs, suspects, advice, reasons, turns.
   */
  function Consultation(knowledge, session, nets) {
    this.knowledge = knowledge;
    this.session = session;
    this.nets = nets || new Map();
    this.known = {};
  }

  const parts = {
    item(self) {
      return self.knowledge.items.get(self.session.item()) || null;
    },

    /** The item's facts, with what the person said laid over them. */
    job(self) {
      const job = new Map(self.item ? self.item.facts : []);
      self.session.facts().forEach((value, fact) => {
        job.set(fact, value);
      });
      return job;
    },

    net(self) {
      const key = JSON.stringify(presslore.numbers.sorted(Array.from(self.job), (pair) => [pair[0]]));
      if (!self.nets.has(key)) self.nets.set(key, presslore.network(self.knowledge, self.job));
      return self.nets.get(key);
    },

    /** The session's evidence; answers to checks that do not go with the job are left aside. */
    evidence(self) {
      const evidence = self.session.evidence();
      const answers = new Map(Array.from(evidence.answers).filter((pair) => self.net.checks.has(pair[0])));
      return presslore.evidence.changed(evidence, { answers });
    },

    beliefs(self) {
      return presslore.believe(self.net, self.evidence);
    },

    suspects(self) {
      return presslore.suspects(self.net, self.beliefs);
    },

    advice(self) {
      const desk = { knowledge: self.knowledge, item: self.item, closed: self.session.closed() };
      return presslore.advise(self.net, self.beliefs, self.evidence, desk);
    },

    /** By cause index, for the causes that come up. */
    reasons(self) {
      const causes = self.suspects.map((suspect) => suspect.index);
      return presslore.reasons.reasons(self.net, self.evidence, self.beliefs, causes);
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

  Object.keys(parts).forEach((name) => {
    Object.defineProperty(Consultation.prototype, name, {
      get() {
        if (!(name in this.known)) this.known[name] = parts[name](this);
        return this.known[name];
      }
    });
  });

  /** The consultation on another session; the networks already built are shared. */
  Consultation.prototype.then = function (session) {
    return new Consultation(this.knowledge, session, this.nets);
  };

  presslore.Consultation = Consultation;
})();
