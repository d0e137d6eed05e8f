//! What every part has, and the macro that makes a kind of part.

use super::place::{Feed, Ingress, WaterGrade};
use super::sound::{Sound, hold};
use crate::problem::acts;
use crate::quantity::{Mass, NoiseLevel, Si, Temperature, for_people, usual_unit};
use crate::reading::{FromTree, MISSING, Object, Shape, Tree};

/// Makes what every part states: the record, how it is read and held, and the table of its fields.
macro_rules! common {
    ($($(#[doc = $doc:literal])+ $field:ident: $of:ty $(= $default:expr)?,)*) => {
        /// What every part states.
        #[derive(Debug, Clone, PartialEq)]
        pub struct Common {
            $($(#[doc = $doc])+ pub $field: $of,)*
            /// Whether it stands apart from the machine, as its kind does.
            pub apart: bool,
        }

        /// What every part states, as a file has it.
        pub const COMMON: &[FieldInfo] = &[$(FieldInfo {
            name: stringify!($field),
            about: concat!($($doc),+).trim_ascii(),
            shape: <$of as TakenField>::SHAPE,
            required: <$of as TakenField>::REQUIRED $(&& common!(@no $default))?,
        },)*];

        impl Common {
            /// Reads the common fields; each is held by itself, and then what they say together.
            pub(super) fn read(object: &mut Object) -> Option<Self> {
                // All are read before any is missed, so that none counts as unknown.
                $(let $field = common!(@take object, stringify!($field), $of $(, $default)?);
                if let Some(value) = &$field {
                    hold(object, "", stringify!($field), <$of as TakenField>::SHAPE, &value.numbers());
                })*
                let common = Self { $($field: $field?,)* apart: false };
                common.hold(object);
                Some(common)
            }

            /// What a part has that does not state a field, as a file would have it.
            pub(super) fn by_default(field: &str) -> Option<Tree> {
                match field {
                    $($(stringify!($field) => Some($default.in_file()),)?)*
                    // A silent part is below every level.
                    "noise" => Some(Tree::Text("0 dB".into())),
                    _ => None,
                }
            }
        }
    };
    (@no $default:expr) => { false };
    (@take $object:ident, $field:expr, $of:ty) => { <$of as TakenField>::take($object, $field) };
    (@take $object:ident, $field:expr, $of:ty, $default:expr) => { $object.or::<$of>($field, $default) };
}

common! {
    /// Unique in the catalog.
    id: String,
    /// For people.
    name: String,
    /// Of one piece, or of its fixed part where it is cut to length, in catalog units.
    price: f64,
    /// Of one piece, or of its fixed part where it is cut to length.
    mass: Mass,
    /// Sound level at 1 m while it works; none for a silent part.
    noise: Option<NoiseLevel>,
    /// Coldest it works at; -20 degC where it does not say.
    coldest: Temperature = Temperature::from_si(COLDEST_K),
    /// Hottest it works at; 80 degC where it does not say.
    hottest: Temperature = Temperature::from_si(HOTTEST_K),
    /// IEC 60529 code of an enclosure (motor, cylinder, switch, cabinet), such as IP54; none of open mechanics.
    ingress: Option<Ingress>,
    /// Water that open mechanics stand by their material or coating: `dry`, `splash` or `washdown`.
    stands_water: Option<WaterGrade>,
    /// Part of its life that open mechanics keep in grit; that of the rules where it does not say.
    grit_life: Option<f64>,
    /// Coldest of what belongs to it and stands apart, as the drive of a motor does; that of the whole where it does not say.
    apart_coldest: Option<Temperature>,
    /// Hottest of what belongs to it and stands apart.
    apart_hottest: Option<Temperature>,
    /// Electricity it runs on, such as "200-240 V ac" or "380-480 V ac 3~"; none of what draws none or is fed by what is bought with it.
    runs_on: Option<Vec<Feed>>,
    /// Whether it may work in an explosive atmosphere; not where it does not say.
    explosive_atmosphere: bool = false,
    /// Maintenance it brings by itself, hours a year.
    maintenance_hours: f64 = 0.0,
    /// What it uses up in a year, in catalog units.
    consumables: f64 = 0.0,
    /// Hours to fit it, beside those of its drive.
    fit_hours: f64 = 0.0,
}

impl Common {
    /// States what is wrong with the words, and with figures that do not go together.
    fn hold(&self, object: &Object) {
        for (field, text) in [("id", &self.id), ("name", &self.name)] {
            if text.trim().is_empty() {
                object.fault(field, "is empty");
            }
            if text.trim() != text && !text.trim().is_empty() {
                let problem = object.problem(field, "has spaces at its ends");
                object.add(problem.hint(format!("write {:?}", text.trim())));
            }
            if let Some(sign) = text
                .trim()
                .chars()
                .next()
                .filter(|sign| FORMULA.contains(sign))
            {
                let message =
                    format!("starts with {sign:?}, which a spreadsheet takes for a formula");
                let problem = object.problem(field, message);
                object.add(problem.hint("start it with a letter or a digit"));
            }
            if text.chars().any(|sign| sign.is_control() || acts(sign)) {
                let problem = object.problem(field, "has control characters");
                object.add(problem.hint("write letters, digits, spaces and marks on one line"));
            }
        }
        self.hold_site(object);
        if self.coldest.si() >= self.hottest.si() {
            let hint = format!("write less than {}", for_people(self.hottest));
            let problem = object.problem("coldest", "must be below hottest");
            object.add(problem.hint(hint));
        }
    }
}

impl Common {
    /// States what is wrong with what it says of dirt and water: an enclosure has a code, open mechanics a material.
    fn hold_site(&self, object: &Object) {
        match (self.ingress, self.stands_water) {
            (None, None) if !object.has("ingress") && !object.has("stands_water") => {
                let problem = object.problem("ingress", MISSING);
                object.add(problem.hint(
                    "give the IEC 60529 code of an enclosure, such as IP54, or stands_water of open mechanics: dry, splash or washdown",
                ));
            }
            (Some(_), Some(_)) => {
                let problem = object.problem("stands_water", "is said beside ingress");
                object.add(problem.hint(
                    "leave one out: a code is of enclosures, the water that a part stands of open mechanics",
                ));
            }
            _ => {}
        }
        if self.grit_life.is_some_and(|part| part > 1.0) {
            let problem = object.problem("grit_life", "must be at most 1");
            object.add(problem.hint("0.33 is a third of the life in a clean place"));
        }
    }
}

/// A default as a file would have it.
trait InFile {
    fn in_file(&self) -> Tree;
}
impl InFile for f64 {
    fn in_file(&self) -> Tree {
        Tree::Number(*self)
    }
}
impl InFile for bool {
    fn in_file(&self) -> Tree {
        Tree::Bool(*self)
    }
}
impl InFile for Temperature {
    fn in_file(&self) -> Tree {
        Tree::Text(format!("{} K", self.si()))
    }
}

/// Signs that make a formula of a spreadsheet's cell.
const FORMULA: [char; 4] = ['=', '+', '-', '@'];
/// Coldest where a part does not say, K.
const COLDEST_K: f64 = 253.15;
/// Hottest where a part does not say, K.
const HOTTEST_K: f64 = 353.15;

/// A field that must be given, with what would be right where it is not.
fn needed<T: FromTree>(object: &mut Object, key: &'static str) -> Option<T> {
    if object.has(key) {
        return object.required(key);
    }
    // Asked for all the same, so that it counts as known.
    object.raw(key);
    let problem = object.problem(key, MISSING);
    object.add(match example(T::SHAPE) {
        Some(example) => problem.hint(format!("give {example}")),
        None => problem,
    });
    None
}

/// What a field may look like.
fn example(shape: Shape) -> Option<String> {
    Some(match shape {
        Shape::Text => return None,
        Shape::Flag => "true or false".into(),
        Shape::Number => "a number".into(),
        Shape::Quantity(kind) => format!("a number of {}", usual_unit(kind)),
        Shape::List(shape) => format!("a list, each {}", example(*shape)?),
    })
}

/// A kind of part.
pub trait Part: Sized + Sound {
    /// Its kind's name, which is its file's name.
    const KIND: &'static str;
    /// What it is, a sentence.
    const ABOUT: &'static str;
    /// Its own fields, beside those of every part.
    const FIELDS: &'static [FieldInfo];
    /// What every part states.
    fn common(&self) -> &Common;
    /// Reads one.
    fn read(object: &mut Object) -> Option<Self>;
}

/// A field of a kind of part, for those who read, write or list one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct FieldInfo {
    /// Its name.
    pub name: &'static str,
    /// What it means.
    pub about: &'static str,
    /// What it looks like in a file.
    pub shape: Shape,
    /// Whether a part must have it.
    pub required: bool,
}

/// A field of a part: required, or optional where it is an `Option`.
pub trait TakenField: Sized {
    /// What it looks like in a file.
    const SHAPE: Shape;
    /// Whether a part must have it.
    const REQUIRED: bool;
    /// Takes it from the object.
    fn take(object: &mut Object, key: &'static str) -> Option<Self>;
    /// The numbers it holds, in SI.
    fn numbers(&self) -> Vec<f64>;
}

impl<T: FromTree> TakenField for T {
    const SHAPE: Shape = T::SHAPE;
    const REQUIRED: bool = true;
    fn take(object: &mut Object, key: &'static str) -> Option<Self> {
        needed(object, key)
    }
    fn numbers(&self) -> Vec<f64> {
        self.figures()
    }
}

impl<T: FromTree> TakenField for Option<T> {
    const SHAPE: Shape = T::SHAPE;
    const REQUIRED: bool = false;
    fn take(object: &mut Object, key: &'static str) -> Option<Self> {
        Some(object.optional(key))
    }
    fn numbers(&self) -> Vec<f64> {
        self.as_ref().map(FromTree::figures).unwrap_or_default()
    }
}

/// Makes a kind of part: its record, how it is read, and then what it states of itself, each only where it applies:
///
/// - `sort FIELD;` what it does that others of its kind do not
/// - `covered FIELD;` the size that a bellows must go over to keep dirt and water from it
/// - `apart |part| WHETHER;` whether it stands apart from the machine
/// - `runs |part| FEED;` what it runs on by a voltage of its own
/// - `grows FIELD: FIELDS alike FIELDS;` a series: what it grows by, what must not fall as it grows, what is the same in it
/// - `holds |part| { RULES }` what its figures must be, one `rules!` a line
macro_rules! part {
    (@of $part:ident mass) => { $part.common.mass };
    (@of $part:ident $field:ident) => { $part.$field };
    (
        $(#[doc = $doc:literal])* $type:ident in $kind:literal { $($(#[doc = $field_doc:literal])+ $field:ident: $of:ty,)* }
        $(sort $sort:ident;)?
        $(covered $covered:ident;)?
        $(apart |$unit:ident| $apart:expr;)?
        $(runs |$fed:ident| $feed:expr;)?
        $(grows $size:ident: $($rating:ident),+ $(alike $($key:ident),+)?;)?
        $(holds |$part:ident| { $($rules:tt)* })?
    ) => {
        $(#[doc = $doc])*
        #[derive(Debug, Clone, PartialEq)]
        pub struct $type {
            /// What every part states.
            pub common: $crate::catalog::Common,
            $($(#[doc = $field_doc])+ pub $field: $of,)*
        }
        impl $crate::catalog::Part for $type {
            const KIND: &'static str = $kind;
            const ABOUT: &'static str = concat!($($doc),*);
            const FIELDS: &'static [$crate::catalog::FieldInfo] = &[$($crate::catalog::FieldInfo {
                name: stringify!($field),
                about: concat!($($field_doc),+),
                shape: <$of as $crate::catalog::TakenField>::SHAPE,
                required: <$of as $crate::catalog::TakenField>::REQUIRED,
            },)*];
            fn common(&self) -> &$crate::catalog::Common { &self.common }
            fn read(object: &mut $crate::reading::Object) -> Option<Self> {
                let common = $crate::catalog::Common::read(object);
                $(let $field = <$of as $crate::catalog::TakenField>::take(object, stringify!($field));
                if let Some(value) = &$field {
                    let (shape, numbers) = (<$of as $crate::catalog::TakenField>::SHAPE, $crate::catalog::TakenField::numbers(value));
                    $crate::catalog::hold(object, $kind, stringify!($field), shape, &numbers);
                })*
                let mut part = Self { common: common?, $($field: $field?,)* };
                part.common.apart = $crate::catalog::Sound::stands_apart(&part);
                if part.common.runs_on.is_none() {
                    part.common.runs_on = $crate::catalog::Sound::runs_by_voltage(&part).map(|feed| vec![feed]);
                }
                Some(part)
            }
        }
        impl $crate::catalog::Sound for $type {
            $(fn sort(&self) -> Option<&str> { Some(&self.$sort) })?
            $(fn covered_size(&self) -> Option<$crate::quantity::Length> { Some(self.$covered) })?
            $(fn stands_apart(&self) -> bool {
                let $unit = self;
                $apart
            })?
            $(fn runs_by_voltage(&self) -> Option<$crate::catalog::Feed> {
                let $fed = self;
                $feed
            })?
            $(fn series(&self) -> Option<$crate::catalog::PartSeries> {
                Some($crate::catalog::PartSeries {
                    key: [Vec::new() $($(, $crate::catalog::TakenField::numbers(&self.$key))+)?].concat(),
                    size: $crate::catalog::PartFigure::new(stringify!($size), part!(@of self $size)),
                    ratings: vec![$($crate::catalog::PartFigure::new(stringify!($rating), part!(@of self $rating))),+],
                })
            })?
            $(fn check(&self, check: &mut $crate::catalog::Contradictions) {
                let $part = self;
                rules!($part check $($rules)*);
            })?
        }
    };
}
