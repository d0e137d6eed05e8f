//! A drive between a pin on the base and a pin on a hinged arm: lengths and levers.

/// The pins, from the hinge, m: x level, y up, the arm's pin with the arm level.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pins {
    /// On the base.
    pub base: [f64; 2],
    /// On the arm, not on the hinge.
    pub arm: [f64; 2],
}

/// The drive at an arm angle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lever {
    /// Distance from pin to pin, `ℓ`, m.
    pub length_m: f64,
    /// How the length grows with the angle, `dℓ/dφ`, m: the lever of its force about the hinge, negative where the drive shortens.
    pub lever_m: f64,
    /// How the lever grows with the angle, `d²ℓ/dφ²`, m.
    pub slope_m: f64,
    /// From the base pin to the arm pin, m.
    pub along: [f64; 2],
    /// How far the drive turns for a turn of the arm, `dβ/dφ = D·A/ℓ²`.
    pub turn: f64,
}

impl Lever {
    /// How far both pins turn in their bushes for a way of the drive, 1/m: `(|β'| + |1 − β'|)/|ℓ'|`, on the base by the turn
    /// `β'` of the drive for one of the arm, on the arm by the rest; times friction and pin radius, the part that they add
    /// to the force (work of a force on its way). Without a lever it is nothing.
    ///
    /// ```
    /// use counterpoise::mechanics::linkage::Pins;
    /// // Square to the arm the drive does not turn: only the pin on the arm does, 1/0.4 m.
    /// let at = Pins { base: [0.4, -0.3], arm: [0.4, 0.0] }.at(0.0);
    /// assert!((at.pins_turn_per_m() - 2.5).abs() < 1e-12);
    /// ```
    pub fn pins_turn_per_m(&self) -> f64 {
        if self.lever_m == 0.0 {
            return 0.0;
        }
        (self.turn.abs() + (1.0 - self.turn).abs()) / self.lever_m.abs()
    }
}

impl Pins {
    /// The drive at an arm angle above level, rad.
    ///
    /// With `D = A − B` and `dA/dφ = (−y, x)`: `ℓ ℓ' = D·dA/dφ` and `ℓ'² + ℓ ℓ'' = A·B`. Pins that meet have no lever.
    ///
    /// ```
    /// use counterpoise::mechanics::linkage::Pins;
    /// // Arm pin 0.4 m out on a level arm, base pin 0.3 m straight below it: the drive stands square to the arm.
    /// let at = Pins { base: [0.4, -0.3], arm: [0.4, 0.0] }.at(0.0);
    /// assert!((at.length_m - 0.3).abs() < 1e-12);
    /// assert!((at.lever_m - 0.4).abs() < 1e-12);
    /// // A·B = 0.16, so ℓ'' = (0.16 − 0.16)/0.3 = 0: the lever is at its greatest.
    /// assert!(at.slope_m.abs() < 1e-12);
    /// ```
    pub fn at(&self, angle_rad: f64) -> Lever {
        let (sin, cos) = (libm::sin(angle_rad), libm::cos(angle_rad));
        let ([bx, by], [ax, ay]) = (self.base, self.arm);
        let (x, y) = (ax * cos - ay * sin, ax * sin + ay * cos);
        let along = [x - bx, y - by];
        let length_m = (along[0] * along[0] + along[1] * along[1]).sqrt();
        if length_m <= 0.0 {
            return Lever {
                length_m: 0.0,
                lever_m: 0.0,
                slope_m: 0.0,
                along,
                turn: 0.0,
            };
        }
        let lever_m = (bx * y - by * x) / length_m;
        Lever {
            length_m,
            lever_m,
            slope_m: (bx * x + by * y - lever_m * lever_m) / length_m,
            along,
            turn: (along[0] * x + along[1] * y) / (length_m * length_m),
        }
    }

    /// The arm angle at which the pins are so far apart, rad within a turn of 0: the cosine rule, on the side where the
    /// drive lengthens as the arm rises, or on the other.
    ///
    /// ```
    /// use counterpoise::mechanics::linkage::Pins;
    /// let pins = Pins { base: [0.4, -0.3], arm: [0.4, 0.0] };
    /// let angle = pins.angle_at(pins.at(0.7).length_m, true);
    /// assert!((angle - 0.7).abs() < 1e-12);
    /// ```
    pub fn angle_at(&self, length_m: f64, lengthens: bool) -> f64 {
        let ([bx, by], [ax, ay]) = (self.base, self.arm);
        let (base, arm) = ((bx * bx + by * by).sqrt(), self.arm_radius_m());
        let cos = (base * base + arm * arm - length_m * length_m) / (2.0 * base * arm);
        let between = libm::acos(cos.clamp(-1.0, 1.0));
        // Lengthening as the arm turns forward, its pin is ahead of the base pin.
        let side = if lengthens { 1.0 } else { -1.0 };
        libm::atan2(by, bx) + side * between - libm::atan2(ay, ax)
    }

    /// From the hinge to the arm pin, m.
    pub fn arm_radius_m(&self) -> f64 {
        let [x, y] = self.arm;
        (x * x + y * y).sqrt()
    }
}
