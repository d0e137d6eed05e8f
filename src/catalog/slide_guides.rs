//! Guides of slides beside profile rails: round shafts with bushes, and plain ways.

use crate::quantity::{Force, Length, MassPerLength, Pressure, Velocity};

/// Sorts of bushes on a shaft.
pub mod bush_sort {
    /// Balls that go round in tracks.
    pub const BALL: &str = "ball";
    /// A dry liner that rubs.
    pub const PLAIN: &str = "plain";
    /// Both.
    pub const ALL: [&str; 2] = [BALL, PLAIN];
}

part! {
    /// A round shaft with bushes: shaft by the metre; `price` and `mass` are of one bush in its housing.
    ShaftGuide in "shaft_guides" {
        /// `ball` or `plain`.
        sort: String,
        /// Diameter of the shaft.
        diameter: Length,
        /// Length of a bush.
        bush_length: Length,
        /// Greatest speed.
        speed_most: Velocity,
        /// Friction coefficient.
        friction: f64,
        /// Seal drag of one bush.
        drag: Force,
        /// Longest shaft in one piece.
        length_most: Length,
        /// Price of a metre of shaft.
        shaft_price_per_metre: f64,
        /// Mass of a metre of shaft.
        shaft_mass_per_length: MassPerLength,
        /// Part of what a bush bears that is left where it is open below, for a shaft held along its length.
        open_part: f64,
        /// Dynamic rating on the 100 km basis, of one ball bush; none of a plain one.
        dynamic_rating: Option<Force>,
        /// Static rating of one ball bush; none of a plain one.
        static_rating: Option<Force>,
        /// Greatest pressure on a plain bush, over diameter times length.
        pressure_most: Option<Pressure>,
        /// Greatest pressure times rubbing speed of a plain bush, MPa·m/s.
        pv_most: Option<f64>,
        /// Depth of a plain bush worn per rubbed path and pressure, m²/N.
        wear_rate: Option<f64>,
        /// Depth that may wear off a plain bush.
        wear_most: Option<Length>,
    }
    sort sort;
    covered diameter;
    holds |part| {
        one_of sort: bush_sort::ALL;
        share open_part;
        so friction: part.friction < 0.5, "must be less than 0.5", "0.15 of a dry liner";
        bush_length < length_most;
        so dynamic_rating: [part.dynamic_rating.is_some(), part.static_rating.is_some()]
            == [part.sort != bush_sort::PLAIN; 2],
            "stands with static_rating in every ball bush, and in no plain one", "";
        so pv_most: [part.pressure_most.is_some(), part.pv_most.is_some()] == [part.sort == bush_sort::PLAIN; 2]
            && [part.wear_rate.is_some(), part.wear_most.is_some()] == [part.sort == bush_sort::PLAIN; 2],
            "stands with pressure_most, wear_rate and wear_most in every plain bush, and in no ball bush", "";
    }
}

part! {
    /// What holds a round shaft: a block at either end, or a rail along its length by the metre; `price` and `mass` are of one block, or of a rail's fixed part.
    ShaftSupport in "shaft_supports" {
        /// Diameter of the shaft.
        diameter: Length,
        /// Whether it holds the shaft along its length.
        along: bool,
        /// Length of shaft that a block takes at its end; a rail along the shaft takes none.
        end_length: Option<Length>,
        /// Price of a metre of rail; 0 of a block.
        price_per_metre: f64,
        /// Mass of a metre of rail; none of a block.
        mass_per_length: Option<MassPerLength>,
    }
    holds |part| {
        so end_length: part.end_length.is_some() != part.along,
            "stands in every block, and in no rail along the shaft", "";
        so mass_per_length: part.mass_per_length.is_some() == part.along,
            "stands in every rail along the shaft, and in no block", "";
    }
}

part! {
    /// A plain way: ground steel strip by the metre under bronze pads; `price` and `mass` are of one pad with its gib.
    Slideway in "slideways" {
        /// Width of the strip.
        width: Length,
        /// Length of a pad.
        pad_length: Length,
        /// Greatest speed.
        speed_most: Velocity,
        /// Friction coefficient.
        friction: f64,
        /// Longest strip in one piece.
        length_most: Length,
        /// Price of a metre of strip.
        way_price_per_metre: f64,
        /// Mass of a metre of strip.
        way_mass_per_length: MassPerLength,
        /// Greatest pressure on a pad.
        pressure_most: Pressure,
        /// Greatest pressure times rubbing speed, MPa·m/s.
        pv_most: f64,
        /// Depth of a pad worn per rubbed path and pressure, m²/N.
        wear_rate: f64,
        /// Depth that may wear off a pad before its gib is at its end.
        wear_most: Length,
    }
    covered width;
    grows width: pad_length;
    holds |part| {
        so friction: part.friction < 0.5,
            "must be less than 0.5", "0.12 of greased bronze on steel";
        pad_length < length_most;
    }
}
