// What comes after the answer: what becomes of the spoiled piece, and of the rest of the order.
var presslore = presslore || {};

(function () {
  'use strict';

  const { ORDER, LOOK, EVERIES, OFTENER, BRINGS, TINY, DECIMALS } = presslore.shared.aftermath;
  const { GO, CARE, STOP, EVEN, WAYS, PRESS_AGAIN, PRINT_OVER, SECOND, DISCARD } = presslore.shared.aftermath;
  const { numbers, known } = presslore;
  const { sum, rounded } = numbers;

  /**
   * What becomes of the piece with all that is wrong with it; null where nothing is said of any of it. Of several faults
   * the one that is worst to put right counts for each way.
   * @type {Aftermath['spoiledPiece']}
   */
  function spoiledPiece(now) {
    const left = presslore.evidence.left(now.evidence);
    const faults = left.length ? left : now.evidence.seen;
    const told = faults.flatMap((defect) => salvageOf(now, defect) || []);
    if (!told.length) return null;
    const ways = [...chosen(now, told), { way: DISCARD, chance: 1, worth: 0, says: '' }];
    const best = (/** @type {Salvage} */ each) => Math.max(...each.ways.map((way) => way.comesOut));
    const order = [...WAYS, DISCARD];
    return {
      ways: numbers.sorted(ways, (way) => [-rounded(way.worth, DECIMALS), order.indexOf(way.way)]),
      why: /** @type {Salvage} */ (numbers.least(told, (each) => [best(each)])).why
    };
  }

  /**
   * What is usual of the goods is taken as so; what nobody knows of them fits no condition.
   * @param {Consultation} now @param {string} defect
   */
  function salvageOf(now, defect) {
    /** @type {Job} */
    const usual = new Map(
      Array.from(now.job, ([fact, value]) => [fact, typeof value === 'object' ? value.shares[0][0] : value])
    );
    return now.knowledge.salvage.find(
      (each) => each.defects.includes(defect) && presslore.conditions.holds(each.if, usual) === true
    );
  }

  /** @param {Consultation} now @param {Salvage[]} told */
  function chosen(now, told) {
    return WAYS.flatMap((name) => {
      const found = told.flatMap((each) => each.ways.filter((way) => way.way === name));
      const way = found.length === told.length ? numbers.least(found, (one) => [one.comesOut]) : null;
      if (!way) return [];
      return { way: name, chance: way.comesOut, worth: worth(now, way), says: way.says };
    });
  }

  /**
   * What a way is worth in the shop's money, beside discarding the piece.
   * @param {Consultation} now @param {SalvageWay} way
   */
  function worth({ knowledge: { rates }, item }, way) {
    if (way.way === SECOND) return way.comesOut * BRINGS * (item ? item.blankPrice : rates.blank);
    const presses = way.way === PRESS_AGAIN || way.way === PRINT_OVER;
    const pressed = presses ? presslore.prices.testMinutes(item) : 0;
    const paper = way.way === PRINT_OVER ? rates.paper : 0;
    return way.comesOut * priceOfAPiece(rates, item) - (pressed + way.minutes) * rates.minute - paper;
  }

  /** @param {Rates} rates @param {Item | null} item */
  function priceOfAPiece(rates, item) {
    return (item ? item.blankPrice : rates.blank) + rates.paper + rates.minute * presslore.prices.testMinutes(item);
  }

  /**
   * Whether to go on with the order; null where the knowledge does not say which pieces a fault touches.
   * @type {Aftermath['restOfOrder']}
   */
  function restOfOrder(now) {
    const { checks, rates, spoilt } = now.knowledge;
    const check = Array.from(checks.values()).find((each) => each.outcomes.some((outcome) => outcome.nextSpoils));
    if (!check || !now.net.checks.has(check.id)) return null;
    const faults = stillThere(now, spoilsOf(now, check));
    const piece = priceOfAPiece(rates, now.item);
    const chance = rounded(sum(faults.map((fault) => fault.weight * fault.spoils)), DECIMALS);
    const stopping = rounded(now.advice.cost, DECIMALS);
    const going = rounded(ORDER * piece * chance, DECIMALS);
    const seldom = EVERIES.filter((every) => every * chance <= 1);
    const looked = (seldom.length ? seldom : EVERIES.slice(0, 1)).map((every) => [
      rounded(looking(faults, every, piece, LOOK * rates.minute, stopping), DECIMALS),
      every
    ]);
    const [caring, every] = numbers.least(looked, (look) => look) || [0, 0];
    const verdict = judged(chance, going, caring, stopping, spoilt);
    return { verdict, chance, every: verdict === CARE ? every : 0, going, caring, stopping, piece };
  }

  /**
   * By cause index, how often the next piece is spoiled where that cause is behind it; last where it is something
   * unknown. What came after the press spoils no piece in the press.
   * @param {Consultation} now @param {Check} check
   */
  function spoilsOf(now, check) {
    const node = known(now.net.checks, check.id);
    const given = now.evidence.answers.get(check.id);
    const answer = given ? node.outcomes.indexOf(given.outcome) : -1;
    const spoils = check.outcomes.map((outcome) => outcome.nextSpoils);
    const plain = spoilsBy(node, [], answer, spoils);
    const causes = now.net.causes.map((id, index) => {
      const link = node.links.get(index);
      if (known(now.knowledge.causes, id).later) return 0;
      return link ? spoilsBy(node, link, answer, spoils) : plain;
    });
    return [...causes, plain];
  }

  /**
   * Over what there is by the cause and the leak, as far as the answer leaves it open.
   * @param {CheckFinder} node @param {readonly number[]} link @param {number} answer @param {number[]} spoils
   */
  function spoilsBy(node, link, answer, spoils) {
    const levels = node.leak.length + 1;
    const picks = [node.leak, link].filter((each) => each.length);
    const reached = spoils.map((_, level) =>
      picks.reduce((product, each) => product * (1 - sum(each.slice(level))), 1)
    );
    let there = reached.map((high, level) => (level ? Math.max(0, high - reached[level - 1]) : high));
    if (answer >= 0) {
      const other = node.wrong ? presslore.mistakenEach(node.wrong, levels - 1, 1) : 0;
      there = there.map((share, level) =>
        node.wrong ? share * (level === answer ? 1 - node.wrong : other) : Number(level === answer)
      );
    }
    const total = sum(there);
    return total ? sum(there.map((share, level) => share * spoils[level])) / total : 0;
  }

  /**
   * What may still be behind it, each with its weight and how often it spoils a piece; after a cure, what the fix does
   * not cure and the good test piece came through by chance.
   * @param {Consultation} now @param {number[]} spoils
   */
  function stillThere(now, spoils) {
    const { kept, weights } = presslore.hypotheses(now.beliefs);
    const indices = [...kept, spoils.length - 1];
    const each = indices.map((index, at) => ({ index, weight: weights[at], spoils: spoils[index] }));
    const over = now.session.over();
    if (!over || over.move !== 'cured') return each;
    const cures = now.net.cures.get(over.fix) || new Map();
    const cured = (/** @type {number} */ index) => cures.get(index) || 0;
    const good = each.map((one) => ({ ...one, weight: one.weight * (1 - cured(one.index)) * (1 - one.spoils) }));
    const total = sum(good.map((one) => one.weight)) + sum(each.map((one) => one.weight * cured(one.index)));
    return total ? good.map((one) => ({ ...one, weight: one.weight / total })) : [];
  }

  /**
   * What going on costs where every n-th piece is looked at, and the fault put right once one is spoiled.
   * @param {{ weight: number, spoils: number }[]} faults
   * @param {number} every @param {number} piece @param {number} look @param {number} right
   */
  function looking(faults, every, piece, look, right) {
    const looks = ORDER / every;
    let cost = Math.max(0, 1 - sum(faults.map((fault) => fault.weight))) * looks * look;
    faults.forEach(({ weight, spoils }) => {
      const found = 1 - (1 - spoils) ** looks;
      const made = spoils > TINY ? found / spoils : looks;
      cost += weight * (found * (every * piece + right) + look * made);
    });
    return cost;
  }

  /**
   * @param {number} chance @param {number} going @param {number} caring @param {number} stopping @param {number} usual
   */
  function judged(chance, going, caring, stopping, usual) {
    if (chance >= EVEN || stopping < Math.min(going, caring)) return STOP;
    return caring < going || chance > OFTENER * usual ? CARE : GO;
  }

  presslore.aftermath = { spoiledPiece, restOfOrder };
})();
