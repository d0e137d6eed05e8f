//! The air stroke against another integrator in another language.
//!
//! `tests/outside/air_stroke.json` holds 20 cylinders, each out and back, open and metered, integrated with
//! `SciPy`'s Radau at a relative error of 1e-9 from a right-hand side written from the method; three solvers
//! agree there to 2e-6. The script stands at the end of this file.

use core::f64::consts::PI;

use counterpoise::mechanics::linkage::Pins;
use counterpoise::mechanics::pneumatics::{
    AirStroke, FINE, Path, StrokeOutcome, free_flow, in_series, tube,
};
use counterpoise::quantity::{ATMOSPHERE_PA, AbsolutePressure, Conductance, Si, metres};
use serde_json::Value;

/// What the project promises of travel times and of the speed at the end.
const WITHIN: f64 = 0.005;

fn data() -> Value {
    serde_json::from_str(include_str!("outside/air_stroke.json")).expect("the file is JSON")
}

fn number(value: &Value) -> f64 {
    value.as_f64().expect("a number")
}

fn path(value: &Value) -> Path {
    Path {
        conductance: number(&value[0]),
        critical_ratio: number(&value[1]),
    }
}

/// One stroke of a case: `out` or `back`, metered or not.
fn run(inputs: &Value, back: bool, metered: bool) -> StrokeOutcome {
    let of = |key: &str| number(&inputs[key]);
    let bore = PI / 4.0 * of("bore_m") * of("bore_m");
    let rod = PI / 4.0 * of("rod_m") * of("rod_m");
    let (load, meter) = if back {
        ("load_back_n", "meter_back")
    } else {
        ("load_out_n", "meter_out")
    };
    let (start, end) = (number(&inputs[load][0]), number(&inputs[load][1]));
    let travel_m = of("stroke_m");
    let mass_kg = of("moving_mass_kg");
    let mut areas = [bore, bore - rod];
    let mut dead = [of("dead_bore_m3"), of("dead_rod_m3")];
    if back {
        areas.reverse();
        dead.reverse();
    }
    let open = path(&inputs["exhaust"]);
    AirStroke {
        travel_m,
        moving: move |_| (mass_kg, 0.0),
        fill_area_m2: areas[0],
        exhaust_area_m2: areas[1],
        fill_dead_m3: dead[0],
        exhaust_dead_m3: dead[1],
        fill: path(&inputs["supply"]),
        exhaust: if metered {
            in_series(&[open, path(&inputs[meter])])
        } else {
            open
        },
        supply_pa: of("supply_pa") + ATMOSPHERE_PA,
        seal_n: 0.1 * of("supply_pa") * bore,
        load_n: |x: f64| start + (end - start) * x / travel_m,
        patience_s: 60.0,
        tolerance: FINE,
    }
    .run()
}

#[test]
fn twenty_cylinders_both_ways_open_and_metered_agree() {
    let data = data();
    let cases = data["cases"].as_array().expect("a list");
    assert!(cases.len() >= 20);
    let (mut off, mut worst_time, mut worst_speed) = (Vec::new(), 0.0_f64, 0.0_f64);
    for case in cases {
        for (back, metered) in [(false, false), (true, false), (false, true), (true, true)] {
            let name = format!(
                "{}_{}",
                if metered { "metered" } else { "open" },
                if back { "back" } else { "out" }
            );
            let expected = &case["expected"][&name];
            let StrokeOutcome::Arrives(got) = run(&case["inputs"], back, metered) else {
                panic!("{} {name} does not arrive", case["name"])
            };
            let apart = |got: f64, expected: &Value| (got / number(expected) - 1.0).abs();
            let time = apart(got.time_s, &expected["time_s"]);
            let speed = apart(
                got.end_speed_m_s,
                &expected["greatest_speed_last_10_percent_m_s"],
            );
            worst_time = worst_time.max(time);
            worst_speed = worst_speed.max(speed);
            if time > WITHIN || speed > WITHIN {
                off.push(format!(
                    "{} {name}: {got:?}, integrated as {expected}",
                    case["name"]
                ));
            }
        }
    }
    println!(
        "{} strokes; worst time {worst_time:.1e}, worst end speed {worst_speed:.1e}",
        4 * cases.len()
    );
    assert!(off.is_empty(), "{}", off.join("\n"));
}

/// A lid whose drive loses three quarters of its lever on the way, by the exact pins at every step.
struct Lid {
    pins: Pins,
    inertia_kg_m2: f64,
    weight_n_m: f64,
    seal_n: f64,
    /// Whether it goes back, from the short lever over the top to the long one.
    back: bool,
    /// Of the side that fills and the side that empties.
    areas_m2: [f64; 2],
    dead_m3: [f64; 2],
    paths: [Path; 2],
}

impl Lid {
    fn new(throttle: f64, back: bool) -> Self {
        let (bore, rod) = (PI / 4.0 * 0.063 * 0.063, PI / 4.0 * 0.02 * 0.02);
        let path = |conductance| Path {
            conductance,
            critical_ratio: 0.3,
        };
        Self {
            pins: Pins {
                base: [0.24, -0.56],
                arm: [0.19, -0.02],
            },
            inertia_kg_m2: 9.0,
            weight_n_m: 38.0 * 9.806_65 * 0.42,
            seal_n: 0.1 * 6e5 * bore,
            back,
            areas_m2: if back {
                [bore - rod, bore]
            } else {
                [bore, bore - rod]
            },
            dead_m3: [7e-5, 7e-5],
            paths: [path(1.5e-8), path(throttle)],
        }
    }

    /// The pins' distance at an angle of the arm, rad.
    fn ends(&self) -> [f64; 2] {
        [0.0, 101_f64.to_radians()].map(|angle| self.pins.at(angle).length_m)
    }

    fn travel_m(&self) -> f64 {
        let [start, end] = self.ends();
        end - start
    }

    /// Force of the load against the stroke, mass at the rod and half its growth, where the rod has gone so far.
    fn at(&self, x: f64) -> (f64, f64, f64) {
        let [start, end] = self.ends();
        let (length, sign) = if self.back {
            (end - x, -1.0)
        } else {
            (start + x, 1.0)
        };
        let angle = self.pins.angle_at(length, true);
        let lever = self.pins.at(angle);
        let weight = self.weight_n_m * (angle + 4_f64.to_radians()).cos();
        let load = (sign * weight + 3.0) / lever.lever_m;
        let mass = self.inertia_kg_m2 / lever.lever_m.powi(2);
        let growth = -self.inertia_kg_m2 * lever.slope_m / lever.lever_m.powi(4);
        (load, mass + 3.0, sign * growth)
    }

    fn stroke(&self, tolerance: f64) -> StrokeOutcome {
        let load_n = |x: f64| self.at(x).0;
        let moving = |x: f64| (self.at(x).1, self.at(x).2);
        let [fill_area_m2, exhaust_area_m2] = self.areas_m2;
        let [fill_dead_m3, exhaust_dead_m3] = self.dead_m3;
        let [fill, exhaust] = self.paths;
        AirStroke {
            travel_m: self.travel_m(),
            moving,
            fill_area_m2,
            exhaust_area_m2,
            fill_dead_m3,
            exhaust_dead_m3,
            fill,
            exhaust,
            supply_pa: 6e5 + ATMOSPHERE_PA,
            seal_n: self.seal_n,
            load_n,
            patience_s: 30.0,
            tolerance,
        }
        .run()
    }

    /// Rates of position, speed and both pressures, with the motion as energy: `d(M v²/2) = F dx`.
    fn rates(&self, [x, v, full_pa, empty_pa]: [f64; 4]) -> [f64; 4] {
        let [bore, ring] = self.areas_m2;
        // "Bore" here is the side that fills, "ring" the side that empties.
        let (load, mass, growth) = self.at(x);
        let net =
            full_pa * bore - empty_pa * ring - ATMOSPHERE_PA * (bore - ring) - load - self.seal_n;
        let free = v > 0.0 || net > 0.0;
        let (v, a) = if free {
            (v, (net - growth * v * v) / mass)
        } else {
            (0.0, 0.0)
        };
        let flow = |path: Path, from: f64, to: f64| {
            let volume = free_flow(
                Conductance::from_si(path.conductance),
                path.critical_ratio,
                AbsolutePressure::from_si(from),
                AbsolutePressure::from_si(to),
            );
            1.185 * 287.05 * 293.15 * volume.si()
        };
        let full = self.dead_m3[0] + bore * x;
        let empty = self.dead_m3[1] + ring * (self.travel_m() - x);
        let (gain, loss) = (
            flow(self.paths[0], 6e5 + ATMOSPHERE_PA, full_pa),
            flow(self.paths[1], empty_pa, ATMOSPHERE_PA),
        );
        [
            v,
            a,
            (gain - full_pa * bore * v) / full,
            (empty_pa * ring * v - loss) / empty,
        ]
    }

    /// Time and speed of arrival by small steps of the fourth order (Runge and Kutta).
    fn small_steps(&self) -> (f64, f64) {
        let (mut y, mut t, h) = ([0.0, 0.0, ATMOSPHERE_PA, 6e5 + ATMOSPHERE_PA], 0.0, 2e-5);
        let (travel, mut fastest) = (self.travel_m(), 0.0_f64);
        let add = |y: [f64; 4], k: [f64; 4], by: f64| -> [f64; 4] {
            std::array::from_fn(|i| y[i] + by * k[i])
        };
        while y[0] < travel && t < 30.0 {
            let k1 = self.rates(y);
            let k2 = self.rates(add(y, k1, 0.5 * h));
            let k3 = self.rates(add(y, k2, 0.5 * h));
            let k4 = self.rates(add(y, k3, h));
            let k: [f64; 4] =
                std::array::from_fn(|i| (k1[i] + 2.0 * k2[i] + 2.0 * k3[i] + k4[i]) / 6.0);
            y = add(y, k, h);
            t += h;
            if y[0] > 0.9 * travel {
                fastest = fastest.max(y[1]);
            }
        }
        (t, fastest)
    }
}

#[test]
fn a_lever_that_shrinks_to_a_quarter_agrees_with_small_steps() {
    for (throttle, back) in [
        (1.2e-8, false),
        (4e-9, false),
        (1.5e-9, false),
        (1.2e-8, true),
        (4e-9, true),
        (1.5e-9, true),
    ] {
        let lid = Lid::new(throttle, back);
        let StrokeOutcome::Arrives(got) = lid.stroke(FINE) else {
            panic!("it does not arrive with {throttle}")
        };
        let (time_s, speed) = lid.small_steps();
        println!("{throttle:e}: {got:?}, by small steps {time_s} s, {speed} m/s");
        assert!((got.time_s / time_s - 1.0).abs() < WITHIN, "{throttle:e}");
        assert!(
            (got.end_speed_m_s / speed - 1.0).abs() < WITHIN,
            "{throttle:e}"
        );
    }
}

#[test]
fn tubes_and_parts_in_series_agree() {
    let data = data();
    let agree = |got: Path, expected: &Value| {
        assert!(
            (got.conductance / number(&expected["C"]) - 1.0).abs() < 1e-9,
            "{got:?}, worked as {expected}"
        );
        assert!(
            (got.critical_ratio - number(&expected["b"])).abs() < 1e-9,
            "{got:?}, worked as {expected}"
        );
    };
    for case in data["tubes"].as_array().expect("a list") {
        agree(
            tube(metres(number(&case["d_m"])), metres(number(&case["L_m"]))),
            case,
        );
    }
    for case in data["series"].as_array().expect("a list") {
        let parts: Vec<Path> = case["parts"]
            .as_array()
            .expect("a list")
            .iter()
            .map(path)
            .collect();
        agree(in_series(&parts), case);
    }
}

/* The script that made the numbers (Python, SciPy):

"""Pneumatic stroke time (method 2.1), written from the method page alone. SI inside. Writes air_stroke.json."""
import json, sys
from math import pi, sqrt
from multiprocessing import Pool
import numpy as np
from scipy.integrate import solve_ivp
from scipy.optimize import brentq
G, PA, RHO0, T0, R = 9.80665, 101325.0, 1.185, 293.15, 287.05
T = T0                                                      # air and chambers at the reference temperature

def psi(r, b):
    full = lambda r: 1.0 if r <= b else sqrt(1 - ((r - b) / (1 - b))**2)
    return full(r) if r <= 0.999 else full(0.999) * (1 - r) / 0.001
def flow(C, b, pa, pb):                                     # mass flow a -> b, negative when it reverses
    return C * pa * RHO0 * sqrt(T0/T) * psi(pb/pa, b) if pa >= pb else -C * pb * RHO0 * sqrt(T0/T) * psi(pa/pb, b)
def series(*parts):
    C = sum(1 / c**3 for c, _ in parts) ** (-1/3)
    return C, 1 - C**2 * sum((1 - b) / c**2 for c, b in parts)
def tube(d, L):
    C = 0.029 * d*d / sqrt(L / d**1.25 + 510)
    return C, 474 * C / d**2

def stroke(i, out, meter=None, tol=1e-9, method="Radau", literal=False):
    """One stroke from rest. -> time, greatest speed in the last 10 %, arrival speed, times it came to rest on the way.
    way: 0 at rest, +1 moving, -1 thrown back by the air cushion (the seal then drags the other way; literal: it does not)."""
    A, Ar, S, M = pi/4*i["bore_m"]**2, pi/4*i["rod_m"]**2, i["stroke_m"], i["moving_mass_kg"]
    Af, Ae = (A, A - Ar) if out else (A - Ar, A)            # filling, exhausting side
    Vf, Ve = (i["dead_bore_m3"], i["dead_rod_m3"]) if out else (i["dead_rod_m3"], i["dead_bore_m3"])
    ps, seal = i["supply_pa"] + PA, 0.1 * i["supply_pa"] * A
    F0, F1 = i["load_out_n" if out else "load_back_n"]      # at the start and at the end of this stroke
    (Cs, bs), (Ce, be) = i["supply"], series(i["exhaust"], meter) if meter else i["exhaust"]
    net = lambda t, y: y[0]*Af - y[1]*Ae - PA*(Af - Ae) - (F0 + (F1 - F0) * y[2] / S) - seal
    def rhs(t, y, way):
        p1, p2, x, v = y
        if not way: v = 0.0
        return [(R*T * flow(Cs, bs, ps, p1) - p1*Af*v) / (Vf + Af*x), (p2*Ae*v - R*T * flow(Ce, be, p2, PA)) / (Ve + Ae*(S - x)),
                v, (net(t, y) + (2*seal if way < 0 else 0)) / M if way else 0.0]
    def event(f, direction):
        g = lambda t, y, way: f(t, y)
        g.terminal, g.direction = True, direction
        return g
    start, end, thrown = event(net, 1), event(lambda t, y: y[2] - S, 1), event(lambda t, y: net(t, y) + 2*seal, -1)
    stop, turn = event(lambda t, y: y[3], -1), event(lambda t, y: y[3], 1)
    t, y, stuck, top, segments = 0.0, np.array([PA, ps, 0.0, 0.0]), 0, 0.0, []
    way = int(net(0, y) > 0)
    while True:
        events = {1: [end] if literal else [end, stop], 0: [start, thrown] if y[2] > 0 else [start], -1: [turn]}[way]
        s = solve_ivp(rhs, (t, t + 500), y, method, events=events, args=(way,), rtol=tol, atol=np.array([1e3, 1e3, 1e-3, 1e-3]) * tol, dense_output=True)
        assert s.status == 1 and s.y[2].min() > -1e-9, s.message
        if way > 0: segments.append(s)
        t, y = s.t[-1], s.y[:, -1].copy()
        if way > 0 and len(s.t_events[0]): break
        if way: way, stuck = (1 if net(t, y) > 0 else -1 if net(t, y) + 2*seal < 0 else 0), stuck + 1
        else: way = 1 if len(s.t_events[0]) else -1
        y[3] = 0.0
    for s in segments:                                       # dense output over the last 10 % of travel
        grid = np.unique(np.concatenate([np.linspace(a, b, 41) for a, b in zip(s.t, s.t[1:])]))
        if s.sol(grid[-1])[2] < 0.9*S: continue
        if s.sol(grid[0])[2] < 0.9*S: grid = np.append(grid, brentq(lambda u: s.sol(u)[2] - 0.9*S, grid[0], grid[-1], xtol=1e-14) + 1e-12)
        _, _, x, v = s.sol(grid)
        top = max([top, *v[x >= 0.9*S]])
    return float(t), float(max(top, y[3])), float(y[3]), stuck

def case(name, bore, rod, stroke_mm, bar, mass, load_out, load_back, C, tube_d, tube_L, ratio, note=""):
    mm = 1e-3
    i = dict(name=name, note=note, bore_m=bore*mm, rod_m=rod*mm, stroke_m=stroke_mm*mm, supply_pa=bar*1e5, moving_mass_kg=mass,
             load_out_n=[float(f"{f:.6g}") for f in load_out], load_back_n=[float(f"{f:.6g}") for f in load_back])
    A, Ar, pipe = pi/4*(bore*mm)**2, pi/4*(rod*mm)**2, pi/4*(tube_d*mm)**2 * tube_L
    r5 = lambda z: float(f"{z:.5g}")
    i.update(dead_bore_m3=r5(0.05*A*stroke_mm*mm + pipe), dead_rod_m3=r5(0.05*(A - Ar)*stroke_mm*mm + pipe))
    for side, k in (("supply", 1.0), ("exhaust", 1.15)):     # valve and tube in series, then rounded: the inputs
        i[side] = [r5(z) for z in series((C*1e-8*k, 0.35), tube(tube_d*mm, tube_L))]
    i["ratio"] = ratio
    pg = bar*1e5
    assert max(load_out) <= 0.7001*pg*A and max(load_back) <= 0.7001*pg*(A - Ar), name
    return i

def lift(kg, friction=0.0, sign=1): w = kg*G*sign; return dict(load_out=[w + friction]*2, load_back=[-w + friction]*2)
def flat(out, back=None): return dict(load_out=[out]*2, load_back=[back if back is not None else out]*2)
CASES = [
    case("b10 level", 10, 4, 20, 6, 0.5, **flat(4), C=0.12, tube_d=2.5, tube_L=1, ratio=3),
    case("b12 up", 12, 6, 50, 6, 1.5, **lift(1.4, 1), C=0.15, tube_d=2.5, tube_L=1, ratio=2.5),
    case("b16 down", 16, 6, 100, 5, 2, **lift(1.9, 2, -1), C=0.25, tube_d=4, tube_L=1.5, ratio=3, note="overruns going out"),
    case("b20 level spring", 20, 8, 80, 6, 3, [10, 90], [-80, -10], C=0.4, tube_d=4, tube_L=1, ratio=2.5, note="linear: a spring that returns"),
    case("b20 friction only", 20, 8, 200, 6, 5, **flat(30), C=0.4, tube_d=4, tube_L=2, ratio=3, note="friction-like force only"),
    case("b25 up", 25, 10, 160, 6, 12, **lift(11.5, 8), C=0.6, tube_d=4, tube_L=2, ratio=3),
    case("b25 down", 25, 10, 320, 7, 15, **lift(14.5, 10, -1), C=0.6, tube_d=4, tube_L=3, ratio=3.5),
    case("b32 level heavy", 32, 12, 250, 6, 60, **flat(60), C=1.0, tube_d=6, tube_L=2, ratio=3, note="mass large for the bore"),
    case("b32 up 0.7", 32, 12, 400, 6, 33, **lift(32, 20), C=1.0, tube_d=6, tube_L=2, ratio=2, note="load factor 0.69"),
    case("b32 light", 32, 12, 500, 4, 1.2, **flat(15), C=1.6, tube_d=6, tube_L=1, ratio=4, note="light and fast"),
    case("b40 counterweight", 40, 16, 900, 6, 140, **lift(15, 45), C=1.4, tube_d=6, tube_L=3, ratio=2, note="77 kg lifted, 62 kg of counterweight: mass 140, force of 15 kg"),
    case("b40 growing", 40, 16, 300, 6, 25, [80, 420], [300, 60], C=1.4, tube_d=6, tube_L=2, ratio=3, note="linear: resists more towards each end"),
    case("b50 up", 50, 20, 600, 6, 60, **lift(58, 30), C=2.0, tube_d=8, tube_L=2, ratio=3),
    case("b50 down 0.5", 50, 20, 250, 5, 48, **lift(46, 20, -1), C=2.0, tube_d=8, tube_L=2, ratio=3, note="strongly overrunning out"),
    case("b63 level", 63, 20, 1000, 6, 80, **flat(120), C=2.8, tube_d=8, tube_L=4, ratio=2.5),
    case("b63 incline", 63, 20, 400, 8, 100, [100*G*0.5 + 60]*2, [-100*G*0.5 + 60]*2, C=2.8, tube_d=8, tube_L=3, ratio=4, note="30 deg up"),
    case("b80 press", 80, 25, 150, 6, 40, [200, 2000], [150, 150], C=4.0, tube_d=10, tube_L=2, ratio=2.5, note="linear: force rises to the end"),
    case("b80 up", 80, 25, 800, 6, 160, **lift(155, 100), C=4.0, tube_d=10, tube_L=3, ratio=2),
    case("b100 down", 100, 25, 500, 6, 220, **lift(210, 100, -1), C=6.0, tube_d=12, tube_L=3, ratio=3),
    case("b125 up", 125, 32, 700, 6, 300, **lift(290, 200), C=9.0, tube_d=12, tube_L=4, ratio=3),
]

def work(i):
    ratio, exp, literal, worst = i.pop("ratio"), {}, {}, 0.0
    for way, out in (("out", True), ("back", False)):
        t_open = stroke(i, out)[0]
        lo, hi = 1e-4, 3.0                                   # meter-out conductance as a share of the exhaust's: bisect roughly, then round
        for _ in range(14):
            mid = sqrt(lo*hi)
            lo, hi = (mid, hi) if stroke(i, out, (mid*i["exhaust"][0], 0.3), 1e-5, "LSODA")[0] > ratio*t_open else (lo, mid)
        i["meter_" + way] = [float(f"{sqrt(lo*hi)*i['exhaust'][0]:.3g}"), 0.3]
        for state, meter in (("open", None), ("metered", i["meter_" + way])):
            r = stroke(i, out, meter)
            for tol, method in ((1e-10, "Radau"), (1e-9, "DOP853")):
                r2 = stroke(i, out, meter, tol, method)
                worst = max(worst, *(abs(a/b - 1) for a, b in zip(r[:3], r2[:3])))
            if r[3]: literal[f"{state}_{way}"] = stroke(i, out, meter, literal=True)[:3]
            exp[f"{state}_{way}"] = dict(zip(("time_s", "greatest_speed_last_10_percent_m_s", "arrival_speed_m_s", "rests_on_the_way"), r))
    return i, {"metered_over_open": [exp["metered_" + w]["time_s"] / exp["open_" + w]["time_s"] for w in ("out", "back")], "disagreement": worst, "literal_no_rest_on_the_way": literal}, exp

if __name__ == "__main__":
    done, name = [], lambda i: i["name"]
    with Pool(2) as pool:
        for i, about, exp in pool.imap(work, CASES if len(sys.argv) < 2 else CASES[:int(sys.argv[1])]):
            print(i["name"], [f"{e['time_s']:.4f}/{e['arrival_speed_m_s']:.3f}/{e['rests_on_the_way']}" for e in exp.values()],
                  [round(z, 2) for z in about["metered_over_open"]], f"{about['disagreement']:.1e}", about["literal_no_rest_on_the_way"], flush=True)
            rnd = lambda v: float(f"{v:.9g}") if isinstance(v, float) else v
            done.append({"name": i.pop("name"), "note": i.pop("note"), "inputs": i, "convergence": about,
                         "expected": {k: {a: rnd(b) for a, b in e.items()} for k, e in exp.items()}})
    tubes = [{"d_m": d, "L_m": L, "C": tube(d, L)[0], "b": tube(d, L)[1]} for d, L in ((0.004, 1.0), (0.006, 3.0), (0.010, 2.0))]
    trials = [[[1e-8, 0.3], [2e-8, 0.4]], [[0.9e-8, 0.25], list(tube(0.004, 2.0))], [[4e-8, 0.35], list(tube(0.008, 2.5)), [1.2e-8, 0.3]]]
    json.dump({"units": "SI; C in m3/(s Pa) at ISO 8778; supply gauge; loads [at start, at end of that stroke], against it, linear in x; supply/exhaust/meter = [C, b]; meter in series with exhaust",
               "tubes": tubes, "series": [{"parts": p, "C": series(*p)[0], "b": series(*p)[1]} for p in trials], "cases": done},
              open("air_stroke.json", "w"), indent=1)
*/
