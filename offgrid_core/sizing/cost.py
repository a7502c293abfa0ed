"""What a system costs over the years: bought, bought again, kept up and fuelled, all in today's money.

Present worth, year by year: the rows are the years, whatever is paid in a year is paid at its end, and rates are above
inflation. No closed form is used, so a discount rate of nothing works like any other. Money has no unit here: the
currency is a label. The prices of the catalogue are invented, and so are the usual prices of fuel and generator.
"""

import numpy as np

from offgrid_core.sizing.strings import units_cost
from offgrid_core.worksheet import Line, Sheet, at_least, down, line, smaller, sum_of, up

#: The rows of the worksheet: every year that a horizon may reach.
YEARS = np.arange(1.0, 61.0)

_INVENTED = "prices of the catalogue are invented"
_E917 = "ASTM E917 and NIST Handbook 135"
_AGAIN = (
    "each that falls due before the horizon, paid at the end of the year in which the one before wears out; what ends "
    "on the last day itself is not bought again"
)


# ---- what a payment in some year is worth today


@line("present worth factor of the year", standing="standard", source="single present value, " + _E917)
def present_by_row_factor(discount_rate_frac, year_by_row_years):
    return 1 / (1 + discount_rate_frac) ** year_by_row_years


horizon_factor = present_by_row_factor.renamed(
    "horizon_factor", "present worth factor of the horizon", year_by_row_years="horizon_years"
)


@line("whether the year is within the horizon, 1 for yes", standing="physics")
def within_by_row_factor(horizon_years, year_by_row_years):
    return at_least(horizon_years, year_by_row_years)


@line("present worth factor of a payment every year", standing="standard", source="uniform present value, " + _E917)
def uniform_factor(present_by_row_factor, within_by_row_factor):
    return sum_of(present_by_row_factor * within_by_row_factor)


@line("capital recovery factor", standing="standard", source="the uniform present value turned over, " + _E917)
def recovery_factor(uniform_factor):
    return 1 / uniform_factor


# ---- first cost

array_cost = units_cost.renamed(
    "array_cost", "cost of all modules", units_count="modules_count", unit_cost="module_cost"
)
controllers_cost = units_cost.renamed(
    "controllers_cost", "cost of all controllers", units_count="controllers_count", unit_cost="controller_cost"
)


@line("cost of the bank", standing="physics", source=_INVENTED)
def bank_cost(units_cost, battery_price_factor):
    return units_cost * battery_price_factor


@line("cost of the generator", standing="classroom approximation, no source", source="an invented price by its size")
def generator_cost(generator_kw_cost, generator_rated_w):
    return generator_kw_cost * generator_rated_w / 1000


@line(
    "cost of everything round the parts",
    standing="classroom approximation, no source",
    source="mounts, cable, protection and work as a share of array, controllers and inverter",
)
def balance_cost(balance_frac, array_cost, controllers_cost, inverter_cost):
    return balance_frac * (array_cost + controllers_cost + inverter_cost)


@line("first cost", standing="physics", source=_INVENTED)
def first_cost(bank_cost, array_cost, controllers_cost, inverter_cost, generator_cost, balance_cost):
    return bank_cost + array_cost + controllers_cost + inverter_cost + generator_cost + balance_cost


# ---- bought again: one rule, said of each part


@line("replacements of the bank in the year", standing="common practice, no source", source=_AGAIN)
def bank_replaced_by_row_count(year_by_row_years, bank_life_years, horizon_years):
    return smaller(down(year_by_row_years / bank_life_years), up(horizon_years / bank_life_years) - 1) - smaller(
        down((year_by_row_years - 1) / bank_life_years), up(horizon_years / bank_life_years) - 1
    )


@line("present worth of replacing the bank", standing="physics", source="at today's price, above inflation")
def bank_replaced_cost(bank_cost, bank_replaced_by_row_count, present_by_row_factor):
    return bank_cost * sum_of(bank_replaced_by_row_count * present_by_row_factor)


@line("replacements of the bank before the horizon", standing="physics")
def bank_replaced_count(bank_replaced_by_row_count):
    return sum_of(bank_replaced_by_row_count)


def _replaced(part: str, words: str, cost: str, life: str) -> tuple[Line, Line]:
    """Return when a part is bought again and what that is worth today: the bank's rules, said of another part."""
    count = f"{part}_replaced_by_row_count"
    return (
        bank_replaced_by_row_count.renamed(count, f"replacements of {words} in the year", bank_life_years=life),
        bank_replaced_cost.renamed(
            f"{part}_replaced_cost",
            f"present worth of replacing {words}",
            bank_cost=cost,
            bank_replaced_by_row_count=count,
        ),
    )


controllers_again = _replaced("controllers", "the controllers", "controllers_cost", "controller_life_years")
inverter_again = _replaced("inverter", "the inverter", "inverter_cost", "inverter_life_years")
generator_again = _replaced("generator", "the generator", "generator_cost", "generator_life_years")
array_again = _replaced("array", "the array", "array_cost", "array_life_years")


@line("present worth of all replacements", standing="physics")
def replaced_cost(
    bank_replaced_cost, controllers_replaced_cost, inverter_replaced_cost, generator_replaced_cost, array_replaced_cost
):
    return (
        bank_replaced_cost
        + controllers_replaced_cost
        + inverter_replaced_cost
        + generator_replaced_cost
        + array_replaced_cost
    )


# ---- upkeep, fuel, and what is left at the end


@line("upkeep in a year", standing="common practice, no source", source="as a share of the first cost")
def upkeep_year_cost(upkeep_frac, first_cost):
    return upkeep_frac * first_cost


@line("present worth of upkeep", standing="physics")
def upkeep_cost(upkeep_year_cost, uniform_factor):
    return upkeep_year_cost * uniform_factor


@line("price of the fuel in the year against today's", standing="common practice, no source", source="steady growth")
def fuel_price_by_row_factor(fuel_growth_frac, year_by_row_years):
    return (1 + fuel_growth_frac) ** year_by_row_years


@line(
    "present worth factor of fuel every year",
    standing="standard",
    source="modified uniform present value, " + _E917,
)
def fuel_factor(fuel_price_by_row_factor, present_by_row_factor, within_by_row_factor):
    return sum_of(fuel_price_by_row_factor * present_by_row_factor * within_by_row_factor)


@line("present worth of fuel", standing="physics", source="the price of fuel is invented")
def fuel_cost(fuel_year_l, fuel_litre_cost, fuel_factor):
    return fuel_year_l * fuel_litre_cost * fuel_factor


@line(
    "present worth of what is left at the horizon",
    standing="common practice, no source",
    source="a share of the first cost and nothing else: a bank bought shortly before the horizon is not credited",
)
def salvage_cost(salvage_frac, first_cost, horizon_factor):
    return salvage_frac * first_cost * horizon_factor


# ---- the answers


@line(
    "life-cycle cost",
    standing="standard",
    source="present worth of first cost, upkeep, fuel and replacements less what is left, " + _E917,
)
def life_cycle_cost(first_cost, replaced_cost, upkeep_cost, fuel_cost, salvage_cost):
    return first_cost + replaced_cost + upkeep_cost + fuel_cost - salvage_cost


@line("cost a year", standing="standard", source="annual value, " + _E917)
def year_cost(life_cycle_cost, recovery_factor):
    return life_cycle_cost * recovery_factor


@line(
    "cost of a kilowatt-hour delivered",
    standing="common practice, no source",
    source="levelised: Short, Packey and Holt, NREL/TP-462-5173 (1995), from memory; the same energy every year",
)
def kwh_cost(year_cost, served_year_wh):
    return year_cost / (served_year_wh / 1000)


#: From counts, prices, lives and rates to the life-cycle cost, the cost a year and the cost of a kilowatt-hour.
COST = Sheet(
    units_cost,
    bank_cost,
    array_cost,
    controllers_cost,
    generator_cost,
    balance_cost,
    first_cost,
    present_by_row_factor,
    within_by_row_factor,
    uniform_factor,
    recovery_factor,
    horizon_factor,
    bank_replaced_by_row_count,
    bank_replaced_count,
    bank_replaced_cost,
    *controllers_again,
    *inverter_again,
    *generator_again,
    *array_again,
    replaced_cost,
    upkeep_year_cost,
    upkeep_cost,
    fuel_price_by_row_factor,
    fuel_factor,
    fuel_cost,
    salvage_cost,
    life_cycle_cost,
    year_cost,
    kwh_cost,
)
