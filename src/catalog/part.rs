//! What every part has, and the macro that makes a kind of part.

use super::sound::{Sound, hold};
use crate::problem::{Problem, acts};
use crate::quantity::{Kind, Mass, NoiseLevel, Si, Temperature, for_people, usual_unit};
use crate::reading::{FromTree, MISSING, Object, Shape, Tree};

/// What every part states.
#[derive(Debug, Clone, PartialEq)]
pub struct Common {
    /// Unique in the catalog.
    pub id: String,
    /// For people.
    pub name: String,
    /// Of one piece, or of its fixed part where it is cut to length, in catalog units.
    pub price: f64,
    /// Of one piece, or of its fixed part where it is cut to length.
    pub mass: Mass,
    /// Sound level at 1 m while it works; none for a silent part.
    pub noise: Option<NoiseLevel>,
    /// Coldest it works at.
    pub coldest: Temperature,
    /// Hottest it works at.
    pub hottest: Temperature,
    /// IEC 60529 code.
    pub ingress: Ingress,
    /// Whether it may work in an explosive atmosphere.
    pub explosive_atmosphere: bool,
    /// Upkeep it brings by itself, hours a year.
    pub upkeep_hours: f64,
    /// What it uses up in a year, in catalog units.
    pub consumables: f64,
    /// Hours to fit it, beside those of its train.
    pub fit_hours: f64,
}

const fn stated(
    name: &'static str,
    shape: Shape,
    required: bool,
    about: &'static str,
) -> FieldInfo {
    FieldInfo {
        name,
        about,
        shape,
        required,
    }
}

/// What every part states, as a file has it.
#[rustfmt::skip]
pub const COMMON: &[FieldInfo] = &[
    stated("id", Shape::Text, true, "Unique in the catalog."),
    stated("name", Shape::Text, true, "For people."),
    stated("price", Shape::Number, true, "Of one piece, or of its fixed part where it is cut to length, in catalog units."),
    stated("mass", Shape::Quantity(Kind::Mass), true, "Of one piece, or of its fixed part where it is cut to length."),
    stated("noise", Shape::Quantity(Kind::Noise), false, "Sound level at 1 m while it works; none for a silent part."),
    stated("coldest", Shape::Quantity(Kind::Temperature), false, "Coldest it works at; -20 degC where it does not say."),
    stated("hottest", Shape::Quantity(Kind::Temperature), false, "Hottest it works at; 80 degC where it does not say."),
    stated("ingress", Shape::Text, true, "IEC 60529 code, such as IP54."),
    stated("explosive_atmosphere", Shape::Flag, false, "Whether it may work in an explosive atmosphere; not where it does not say."),
    stated("upkeep_hours", Shape::Number, false, "Upkeep it brings by itself, hours a year."),
    stated("consumables", Shape::Number, false, "What it uses up in a year, in catalog units."),
    stated("fit_hours", Shape::Number, false, "Hours to fit it, beside those of its train."),
];

impl Common {
    /// Reads the common fields; all but id, name, price, mass and ingress have defaults.
    pub(super) fn read(object: &mut Object) -> Option<Self> {
        // All are read before any is missed, so that none counts as unknown.
        let (id, name) = (needed(object, "id"), needed(object, "name"));
        let (price, mass) = (
            needed::<f64>(object, "price"),
            needed::<Mass>(object, "mass"),
        );
        let noise = object.optional("noise");
        let coldest = object.or("coldest", Temperature::from_si(COLDEST_K));
        let hottest = object.or("hottest", Temperature::from_si(HOTTEST_K));
        let ingress = needed(object, "ingress");
        let explosive_atmosphere = object.or("explosive_atmosphere", false);
        let upkeep_hours = object.or("upkeep_hours", 0.0);
        let consumables = object.or("consumables", 0.0);
        let fit_hours = object.or("fit_hours", 0.0);
        let common = Self {
            id: id?,
            name: name?,
            price: price?,
            mass: mass?,
            noise,
            coldest: coldest?,
            hottest: hottest?,
            ingress: ingress?,
            explosive_atmosphere: explosive_atmosphere?,
            upkeep_hours: upkeep_hours?,
            consumables: consumables?,
            fit_hours: fit_hours?,
        };
        common.hold(object);
        Some(common)
    }

    fn hold(&self, object: &Object) {
        for (field, text) in [("id", &self.id), ("name", &self.name)] {
            if text.trim().is_empty() {
                object.fault(field, "is empty");
            }
            if text.chars().any(|sign| sign.is_control() || acts(sign)) {
                let problem = object.problem(field, "has control characters");
                object.add(problem.hint("write letters, digits, spaces and marks on one line"));
            }
        }
        let temperature = Shape::Quantity(Kind::Temperature);
        hold(object, "", "price", Shape::Number, &[self.price]);
        hold(
            object,
            "",
            "mass",
            Shape::Quantity(Kind::Mass),
            &[self.mass.si()],
        );
        if let Some(noise) = self.noise {
            hold(
                object,
                "",
                "noise",
                Shape::Quantity(Kind::Noise),
                &[noise.si()],
            );
        }
        hold(object, "", "coldest", temperature, &[self.coldest.si()]);
        hold(object, "", "hottest", temperature, &[self.hottest.si()]);
        hold(
            object,
            "",
            "upkeep_hours",
            Shape::Number,
            &[self.upkeep_hours],
        );
        hold(
            object,
            "",
            "consumables",
            Shape::Number,
            &[self.consumables],
        );
        hold(object, "", "fit_hours", Shape::Number, &[self.fit_hours]);
        if self.coldest.si() >= self.hottest.si() {
            let hint = format!("write less than {}", for_people(self.hottest));
            object.add(
                object
                    .problem("coldest", "must be below hottest")
                    .hint(hint),
            );
        }
    }
}

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
    object.add(match example(T::SHAPE, key) {
        Some(example) => problem.hint(format!("give {example}")),
        None => problem,
    });
    None
}

/// What a field may look like.
fn example(shape: Shape, key: &str) -> Option<String> {
    Some(match shape {
        _ if key == "ingress" => "an IEC 60529 code such as IP54".into(),
        Shape::Text => return None,
        Shape::Flag => "true or false".into(),
        Shape::Number => "a number".into(),
        Shape::Quantity(kind) => format!("a number of {}", usual_unit(kind)),
        Shape::List(shape) => format!("a list, each {}", example(*shape, key)?),
    })
}

/// Degree of protection against solids and water (IEC 60529).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Ingress {
    /// First digit, 0 to 6.
    pub solids: u8,
    /// Second digit, 0 to 9.
    pub water: u8,
}

impl FromTree for Ingress {
    const SHAPE: Shape = Shape::Text;
    fn from_tree(tree: &Tree) -> Result<Self, Problem> {
        let text = String::from_tree(tree)?;
        let digits = text.strip_prefix("IP").map(str::as_bytes);
        match digits {
            Some(&[solids @ b'0'..=b'6', water @ b'0'..=b'9']) => Ok(Self {
                solids: solids - b'0',
                water: water - b'0',
            }),
            _ => Err(Problem::at("", "is not an ingress code")
                .hint("write two digits, such as \"IP54\" (IEC 60529)")),
        }
    }
}

impl core::fmt::Display for Ingress {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        write!(f, "IP{}{}", self.solids, self.water)
    }
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
pub trait Field: Sized {
    /// What it looks like in a file.
    const SHAPE: Shape;
    /// Whether a part must have it.
    const REQUIRED: bool;
    /// Takes it from the object.
    fn take(object: &mut Object, key: &'static str) -> Option<Self>;
    /// The numbers it holds, in SI.
    fn numbers(&self) -> Vec<f64>;
}

impl<T: FromTree> Field for T {
    const SHAPE: Shape = T::SHAPE;
    const REQUIRED: bool = true;
    fn take(object: &mut Object, key: &'static str) -> Option<Self> {
        needed(object, key)
    }
    fn numbers(&self) -> Vec<f64> {
        self.figures()
    }
}

impl<T: FromTree> Field for Option<T> {
    const SHAPE: Shape = T::SHAPE;
    const REQUIRED: bool = false;
    fn take(object: &mut Object, key: &'static str) -> Option<Self> {
        Some(object.optional(key))
    }
    fn numbers(&self) -> Vec<f64> {
        self.as_ref().map(FromTree::figures).unwrap_or_default()
    }
}

/// Makes a kind of part: its record and how it is read.
macro_rules! part {
    ($(#[doc = $doc:literal])* $type:ident in $kind:literal { $($(#[doc = $field_doc:literal])+ $field:ident: $of:ty,)* }) => {
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
                shape: <$of as $crate::catalog::Field>::SHAPE,
                required: <$of as $crate::catalog::Field>::REQUIRED,
            },)*];
            fn common(&self) -> &$crate::catalog::Common { &self.common }
            fn read(object: &mut $crate::reading::Object) -> Option<Self> {
                let common = $crate::catalog::Common::read(object);
                $(let $field = <$of as $crate::catalog::Field>::take(object, stringify!($field));
                if let Some(value) = &$field {
                    let (shape, numbers) = (<$of as $crate::catalog::Field>::SHAPE, $crate::catalog::Field::numbers(value));
                    $crate::catalog::hold(object, $kind, stringify!($field), shape, &numbers);
                })*
                Some(Self { common: common?, $($field: $field?,)* })
            }
        }
    };
}
