// What of a consultation is worth telling: which reasons, which causes of a step, what it spares, which cautions.
var presslore = presslore || {};

(function () {
  'use strict';

  const { REASONS_EACH, FAINTEST, WORTH_NAMING, WORTH_SPARING, WORTH_WAITING, DIGITS, WINDOWED } =
    presslore.shared.telling;
  const { known, numbers } = presslore;

  /**
   * Whether what is believed of a cause rests on a rule that is on trial.
   * @type {Telling['rests']}
   */
  function rests(consultation, id) {
    const cause = Array.from(consultation.knowledge.causes.keys()).indexOf(id);
    const defects = consultation.knowledge.defects;
    const own = (/** @type {Defect} */ defect) => defect.rules.filter((rule) => rule.cause === cause);
    const tying = consultation.evidence.seen
      .flatMap((name) => own(known(defects, name)))
      .filter((rule) => presslore.conditions.mayHold(rule.if, consultation.job));
    if (tying.length) return tying.some((rule) => rule.trial);
    const all = Array.from(defects.values()).flatMap(own);
    return all.length > 0 && all.every((rule) => rule.trial);
  }

  /**
   * The reasons for and against a cause, the heaviest first.
   * @type {Telling['weighty']}
   */
  function weighty(consultation, suspect) {
    return known(consultation.reasons, suspect.index)
      .slice(0, REASONS_EACH)
      .filter((reason, place) => !place || Math.abs(reason.weight) >= FAINTEST);
  }

  /**
   * The causes that come up and that a check speaks of.
   * @type {Telling['spokenOf']}
   */
  function spokenOf(consultation, id) {
    const links = known(consultation.net.checks, id).links;
    return consultation.suspects.filter((suspect) => links.has(suspect.index)).slice(0, 3);
  }

  /**
   * The measure by which the figure that answers a check is held against the item's window; '' where none is.
   * @type {Telling['windowed']}
   */
  function windowed(consultation, id) {
    const { item, knowledge } = consultation;
    const measures = item && item.windows ? knowledge.readings : [];
    const found = measures.find((one) => WINDOWED.indexOf(one.id) >= 0 && one.settles.indexOf(id) >= 0);
    return found ? found.id : '';
  }

  /**
   * The minutes of work and goods that asking first saves, and those of waiting; 0 where it saves next to none.
   * @type {Telling['spared']}
   */
  function spared(consultation, id) {
    const options = consultation.advice.options;
    const own = options.find((option) => option.step && option.step.id === id);
    const act = options.find((option) => option.step && option.step.cures);
    if (!own || !act || act.cost <= own.cost) return [0, 0];
    const rates = consultation.knowledge.rates;
    const waits = act.waits - own.waits >= WORTH_WAITING ? act.waits - own.waits : 0;
    const minutes = (act.cost - own.cost - waits * rates.waiting) / rates.minute;
    return [minutes >= WORTH_SPARING ? minutes : 0, waits];
  }

  /**
   * About how many questions come after the one that is asked now, to the end of the dialogue.
   * @type {Telling['afterThis']}
   */
  function afterThis(consultation) {
    return Math.max(0, numbers.rounded(numbers.rounded(consultation.advice.questions, DIGITS), 0) - 1);
  }

  /**
   * The causes that a fix pays for most.
   * @type {Telling['aimedAt']}
   */
  function aimedAt(consultation, id) {
    const cures = known(consultation.net.cures, id);
    const gain = (/** @type {Suspect} */ suspect) => suspect.behind * (cures.get(suspect.index) || 0);
    const cured = consultation.suspects.filter((suspect) => cures.has(suspect.index));
    const gains = numbers.sorted(cured, (suspect) => [-gain(suspect), suspect.cause]);
    return gains.filter((suspect) => gain(suspect) >= WORTH_NAMING * gain(gains[0])).slice(0, 2);
  }

  /**
   * The cautions to read before a check or a fix: its own, and those of the press that it brings, the hottest first.
   * @type {Telling['cautions']}
   */
  function cautions({ knowledge, item }, step) {
    const pressing = item ? item.cautions : knowledge.beforePress;
    const named = new Set(step.cautions.concat('cures' in step || step.presses ? pressing : []));
    return Array.from(knowledge.cautions.keys()).filter((id) => named.has(id));
  }

  /**
   * Those told by their titles alone: what its test press brings to a fix that is itself done away from the press.
   * @type {Telling['inBrief']}
   */
  function inBrief(step, ids) {
    return 'away' in step && step.away ? ids.filter((id) => !step.cautions.includes(id)) : [];
  }

  presslore.telling = { rests, weighty, spokenOf, windowed, spared, afterThis, aimedAt, cautions, inBrief };
})();
