"""Which unquoted words of a YAML file are more than text, and what to say about those that only look so."""

import re

from diagnose.knowledge.documents.document import Plain

MOST_DIGITS = 15
LONGEST_WORD = 40  # no number or truth value is written longer, however it is written
_WORDS: dict[str, Plain] = {"": None, "null": None, "true": True, "false": False}
_WHOLE = re.compile(r"-?(?:0|[1-9][0-9]*)")
_DECIMAL = re.compile(r"-?(?:0|[1-9][0-9]*)?\.[0-9]+")
_TRUTH: tuple[tuple[str, str], ...] = (
    (r"(?i:yes|on|y|true)", "write true"),
    (r"(?i:no|off|n|false)", "write false"),
)
_MEANT: tuple[tuple[str, str], ...] = (
    (r"(?i:~|null|none)", "leave the whole line out"),
    (r"-?0[0-9]+(?:\.[0-9]+)?", "write the number without leading noughts"),
    (r"-?[0-9][0-9_]*_[0-9_]*", "write the digits without _"),
    (r"(?i:0x[0-9a-f]+|0o[0-7]+|0b[01]+)", "write a plain decimal number"),
    (r"-?[0-9]+(?::[0-9]+)+", "write one number, in the field's own unit, without a colon"),
    (r"-?[0-9]*\.?[0-9]+[eE][-+]?[0-9]+", "write the number out in full"),
    (r"-?[0-9]+,[0-9]+", "write the decimal point as a full stop"),
    (r"-?[0-9]+(?:\.[0-9]+)? ?[^\d\s.,:_]+", "write the number alone, without a sign or unit behind it"),
    (r"\+[0-9.]+", "leave the + out"),
    (r"(?i:[-+]?\.(?:inf|nan))", "write an ordinary number"),
)


def resolve(text: str) -> Plain:
    """The value of an unquoted word: true, false, null, a plain number, else the text itself.

    Raises OverflowError for a number of more than 15 digits.
    """
    if text in _WORDS:
        return _WORDS[text]
    whole, decimal = _WHOLE.fullmatch(text), _DECIMAL.fullmatch(text)
    if not whole and not decimal:
        return text
    if sum(sign.isdigit() for sign in text) > MOST_DIGITS:
        raise OverflowError(text[:20])
    return int(text) if whole else float(text)


def hint_for_text(text: str, truth: bool = True) -> str:
    """How to mend a text that stands where a number or, with ``truth``, a truth value should; "" where no advice
    fits."""
    if len(text) > LONGEST_WORD:
        return ""
    if _WHOLE.fullmatch(text) or _DECIMAL.fullmatch(text):
        return f'"{text}" is text because of its quotes: take them off'
    for pattern, advice in (*(_TRUTH if truth else ()), *_MEANT):
        if re.fullmatch(pattern, text):
            return f"`{text}` is text here: {advice}"
    return ""
