//! One step of a stiff integration, for the four states of a stroke.
//!
//! A small chamber on an open valve settles a thousand times faster than the
//! piston moves, so an explicit method would crawl; a linearly implicit one
//! (Rosenbrock) steps at the pace of the piston. The states are position, speed
//! and the two pressures; the two chambers do not see each other, so the linear
//! system is solved by hand: both pressures and the position in terms of the
//! speed, then the speed.
//!
//! Source: Hairer & Wanner, *Solving Ordinary Differential Equations II*, § VI.4,
//! method RODAS: order 4(3), six stages, stiffly accurate.

/// Position, speed, pressure of the filling and of the exhausting chamber.
pub(super) type State = [f64; 4];

/// The entries of the Jacobian that are not zero; the rate of position over speed is `position_by_speed`.
#[derive(Debug, Clone, Copy)]
pub(super) struct Jacobian {
    /// 1 while the piston is free, 0 while it is held.
    pub position_by_speed: f64,
    /// Of the acceleration over position, filling pressure, exhaust pressure.
    pub speed: [f64; 3],
    /// Of the acceleration over the speed: of a mass that grows along the way.
    pub speed_by_speed: f64,
    /// Of the filling pressure's rate over position, speed, itself.
    pub fill: [f64; 3],
    /// Of the exhaust pressure's rate over position, speed, itself.
    pub exhaust: [f64; 3],
}

const GAMMA: f64 = 0.25;
/// Weights of earlier stages in the argument of stages 2 to 5.
#[rustfmt::skip]
const A: ([f64; 1], [f64; 2], [f64; 3], [f64; 4]) = (
    [1.544],
    [0.946_678_528_081_582_6, 0.255_701_169_898_328_4],
    [3.314_825_187_068_521, 2.896_124_015_972_201, 0.998_641_913_997_781_7],
    [1.221_224_509_226_641, 6.019_134_481_288_629, 12.537_083_329_320_87, -0.687_886_036_105_895],
);
/// Weights of earlier stages on the right side of stages 2 to 6.
#[allow(clippy::type_complexity, reason = "a triangle of numbers")]
#[rustfmt::skip]
const C: ([f64; 1], [f64; 2], [f64; 3], [f64; 4], [f64; 5]) = (
    [-5.6688],
    [-2.430_093_356_833_875, -0.206_359_915_709_191_5],
    [-0.107_352_905_815_137_5, -9.594_562_251_023_355, -20.470_286_148_096_16],
    [7.496_443_313_967_647, -10.246_804_314_643_52, -33.999_903_528_199_05, 11.708_908_932_061_6],
    [
        8.083_246_795_921_522, -7.981_132_988_064_893, -31.521_594_328_743_71, 16.319_305_431_231_36,
        -6.058_818_238_834_054,
    ],
);

/// `1/(γh) − J`, taken apart for one step.
struct Factors {
    /// `γh`.
    step: f64,
    /// Position over speed.
    position: f64,
    /// Of each pressure: its own factor, over position, over speed.
    fill: [f64; 3],
    exhaust: [f64; 3],
    /// Of the speed: its own factor, over position and both pressures.
    speed: f64,
    speed_by: [f64; 3],
}

impl Factors {
    fn new(jacobian: &Jacobian, step: f64) -> Self {
        let g = 1.0 / step;
        let position = jacobian.position_by_speed * step;
        let pressure = |[by_x, by_v, own]: [f64; 3]| {
            let factor = 1.0 / (g - own);
            [factor, by_x * factor, (by_v + by_x * position) * factor]
        };
        let (fill, exhaust) = (pressure(jacobian.fill), pressure(jacobian.exhaust));
        let [by_x, by_p, by_q] = jacobian.speed;
        let own = g - jacobian.speed_by_speed;
        let speed = 1.0 / (own - by_x * position - by_p * fill[2] - by_q * exhaust[2]);
        Self {
            step,
            position,
            fill,
            exhaust,
            speed,
            speed_by: jacobian.speed,
        }
    }

    /// Solves for a right side: position and pressures in terms of the speed, then the speed.
    fn solve(&self, [rx, rv, r1, r2]: State) -> State {
        let x = rx * self.step;
        let p = r1 * self.fill[0] + x * self.fill[1];
        let q = r2 * self.exhaust[0] + x * self.exhaust[1];
        let [by_x, by_p, by_q] = self.speed_by;
        let v = (rv + by_x * x + by_p * p + by_q * q) * self.speed;
        [
            x + self.position * v,
            v,
            p + self.fill[2] * v,
            q + self.exhaust[2] * v,
        ]
    }
}

/// A state with weighted stages added to it, one after the other.
fn add<const N: usize>(mut sum: State, weights: [f64; N], stages: [State; N]) -> State {
    for (weight, stage) in weights.into_iter().zip(stages) {
        for (to, from) in sum.iter_mut().zip(stage) {
            *to += weight * from;
        }
    }
    sum
}

/// One step of length `h` from `y`, whose rate and Jacobian are given: the new state and the estimate of its error.
pub(super) fn step(
    y: State,
    rate: State,
    jacobian: &Jacobian,
    h: f64,
    rates: impl Fn(State) -> State,
) -> (State, State) {
    let factors = Factors::new(jacobian, GAMMA * h);
    let per_h = 1.0 / h;
    let k1 = factors.solve(rate);
    let (weights, done) = (C.0.map(|c| c * per_h), [k1]);
    let k2 = factors.solve(add(rates(add(y, A.0, done)), weights, done));
    let (weights, done) = (C.1.map(|c| c * per_h), [k1, k2]);
    let k3 = factors.solve(add(rates(add(y, A.1, done)), weights, done));
    let (weights, done) = (C.2.map(|c| c * per_h), [k1, k2, k3]);
    let k4 = factors.solve(add(rates(add(y, A.2, done)), weights, done));
    let (weights, done) = (C.3.map(|c| c * per_h), [k1, k2, k3, k4]);
    let at = add(y, A.3, done);
    let k5 = factors.solve(add(rates(at), weights, done));
    let (weights, done) = (C.4.map(|c| c * per_h), [k1, k2, k3, k4, k5]);
    let at = add(at, [1.0], [k5]);
    let k6 = factors.solve(add(rates(at), weights, done));
    (add(at, [1.0], [k6]), k6)
}
