"""How exact numbers are written: the only place that turns a Fraction into digits.

Rules of writing: a minus is U+2212, joined to its number; a number below one has a zero before the point; between a
number and its unit stands a no-break space. Source: SI Brochure (9th ed.) sec. 5.4; NIST SP 811 sec. 7.2, 10.5.
"""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Context, Decimal
from fractions import Fraction

MINUS = "\N{MINUS SIGN}"
SPACE = "\N{NO-BREAK SPACE}"


def is_terminating(number: Fraction) -> bool:
    """Whether the number has a decimal with an end."""
    rest = number.denominator
    for prime in (2, 5):
        while rest % prime == 0:
            rest //= prime
    return rest == 1


def plain(number: Fraction) -> str:
    """The number exactly, the way it goes on in a calculation: 12, −0.25, 12/17."""
    if number.denominator == 1 or not is_terminating(number) or len(decimals(number)) > 8:
        return signed_text(number, str(abs(number)))
    return signed_text(number, decimals(abs(number)))


def decimals(number: Fraction) -> str:
    """A terminating number as plain decimals, all of them."""
    places = 0
    while (number * 10**places).denominator != 1:
        places += 1
    digits = str(abs(number.numerator * 10**places // number.denominator)).zfill(places + 1)
    whole, part = (digits[:-places], digits[-places:]) if places else (digits, "")
    return ("-" if number < 0 else "") + whole + (f".{part}" if part else "")


def rounded(number: Fraction, figures: int = 3) -> str:
    """The number to so many significant figures, in plain decimals, halves away from zero: 0.0938, −1.33, 12.0."""
    if number == 0:
        return "0"
    exact = Context(prec=figures, rounding=ROUND_HALF_UP)
    size = exact.divide(Decimal(abs(number.numerator)), Decimal(number.denominator))
    last_place = size.adjusted() - figures + 1
    return signed_text(number, f"{size.quantize(Decimal(1).scaleb(min(last_place, 0)), context=Context(prec=60)):f}")


def is_exact_when_rounded(number: Fraction, figures: int = 3) -> bool:
    """Whether so many significant figures say the number exactly."""
    return Fraction(rounded(number, figures).replace(MINUS, "-")) == number


def signed_text(number: Fraction, size: str) -> str:
    """The digits of the size, with a true minus sign where the number is negative."""
    return MINUS + size if number < 0 else size


def with_unit(digits: str, unit: str) -> str:
    """Digits and unit with a no-break space between."""
    return f"{digits}{SPACE}{unit}"
