//! One check: what is asked of a part against what it can give.

/// What is asked of a part against what it can give: made where the physics is, carried untouched to every report.
#[derive(Debug, Clone, PartialEq)]
pub struct Check {
    /// `part.what`, such as `screw.critical_speed`.
    pub id: &'static str,
    /// What is asked, in `unit`.
    pub demand: f64,
    /// What can be given, in `unit`.
    pub capacity: f64,
    /// Unit of both; empty for a ratio.
    pub unit: &'static str,
    /// What the demand is multiplied by before it is compared.
    pub factor: f64,
    /// The formula, with its symbols.
    pub formula: &'static str,
    /// Where the formula or the limit comes from.
    pub source: &'static str,
    /// The rule of the trade that sets the factor or the limit, by its key.
    pub rule: Option<&'static str>,
    /// What the formula was given: symbol, number and unit, so that a pocket calculator can follow.
    pub given: Given,
    /// What a yes-or-no check found, in words ("the site has no electricity").
    pub says: Option<String>,
}

/// What a formula was given: kept in place, for a check is made for every part that is tried.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Given {
    names: &'static [(&'static str, &'static str)],
    values: [f64; Given::MOST],
}

impl Given {
    /// Numbers kept of one check.
    pub const MOST: usize = 9;

    /// Of numbers with their symbols and units, as [`given!`] makes it; more than [`Given::MOST`] numbers do not compile.
    pub(crate) fn new<const N: usize>(
        names: &'static [(&'static str, &'static str); N],
        numbers: [f64; N],
    ) -> Self {
        const { assert!(N <= Self::MOST, "a check keeps no more numbers") };
        let mut values = [0.0; Self::MOST];
        for (place, number) in values.iter_mut().zip(numbers) {
            *place = number;
        }
        Self { names, values }
    }

    /// Symbol, number and unit of each.
    pub fn iter(&self) -> impl Iterator<Item = (&'static str, f64, &'static str)> {
        let pairs = self.names.iter().zip(self.values);
        pairs.map(|((symbol, unit), value)| (*symbol, value, *unit))
    }
}

/// What a formula was given, each number between its symbol and its unit: `given![("F", force_n, "N"), ("η", efficiency, "")]`.
///
/// A macro, because symbols and units go into one static list and only the numbers into the check.
macro_rules! given {
    ($(($symbol:expr, $number:expr, $unit:expr)),+ $(,)?) => {
        $crate::family::Given::new(&[$(($symbol, $unit)),+], [$($number),+])
    };
}
pub(crate) use given;

/// A check in rows: its id, what is asked `=>` what can be given, and the unit; formula and source; the numbers, as [`given!`] has
/// them. A `Headroom` stands for both sides. Factor and rule, where there are such, are called upon what it makes.
macro_rules! check {
    ($id:expr, $demand:expr => $capacity:expr, $unit:expr; $formula:expr, $source:expr; $($given:tt),+ $(,)?) => {
        $crate::family::Check::new($id, $demand, $capacity, $unit)
            .from($formula, $source)
            .with($crate::family::given![$($given),+])
    };
    ($id:expr, $headroom:expr, $unit:expr; $formula:expr, $source:expr; $($given:tt),+ $(,)?) => {
        $headroom
            .check($id, $unit)
            .from($formula, $source)
            .with($crate::family::given![$($given),+])
    };
}
pub(crate) use check;

/// A limit must be past by more than rounding to put a part out before its checks are made; what is out counts as used
/// that much at least.
pub(super) const SURELY: f64 = 1.0 + 1e-6;

/// `demand × factor / capacity`, never negative, at most [`Check::WORST`].
#[inline]
pub(super) fn utilisation(demand: f64, factor: f64, capacity: f64) -> f64 {
    let asked = demand * factor;
    if asked <= 0.0 {
        0.0
    } else if capacity <= 0.0 {
        Check::WORST
    } else {
        (asked / capacity).min(Check::WORST)
    }
}

/// Whether something used so far passes. A hair of 1e-9 is a pass: both sides are computed.
#[inline]
pub(super) fn is_enough(utilisation: f64) -> bool {
    utilisation <= 1.0 + 1e-9
}

impl Check {
    /// The largest utilisation that is written; an impossible demand has it.
    pub const WORST: f64 = 999.0;

    /// A check of a demand against a capacity.
    pub fn new(id: &'static str, demand: f64, capacity: f64, unit: &'static str) -> Self {
        Self {
            id,
            demand,
            capacity,
            unit,
            factor: 1.0,
            formula: "",
            source: "",
            rule: None,
            given: Given::default(),
            says: None,
        }
    }

    /// A yes-or-no check.
    pub fn of(id: &'static str, passes: bool, says: impl Into<String>) -> Self {
        Self {
            says: Some(says.into()),
            ..Self::new(id, 1.0, if passes { 1.0 } else { 0.0 }, "")
        }
    }

    /// With a factor on the demand.
    pub fn factor(mut self, factor: f64) -> Self {
        self.factor = factor;
        self
    }

    /// With its formula and source.
    pub fn from(mut self, formula: &'static str, source: &'static str) -> Self {
        self.formula = formula;
        self.source = source;
        self
    }

    /// With the numbers that its formula was given, from [`given!`].
    pub fn with(mut self, given: Given) -> Self {
        self.given = given;
        self
    }

    /// With the rule of the trade that decides it.
    pub fn rule(mut self, key: &'static str) -> Self {
        self.rule = Some(key);
        self
    }

    /// `demand × factor / capacity`, never negative, at most [`Check::WORST`].
    pub fn utilisation(&self) -> f64 {
        utilisation(self.demand, self.factor, self.capacity)
    }

    /// Whether the part can give what is asked.
    pub fn passes(&self) -> bool {
        is_enough(self.utilisation())
    }
}
