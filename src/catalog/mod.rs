//! The parts one can buy: records, reading, soundness, and the built-in catalog.
//!
//! A part is one record and no code. A kind of part is one `part!` in the file
//! of its family and one line in `catalog!` below.

#[macro_use]
mod sound;
#[macro_use]
mod part;
mod air;
mod electric;
mod general;
mod hand;
mod oil;
mod place;
mod read;
mod schema;
mod screw;
mod select;
mod series;
mod sheet;
mod slide_guides;
mod source;
mod stock;
mod write;

use std::collections::BTreeSet;

pub use air::*;
pub use electric::*;
pub use general::*;
pub use hand::*;
pub use oil::*;
pub use part::{COMMON, Common, FieldInfo, Part, TakenField};
pub use place::{Feed, Ingress, WaterGrade};
pub use read::built_in;
pub use schema::schema;
pub use screw::*;
pub use select::{PartsOfKind, Selection, unknown_field};
pub use sheet::LIST_SIGN;
pub use slide_guides::*;
use sound::hold;
pub use sound::{Bound, Contradictions, Fault, PartFigure, PartSeries, Sound};
pub use source::{FORMAT, File, PartRecord};
pub use stock::{BUILT_IN_NAME, Checked, Stock};
pub use write::{WrittenColumn, columns, to_csv, to_file};

/// A kind of part, for those who list or check parts of any kind.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PartKind {
    /// Its name.
    pub name: &'static str,
    /// What it is, a sentence.
    pub about: &'static str,
    /// Its own fields, beside those of every part.
    pub fields: &'static [FieldInfo],
}

impl PartKind {
    /// The words that a field of this kind may hold, where they are counted.
    pub fn words_of(&self, field: &str) -> Option<&'static [&'static str]> {
        match (self.name, field) {
            ("controls", "serves") => Some(&general::SERVED),
            ("oil_valves", "function") => Some(&oil::FUNCTIONS),
            _ => None,
        }
    }

    /// The kind of a name.
    pub fn named(name: &str) -> Option<&'static Self> {
        KINDS.iter().find(|kind| kind.name == name)
    }
}

macro_rules! catalog {
    ($($kind:ident: $type:ident,)*) => {
        /// Every part, kind by kind.
        #[derive(Debug, Clone, Default)]
        pub struct Catalog {
            /// What the catalog is called.
            pub name: String,
            /// A digest of its content, to tell two catalogs apart.
            pub digest: String,
            $(#[doc = concat!("The `", stringify!($kind), "`.")] pub $kind: Vec<$type>,)*
        }
        impl Catalog {
            /// Reads one part into its kind, if there is such a kind.
            fn add(&mut self, kind: &str, entry: &PartRecord, sink: &crate::reading::Sink) {
                match kind { $(stringify!($kind) => read::part(entry, sink, &mut self.$kind),)* _ => {} }
            }
            /// What every part has in common, with its kind.
            pub fn commons(&self) -> impl Iterator<Item = (&'static str, &Common)> {
                core::iter::empty()$(.chain(self.$kind.iter().map(|part| (stringify!($kind), part.common()))))*
            }
            /// The catalog without parts that do not suit, where others of their kind and sort do; all of it where all suit
            /// or none does. `suits` is told what a part states, and whether a bellows can keep dirt and water from it.
            pub fn suiting(&self, suits: impl Fn(&Common, bool) -> bool) -> Self {
                Self {
                    name: self.name.clone(),
                    digest: self.digest.clone(),
                    $($kind: suiting(&self.$kind, &suits),)*
                }
            }
            /// Where each part stands in a series, with its kind and id.
            fn series(&self) -> impl Iterator<Item = (&'static str, &str, PartSeries)> {
                core::iter::empty()$(.chain(self.$kind.iter().filter_map(|part| {
                    part.series().map(|series| (stringify!($kind), part.common.id.as_str(), series))
                })))*
            }
            /// Size that a bellows must go over to protect a part; none where no bellows helps.
            pub fn covered_size(&self, kind: &str, id: &str) -> Option<crate::quantity::Length> {
                match kind {
                    $(stringify!($kind) => self.$kind.iter().find(|part| part.common.id == id).and_then(Sound::covered_size),)*
                    _ => None,
                }
            }
        }
        /// Every kind of part, by name.
        pub const KINDS: &[PartKind] = &[$(PartKind {
            name: <$type as Part>::KIND,
            about: <$type as Part>::ABOUT,
            fields: <$type as Part>::FIELDS,
        },)*];
        /// The built-in files: kind and text.
        const BUILT_IN: &[(&str, &str)] = &[
            $((stringify!($kind), include_str!(concat!("../../catalog/", stringify!($kind), ".json"))),)*
        ];
    };
}

/// The parts of one kind that suit, and all of a sort of which none does: what is wrong with them can still be told.
fn suiting<T: Part + Clone>(parts: &[T], suits: impl Fn(&Common, bool) -> bool) -> Vec<T> {
    let suits = |part: &&T| suits(part.common(), part.covered_size().is_some());
    let sorts: BTreeSet<Option<&str>> = parts.iter().filter(suits).map(Sound::sort).collect();
    let stays = |part: &&T| suits(part) || !sorts.contains(&part.sort());
    parts.iter().filter(stays).cloned().collect()
}

catalog! {
    air_cylinders: AirCylinder,
    air_dryers: AirDryer,
    air_preparation: AirPreparation,
    air_receivers: AirReceiver,
    air_tubes: AirTube,
    air_valves: AirValve,
    ball_screws: BallScrew,
    brakes: Brake,
    check_valves: CheckValve,
    compressors: Compressor,
    controls: Control,
    counterweights: Counterweight,
    couplings: Coupling,
    covers: Cover,
    cranks: Crank,
    electric_cylinders: ElectricCylinder,
    flow_controls: FlowControl,
    gear_motors: GearMotor,
    gearboxes: Gearbox,
    guards: Guard,
    guides: Guide,
    hinge_bearings: HingeBearing,
    hoses: Hose,
    load_brakes: LoadBrake,
    oil_accumulators: OilAccumulator,
    oil_coolers: OilCooler,
    oil_cylinders: OilCylinder,
    oil_power_units: OilPowerUnit,
    oil_seal_kits: OilSealKit,
    oil_valves: OilValve,
    power_supplies: PowerSupply,
    racks: Rack,
    rod_locks: RodLock,
    ropes: Rope,
    screw_jacks: ScrewJack,
    screw_supports: ScrewSupport,
    seal_kits: SealKit,
    servo_motors: ServoMotor,
    shaft_guides: ShaftGuide,
    shaft_supports: ShaftSupport,
    sheaves: Sheave,
    shock_absorbers: ShockAbsorber,
    slideways: Slideway,
    sliding_screws: SlidingScrew,
    spur_gears: SpurGear,
    stepper_motors: StepperMotor,
}
