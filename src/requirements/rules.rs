//! Rules of the trade: named constants with no single source, which the file may change.

use core::ops::{Deref, DerefMut};
use std::collections::BTreeMap;

/// A rule of the trade.
#[derive(Debug, Clone, Copy)]
pub struct Rule {
    /// Key under `rules` in the file.
    pub key: &'static str,
    /// What the trade uses.
    pub default: f64,
    /// Least that makes sense.
    pub least: f64,
    /// Most that makes sense.
    pub most: f64,
    /// Unit of the plain number; empty for a ratio.
    pub unit: &'static str,
    /// What it means, a clause ("least part of a stability moment left over").
    pub meaning: &'static str,
}

macro_rules! rules {
    ($(
        rules { $($key:ident = $default:literal, $least:literal ..= $most:literal, $unit:literal, $meaning:literal;)* }
        hours {
            $($row:ident = $name:literal, $design:literal, $make:literal, $fit:literal, $maintenance:literal,
                $words:literal $(, design $designed:literal)? $(, make $made:literal)?;)*
        }
    )*) => {
        /// The value of every rule that is read by its name.
        #[derive(Debug, Clone, PartialEq)]
        pub struct Named {
            $($(#[doc = $meaning] pub $key: f64,)*)*
        }
        impl Default for Named {
            fn default() -> Self { Self { $($($key: $default,)*)* } }
        }
        impl Named {
            fn find(&mut self, key: &str) -> Option<&mut f64> {
                Some(match key { $($(stringify!($key) => &mut self.$key,)*)* _ => return None })
            }
            fn get(&self, key: &str) -> Option<f64> {
                Some(match key { $($(stringify!($key) => self.$key,)*)* _ => return None })
            }
        }
        impl Hours {
            $($(
                #[doc = concat!("Of ", $words, ".")]
                pub const $row: &Hours = &Hours([
                    hours_rule!($name, "_design", "hours to design ", first!($($designed)? $words), $design),
                    hours_rule!($name, "_make", "hours to make ", first!($($made)? $words), $make),
                    hours_rule!($name, "_fit", "hours to fit ", $words, $fit),
                    hours_rule!($name, "_maintenance", "yearly maintenance of ", $words, $maintenance),
                ]);
            )*)*
        }
        /// Every rule, in the order of the method. All are common practice, no single source.
        pub const RULES: &[Rule] = &[$(
            $(Rule { key: stringify!($key), default: $default, least: $least, most: $most, unit: $unit, meaning: $meaning },)*
            $(Hours::$row.0[0], Hours::$row.0[1], Hours::$row.0[2], Hours::$row.0[3],)*
        )*];
    };
}

/// The first of one or two literals.
macro_rules! first {
    ($first:literal $($second:literal)?) => {
        $first
    };
}

macro_rules! hours_rule {
    ($name:literal, $suffix:literal, $verb:literal, $words:expr, $default:literal) => {
        Rule {
            key: concat!("hours_", $name, $suffix),
            default: $default,
            least: 0.0,
            most: 1000.0,
            unit: "h",
            meaning: concat!($verb, $words),
        }
    };
}

rules! {
    rules {
        binding_most = 0.5, 0.0..=0.99, "", "greatest binding ratio of the guide";
        stop_deceleration = 5.0, 0.1..=100.0, "m/s2", "greatest deceleration of an emergency stop where no stop distance is given";
        stop_distance_default = 0.002, 0.0001..=1.0, "m", "least distance of an emergency stop where none is given";
        stability_least = 0.3, 0.0..=0.95, "", "least part of the restoring moment that must be left over";
        floor_friction = 0.3, 0.0..=1.5, "", "friction of the machine on the floor";
        drive_margin = 1.2, 1.0..=3.0, "", "margin on hydraulic pressure and motor torque";
        sheave_loss_rolling = 0.02, 0.0..=0.5, "", "loss per sheave on rolling bearings";
        sheave_loss_plain = 0.05, 0.0..=0.5, "", "loss per sheave on plain bearings";
        rope_factor_least = 8.0, 3.0..=20.0, "", "design factor of a counterweight rope";
        sheave_ratio_least = 20.0, 10.0..=60.0, "", "least sheave diameter over rope diameter";
        balance_tolerance = 0.05, 0.0..=0.5, "", "part of a counterweight's pull that a drive must hold, however well it balances";
        slack_move_most = 0.5, 0.0..=1.0, "", "greatest counterweight acceleration over g in the move";
        slack_stop_most = 0.8, 0.0..=1.0, "", "greatest counterweight acceleration over g in an emergency stop";
        load_factor_most = 0.7, 0.1..=1.0, "", "greatest load factor of an air cylinder";
        load_factor_fast_most = 0.5, 0.1..=1.0, "", "greatest load factor of an air cylinder faster than 0.5 m/s";
        load_factor_held_most = 0.85, 0.1..=1.0, "", "greatest load factor of an air cylinder that only holds at rest";
        load_factor_fast_speed = 0.5, 0.05..=3.0, "m/s", "mean speed past which an air cylinder counts as fast";
        air_seal_friction = 0.1, 0.0..=0.5, "", "seal friction of an air cylinder over its thrust";
        air_dead_volume = 0.05, 0.0..=0.5, "", "dead volume at each end of an air cylinder over its swept volume";
        air_speed_least = 0.05, 0.0..=1.0, "m/s", "least mean speed at which an air cylinder runs smoothly";
        air_energy = 0.12, 0.0..=1.0, "kWh/m3", "electricity for a cubic metre of free air";
        compressor_duty_most = 0.7, 0.1..=1.0, "", "greatest part of the time a compressor may run";
        compressor_leak = 0.1, 0.0..=0.5, "", "leakage over a compressor's output while switched on";
        rod_lock_factor = 1.5, 1.0..=5.0, "", "factor of a rod lock over what it holds";
        rod_buckling_factor_air = 5.0, 1.0..=10.0, "", "buckling factor of an air cylinder's rod";
        rod_buckling_factor_oil = 3.5, 1.0..=10.0, "", "buckling factor of an oil cylinder's rod";
        air_temperature_least = 278.15, 230.0..=330.0, "K", "least temperature of compressed air without special drying";
        air_temperature_most = 333.15, 280.0..=400.0, "K", "greatest temperature of ordinary air seals";
        air_tube_extra = 1.0, 0.0..=50.0, "m", "length of each air tube beyond the travel";
        seal_kits_most = 5.0, 0.0..=100.0, "", "how often the seals of a cylinder may be renewed";
        trapped_air_creep = 0.005, 0.0..=0.1, "m", "creep of a load held by trapped air";
        oil_efficiency = 0.92, 0.5..=1.0, "", "efficiency of an oil cylinder";
        oil_line_loss = 1.0e6, 0.0..=1.0e7, "Pa", "pressure lost in valve and line";
        oil_return_loss = 5.0e5, 0.0..=1.0e7, "Pa", "back pressure of the return line";
        oil_volumetric = 0.95, 0.5..=1.0, "", "volumetric efficiency of an oil cylinder's supply";
        oil_pump_efficiency = 0.85, 0.3..=1.0, "", "overall efficiency of an oil pump";
        oil_line_speed_most = 4.5, 0.5..=10.0, "m/s", "greatest speed of oil in a pressure line";
        oil_return_speed_most = 2.5, 0.5..=10.0, "m/s", "greatest speed of oil in a return line";
        oil_idle_rest = 60.0, 0.0..=3600.0, "s", "rest past which an oil unit is switched off between strokes";
        oil_temperature_most = 333.15, 313.15..=363.15, "K", "hottest that the oil in a tank may get";
        air_receiver_drop = 1.0e5, 1.0e4..=5.0e5, "Pa", "pressure that an air receiver may lose over a stroke";
        oil_leak = 8.333e-9, 0.0..=1.0e-5, "m3/s", "oil that seals and valves let by while a force is kept up";
        accumulator_sink = 0.1, 0.01..=0.5, "", "part of a held pressure that may leak away before the pump starts again";
        accumulator_filling = 0.9, 0.5..=1.0, "", "gas filling of an accumulator over the least pressure of its oil";
        loose_slides = 4.9, 0.1..=100.0, "m/s2", "deceleration past which what lies loose on a load slides";
        near_tie = 0.1, 0.0..=1.0, "", "lead over the more expensive purchase below which two options are called a tie";
        grit_life = 0.3333, 0.01..=1.0, "", "part of its life that open mechanics keep in grit, unless the part says otherwise";
        counterbalance_setting = 1.3, 1.0..=2.0, "", "setting of a counterbalance valve over the pressure of its load";
        stepper_margin = 1.5, 1.0..=4.0, "", "margin of a stepper's pull-out torque";
        starting_friction = 1.33, 1.0..=3.0, "", "starting over running friction of a sliding thread";
        self_locking_friction = 0.6, 0.1..=1.0, "", "part of the thread friction that self-locking may count on";
        dc_stop_scatter = 0.01, 0.0..=1.0, "s", "scatter of the moment at which an electric cylinder's motor stops";
        hand_power_peak = 150.0, 10.0..=600.0, "W", "greatest power at a crank for the hardest seconds";
        inertia_ratio_most = 10.0, 1.0..=100.0, "", "greatest load inertia over motor inertia";
        critical_speed_part = 0.8, 0.3..=1.0, "", "part of the first critical speed that may be run";
        column_factor_screw = 2.5, 1.0..=10.0, "", "buckling factor of a screw";
        screw_static_factor = 2.0, 1.0..=10.0, "", "static factor of a ball nut";
        screw_overrun = 0.02, 0.0..=0.5, "m", "overrun of a screw at each end of its travel";
        brake_factor = 2.0, 1.0..=5.0, "", "brake torque over holding torque";
        hand_force_spell = 120.0, 10.0..=400.0, "N", "greatest handle force up to two cycles an hour";
        hand_force_often = 60.0, 10.0..=400.0, "N", "greatest handle force more often";
        hand_spell_cycles = 2.0, 0.1..=60.0, "1/h", "cycles an hour up to which cranking is a spell";
        hand_cycles_most = 10.0, 0.1..=600.0, "1/h", "cycles an hour past which nobody cranks";
        hand_speed_easy = 30.0, 5.0..=120.0, "rpm", "easy crank speed";
        hand_speed_most = 60.0, 5.0..=200.0, "rpm", "greatest crank speed";
        hand_power_most = 75.0, 10.0..=400.0, "W", "greatest power at a crank for minutes";
        crank_force_light = 22.0, 1.0..=100.0, "N", "handle force past which a crank counts as heavy";
        crank_radius_heavy = 0.19, 0.05..=0.5, "m", "least radius of a heavy crank";
        tooth_factor = 3.0, 1.0..=10.0, "", "factor of a rack's tooth against yielding";
        hard_stop_error = 1.0e-4, 0.0..=0.1, "m", "position error against a hard stop";
        air_lock_error = 5.0e-3, 0.0..=0.1, "m", "position error of air stopped by a rod lock";
        oil_valve_error = 2.0e-3, 0.0..=0.1, "m", "position error of oil stopped by a closed-centre valve";
        hand_error = 1.0e-3, 0.0..=0.1, "m", "position error by hand";
        structure_factor = 2.0, 1.0..=10.0, "", "factor of an arm or beam of metal against yielding";
        structure_swings_least = 4.0, 0.0..=100.0, "", "least swings of a loaded arm or beam that a ramp lasts, so that it comes to rest with the move";
        guide_static_factor = 2.0, 1.0..=10.0, "", "static factor of a rail guide";
        shaft_deflection_most = 0.001, 0.0001..=0.01, "", "greatest deflection of a guide's shaft over its length between end supports";
        reliability = 0.9, 0.9..=0.99, "", "part of bearings, ball nuts and guides that reach the life asked";
    }
    hours {
        AIR = "air", 3.0, 1.0, 4.0, 1.0, "an air drive";
        OIL = "oil", 6.0, 2.0, 8.0, 4.0, "an oil drive";
        SCREW = "screw", 6.0, 4.0, 6.0, 1.0, "a built-up screw drive";
        ELECTRIC_CYLINDER = "electric_cylinder", 3.0, 1.0, 3.0, 0.5, "an electric cylinder", design "around an electric cylinder", make "parts for an electric cylinder";
        RACK_CRANK = "rack_crank", 4.0, 4.0, 3.0, 0.5, "a rack and pinion crank";
        JACK_CRANK = "jack_crank", 3.0, 2.0, 3.0, 0.5, "a screw jack crank";
        COUNTERWEIGHT = "counterweight", 4.0, 5.0, 6.0, 1.0, "a counterweight";
    }
    rules {
        hinge_spacing = 0.3, 0.01..=100.0, "m", "distance between the two bearings of a hinge";
        hinge_static_factor = 2.0, 0.1..=100.0, "", "static safety of a hinge's bearings (ISO 76)";
        short_lever = 0.25, 0.05..=1.0, "", "lever of a hinge's drive over the radius of its pin on the arm below which it is called short";
        drive_pin_friction = 0.15, 0.0..=0.5, "", "friction of the bushes in which a hinge's drive hangs";
        drive_pin_radius = 0.008, 0.001..=0.2, "m", "radius of the two pins of a hinge's drive";
        pin_factor = 4.0, 1.0..=100.0, "", "yield in shear over the shear of a hinge's pin";
    }
    hours {
        TAIL_WEIGHT = "tail_weight", 1.0, 3.0, 1.0, 0.0, "a weight on an arm's tail", make "the tail of an arm";
        GUIDE = "guide", 1.0, 1.0, 2.0, 0.5, "a guide";
    }
}

/// Hours of work on a drive or on what is fitted to it.
#[allow(clippy::struct_field_names, reason = "the unit stands in the name")]
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Work {
    /// To design it.
    pub design_h: f64,
    /// To make its parts.
    pub make_h: f64,
    /// To fit it.
    pub fit_h: f64,
    /// Maintenance a year.
    pub maintenance_h: f64,
}

impl core::ops::Add for Work {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self {
            design_h: self.design_h + other.design_h,
            make_h: self.make_h + other.make_h,
            fit_h: self.fit_h + other.fit_h,
            maintenance_h: self.maintenance_h + other.maintenance_h,
        }
    }
}

/// A row of the table of hours: its rules for design, making, fitting and maintenance (practice, invented).
#[derive(Debug)]
pub struct Hours([Rule; 4]);

/// The value of every rule.
///
/// What a crate full of code reads lies behind a pointer, so that a new rule does not change the layout of whatever holds
/// the rules; a new row of hours changes the layout of nothing.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Rules {
    named: Box<Named>,
    /// Hours that the file changes.
    hours: BTreeMap<&'static str, f64>,
}

impl Deref for Rules {
    type Target = Named;
    fn deref(&self) -> &Named {
        &self.named
    }
}

impl DerefMut for Rules {
    fn deref_mut(&mut self) -> &mut Named {
        &mut self.named
    }
}

impl Rules {
    /// Sets a rule.
    pub fn set(&mut self, rule: &Rule, value: f64) {
        if let Some(named) = self.named.find(rule.key) {
            *named = value;
        } else if value.total_cmp(&rule.default).is_eq() {
            self.hours.remove(rule.key);
        } else {
            self.hours.insert(rule.key, value);
        }
    }
    /// The value of a rule by its key.
    pub fn get(&self, key: &str) -> Option<f64> {
        let rule = RULES.iter().find(|rule| rule.key == key)?;
        Some(self.named.get(key).unwrap_or_else(|| self.hours_of(rule)))
    }
    /// The work in a row of the table of hours.
    pub fn work(&self, row: &Hours) -> Work {
        let [design_h, make_h, fit_h, maintenance_h] =
            row.0.each_ref().map(|rule| self.hours_of(rule));
        Work {
            design_h,
            make_h,
            fit_h,
            maintenance_h,
        }
    }
    fn hours_of(&self, rule: &Rule) -> f64 {
        self.hours.get(rule.key).copied().unwrap_or(rule.default)
    }
}
