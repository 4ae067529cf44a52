// Which answers do not go with all the rest: how likely each is wrong, and what a second look at it would tell.
var presslore = presslore || {};

(function () {
  'use strict';

  const { BEYOND_DOUBT, DOUBTFUL, MOST_DOUBTED } = presslore.shared.doubt;
  const { sum, sorted, rounded } = presslore.numbers;

  /**
   * The answers since the last fix that may well be wrong, each check with its outcome, the likeliest wrong first.
   * @type {Doubt['doubted']}
   */
  function doubted(net, evidence, beliefs) {
    /** @type {{ key: Key, check: string, outcome: string }[]} */
    const found = [];
    evidence.answers.forEach(({ outcome, period, times }, check) => {
      if (period !== evidence.tried.length || times > 1 || !presslore.known(net.checks, check).wrong) return;
      const chance = mistaken(net, evidence, beliefs, check);
      if (chance >= DOUBTFUL) found.push({ key: [-rounded(chance, 9), check], check, outcome });
    });
    const worst = sorted(found, (one) => one.key).slice(0, MOST_DOUBTED);
    return new Map(worst.map((one) => [one.check, one.outcome]));
  }

  /**
   * How likely the answer to a check is wrong: one less how likely it would be, had it been sure to be right.
   * @type {Doubt['mistaken']}
   */
  function mistaken(net, evidence, beliefs, check) {
    const answers = new Map(evidence.answers);
    answers.set(check, { ...presslore.known(answers, check), times: BEYOND_DOUBT });
    const surely = presslore.believe(net, presslore.evidence.changed(evidence, { answers }));
    const share = Math.exp(Math.min(0, surely.logEvidence - beliefs.logEvidence));
    return Math.max(0, 1 - (1 - presslore.known(net.checks, check).wrong) * share);
  }

  /**
   * What another look at a check would show, where this outcome was told first: the two looks go wrong each by itself,
   * at the same thing.
   * @type {Doubt['secondLook']}
   */
  function secondLook(node, outcome, hypotheses, beliefs, count) {
    const first = node.outcomes.indexOf(outcome);
    const other = presslore.mistakenEach(node.wrong, node.leak.length, 1);
    const told = node.outcomes.map((_, there) =>
      node.outcomes.map((_, one) => (one === there ? 1 - node.wrong : other))
    );
    const there = presslore.outlook.likelihoods(node.told(BEYOND_DOUBT), hypotheses, beliefs, count);
    const rows = there.map((row, at) => row.map((chance) => chance * told[at][first]));
    const totals = rows[0].map((_, h) => sum(rows.map((row) => row[h])));
    return node.outcomes.map((_, second) =>
      totals.map((total, h) => sum(rows.map((row, at) => row[h] * told[at][second])) / total)
    );
  }

  presslore.doubt = { doubted, mistaken, secondLook };
})();
