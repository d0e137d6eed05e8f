//! Oil cylinders and their supply: areas, pressures, flows, powers.

use core::f64::consts::PI;

use crate::quantity::{
    Area, Force, Length, Power, Pressure, Si, Velocity, Volume, VolumeRate, cubic_metres,
    cubic_metres_per_second, metres_per_second, pascals, square_metres, watts,
};

/// Area of a piston.
///
/// `A = π D²/4`.
///
/// - `bore`: of the cylinder, m, > 0
///
/// Source: geometry.
///
/// ```
/// # use counterpoise::{mechanics::hydraulics, quantity::{Si, metres}};
/// // π · 0.063² / 4 = 3.117e-3 m²
/// assert!((hydraulics::piston_area(metres(0.063)).value - 3.117e-3).abs() < 1e-6);
/// ```
pub fn piston_area(bore: Length) -> Area {
    bore * bore * (PI / 4.0)
}

/// Area of a piston on its rod side.
///
/// `Aa = π (D² - d²)/4`.
///
/// - `bore`: of the cylinder, m, > 0
/// - `rod`: diameter of the rod, m, 0 ≤ d < D
///
/// Source: geometry.
///
/// ```
/// # use counterpoise::{mechanics::hydraulics, quantity::metres};
/// // π · (0.063² - 0.045²) / 4 = 1.527e-3 m²
/// assert!((hydraulics::annulus_area(metres(0.063), metres(0.045)).value - 1.527e-3).abs() < 1e-6);
/// ```
pub fn annulus_area(bore: Length, rod: Length) -> Area {
    piston_area(bore) - piston_area(rod)
}

/// What lies between the pump and the load.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Losses {
    /// Part of the piston force that reaches the load, 0 < η ≤ 1.
    pub efficiency: f64,
    /// Pressure lost in valve and line on the way in, Pa, ≥ 0.
    pub line: Pressure,
    /// Back pressure of the line that the oil leaves by, Pa, ≥ 0.
    pub back: Pressure,
}

impl Losses {
    /// A cylinder without friction on a line without loss.
    pub fn none() -> Self {
        Self {
            efficiency: 1.0,
            line: pascals(0.0),
            back: pascals(0.0),
        }
    }
}

/// Pressure at the pump that moves a load.
///
/// `p = F k/(A η) + Δp_line + p_back · A_other/A`: the load, what valve and line
/// take, and the back pressure on the other side of the piston.
///
/// - `force`: on the load, N, ≥ 0
/// - `margin`: on the force, `k` ≥ 1
/// - `area`: of the side that oil is pumped into; `other`: of the side it leaves, m², > 0
/// - `losses`: of cylinder, valve and lines
///
/// Source: force balance on the piston; Esposito, *Fluid Power with Applications*, cylinders.
///
/// ```
/// # use counterpoise::{mechanics::hydraulics::{self, Losses}, quantity::{newtons, pascals, square_metres}};
/// // 40 kN · 1.2/(5.027e-3 · 0.92) = 103.8 bar; + 10 + 5 · 4.009/5.027 = 3.99; together 117.8 bar
/// let losses = Losses { efficiency: 0.92, line: pascals(10e5), back: pascals(5e5) };
/// let p = hydraulics::working_pressure(newtons(40e3), 1.2, square_metres(5.027e-3), square_metres(4.009e-3), losses);
/// assert!((p.value - 117.8e5).abs() < 0.1e5);
/// ```
pub fn working_pressure(
    force: Force,
    margin: f64,
    area: Area,
    other: Area,
    losses: Losses,
) -> Pressure {
    let load: Pressure = force * margin / (area * losses.efficiency);
    let ratio: f64 = (other / area).value;
    load + losses.line + losses.back * ratio
}

/// Flow that a pump must give for a speed.
///
/// `Q = A v/ηv`.
///
/// - `area`: of the side that oil is pumped into, m², > 0
/// - `speed`: of the piston, m/s, ≥ 0
/// - `volumetric`: part of the flow that is not lost by leakage, 0 < ηv ≤ 1
///
/// Source: continuity.
///
/// ```
/// # use counterpoise::{mechanics::hydraulics, quantity::{metres_per_second, square_metres}};
/// // 5.027e-3 · 0.045 / 0.95 = 2.381e-4 m³/s = 14.29 L/min
/// let q = hydraulics::pump_flow(square_metres(5.027e-3), metres_per_second(0.045), 0.95);
/// assert!((q.value - 2.381e-4).abs() < 1e-7);
/// ```
pub fn pump_flow(area: Area, speed: Velocity, volumetric: f64) -> VolumeRate {
    cubic_metres_per_second((area * speed).value / volumetric)
}

/// Piston speed that a flow gives.
///
/// `v = Q ηv/A`.
///
/// - `flow`: of the pump, m³/s, ≥ 0
/// - `area`: of the side that oil is pumped into, m², > 0
/// - `volumetric`: part of the flow that is not lost by leakage, 0 < ηv ≤ 1
///
/// Source: continuity.
///
/// ```
/// # use counterpoise::{mechanics::hydraulics, quantity::{cubic_metres_per_second, square_metres}};
/// // 2e-3 / 1.963e-3 = 1.019 m/s
/// let v = hydraulics::piston_speed(cubic_metres_per_second(2e-3), square_metres(1.963e-3), 1.0);
/// assert!((v.value - 1.019).abs() < 1e-3);
/// ```
pub fn piston_speed(flow: VolumeRate, area: Area, volumetric: f64) -> Velocity {
    metres_per_second(flow.si() * volumetric / area.value)
}

/// Power at the shaft of a pump.
///
/// `P = p Q/η`.
///
/// - `pressure`: that it pumps against, Pa, ≥ 0
/// - `flow`: that it gives, m³/s, ≥ 0
/// - `efficiency`: overall, 0 < η ≤ 1
///
/// Source: power balance.
///
/// ```
/// # use counterpoise::{mechanics::hydraulics, quantity::{cubic_metres_per_second, pascals}};
/// // 16e6 · 0.5e-3 / 0.85 = 9412 W
/// let p = hydraulics::pump_power(pascals(16e6), cubic_metres_per_second(0.5e-3), 0.85);
/// assert!((p.value - 9412.0).abs() < 1.0);
/// ```
pub fn pump_power(pressure: Pressure, flow: VolumeRate, efficiency: f64) -> Power {
    watts(pressure.si() * flow.si() / efficiency)
}

/// Gas volume of an accumulator that gives so much oil while its pressure sinks by a part of itself.
///
/// `V0 = V/(φ s)`: the gas, filled to `φ (1 − s) p`, takes `V0 φ (1 − s)` at the pressure `p` and `V0 φ` when it has sunk
/// to `(1 − s) p`, at constant temperature; the difference is the oil given.
///
/// - `oil`: volume that it gives, m³, ≥ 0
/// - `filling`: `φ`, gas filling over the least pressure of the oil, 0 < φ ≤ 1
/// - `sink`: `s`, part of the pressure that is lost, 0 < s < 1
///
/// Source: Boyle's law.
///
/// ```
/// # use counterpoise::{mechanics::hydraulics, quantity::cubic_metres};
/// // 7.5 mL while a tenth is lost, filled to 0.9 of the least: 7.5/(0.9 · 0.1) = 83.3 mL
/// let v = hydraulics::accumulator_volume(cubic_metres(7.5e-6), 0.9, 0.1);
/// assert!((v.value - 83.33e-6).abs() < 0.01e-6);
/// ```
pub fn accumulator_volume(oil: Volume, filling: f64, sink: f64) -> Volume {
    cubic_metres(oil.si() / (filling * sink))
}

/// Pressure on the outlet side of a piston whose outlet is throttled while the load overruns.
///
/// `p_out = (p A + F)/A_out`: supply pressure and load both push the oil out.
///
/// - `supply`: pressure on the inlet side, Pa, ≥ 0
/// - `inlet`, `outlet`: areas of the two sides, m², > 0
/// - `overrunning`: force of the load along the motion, N, ≥ 0
///
/// Source: force balance on the piston (friction, which would lower it, is not counted).
///
/// ```
/// # use counterpoise::{mechanics::hydraulics, quantity::{newtons, pascals, square_metres}};
/// // (50e5 · 3.117e-3 + 5000)/1.527e-3 = 20585/1.527e-3 = 134.8 bar
/// let p = hydraulics::outlet_pressure(pascals(50e5), square_metres(3.117e-3), square_metres(1.527e-3), newtons(5000.0));
/// assert!((p.value - 134.8e5).abs() < 0.1e5);
/// ```
pub fn outlet_pressure(
    supply: Pressure,
    inlet: Area,
    outlet: Area,
    overrunning: Force,
) -> Pressure {
    (supply * inlet + overrunning) / outlet
}

/// Mean speed of oil in a line.
///
/// `w = 4 Q/(π d²)`.
///
/// - `flow`: m³/s, ≥ 0
/// - `bore`: of the line, m, > 0
///
/// Source: continuity.
///
/// ```
/// # use counterpoise::{mechanics::hydraulics, quantity::{cubic_metres_per_second, metres}};
/// // 20 L/min through 12 mm: 3.333e-4/1.131e-4 = 2.947 m/s
/// let w = hydraulics::line_speed(cubic_metres_per_second(20e-3 / 60.0), metres(0.012));
/// assert!((w.value - 2.947).abs() < 1e-3);
/// ```
pub fn line_speed(flow: VolumeRate, bore: Length) -> Velocity {
    metres_per_second(flow.si() / piston_area(bore).value)
}

/// Area that a force needs at a pressure.
///
/// `A = F/(p η)`.
///
/// - `force`: on the load, N, ≥ 0
/// - `pressure`: on the piston, Pa, > 0
/// - `efficiency`: part of the piston force that reaches the load, 0 < η ≤ 1
///
/// Source: Pascal's law.
///
/// ```
/// # use counterpoise::{mechanics::hydraulics, quantity::{newtons, pascals}};
/// // 50 kN / (160 bar · 0.9) = 3.472e-3 m²
/// let area = hydraulics::area_for(newtons(50e3), pascals(160e5), 0.9);
/// assert!((area.value - 3.472e-3).abs() < 1e-6);
/// ```
pub fn area_for(force: Force, pressure: Pressure, efficiency: f64) -> Area {
    square_metres(force.si() / (pressure.si() * efficiency))
}
