//! A catalog of many makers: every built-in part again and again with other prices and figures.
//!
//! What is standardised stays (bores, rods, threads, ratios, modules, voltages, pressures of compressors); prices,
//! masses, ratings, lengths and losses are each up to a few per cent off, by a fixed seed.

use counterpoise::catalog::{Catalog, Common, Sound};
use counterpoise::quantity::{Conductance, Si};

/// How far a figure lies off at most, as part of it.
const OFF_MOST: f64 = 0.04;

/// Numbers by chance from a seed (splitmix64).
struct Chance(u64);

impl Chance {
    /// A factor near one.
    fn factor(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        let part = f64::from(u32::try_from((z ^ (z >> 31)) >> 32).expect("32 bits are left"));
        1.0 + OFF_MOST * (2.0 * part / f64::from(u32::MAX) - 1.0)
    }
    fn common(&mut self, common: &mut Common, maker: usize) {
        common.id = format!("{}-maker-{maker}", common.id);
        common.price *= self.factor();
        common.mass *= self.factor();
    }
}

/// Adds a maker's parts of each kind, the named figures changed.
macro_rules! makers {
    ($from:ident, $to:ident, $maker:ident, $chance:ident; $($kind:ident: $($field:ident)*;)*) => {$(
        for part in &$from.$kind {
            let mut part = part.clone();
            $chance.common(&mut part.common, $maker);
            $(part.$field *= $chance.factor();)*
            $to.$kind.push(part);
        }
    )*};
}

/// The catalog with so many makers in all, the first as it is.
pub fn larger(built_in: &Catalog, makers: usize) -> Catalog {
    let mut catalog = built_in.clone();
    let mut chance = Chance(20);
    for maker in 1..makers {
        makers! { built_in, catalog, maker, chance;
            air_cylinders: price_per_metre made_to_length_price zero_stroke_length moving_mass
                cushion_energy side_load_most seal_life;
            air_preparation: flow;
            air_tubes: price_per_metre;
            air_valves: power;
            ball_screws: dynamic_rating static_rating nut_length price_per_metre;
            brakes: torque power inertia length;
            check_valves: ;
            compressors: flow power;
            controls: power_most standby;
            counterweights: ;
            couplings: torque inertia length;
            covers: travel_most price_per_metre;
            cranks: force;
            electric_cylinders: force_most no_load_speed full_load_speed holding_force fixed_length life_distance
                running_life standby price_per_metre;
            flow_controls: ;
            gear_motors: stall_torque inertia running_life length;
            gearboxes: rated_torque inertia length;
            guards: price_per_metre;
            guides: dynamic_rating static_rating drag rail_price_per_metre;
            hoses: price_per_metre;
            load_brakes: torque;
            oil_coolers: rejection power;
            oil_cylinders: closed_length travel_life price_per_metre;
            oil_power_units: rejection idle tank;
            oil_seal_kits: ;
            oil_valves: flow;
            power_supplies: power standby;
            racks: strength price_per_metre;
            rod_locks: holding_force length;
            ropes: breaking_force price_per_metre;
            screw_jacks: capacity closed_length travel_life price_per_metre;
            screw_supports: dynamic_rating static_rating length bracket_material;
            seal_kits: ;
            servo_motors: inertia standby length;
            sheaves: load_most inertia;
            shock_absorbers: energy energy_per_hour;
            sliding_screws: nut_length price_per_metre;
            spur_gears: torque;
            stepper_motors: inertia running_loss rest_power length;
            air_receivers: volume;
            hinge_bearings: static_rating friction width;
            oil_accumulators: volume;
        }
        ratings(built_in, &mut catalog, &mut chance);
    }
    let faults = sound(&catalog);
    assert!(faults.is_empty(), "{faults:?}");
    catalog
}

/// Changes figures that must go together, of the parts just added.
fn ratings(built_in: &Catalog, catalog: &mut Catalog, chance: &mut Chance) {
    fn added<'c, P>(parts: &'c mut [P], built_in: &[P]) -> impl Iterator<Item = &'c mut P> {
        let from = parts.len() - built_in.len();
        parts[from..].iter_mut()
    }
    for motor in added(&mut catalog.servo_motors, &built_in.servo_motors) {
        let (rated, peak) = (chance.factor(), chance.factor());
        motor.power *= rated;
        motor.rated_torque *= rated;
        motor.torque_at_most *= rated;
        motor.peak_torque *= peak;
        motor.peak_at_most *= peak;
        motor.brake_torque = motor.brake_torque.map(|torque| torque * rated);
    }
    for motor in added(&mut catalog.stepper_motors, &built_in.stepper_motors) {
        let rated = chance.factor();
        motor.holding_torque *= rated;
        for torque in &mut motor.pull_out {
            *torque *= rated;
        }
    }
    for motor in added(&mut catalog.gear_motors, &built_in.gear_motors) {
        let rated = chance.factor();
        motor.power *= rated;
        motor.rated_torque *= rated;
        motor.torque_most *= rated;
    }
    for gearbox in added(&mut catalog.gearboxes, &built_in.gearboxes) {
        gearbox.peak_torque *= chance.factor();
    }
    let mut off = |way: &mut Conductance| *way = Conductance::from_si(way.si() * chance.factor());
    for cylinder in added(&mut catalog.air_cylinders, &built_in.air_cylinders) {
        off(&mut cylinder.conductance);
    }
    for valve in added(&mut catalog.air_valves, &built_in.air_valves) {
        off(&mut valve.conductance);
    }
    for valve in added(&mut catalog.check_valves, &built_in.check_valves) {
        off(&mut valve.conductance);
    }
    for control in added(&mut catalog.flow_controls, &built_in.flow_controls) {
        off(&mut control.conductance);
        off(&mut control.free_conductance);
    }
    for unit in added(&mut catalog.oil_power_units, &built_in.oil_power_units) {
        let flow = chance.factor();
        unit.flow *= flow;
        unit.motor_power *= flow;
    }
}

/// Every contradiction in a catalog.
fn sound(catalog: &Catalog) -> Vec<(String, &'static str, String)> {
    fn of<P: Sound>(
        parts: &[P],
        common: impl Fn(&P) -> &Common,
    ) -> Vec<(String, &'static str, String)> {
        let faults = |part: &P| {
            let id = common(part).id.clone();
            part.faults()
                .into_iter()
                .map(move |fault| (id.clone(), fault.field, fault.message))
                .collect::<Vec<_>>()
        };
        parts.iter().flat_map(faults).collect()
    }
    macro_rules! every {
        ($($kind:ident)*) => {[$(of(&catalog.$kind, |part| &part.common)),*].concat()};
    }
    every!(
        air_cylinders air_preparation air_receivers air_tubes air_valves ball_screws brakes check_valves compressors
        controls couplings covers cranks electric_cylinders flow_controls gear_motors gearboxes guards guides
        hinge_bearings hoses load_brakes oil_accumulators oil_coolers oil_cylinders oil_power_units oil_seal_kits
        oil_valves power_supplies racks rod_locks ropes screw_jacks screw_supports seal_kits servo_motors sheaves
        shock_absorbers sliding_screws spur_gears stepper_motors
    )
}
