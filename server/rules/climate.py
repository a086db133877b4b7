"""The air of rooms: moisture, dew point, and outside air that is heated. Temperatures are tenths of a degree Celsius.

No `log` and no `exp`: their last bits differ between machines. Saturation vapour pressure is a table by tenths of a
degree over water (0.61094 kPa * exp(17.625 t / (t + 243.04)), Alduchov and Eskridge 1996, within 0.24 % of ASHRAE from
32 to 100 °F), read with + - * / alone, which both languages do alike. What a part keeps goes through `whole`.
"""

from __future__ import annotations

from typing import Any

from server.rules.vocabulary import tables


def whole(number: float) -> int:
    """The nearest whole number, halves upwards in both languages."""
    return int((number + 0.5) // 1)


def celsius(fahrenheit_tenths: float) -> float:
    """Tenths °C of tenths °F, not rounded. A whole °F kept as whole tenths °C comes back as the same whole °F."""
    return (fahrenheit_tenths - 320) * 5 / 9


def fahrenheit(celsius_tenths: float) -> float:
    """Tenths °F of tenths °C, not rounded."""
    return celsius_tenths * 9 / 5 + 320


def celsius_difference(fahrenheit_tenths: float) -> float:
    """A difference has no offset: 5 °F apart are 2.8 °C apart."""
    return fahrenheit_tenths * 5 / 9


def fahrenheit_difference(celsius_tenths: float) -> float:
    """A difference has no offset: 3 °C apart are 5.4 °F apart."""
    return celsius_tenths * 9 / 5


def saturation(temp: float, version: int) -> float:
    """Saturation vapour pressure over water in hundredths of a pascal; beyond -60 and 60 °C that of the end."""
    table = tables(version)["drying"]["saturation"]
    return read(table["centipascals"], temp - table["from"])


def vapour(temp: float, rh: float, version: int) -> float:
    """Vapour pressure of air at `rh` per cent, in hundredths of a pascal."""
    return saturation(temp, version) * rh / 100


def dew_point(temp: float, rh: float, version: int) -> float:
    """Tenths °C at which this air would be saturated; -60 °C for all that is drier still."""
    return saturated_at(vapour(temp, rh, version), version)


def saturated_at(pressure: float, version: int) -> float:
    """Tenths °C at which air of this vapour pressure (hundredths of a pascal) is saturated: `saturation` backwards."""
    table: dict[str, Any] = tables(version)["drying"]["saturation"]
    values: list[int] = table["centipascals"]
    low, high = 0, len(values) - 1
    if pressure <= values[low]:
        return float(table["from"])
    if pressure >= values[high]:
        return float(table["from"] + high)
    while high - low > 1:
        middle = (low + high) // 2
        if values[middle] <= pressure:
            low = middle
        else:
            high = middle
    return float(table["from"] + low + (pressure - values[low]) / (values[high] - values[low]))


def room_rh(outside: float, rh: float, inside: float, version: int) -> float:
    """Relative humidity in per cent of outside air once it is heated to `inside`.

    The moisture stays, not the relative humidity: constant vapour pressure. Cooled below its dew point it is 100.
    """
    return min(100.0, vapour(outside, rh, version) / saturation(inside, version) * 100)


def read(values: list[int], place: float) -> float:
    """A table between its whole places, straight from one to the next; beyond an end the value at that end."""
    last = len(values) - 1
    if place <= 0:
        return float(values[0])
    if place >= last:
        return float(values[last])
    low = int(place // 1)
    return values[low] + (values[low + 1] - values[low]) * (place - low)
