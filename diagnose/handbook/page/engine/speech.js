// The words for what is known: plain sentences from values, the same as on the command line.
var presslore = presslore || {};

(function () {
  'use strict';

  const REASONS_EACH = 4;
  const FAINTEST = 0.5; // decibans
  const SIDES = [
    [12, 'strongly'],
    [5, 'clearly'],
    [1.5, 'somewhat'],
    [0, 'slightly']
  ];
  const CHANGES = { better: 'it got better, not right', same: 'no change', '': 'not cured' };
  const WORTH_NAMING = 0.25; // of what the best-paying cause brings
  const numbers = presslore.numbers;

  // --- chances, minutes and money ---

  /** A probability as a whole per cent; never 0 % or 100 % for what is neither. */
  function percent(probability) {
    if (probability > 0 && probability < 0.005) return 'under 1 %';
    if (probability >= 0.995 && probability < 1) return 'over 99 %';
    return `${numbers.fixed(probability * 100, 0)} %`;
  }

  /** The word of the scale that lies nearest in log odds, with the number. */
  function inWords(probability, scale) {
    const graded = scale.filter((word) => word.value > 0 && word.value < 1);
    if (!graded.length) return percent(probability);
    const nearest = numbers.least(graded, (word) => [
      Math.abs(odds(word.value) - odds(probability)),
      word.word
    ]);
    return `${nearest.word}, ${percent(probability)}`;
  }

  function odds(probability) {
    const p = Math.min(1 - 1e-9, Math.max(1e-9, probability));
    return Math.log(p / (1 - p));
  }

  /** What a weight of evidence in decibans does. */
  function side(weight) {
    const strength = SIDES.find((one) => Math.abs(weight) >= one[0])[1];
    return `speaks ${strength} ${weight >= 0 ? 'for' : 'against'} it`;
  }

  /** A time a person would say. */
  function minutes(value) {
    if (value < 0.75) return 'half a minute';
    const whole = numbers.rounded(value, 0);
    if (whole < 60) return `${whole} min`;
    const rest = whole % 60;
    return `${Math.floor(whole / 60)} h${rest ? ` ${rest} min` : ''}`;
  }

  /** An amount in the shop's currency, or a plain figure where it names none. */
  function money(value, currency) {
    return `${currency} ${numbers.fixed(value, 2)}`.trim();
  }

  // --- what was seen, answered and tried ---

  /** One finding as a short sentence without a full stop. */
  function sentence(finding, consultation, cause) {
    const knowledge = consultation.knowledge;
    if (finding.kind === 'reading') return measured(finding.id, consultation, cause);
    if (finding.kind === 'seen') return `${knowledge.defects.get(finding.id).title}: seen`;
    if (finding.kind === 'not-seen')
      return `${knowledge.defects.get(finding.id).title}: looked for, not seen`;
    if (finding.kind === 'tried') {
      return `Tried: ${marked(knowledge.fixes.get(finding.id))}; ${CHANGES[finding.detail]}`;
    }
    const check = knowledge.checks.get(finding.id);
    return `${marked(check)}: ${presslore.outcomeOf(check, finding.detail).looks}`;
  }

  /** What a figure comes to, in the shop's units, and where a cause is asked of: how it speaks of it. */
  function measured(measure, consultation, cause) {
    const reading = consultation.readings.find((one) => one.measure.id === measure);
    const what = presslore.wording.told(reading, consultation.knowledge.unit);
    const ratio = reading.ratios.get(cause);
    return ratio === undefined ? what : `${what}; ${presslore.wording.weighed(reading, ratio)}`;
  }

  /** The titles of defects, joined for one line. */
  function seen(defects, knowledge) {
    return defects.map((defect) => knowledge.defects.get(defect).title).join(' · ');
  }

  /** The title of a check or fix; of one on trial also whose it is. */
  function marked(step) {
    return step.trial ? `${step.title} [${whose(step)}]` : step.title;
  }

  /** Where a check or fix comes from, with the mark where it is on trial; '' where it shipped. */
  function whose(step) {
    return step.trial ? `${step.origin}, on trial` : step.origin;
  }

  // --- what is believed and why ---

  /** The title of a cause, marked where what is believed of it rests on a rule that is on trial. */
  function titled(consultation, id) {
    const title = consultation.knowledge.causes.get(id).title;
    return rests(consultation, id) ? `${title} (on trial)` : title;
  }

  function rests(consultation, id) {
    const cause = Array.from(consultation.knowledge.causes.keys()).indexOf(id);
    const defects = consultation.knowledge.defects;
    const own = (defect) => defect.rules.filter((rule) => rule.cause === cause);
    const tying = consultation.evidence.seen
      .flatMap((name) => own(defects.get(name)))
      .filter((rule) => presslore.conditions.mayHold(rule.if, consultation.job));
    if (tying.length) return tying.some((rule) => rule.trial);
    const all = Array.from(defects.values()).flatMap(own);
    return all.length > 0 && all.every((rule) => rule.trial);
  }

  /** The likeliest causes that come up, with their reasons: {title, chance, reasons, origin}. */
  function told(consultation, most) {
    const knowledge = consultation.knowledge;
    return consultation.suspects.slice(0, most).map((suspect) => {
      const cause = knowledge.causes.get(suspect.cause);
      const reasons = consultation.reasons
        .get(suspect.index)
        .slice(0, REASONS_EACH)
        .filter((reason, place) => !place || Math.abs(reason.weight) >= FAINTEST);
      return {
        title: titled(consultation, suspect.cause),
        chance: inWords(suspect.behind, knowledge.scale),
        reasons: reasons.map((reason) => `${sentence(reason.finding, consultation, suspect.index)} (${side(reason.weight)})`),
        origin: cause.origin
      };
    });
  }

  /** Answers that would put another cause first. */
  function whatWouldChange(consultation, most) {
    return consultation.turns.slice(0, most === undefined ? 3 : most).map((turn) => {
      const check = consultation.knowledge.checks.get(turn.check);
      const cause = titled(consultation, consultation.net.causes[turn.leads]);
      const looks = presslore.outcomeOf(check, turn.outcome).looks;
      return `${marked(check)}: “${looks}” would put first: ${cause} (${percent(turn.probability)})`;
    });
  }

  /** A warning where the numbers are bounded and not exact, else ''. */
  function caveat(consultation) {
    if (consultation.beliefs.exact) return '';
    return 'So much was seen at once that these chances are estimates within bounds, not exact.';
  }

  // --- why the next step is the next step ---

  /** The cautions to read before a check or a fix: its own, and those of the press that it brings, the hottest first. */
  function cautions(consultation, step) {
    const { knowledge, item } = consultation;
    const pressing = item ? item.cautions : knowledge.beforePress;
    const named = new Set(step.cautions.concat(step.cures || step.presses ? pressing : []));
    return Array.from(knowledge.cautions.keys()).filter((id) => named.has(id));
  }

  /** Those told by their titles alone: what its test press brings to a fix that is itself done away from the press. */
  function inBrief(step, ids) {
    return step.away ? ids.filter((id) => step.cautions.indexOf(id) < 0) : [];
  }

  /** What speaks for the step advised now. */
  function whyStep(consultation) {
    const advice = consultation.advice;
    if (advice.kind === 'check') return whyCheck(consultation, advice.id);
    if (advice.kind === 'fix') return whyFix(consultation, advice.id);
    return whyCall(consultation);
  }

  /** Which of the causes that come up this check speaks of, and what asking it first saves. */
  function whyCheck(consultation, id) {
    const links = consultation.net.checks.get(id).links;
    const titles = consultation.suspects
      .filter((suspect) => links.has(suspect.index))
      .slice(0, 3)
      .map((suspect) => titled(consultation, suspect.cause));
    const tells = titles.length
      ? `It tells whether this is behind it: ${titles.join('; ')}.`
      : 'It narrows down where to look.';
    return `${tells} ${saved(consultation, id)}`.trim();
  }

  function saved(consultation, id) {
    const options = consultation.advice.options;
    const own = options.find((option) => option.step && option.step.id === id);
    const act = options.find((option) => option.step && option.step.cures);
    if (!own || !act || act.cost <= own.cost) return '';
    const spared = (act.cost - own.cost) / consultation.knowledge.rates.minute;
    return spared >= 0.75 ? `Asking first saves about ${minutes(spared)} of work and goods.` : '';
  }

  /** What this fix puts right: the causes it pays for most, each with how likely it is and how surely it is cured. */
  function whyFix(consultation, id) {
    const cures = consultation.net.cures.get(id);
    const gains = numbers.sorted(
      consultation.suspects
        .filter((suspect) => cures.has(suspect.index))
        .map((suspect) => ({ gain: suspect.behind * cures.get(suspect.index), suspect })),
      (one) => [-one.gain, one.suspect.cause]
    );
    const aimed = gains.filter((one) => one.gain >= WORTH_NAMING * gains[0].gain).slice(0, 2);
    if (!aimed.length) return 'It is the cheapest of what is left to try.';
    const named = aimed.map((one) => {
      const title = titled(consultation, one.suspect.cause);
      const cure = percent(cures.get(one.suspect.index));
      return `${title} (${percent(one.suspect.behind)} likely, cures ${cure})`;
    });
    return `It puts right: ${named.join('; ')}.`;
  }

  function whyCall(consultation) {
    const others = consultation.advice.options.some((option) => option.step);
    if (!others) return 'There is nothing left to try here that the rules know of.';
    return 'Going on would be expected to cost more than help does.';
  }

  // --- the case so far, to paste into a message ---

  /** Item, facts, what was seen, answered and tried, and what is believed; one line each. */
  function summary(consultation) {
    const lines = [`Item: ${consultation.item ? consultation.item.title : 'not named'}`];
    if (consultation.job.size) {
      const facts = Array.from(consultation.job.keys()).sort(numbers.byText);
      const known = facts.map((fact) => factWords(consultation, fact));
      lines.push(`Known of it: ${known.join('; ')}`);
    }
    presslore.reasons.findings(consultation.evidence).forEach((one) => {
      lines.push(`- ${sentence(one.finding, consultation)}`);
    });
    return lines.concat(believed(consultation), ending(consultation));
  }

  /** A fact of the job with its value. */
  function factWords(consultation, id) {
    const fact = consultation.knowledge.facts.get(id);
    return `${fact ? fact.title : id}: ${valueWords(consultation.job.get(id), fact ? fact.unit : '')}`;
  }

  /** The value of a fact: `yes`, `clamshell`, `65 %`. */
  function valueWords(value, unit) {
    if (typeof value === 'boolean') return value ? 'yes' : 'no';
    if (typeof value === 'string') return value;
    return `${numbers.general(value)} ${unit}`.trim();
  }

  function cured(consultation) {
    const ended = consultation.session.over();
    return ended && ended.move === 'cured' ? ended : null;
  }

  function believed(consultation) {
    if (cured(consultation) || !consultation.suspects.length) return [];
    return ['What may be behind it:'].concat(
      consultation.suspects.slice(0, 5).map((suspect) => {
        const title = titled(consultation, suspect.cause);
        return `- ${title}: ${inWords(suspect.behind, consultation.knowledge.scale)}`;
      })
    );
  }

  function ending(consultation) {
    const ended = cured(consultation);
    if (!ended) return [];
    const fix = consultation.knowledge.fixes.get(ended.fix);
    return [fix ? `Cured by: ${marked(fix)}` : 'Cured.'];
  }

  presslore.speech = {
    percent,
    inWords,
    side,
    minutes,
    money,
    sentence,
    seen,
    titled,
    marked,
    whose,
    told,
    whatWouldChange,
    caveat,
    cautions,
    inBrief,
    whyStep,
    whyCheck,
    whyFix,
    factWords,
    valueWords,
    summary
  };
})();
