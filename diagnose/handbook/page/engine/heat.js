// Heat soaking through a stack, and the dose at the dye: line by line what the command line reckons with.
// One dimension, finite volumes, an implicit method of the second order; temperatures in °C, lengths in m, times in s.
var presslore = presslore || {};

(function () {
  'use strict';

  /**
   * @typedef {{ k: number, rho: number, cp: number, regain: number, thickness: number }} Layer
   * @typedef {{ platen: Platen, stores: number[], waters: number[], links: number[], dye: number, lean: number }} Stack
   * @typedef {{ time: number, temperatures: number[] }} Moment
   */

  const {
    USUAL_PRESSURE,
    CONTACT,
    SOFTNESS,
    LEAST_PRESSURE,
    LATENT,
    WATER_HEAT,
    TO_ROOM,
    THIN,
    METAL,
    PAD,
    DEEP,
    EACH,
    MOST_CELLS,
    FINEST,
    GROWTH,
    GAMMA,
    BOILS,
    HALF_WIDTH,
    FIRST,
    STRIDE,
    LAST,
    ROOM,
    CLOSE,
    MOST_TURNS,
    KELVIN,
    FLAT,
    STEEPNESS
  } = presslore.shared.heat;
  const sum = presslore.numbers.sum;

  // --- the stack: a layer is {k, rho, cp, regain, thickness} ---

  /** @param {number} pressure */
  function contactResistance(pressure) {
    return CONTACT * Math.pow(USUAL_PRESSURE / Math.max(pressure, LEAST_PRESSURE), SOFTNESS);
  }

  /**
   * The pile cut into cells; the dye lies between `above` and `below`.
   * @param {Platen} platen @param {Layer[]} above @param {Layer[]} below @param {number} contact
   */
  function stacked(platen, above, below, contact) {
    /** @type {number[]} */
    const stores = [];
    /** @type {number[]} */
    const waters = [];
    /** @type {number[]} */
    const links = [];
    let resistance = 0;
    let lean = 0;
    const dye = sum(above.map((layer) => cells(layer).length));
    above.concat(below).forEach((layer) => {
      cells(layer).forEach((thickness, place) => {
        const half = (0.5 * thickness) / layer.k;
        const gap = place === 0 ? contact : 0;
        if (links.length === dye) lean = (resistance + 0.5 * gap) / (resistance + gap + half);
        links.push(1 / (resistance + gap + half));
        const mass = layer.rho * thickness;
        stores.push(mass * (layer.cp + layer.regain * WATER_HEAT));
        waters.push(mass * layer.regain * LATENT);
        resistance = half;
      });
    });
    links.push(1 / (resistance + 1 / TO_ROOM));
    return { platen, stores, waters, links, dye, lean };
  }

  /**
   * The thicknesses of a layer's cells.
   * @param {Layer} layer
   */
  function cells(layer) {
    let count = 1;
    let growth = 1;
    if (layer.thickness > THIN && layer.k <= METAL) {
      if (layer.k > PAD || layer.thickness < DEEP) {
        count = Math.min(MOST_CELLS, 2 + Math.ceil(layer.thickness / EACH));
      } else {
        growth = GROWTH;
        while ((FINEST * (Math.pow(GROWTH, count) - 1)) / (GROWTH - 1) < layer.thickness) count += 1;
      }
    }
    const parts = Array.from({ length: count }, (_, place) => Math.pow(growth, place));
    const whole = sum(parts);
    return parts.map((part) => (layer.thickness * part) / whole);
  }

  // --- soaking ---

  /** @param {number} temperature */
  function steamed(temperature) {
    const place = (temperature - BOILS) / (2 * HALF_WIDTH) + 0.5;
    return place <= 0 ? 0 : place >= 1 ? 1 : place * place * (3 - 2 * place);
  }

  /** @param {number} temperature */
  function steaming(temperature) {
    const place = (temperature - BOILS) / (2 * HALF_WIDTH) + 0.5;
    return place <= 0 || place >= 1 ? 0 : (3 * place * (1 - place)) / HALF_WIDTH;
  }

  /**
   * What the heater gives, and its slope.
   * @param {Platen} platen @param {number} short
   */
  function heater(platen, short) {
    if (short <= 0) return [0, 0];
    const part = short + platen.band;
    return [(platen.power * short) / part, (platen.power * platen.band) / (part * part)];
  }

  /**
   * The times and temperatures from the closing of the press to its opening.
   * @param {Stack} stack @param {number} setting @param {number} end
   */
  function soak(stack, setting, end) {
    let now = { time: 0, temperatures: [setting].concat(stack.stores.map(() => ROOM)) };
    const moments = [now];
    let time = 0;
    while (time < end) {
      const step = Math.max(FIRST, STRIDE * time);
      time = time + LAST * step >= end ? end : time + step;
      now = stepped(stack, setting, now, time - now.time);
      moments.push(now);
    }
    return moments;
  }

  /** @param {Stack} stack @param {number} setting @param {Moment} now @param {number} length */
  function stepped(stack, setting, now, length) {
    const whole = wholeStep(stack, setting, now, length);
    if (whole) return whole;
    const halfway = stepped(stack, setting, now, 0.5 * length);
    return stepped(stack, setting, halfway, 0.5 * length);
  }

  /**
   * A step in one, null where Newton's method does not settle in it.
   * @param {Stack} stack @param {number} setting @param {Moment} now @param {number} length
   */
  function wholeStep(stack, setting, now, length) {
    const part = GAMMA * length;
    const heldNow = heldEach(stack, now.temperatures);
    const middle = settle(stack, setting, heldNow, now.temperatures, part);
    if (!middle) return null;
    const carried = (1 - GAMMA) / GAMMA;
    const heldThen = heldEach(stack, middle);
    const known = heldNow.map((old, place) => old + carried * (heldThen[place] - old));
    const temperatures = settle(stack, setting, known, middle, part);
    return temperatures && { time: now.time + length, temperatures };
  }

  /** @param {Stack} stack @param {number[]} temperatures */
  function heldEach(stack, temperatures) {
    const heat = [stack.platen.capacity * temperatures[0]];
    stack.stores.forEach((store, place) => {
      const degrees = temperatures[place + 1];
      heat.push(store * degrees + stack.waters[place] * steamed(degrees));
    });
    return heat;
  }

  /**
   * The temperatures at which what is held is what was, and what flows in: Newton's method; null where it does not settle.
   * @param {Stack} stack
   * @param {number} setting
   * @param {number[]} known
   * @param {number[]} guess
   * @param {number} part
   */
  function settle(stack, setting, known, guess, part) {
    let temperatures = guess.slice();
    for (let turn = 0; turn < MOST_TURNS; turn++) {
      const old = temperatures;
      temperatures = turned(stack, setting, known, old, part);
      if (missed(stack, setting, part, old, temperatures) < CLOSE) return temperatures;
    }
    return null;
  }

  /**
   * @param {Stack} stack
   * @param {number} setting
   * @param {number[]} known
   * @param {number[]} old
   * @param {number} part
   */
  function turned(stack, setting, known, old, part) {
    const { stores, waters, links, platen } = stack;
    const count = stores.length;
    const [gives, slope] = heater(platen, setting - old[0]);
    const down = part * links[0];
    let pivot = platen.capacity + part * slope + down;
    let value = (known[0] + part * (gives + slope * old[0])) / pivot;
    const ratios = [down / pivot];
    const values = [value];
    let upper = down;
    for (let place = 0; place < count; place++) {
      const lower = part * links[place + 1];
      let store = stores[place];
      let right = known[place + 1];
      if (waters[place]) {
        const degrees = old[place + 1];
        const rate = waters[place] * steaming(degrees);
        store += rate;
        right += rate * degrees - waters[place] * steamed(degrees);
      }
      pivot = store + upper * (1 - ratios[place]) + lower;
      value = (right + upper * values[place] + (place === count - 1 ? lower * ROOM : 0)) / pivot;
      values.push(value);
      ratios.push(lower / pivot);
      upper = lower;
    }
    for (let place = count - 1; place >= 0; place--) values[place] += ratios[place] * values[place + 1];
    return values;
  }

  /**
   * The largest gap between curve and line. A cell that would leap over the boiling point is held on it.
   * @param {Stack} stack
   * @param {number} setting
   * @param {number} part
   * @param {number[]} old
   * @param {number[]} values
   */
  function missed(stack, setting, part, old, values) {
    const [gives, slope] = heater(stack.platen, setting - old[0]);
    let off = Math.abs(part * (heater(stack.platen, setting - values[0])[0] - gives + slope * (values[0] - old[0])));
    stack.waters.forEach((water, at) => {
      if (!water) return;
      const place = at + 1;
      const before = old[place];
      const after = values[place];
      if ((before - BOILS) * (after - BOILS) < 0) {
        values[place] = BOILS;
        off = Infinity;
      } else {
        const gap = water * (steamed(after) - steamed(before) - steaming(before) * (after - before));
        off = Math.max(off, Math.abs(gap));
      }
    });
    return off;
  }

  // --- the dye ---

  /** @param {number} celsius @param {number} reference */
  function haste(celsius, reference) {
    return Math.exp(STEEPNESS * (1 / (reference + KELVIN) - 1 / (celsius + KELVIN)));
  }

  /** @param {number} one @param {number} other */
  function logMean(one, other) {
    const ratio = Math.log(other / one);
    return Math.abs(ratio) < FLAT ? 0.5 * (one + other) : (other - one) / ratio;
  }

  // --- an item in the press ---

  /**
   * What happens at the dye: [{time, degrees}]. `press` is what lies about every item; `settings`: temperature,
   * dwell, pressure, sheets, offset; `thickness` in metres where it is another than usual.
   * @param {Press} press
   * @param {PressedItem} item
   * @param {PressSettings} settings
   * @param {number} [thickness]
   */
  function track(press, item, settings, thickness) {
    const layers = item.body.layers.map((layer) => laid(press, layer, thickness));
    const sheets = Array.from({ length: settings.sheets }, () => laid(press, press.cover));
    const sheet = laid(press, press.sheet);
    const under = item.body.round ? [] : press.under.map((layer) => laid(press, layer));
    const above = sheets.concat(item.body.back ? layers.slice().reverse() : [sheet]);
    const below = (item.body.back ? [sheet] : layers).concat(under);
    const platen = item.body.round ? press.wrap : press.platen;
    const stack = stacked(platen, above, below, contactResistance(settings.pressure));
    return soak(stack, settings.temperature + settings.offset, settings.dwell).map((moment) => {
      const upper = moment.temperatures[stack.dye];
      const lower = moment.temperatures[stack.dye + 1];
      return { time: moment.time, degrees: upper + (lower - upper) * stack.lean };
    });
  }

  /**
   * A layer [material, thickness, whether it is as thick as the item].
   * @param {Press} press @param {LaidLayer} layer @param {number} [thickness]
   */
  function laid(press, layer, thickness) {
    const [k, rho, cp, regain] = press.materials[layer[0]];
    const deep = layer[2] && thickness !== undefined ? thickness : layer[1];
    return { k, rho, cp, regain, thickness: deep };
  }

  /**
   * The highest temperature at the dye.
   * @type {Heat['peak']}
   */
  function peak(press, item, settings, thickness) {
    return Math.max(...track(press, item, settings, thickness).map((moment) => moment.degrees));
  }

  /**
   * Equivalent seconds at the temperature that is usual for the item.
   * @type {Heat['dose']}
   */
  function dose(press, item, settings, thickness) {
    const reference = item.usual.temperature;
    const moments = track(press, item, settings, thickness);
    let total = 0;
    for (let place = 1; place < moments.length; place++) {
      const before = haste(moments[place - 1].degrees, reference);
      const after = haste(moments[place].degrees, reference);
      total += (moments[place].time - moments[place - 1].time) * logMean(before, after);
    }
    return total;
  }

  presslore.heat = { peak, dose };
})();
