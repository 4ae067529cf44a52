// The words for what is known: plain sentences from values, the same as on the command line.
var presslore = presslore || {};

(function () {
  'use strict';

  const REASONS_EACH = 4;
  const FAINTEST = 0.5; // decibans
  /** @type {[least: number, strength: string][]} */
  const SIDES = [
    [12, 'strongly'],
    [5, 'clearly'],
    [1.5, 'somewhat'],
    [0, 'slightly']
  ];
  /** @type {Record<string, string>} */
  const CHANGES = { better: 'it got better, not right', same: 'no change', '': 'not cured' };
  const WORTH_NAMING = 0.25; // of what the best-paying cause brings
  const TEST_PRESS = ['hot-platen', 'pinch'];
  const numbers = presslore.numbers;

  // --- chances, minutes and money ---

  /**
   * A probability as a whole per cent; never 0 % or 100 % for what is neither.
   * @type {Speech['percent']}
   */
  function percent(probability) {
    if (probability > 0 && probability < 0.005) return 'under 1 %';
    if (probability >= 0.995 && probability < 1) return 'over 99 %';
    return `${numbers.fixed(probability * 100, 0)} %`;
  }

  /**
   * The word of the scale that lies nearest in log odds, with the number.
   * @type {Speech['inWords']}
   */
  function inWords(probability, scale) {
    const graded = scale.filter((word) => word.value > 0 && word.value < 1);
    const nearest = numbers.least(graded, (word) => [Math.abs(odds(word.value) - odds(probability)), word.word]);
    return nearest ? `${nearest.word}, ${percent(probability)}` : percent(probability);
  }

  /** @param {number} probability */
  function odds(probability) {
    const p = Math.min(1 - 1e-9, Math.max(1e-9, probability));
    return Math.log(p / (1 - p));
  }

  /**
   * What a weight of evidence in decibans does.
   * @type {Speech['side']}
   */
  function side(weight) {
    const strength = (SIDES.find((one) => Math.abs(weight) >= one[0]) || SIDES[SIDES.length - 1])[1];
    return `speaks ${strength} ${weight >= 0 ? 'for' : 'against'} it`;
  }

  /**
   * A time a person would say.
   * @type {Speech['minutes']}
   */
  function minutes(value) {
    if (value < 0.75) return 'half a minute';
    const whole = numbers.rounded(value, 0);
    if (whole < 60) return `${whole} min`;
    const rest = whole % 60;
    return `${Math.floor(whole / 60)} h${rest ? ` ${rest} min` : ''}`;
  }

  /**
   * An amount in the shop's currency, or a plain figure where it names none.
   * @type {Speech['money']}
   */
  function money(value, currency) {
    return `${currency} ${numbers.fixed(value, 2)}`.trim();
  }

  // --- what was seen, answered and tried ---

  /**
   * One finding as a short sentence without a full stop.
   * @type {Speech['sentence']}
   */
  function sentence(finding, consultation, cause) {
    const knowledge = consultation.knowledge;
    if (finding.kind === 'reading') return measured(finding.id, consultation, cause);
    if (finding.kind === 'seen') return `${presslore.known(knowledge.defects, finding.id).title}: seen`;
    if (finding.kind === 'not-seen')
      return `${presslore.known(knowledge.defects, finding.id).title}: looked for, not seen`;
    if (finding.kind === 'press') return `This press: ${finding.detail}`;
    if (finding.kind === 'tried') {
      return `Tried: ${marked(presslore.known(knowledge.fixes, finding.id))}; ${CHANGES[finding.detail]}`;
    }
    const check = presslore.known(knowledge.checks, finding.id);
    return `${marked(check)}: ${looksOf(check, finding.detail)}`;
  }

  /** @param {Check} check @param {string} id */
  function looksOf(check, id) {
    const outcome = presslore.outcomeOf(check, id);
    if (!outcome) throw new RangeError(`no such outcome: ${check.id} ${id}`);
    return outcome.looks;
  }

  /**
   * What a figure comes to, in the shop's units, and where a cause is asked of: how it speaks of it.
   * @param {string} measure @param {Consultation} consultation @param {number} [cause]
   */
  function measured(measure, consultation, cause) {
    const reading = consultation.readings.find((one) => one.measure.id === measure);
    if (!reading) throw new RangeError(`not measured: ${measure}`);
    const what = presslore.wording.told(reading, consultation.knowledge.unit);
    const ratio = cause === undefined ? undefined : reading.ratios.get(cause);
    return ratio === undefined ? what : `${what}; ${presslore.wording.weighed(reading, ratio)}`;
  }

  /**
   * The titles of defects, joined for one line.
   * @type {Speech['seen']}
   */
  function seen(defects, knowledge) {
    return defects.map((defect) => presslore.known(knowledge.defects, defect).title).join(' · ');
  }

  /**
   * The title of a check or fix; of one on trial also whose it is.
   * @type {Speech['marked']}
   */
  function marked(step) {
    return step.trial ? `${step.title} [${whose(step)}]` : step.title;
  }

  /**
   * Where a check or fix comes from, with the mark where it is on trial; '' where it shipped.
   * @type {Speech['whose']}
   */
  function whose(step) {
    return step.trial ? `${step.origin}, on trial` : step.origin;
  }

  // --- what is believed and why ---

  /**
   * The title of a cause, marked where what is believed of it rests on a rule that is on trial.
   * @type {Speech['titled']}
   */
  function titled(consultation, id) {
    const title = presslore.known(consultation.knowledge.causes, id).title;
    return rests(consultation, id) ? `${title} (on trial)` : title;
  }

  /** @param {Consultation} consultation @param {string} id */
  function rests(consultation, id) {
    const cause = Array.from(consultation.knowledge.causes.keys()).indexOf(id);
    const defects = consultation.knowledge.defects;
    const own = (/** @type {Defect} */ defect) => defect.rules.filter((rule) => rule.cause === cause);
    const tying = consultation.evidence.seen
      .flatMap((name) => own(presslore.known(defects, name)))
      .filter((rule) => presslore.conditions.mayHold(rule.if, consultation.job));
    if (tying.length) return tying.some((rule) => rule.trial);
    const all = Array.from(defects.values()).flatMap(own);
    return all.length > 0 && all.every((rule) => rule.trial);
  }

  /**
   * The likeliest causes that come up, with their reasons: {title, chance, reasons, origin}.
   * @type {Speech['told']}
   */
  function told(consultation, most) {
    const knowledge = consultation.knowledge;
    return consultation.suspects.slice(0, most).map((suspect) => {
      const cause = presslore.known(knowledge.causes, suspect.cause);
      const reasons = presslore
        .known(consultation.reasons, suspect.index)
        .slice(0, REASONS_EACH)
        .filter((reason, place) => !place || Math.abs(reason.weight) >= FAINTEST);
      return {
        title: titled(consultation, suspect.cause),
        chance: inWords(suspect.behind, knowledge.scale),
        reasons: reasons.map(
          (reason) => `${sentence(reason.finding, consultation, suspect.index)} (${side(reason.weight)})`
        ),
        origin: cause.origin
      };
    });
  }

  /**
   * Answers that would put another cause first.
   * @type {Speech['whatWouldChange']}
   */
  function whatWouldChange(consultation, most) {
    return consultation.turns.slice(0, most === undefined ? 3 : most).map((turn) => {
      const check = presslore.known(consultation.knowledge.checks, turn.check);
      const cause = titled(consultation, consultation.net.causes[turn.leads]);
      const looks = looksOf(check, turn.outcome);
      return `${marked(check)}: “${looks}” would put first: ${cause} (${percent(turn.probability)})`;
    });
  }

  /**
   * A warning where the numbers are bounded and not exact, else ''.
   * @type {Speech['caveat']}
   */
  function caveat(consultation) {
    if (consultation.beliefs.exact) return '';
    return 'So much was seen at once that these chances are estimates within bounds, not exact.';
  }

  // --- why the next step is the next step ---

  /**
   * The cautions to read before a fix: its own, and those of the test press that ends it.
   * @type {Speech['fixCautions']}
   */
  function fixCautions(consultation, fix) {
    const known = consultation.knowledge.cautions;
    const pressing = TEST_PRESS.filter((caution) => known.has(caution));
    return Array.from(new Set(fix.cautions.concat(pressing)));
  }

  /**
   * What speaks for the step advised now.
   * @type {Speech['whyStep']}
   */
  function whyStep(consultation) {
    const advice = consultation.advice;
    if (advice.kind === 'check') return whyCheck(consultation, advice.id);
    if (advice.kind === 'fix') return whyFix(consultation, advice.id);
    return whyCall(consultation);
  }

  /**
   * Which of the causes that come up this check speaks of, and what asking it first saves.
   * @type {Speech['whyCheck']}
   */
  function whyCheck(consultation, id) {
    const links = presslore.known(consultation.net.checks, id).links;
    const titles = consultation.suspects
      .filter((suspect) => links.has(suspect.index))
      .slice(0, 3)
      .map((suspect) => titled(consultation, suspect.cause));
    const tells = titles.length
      ? `It tells whether this is behind it: ${titles.join('; ')}.`
      : 'It narrows down where to look.';
    return `${tells} ${saved(consultation, id)}`.trim();
  }

  /** @param {Consultation} consultation @param {string} id */
  function saved(consultation, id) {
    const options = consultation.advice.options;
    const own = options.find((option) => option.step && option.step.id === id);
    const act = options.find((option) => option.step && option.step.cures);
    if (!own || !act || act.cost <= own.cost) return '';
    const spared = (act.cost - own.cost) / consultation.knowledge.rates.minute;
    return spared >= 0.75 ? `Asking first saves about ${minutes(spared)} of work and goods.` : '';
  }

  /**
   * What this fix puts right: the causes it pays for most, each with how likely it is and how surely it is cured.
   * @type {Speech['whyFix']}
   */
  function whyFix(consultation, id) {
    const cures = presslore.known(consultation.net.cures, id);
    const gains = numbers.sorted(
      consultation.suspects.flatMap((suspect) => {
        const cure = cures.get(suspect.index);
        return cure === undefined ? [] : [{ gain: suspect.behind * cure, cure, suspect }];
      }),
      (one) => [-one.gain, one.suspect.cause]
    );
    const aimed = gains.filter((one) => one.gain >= WORTH_NAMING * gains[0].gain).slice(0, 2);
    if (!aimed.length) return 'It is the cheapest of what is left to try.';
    const named = aimed.map((one) => {
      const title = titled(consultation, one.suspect.cause);
      const cure = percent(one.cure);
      return `${title} (${percent(one.suspect.behind)} likely, cures ${cure})`;
    });
    return `It puts right: ${named.join('; ')}.`;
  }

  /** @param {Consultation} consultation */
  function whyCall(consultation) {
    const others = consultation.advice.options.some((option) => option.step);
    if (!others) return 'There is nothing left to try here that the rules know of.';
    return 'Going on would be expected to cost more than help does.';
  }

  // --- the case so far, to paste into a message ---

  /**
   * Item, facts, what was seen, answered and tried, and what is believed; one line each.
   * @type {Speech['summary']}
   */
  function summary(consultation) {
    const lines = [`Item: ${consultation.item ? consultation.item.title : 'not named'}`];
    if (consultation.press) {
      const known = consultation.press.known.map((each) => each.told).join('; ');
      lines.push(`Press: ${consultation.press.title}${known ? ` (${known})` : ''}`);
    }
    const facts = Array.from(consultation.job.keys())
      .filter((fact) => fact !== presslore.session.PRESS_NAME)
      .sort(numbers.byText);
    if (facts.length) {
      const known = facts.map((fact) => factWords(consultation, fact));
      lines.push(`Known of it: ${known.join('; ')}`);
    }
    presslore.reasons.findings(consultation.evidence).forEach((one) => {
      lines.push(`- ${sentence(one.finding, consultation)}`);
    });
    return lines.concat(believed(consultation), ending(consultation));
  }

  /**
   * A fact of the job with its value.
   * @type {Speech['factWords']}
   */
  function factWords(consultation, id) {
    const fact = consultation.knowledge.facts.get(id);
    return `${fact ? fact.title : id}: ${valueWords(presslore.known(consultation.job, id), fact ? fact.unit : '')}`;
  }

  /**
   * The value of a fact: `yes`, `clamshell`, `65 %`.
   * @type {Speech['valueWords']}
   */
  function valueWords(value, unit) {
    if (typeof value === 'boolean') return value ? 'yes' : 'no';
    if (typeof value === 'string') return value;
    return `${numbers.general(value)} ${unit}`.trim();
  }

  /** @param {Consultation} consultation */
  function cured(consultation) {
    const ended = consultation.session.over();
    return ended && ended.move === 'cured' ? ended : null;
  }

  /** @param {Consultation} consultation */
  function believed(consultation) {
    if (cured(consultation) || !consultation.suspects.length) return [];
    return ['What may be behind it:'].concat(
      consultation.suspects.slice(0, 5).map((suspect) => {
        const title = titled(consultation, suspect.cause);
        return `- ${title}: ${inWords(suspect.behind, consultation.knowledge.scale)}`;
      })
    );
  }

  /** @param {Consultation} consultation */
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
    fixCautions,
    whyStep,
    whyCheck,
    whyFix,
    factWords,
    valueWords,
    summary
  };
})();
