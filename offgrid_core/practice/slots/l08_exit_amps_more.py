"""Other templates of the controller lesson's exit quiz: amps of a tracking controller, and of a direct one."""

from collections.abc import Mapping

from offgrid_core.practice.kinds import Work
from offgrid_core.practice.problem import Step
from offgrid_core.practice.slot import Slot
from offgrid_core.practice.slots.l08_sheets_more import BRIGHT, DIRECT, FROM_MODULES, PASSES, SIDE, TRACKING, WORDS


def _tracking() -> tuple[Slot, ...]:
    return (
        Work(
            id="L08-exit-3",
            title="The clinic grows",
            statement="Riverbend adds {array_w} of new modules, {array_strings_count} strings with "
            "{modules_in_series_count} in each ({module_vmp_v} at work, {module_isc_a} shorted), for a bank of "
            "{bank_voltage_v}. With tracking, and {controller_factor} as margin: what flows into the bank at noon, and "
            "what must the nameplates of the controllers add up to?",
            hint=SIDE,
            sheet=TRACKING.upto("controller_needed_a"),
            given={"bank_voltage_v": 24, **BRIGHT},
            grids={
                "array_w": (1480, 1760, 2130, 2560),
                "array_strings_count": (2, 3, 4),
                "modules_in_series_count": (2, 3),
                "module_vmp_v": (31.2, 33.8, 37.1),
                "module_isc_a": (8.9, 9.8, 10.7),
            },
            curated={
                "array_w": 1760,
                "array_strings_count": 3,
                "modules_in_series_count": 2,
                "module_vmp_v": 31.2,
                "module_isc_a": 9.8,
            },
            mistakes=("CC-14", "CC-18", "CC-19"),
            words=WORDS,
            asked=(Step("charge_current_a"), Step("controller_needed_a")),
        ),
        Work(
            id="L08-exit-3",
            title="How many boxes on the wall?",
            statement="A farm at {bank_voltage_v} is offered one size of tracking charger, {controller_rated_a}. Up on "
            "the barn: {array_strings_count} lines, {modules_in_series_count} modules of {module_w} in each; the data "
            "sheet has {module_vmp_v} and {module_isc_a}. Allow {controller_factor} for bright cloud edges. Find the "
            "current on the battery's side, that with the allowance, and the number of boxes.",
            hint=SIDE,
            sheet=FROM_MODULES,
            given={"bank_voltage_v": 48, **BRIGHT},
            grids={
                "controller_rated_a": (40, 50, 60),
                "module_w": (295, 330, 370, 410),
                "array_strings_count": (4, 5, 6),
                "modules_in_series_count": (2, 3),
                "module_vmp_v": (32.1, 34.4, 38.3),
                "module_isc_a": (9.6, 10.3, 11.4),
            },
            curated={
                "controller_rated_a": 60,
                "module_w": 370,
                "array_strings_count": 4,
                "modules_in_series_count": 3,
                "module_vmp_v": 34.4,
                "module_isc_a": 11.4,
            },
            mistakes=("CC-14", "CC-18", "CC-19", "CC-25"),
            words=WORDS,
            asked=(Step("charge_current_a"), Step("controller_needed_a"), Step("controllers_count")),
        ),
        Work(
            id="L08-exit-3",
            title="Reading an offer",
            statement="An offer to a school ({bank_voltage_v}) lists {array_w}, laid out as {array_strings_count} by "
            "{modules_in_series_count}, label {module_vmp_v} and {module_isc_a}; margin {controller_factor}; tracking "
            "controllers with {controller_rated_a} apiece. It forgets to say how many. First the amps needed, then "
            "their number, please.",
            hint=SIDE,
            sheet=TRACKING,
            given={"bank_voltage_v": 24, **BRIGHT},
            grids={
                "array_w": (1950, 2280, 2670, 3040),
                "array_strings_count": (3, 4, 5),
                "modules_in_series_count": (2, 3),
                "module_vmp_v": (30.6, 32.9, 36.3),
                "module_isc_a": (9.1, 10.1, 11.3),
                "controller_rated_a": (45, 55, 70),
            },
            curated={
                "array_w": 2280,
                "array_strings_count": 4,
                "modules_in_series_count": 2,
                "module_vmp_v": 32.9,
                "module_isc_a": 9.1,
                "controller_rated_a": 55,
            },
            mistakes=("CC-14", "CC-18", "CC-19", "CC-25"),
            words=WORDS,
            asked=(Step("controller_needed_a"), Step("controllers_count")),
        ),
    )


def _direct() -> tuple[Slot, ...]:
    return (
        Work(
            id="L08-exit-4",
            title="Two in line, no tracking",
            statement="On a barn roof {array_strings_count} pairs of modules feed a controller with PWM on its box, "
            "for {bank_voltage_v}; in each pair one stands behind the other. The sticker: {module_vmp_v}, "
            "{module_imp_a}; shorted {module_isc_a}. Give the current that reaches the battery and, "
            "{controller_factor} times as large, the amps to look for in a shop.",
            hint="Which count adds current, and does such a controller make more of it?",
            sheet=DIRECT.upto("controller_needed_a"),
            given={"bank_voltage_v": 24, "modules_in_series_count": 2, **BRIGHT},
            grids={
                "array_strings_count": (3, 4, 5, 6),
                "module_vmp_v": (17.9, 18.4),
                "module_imp_a": (4.65, 5.41, 7.72),
                "module_isc_a": (5.02, 5.83, 8.31),
            },
            curated={"array_strings_count": 4, "module_vmp_v": 18.4, "module_imp_a": 5.41, "module_isc_a": 5.83},
            mistakes=("CC-14", "CC-15", "CC-16", "CC-17"),
            words=WORDS,
            asked=(Step("charge_current_a"), Step("controller_needed_a")),
        ),
        Work(
            id="L08-exit-4",
            title="Big modules, small battery",
            statement="A neighbour of the cabin joins house modules ({module_vmp_v}, {module_imp_a} at work, "
            "{module_isc_a} shorted) to a {bank_voltage_v} battery, {array_strings_count} of them abreast, untracked. "
            "How much of their power can the battery get, and what current is that in full sun?",
            hint=PASSES,
            sheet=DIRECT.upto("converter_kept_frac", "charge_current_a"),
            given={"bank_voltage_v": 12, "modules_in_series_count": 1},
            grids={
                "array_strings_count": (2, 3, 4),
                "module_vmp_v": (30.8, 32.7, 34.5, 40.6),
                "module_imp_a": (8.7, 9.4, 10.3),
                "module_isc_a": (9.2, 9.9, 10.9),
            },
            curated={"array_strings_count": 2, "module_vmp_v": 32.7, "module_imp_a": 9.4, "module_isc_a": 9.9},
            mistakes=("CC-15", "CC-16", "CC-22"),
            words=WORDS,
            asked=(Step("converter_kept_frac"), Step("charge_current_a")),
        ),
        Work(
            id="L08-exit-4",
            title="Which rating, which share?",
            statement="For a radio hut at {bank_voltage_v}: {array_strings_count} parallel rows, "
            "{modules_in_series_count} per row. Nameplate {module_vmp_v} / {module_imp_a}, {module_isc_a} in a short. "
            "The controller has no tracking; allow {controller_factor} times its current. Tell its least rating, and "
            "the part of the nameplate power that is not thrown away.",
            hint=PASSES,
            sheet=DIRECT,
            given={"bank_voltage_v": 48, "modules_in_series_count": 4, **BRIGHT},
            grids={
                "array_strings_count": (2, 3, 5, 6),
                "module_vmp_v": (17.5, 18.2, 18.9),
                "module_imp_a": (5.46, 7.88, 9.31),
                "module_isc_a": (5.88, 8.52, 9.97),
            },
            curated={"array_strings_count": 3, "module_vmp_v": 18.2, "module_imp_a": 7.88, "module_isc_a": 8.52},
            mistakes=("CC-15", "CC-17", "CC-22"),
            words=WORDS,
            asked=(Step("controller_needed_a"), Step("converter_kept_frac")),
        ),
    )


#: Id of a place -> its templates beside the first.
AMPS: Mapping[str, tuple[Slot, ...]] = {group[0].id: group for group in (_tracking(), _direct())}
