// Everyday words that mean the same, made ready: single words by stem, fixed phrases by how they start.
var presslore = presslore || {};

(function () {
  'use strict';

  const { GROUP, NOT } = presslore.shared.groups;
  const NEGATORS = new Set(presslore.shared.groups.NEGATORS);
  const SKIPPED = new Set(presslore.shared.groups.SKIPPED);
  const CONTRAST = new Set(presslore.shared.groups.CONTRAST);
  const words = presslore.words;

  /**
   * `ofStem`: stem -> groups. `phrases`: the first two keys -> phrases, the longest first. `plain`: words without a
   * meaning of their own. `known`: every word in any of them.
   */
  class Groups {
    /** @param {Group[]} groups */
    constructor(groups) {
      /** @type {Map<string, string[]>} */
      this.ofStem = new Map();
      /** @type {Map<string, Phrase[]>} */
      this.phrases = new Map();
      /** @type {Set<string>} */
      this.plain = new Set();
      this.known = new Set([...NEGATORS, ...SKIPPED]);
      /** @type {Phrase[]} */
      const phrases = [];
      groups.forEach((group) => {
        group.members.forEach((member) => this.take(group, member, false, phrases));
        group.asWritten.forEach((member) => this.take(group, member, true, phrases));
      });
      presslore.numbers
        .sorted(phrases, (phrase) => [-phrase.keys.length, phrase.group, ...phrase.keys])
        .forEach((phrase) => {
          const start = phrase.keys
            .slice(0, 2)
            .map((part) => (phrase.asWritten ? key(part) : part))
            .join(' ');
          const alike = this.phrases.get(start);
          if (alike) alike.push(phrase);
          else this.phrases.set(start, [phrase]);
        });
    }

    /** @param {Group} group @param {string} member @param {boolean} asWritten @param {Phrase[]} phrases */
    take(group, member, asWritten, phrases) {
      const all = words.cut(member);
      const parts = all.filter((word) => !SKIPPED.has(word) && !words.BREAKS.has(word));
      all.forEach((word) => this.known.add(word));
      if (parts.length > 1) {
        phrases.push({
          keys: parts.map((part) => (asWritten ? part : key(part))),
          group: group.plain ? '' : GROUP + group.id,
          asWritten,
          spans: all.some((word) => words.BREAKS.has(word))
        });
      } else if (group.plain) {
        all.forEach((word) => this.plain.add(word));
      } else if (parts.length && !asWritten) {
        const root = words.stem(parts[0]);
        const names = this.ofStem.get(root) || [];
        const name = GROUP + group.id;
        if (names.indexOf(name) < 0) this.ofStem.set(root, names.concat([name]));
      }
    }
  }

  /**
   * What a word is known by within a fixed phrase.
   * @type {Words['key']}
   */
  function key(word) {
    return NEGATORS.has(word) ? NOT : words.stem(word);
  }

  Object.assign(words, { GROUP, NOT, NEGATORS, SKIPPED, CONTRAST, Groups, key });
})();
