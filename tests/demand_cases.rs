//! The demand against numbers worked from the method in another language.
//!
//! `tests/outside/demand_cases.json` holds each case's requirements, the numbers and their working;
//! the two scripts that made them stand at the end of this file.

use counterpoise::demand::{Assist, Axis, Counterweight, Demand};
use counterpoise::requirements::{self, Motion};
use serde_json::Value;

/// Both sides follow the same page: they may differ by rounding and by where the samples fall.
const WITHIN: f64 = 0.005;

fn number(value: &Value, path: &str) -> f64 {
    value
        .as_f64()
        .unwrap_or_else(|| panic!("{path} is a number"))
}

fn assist(case: &Value) -> Assist {
    let Some(fields) = case.as_object() else {
        return Assist::None;
    };
    let of = |key: &str| number(&fields[key], key);
    #[allow(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a few sheaves"
    )]
    let sheaves = of("sheaves") as u32;
    Assist::Counterweight(Counterweight {
        mass_kg: of("counterweight_kg"),
        travel_ratio: of("travel_ratio"),
        sheaves,
        loss_per_sheave: of("loss_per_sheave"),
        sheave_mass_kg: of("sheave_mass_kg"),
    })
}

fn demand(case: &Value) -> Demand {
    let text = case["requirements"].to_string();
    let reading = requirements::read(text.as_bytes(), &[])
        .unwrap_or_else(|faults| panic!("{}: {faults:?}", case["name"]));
    let Motion::Slide(slide) = &reading.requirements.motion else {
        panic!("a slide")
    };
    let axis = Axis::new(&reading.requirements, slide);
    axis.demand(
        &reading.requirements,
        &assist(&case["assist"]),
        number(&case["travel_time_s"], "travel_time_s"),
    )
}

/// Compares every number of `expected` that `got` has, by name.
fn compare(name: &str, got: &Value, expected: &Value, off: &mut Vec<String>) -> usize {
    let mut compared = 0;
    for (key, value) in expected.as_object().into_iter().flatten() {
        let (Some(ours), Some(theirs)) = (got[key].as_f64(), value.as_f64()) else {
            continue;
        };
        compared += 1;
        if (ours - theirs).abs() > WITHIN * theirs.abs() + 1e-6 {
            off.push(format!("{name}: {key} is {ours}, worked as {theirs}"));
        }
    }
    compared
}

#[test]
fn the_demand_agrees_with_numbers_worked_apart() {
    let text = include_str!("outside/demand_cases.json");
    let file: Value = serde_json::from_str(text).expect("the cases are JSON");
    let cases = file["cases"].as_array().expect("a list");
    assert!(cases.len() >= 6);
    let (mut off, mut compared) = (Vec::new(), 0);
    for case in cases {
        let name = case["name"].as_str().unwrap_or_default();
        let got = serde_json::to_value(demand(case)).expect("a demand is JSON");
        let expected = &case["expected"];
        compared += compare(name, &got["worst"], &expected["worst"], &mut off);
        compared += compare(
            name,
            &got["emergency_stop"],
            &expected["emergency_stop"],
            &mut off,
        );
        compared += compare(name, &got["stability"], &expected["stability"], &mut off);
        for (ours, theirs) in got["cases"]
            .as_array()
            .into_iter()
            .flatten()
            .zip(expected["cases"].as_array().into_iter().flatten())
        {
            assert_eq!(
                (&ours["load"], &ours["direction"]),
                (&theirs["load"], &theirs["direction"]),
                "{name}"
            );
            let label = format!("{name}, {} {}", theirs["load"], theirs["direction"]);
            compared += compare(&label, ours, theirs, &mut off);
        }
    }
    println!("{compared} numbers of {} cases compared", cases.len());
    assert!(off.is_empty(), "{}", off.join("\n"));
    assert!(
        compared > 20 * cases.len(),
        "only {compared} numbers compared"
    );
}

/* The scripts that made the numbers (Python). First the mathematics:

"""Demand of a straight axis (method 1.1, 1.2, 1.4, 1.5, 1.6), written from the method page alone. SI inside."""
import json, math, re
from math import pi, sin, cos, sqrt
G = 9.80665
UNIT = {"mm": 1e-3, "m": 1, "kg": 1, "N": 1, "s": 1, "min": 60, "deg": pi / 180}

def q(text, default="0 m"):
    number, unit = re.fullmatch(r"(\S+) (\S+)", text or default).groups()
    return float(number) * UNIT[unit]

def law(name, ramps=(1 / 3, 1 / 3)):
    """-> (state(τ, side) = (s, s', s''), Cv, Ca, jumps inside the stroke)."""
    poly = {"polynomial_345": ([0, 0, 0, 10, -15, 6], 15 / 8, 10 / sqrt(3)),
            "polynomial_4567": ([0, 0, 0, 0, 35, -84, 70, -20], 35 / 16, 84 * sqrt(5) / 25)}
    if name in poly:
        c, cv, ca = poly[name]
        return lambda t, _=1: (sum(k * t**i for i, k in enumerate(c)),
                               sum(i * k * t**(i - 1) for i, k in enumerate(c) if i),
                               sum(i * (i - 1) * k * t**(i - 2) for i, k in enumerate(c) if i > 1)), cv, ca, []
    if name == "cycloidal":
        return lambda t, _=1: (t - sin(2*pi*t) / (2*pi), 1 - cos(2*pi*t), 2*pi * sin(2*pi*t)), 2, 2*pi, []
    if name == "harmonic":
        return lambda t, _=1: ((1 - cos(pi*t)) / 2, pi/2 * sin(pi*t), pi*pi/2 * cos(pi*t)), pi/2, pi*pi/2, []
    # the rest: pieces (length, amplitude, angular rate, phase) with s'' = amplitude · cos(rate·u + phase), u from the piece's start
    if name == "trapezoid":
        fa, fd = ramps
        cv = 1 / (1 - (fa + fd) / 2)
        ca, jumps = max(cv / fa, cv / fd), sorted({fa, 1 - fd})
        pieces = [(fa, cv / fa, 0, 0), (1 - fa - fd, 0, 0, 0), (fd, -cv / fd, 0, 0)]
    elif name == "modified_sine":
        cv, ca, jumps = 4*pi / (4 + pi), 4*pi*pi / (4 + pi), []
        pieces = [(1/8, ca, 4*pi, -pi/2), (3/4, ca, 4*pi/3, 0), (1/8, -ca, 4*pi, 0)]
    elif name == "modified_trapezoid":
        cv, ca, jumps = 2, 8*pi / (2 + pi), []
        pieces = [(1/8, ca, 4*pi, -pi/2), (1/4, ca, 0, 0), (1/4, ca, 4*pi, 0), (1/4, -ca, 0, 0), (1/8, -ca, 4*pi, 0)]
    def state(t, side=1):
        s = v = start = 0.0
        for i, (d, A, w, ph) in enumerate(pieces):
            last = i == len(pieces) - 1 or (t < start + d - 1e-12) or (side < 0 and t <= start + d + 1e-12)
            u = t - start if last else d
            if w: ds, dv = v*u + A/w * sin(ph) * -u - A/w**2 * (cos(w*u + ph) - cos(ph)), A/w * (sin(w*u + ph) - sin(ph))
            else: ds, dv = v*u + A*u*u/2, A*u
            s, v, start = s + ds, v + dv, start + d
            if last: return s, v, A * cos(w*u + ph)
    return state, cv, ca, jumps

def interp(points, key, x, side):
    """Piecewise linear, constant beyond the ends; side -1/+1: just below / just above a jump."""
    if not points: return 0.0
    P = [(q(p["at"]), q(p.get(key), "0 N")) for p in points]
    if x < P[0][0] or (x == P[0][0] and side < 0): return P[0][1]
    for (x0, y0), (x1, y1) in zip(P, P[1:]):
        if x0 < x1 and (x0 < x < x1 or (x == x0 and side > 0) or (x == x1 and side < 0)):
            return y0 + (y1 - y0) * (x - x0) / (x1 - x0)
    return P[-1][1] if x >= P[-1][0] else next(y for a, y in P if a == x)

def demand(req, assist, T):
    mo, ti = req["motion"], req["timing"]
    S, th = q(mo["travel"]), q(mo["incline"])
    e, d, c0, drag = q(mo.get("offset")), q(mo.get("drive_offset")), q(mo.get("overhang")), q(mo.get("drag"), "0 N")
    mu, b, proc = mo["guide"]["friction"], q(mo["guide"]["bearing_spacing"]), mo.get("process", [])
    state, Cv, Ca, jumps = law(mo.get("law", "trapezoid"), mo.get("ramps", (1/3, 1/3)))
    vmax, amax, kappa = Cv * S / T, Ca * S / T**2, 2 * mu * d / b
    assert kappa < 1
    A = assist or dict(counterweight_kg=0, travel_ratio=0, sheaves=0, loss_per_sheave=0, sheave_mass_kg=0)
    mc, k = A["counterweight_kg"], A["travel_ratio"]
    rotary = k*k*mc + A["sheave_mass_kg"]
    loss = A["sheaves"] * A["loss_per_sheave"] * k * mc * G

    def force(m, sgn, x, a, P):
        own = m * (a + G * sin(th)) + sgn * P                                   # the load's own Q
        net = (m + rotary) * a + (m * sin(th) - k * mc) * G + sgn * (P + loss)  # without guide friction
        c = c0 + (x if mo.get("overhang_grows") else 0)
        level = m * G * abs(cos(th))
        F = net
        for _ in range(10000):                                                  # contraction, factor 2μd/b < 1
            new = net + sgn * (mu * max(level, 2 * (abs(own)*e + abs(F)*d + level*c) / b) + drag)
            done, F = abs(new - F) <= 1e-13 * abs(new), new
            if done: return F
        raise ArithmeticError

    def instants(out):
        """(τ, side of jump) of one stroke: 241 equal, both sides of jumps of a and of process breakpoints."""
        marks = [(i / 240, None) for i in range(241)] + [(j, "a") for j in jumps]
        for at in sorted({q(p["at"]) for p in proc if 0 < q(p["at"]) < S}):
            goal, lo, hi = (at if out else S - at) / S, 0.0, 1.0
            while hi - lo > 1e-16 and lo < (mid := (lo + hi) / 2) < hi: lo, hi = (mid, hi) if state(mid)[0] < goal else (lo, mid)
            marks.append((lo, at))
        seen = []
        for t, kind in sorted(marks, key=lambda z: z[0]):
            if seen and t - seen[-1][0] < 1e-12: seen[-1] = (t, max((kind, seen[-1][1]), key=lambda z: (z is not None) + isinstance(z, float)))
            else: seen.append((t, kind))
        for t, kind in seen:
            for side in ((-1, 1) if kind else (1,)):
                s, v, a = state(t, side)
                x = kind if isinstance(kind, float) else (S * s if out else S * (1 - s))
                yield t * T, x, v * S / T, a * S / T**2, side

    def a_stop(v):
        sd = q(req["base"]["stop_distance"]) if req.get("base", {}).get("stop_distance") else None
        return v*v / (2*sd) if sd else min(req.get("rules", {}).get("stop_deceleration", 5.0), v*v / (2 * 0.002))

    cases, worst, loads = [], {}, [("least", q(mo["load"].get("least", mo["load"]["most"]))), ("most", q(mo["load"]["most"]))]
    best, stop_force, margins = (-1, 0), 0.0, {"static": (9, 0, ""), "dynamic": (9, 0, ""), "emergency_stop": (9, 0, "")}
    trap = lambda t, y: sum((t[i+1] - t[i]) * (y[i+1] + y[i]) / 2 for i in range(len(t) - 1))
    up = lambda key, value: worst.__setitem__(key, max(worst.get(key, 0.0), value))
    cycle = 3600 / ti["cycles_per_hour"]
    rest_out = q(ti.get("rest_out"), "0 s")
    rest_back = cycle - 2*T - rest_out
    assert rest_back >= q(ti.get("rest_back"), "0 s")
    for load, m in loads:
        sq = win = wout = 0.0
        for direction, sgn in (("out", 1), ("back", -1)):
            t, F, stat, power = [], [], [], []
            for ti_, x, v, a, side in instants(sgn > 0):
                a, side = sgn * a, side * sgn                       # back: time runs against x
                P = interp(proc, direction, x, side)
                f, fs = force(m, sgn, x, a, P), force(m, sgn, x, 0, P)
                t.append(ti_); F.append(f); stat.append(fs); power.append(f * sgn * v)
                if max(abs(f), abs(fs)) > best[0] * (1 + 1e-9): best = (max(abs(f), abs(fs)), x)
                stop_force = max(stop_force, abs(force(m, sgn, x, -sgn * a_stop(vmax), P)))
                if "base" in req:
                    for kind, acc in (("static", 0), ("dynamic", a), ("emergency_stop", -sgn * a_stop(v))):
                        for edge, mg in margin(req["base"], m, x, th, acc, mc, k):
                            if mg < margins[kind][0] - 1e-9: margins[kind] = (mg, x, edge)
            cases.append({"load": load, "direction": direction, "static_peak_n": max(map(abs, stat)), "dynamic_peak_n": max(map(abs, F))})
            both, area = F + stat, trap(t, [f*f for f in F])
            up("static_peak_n", cases[-1]["static_peak_n"]); up("dynamic_peak_n", cases[-1]["dynamic_peak_n"])
            up("push_peak_n", max(both)); up("pull_peak_n", -min(both)); up("rms_moving_n", sqrt(area / T))
            up("peak_motoring_power_w", max(power)); up("peak_braking_power_w", -min(power))
            sq += area; win += trap(t, [max(p, 0) for p in power]); wout += trap(t, [max(-p, 0) for p in power])
        hold = lambda x, side: abs((m * sin(th) - k * mc) * G + interp(proc, "hold", x, side))
        ends_only = req.get("power_loss") == "may_move" and req["stops"] == "ends"
        where = [(0.0, 1), (S, -1)] + ([] if ends_only else [(q(p["at"]), s) for p in proc if 0 < q(p["at"]) < S for s in (-1, 1)])
        up("holding_n", max(hold(*w) for w in where))
        up("rms_cycle_n", sqrt((sq + hold(S, -1)**2 * rest_out + hold(0.0, 1)**2 * rest_back) / cycle))
        up("rms_cycle_no_hold_n", sqrt(sq / cycle)); up("work_in_j", win); up("work_out_j", wout)
        up("kinetic_energy_j", (m + rotary) * vmax**2 / 2)
    worst.update(dynamic_over_static=worst["dynamic_peak_n"] / worst["static_peak_n"], peak_speed_m_s=vmax, peak_acceleration_m_s2=amax,
                 peak_power_w=max(worst["peak_motoring_power_w"], worst["peak_braking_power_w"]), binding_ratio=kappa, worst_position_m=best[1])
    out = {"worst": worst, "cases": cases, "emergency_stop": {"deceleration_m_s2": a_stop(vmax), "force_peak_n": stop_force}}
    if "base" in req:
        low = min(margins.values(), key=lambda z: z[0])
        out["stability"] = {f"margin_{n}": z[0] for n, z in margins.items()} | {"worst_position_m": low[1], "edge": low[2]}
    return out

def margin(base, m, x, th, a, mc, k):
    """Least (restoring - overturning)/restoring about the front, back and side edges; acc a of the load along out."""
    L, W, M = q(base["length"]), q(base["width"]), q(base["mass"])
    reach = q(base.get("load_reach")) + x * cos(th)
    h = q(base.get("load_height", base["centre_height"])) + x * sin(th)
    down = [(M * G, q(base.get("centre_x"))), (m * G, reach), (m * a * sin(th), reach),
            (mc * G, q(base.get("assist_reach"))), (-k * mc * a, q(base.get("assist_reach")))]    # (force down, where)
    push = -m * a * cos(th)                                                                       # inertia, towards the front
    for edge, moments in (("front", [f * (L/2 - at) for f, at in down] + [-push * h]),
                          ("back", [f * (L/2 + at) for f, at in down] + [push * h]),
                          ("side", [f * W/2 for f, _ in down])):
        R = sum(z for z in moments if z > 0)
        yield edge, (R + sum(z for z in moments if z < 0)) / R

Then the cases and their checks by hand:

"""Writes demand_cases.json. Each case carries hand checks: field -> arithmetic done apart from demand.py, asserted to agree."""
import json
from math import pi, sin, cos, sqrt, radians
from demand import demand, G
R30, R15 = radians(30), radians(15)

def req(T, motion, timing=None, **more):
    m = {"kind": "slide", "incline": "90 deg", "travel": "900 mm", "load": {"least": "80 kg", "most": "85 kg"}, "offset": "0 mm",
         "drive_offset": "0 mm", "overhang": "0 mm", "overhang_grows": False, "drag": "0 N",
         "guide": {"friction": 0.05, "bearing_spacing": "400 mm", "supplied": True}, "law": "trapezoid"} | motion
    if m["law"] == "trapezoid": m.setdefault("ramps", [0.25, 0.25])
    return {"format": "counterpoise-requirements/2", "title": "second opinion", "currency": "EUR", "motion": m,
            "timing": {"rest_out": "10 s", "rest_back": "5 s", "cycles_per_hour": 60, "hours_per_day": 8, "days_per_year": 220, "years": 10} | (timing or {}),
            "stops": "ends", "power_loss": "hold",
            "site": {"mains": {"voltage": "230 V", "power": "2.5 kW"}, "temperature": {"least": "5 degC", "most": "40 degC"},
                     "dirt": "clean", "water": "dry", "oil_tolerated": True, "explosive_atmosphere": False},
            "goals": {"travel_time": {"limit": f"{T} s"}}} | more

def cw(mc, k, n, eps, js): return dict(counterweight_kg=mc, travel_ratio=k, sheaves=n, loss_per_sheave=eps, sheave_mass_kg=js)
BASE = {"length": "1.2 m", "width": "0.8 m", "mass": "150 kg", "centre_height": "0.7 m", "centre_x": "0 m",
        "load_reach": "0.3 m", "load_height": "0.7 m", "assist_reach": "0 m", "bolted": False}
GUIDE = lambda mu, b: {"friction": mu, "bearing_spacing": b, "supplied": True}
CASES = []
def add(name, why, r, checks, assist=None): CASES.append((name, why, r, checks, assist))

add("vertical_lift", "plain vertical lift, offset 60 mm, trapezoid 1/4-1/4",
    req(3, {"offset": "60 mm"}), {
    "peak_speed_m_s": ("0.9/3/(1-0.25)", "mean speed over 1-(fa+fd)/2"),
    "peak_acceleration_m_s2": ("0.4/(0.25*3)", "peak speed over ramp time"),
    "static_peak_n": ("85*G*(1+2*0.05*60/400)", "Q + mu*2*Q*e/b, lifting the most load"),
    "dynamic_peak_n": ("85*(G+0.533333333)*(1+2*0.05*60/400)", "same with a"),
    "peak_motoring_power_w": ("85*(G+0.533333333)*(1+0.015)*0.4", "end of the start ramp, out"),
    "peak_braking_power_w": ("85*(G+0.533333333)*(1-0.015)*0.4", "start of the stop ramp, back: a points up, friction helps"),
    "rms_cycle_no_hold_n": ("85*sqrt(sum(T*((G+a)*f)**2 for T,a,f in [(.75,.533333333,1.015),(1.5,0,1.015),(.75,-.533333333,1.015),"
                            "(.75,-.533333333,.985),(1.5,0,.985),(.75,.533333333,.985)])/60)", "six constant stretches"),
    "work_in_j": ("85*G*1.015*0.9", "inertia cancels over the stroke")})
add("vertical_asymmetric_trapezoid", "ramps 0.2 / 0.4 of every stroke, not on the grid of a mirrored stroke; drag 40 N",
    req(2, {"ramps": [0.2, 0.4], "travel": "700 mm", "drag": "40 N", "load": {"least": "20 kg", "most": "30 kg"}}), {
    "peak_speed_m_s": ("0.7/2/(1-0.3)", ""), "peak_acceleration_m_s2": ("0.5/0.4", "the shorter ramp, start"),
    "dynamic_peak_n": ("30*(G+1.25)+40", "out, start ramp"),
    "peak_braking_power_w": ("(30*(G+0.5/0.8)-40)*0.5", "back, stop ramp 0.8 s")})
add("drive_offset_vertical", "F solved with the couple; e and d both add; binding ratio 0.2",
    req(2.5, {"offset": "80 mm", "drive_offset": "150 mm", "guide": GUIDE(0.2, "300 mm"), "law": "cycloidal", "load": {"least": "40 kg", "most": "60 kg"}}), {
    "binding_ratio": ("2*0.2*150/300", ""),
    "dynamic_peak_n": ("60*(G+2*pi*0.9/2.5**2)*(1+2*0.2*80/300)/(1-0.2)", "F = Q + k_e Q + 0.2 F  ->  F = Q(1+k_e)/(1-0.2), at a quarter of the time (grid instant 60)"),
    "static_peak_n": ("60*G*(1+2*0.2*80/300)/0.8", "")})
add("drive_offset_level", "level, drive line 200 mm off: F small against weight, max() of weight and couple switches inside the stroke; back F negative",
    req(1.2, {"incline": "0 deg", "drive_offset": "200 mm", "offset": "30 mm", "guide": GUIDE(0.3, "250 mm"), "drag": "15 N", "law": "modified_sine",
              "travel": "800 mm", "load": {"least": "50 kg", "most": "50 kg"}}), {
    "binding_ratio": ("2*0.3*200/250", ""),
    "static_peak_n": ("0.3*50*G+15", "couple 2*F*d/b = 259 N stays below the weight 490 N at rest"),
    "dynamic_peak_n": ("(50*A*(1+2*0.3*30/250)+15)/(1-0.48)", "A = 4pi^2/(4+pi)*S/T^2; couple above the weight; grid instant 30")})
add("overhang_grows", "level, the centre of mass moves out of the bearings: c = 0.1 m + x",
    req(2, {"incline": "0 deg", "travel": "600 mm", "overhang": "100 mm", "overhang_grows": True, "offset": "40 mm", "guide": GUIDE(0.1, "250 mm"),
            "load": {"least": "30 kg", "most": "45 kg"}}), {
    "static_peak_n": ("0.1*2*45*G*0.7/0.25", "c = 0.7 m at the out end (Q = 0 at rest, so e adds nothing)"),
    "worst_position_m": ("0.6", "back stroke, first instant: inertia and the greatest friction together"),
    "dynamic_peak_n": ("45*0.8+0.1*2*(45*G*0.7+45*0.8*0.04)/0.25", "a = 0.4/0.5; back start at x = 0.6")})
add("process_jump_and_hold", "level press: jump at 200 mm, ramp to 1200 N, hold 600 N at the end pushing back; power may not be lost",
    req(4, {"incline": "0 deg", "travel": "350 mm", "guide": GUIDE(0.1, "300 mm"), "law": "polynomial_345", "load": {"least": "25 kg", "most": "25 kg"},
            "process": [{"at": "0 mm", "out": "50 N", "back": "20 N", "hold": "0 N"}, {"at": "200 mm", "out": "50 N", "back": "20 N", "hold": "0 N"},
                        {"at": "200 mm", "out": "800 N", "back": "150 N", "hold": "300 N"}, {"at": "300 mm", "out": "1200 N", "back": "30 N", "hold": "600 N"}]}), {
    "static_peak_n": ("1200+0.1*25*G", "constant beyond 300 mm"), "holding_n": ("600", ""),
    "work_in_j": ("50*.2+1000*.1+1200*.05+2*0.1*25*G*.35+30*.05+90*.1+20*.2", "areas under P(x) plus friction, out + back; inertia cancels")})
add("vertical_down_process", "downhill -90: out is down; P resists the descent only near the end; hold negative (pulls out)",
    req(3, {"incline": "-90 deg", "travel": "500 mm", "offset": "50 mm", "law": "polynomial_4567", "load": {"least": "20 kg", "most": "35 kg"},
            "process": [{"at": "300 mm", "out": "0 N", "back": "0 N", "hold": "0 N"}, {"at": "450 mm", "out": "900 N", "back": "100 N", "hold": "-200 N"}]}), {
    "holding_n": ("35*G+200", "-m g and -200 N add at 450 mm and beyond"),
    "static_peak_n": ("abs(20*-G+900)*(1+2*.05*50/400)", "least load helps least against 900 N: |F| = (900-20g)*1.0125; back 35g+100 = 443*1.0125 is less")})
add("downhill_overrunning", "-30 deg, the weight overruns friction: brake on the way out",
    req(2, {"incline": "-30 deg", "travel": "1000 mm", "guide": GUIDE(0.08, "400 mm"), "drag": "20 N", "law": "harmonic", "load": {"least": "60 kg", "most": "90 kg"}}), {
    "dynamic_peak_n": ("90*(G*sin(R30)+pi**2/2*1/4)+0.08*90*G*cos(R30)+20", "back (uphill) start, harmonic jumps at once to pi^2/2 S/T^2"),
    "static_peak_n": ("90*G*sin(R30)+0.08*90*G*cos(R30)+20", ""),
    "push_peak_n": ("0", "never a push: out start is 111 - 441 + 61 + 20 = -249 N, back is a pull throughout")})
add("counterweight_ratio_2", "mass at twice the travel, three plain sheaves with inertia, offset: Q the load's own in the couple, drive offset sees the net force",
    req(2, {"offset": "100 mm", "drive_offset": "60 mm", "guide": GUIDE(0.1, "300 mm"), "law": "modified_trapezoid", "travel": "800 mm", "load": {"least": "100 kg", "most": "130 kg"}}), {
    "dynamic_peak_n": ("((130+4*56+6)*A+(130-112)*G+3*.05*2*56*G+2*.1*100/300*130*(G+A))/(1-2*.1*60/300)", "A = 8pi/(2+pi)*0.8/4; (m+k2mc+Js)a+(m-k mc)g+n eps k mc g+friction of Q, F/(1-0.04)"),
    "kinetic_energy_j": ("(130+4*56+6)*0.8**2/2", "peak speed 2*0.8/2"),
    "holding_n": ("18*G", "most +18 kg, least -12 kg")}, cw(56, 2, 3, 0.05, 6))
add("counterweight_wide_load", "1:1 counterweight, load 5 to 200 kg: the least load is pulled up; energy flows back",
    req(4, {"load": {"least": "5 kg", "most": "200 kg"}, "travel": "1500 mm", "law": "cycloidal"}), {
    "holding_n": ("(200-100)*G", "least: 95 kg upward"), "dynamic_peak_n": ("(200+100)*2*pi*1.5/16+100*G+2*.02*100*G", ""),
    "pull_peak_n": ("(105*2*pi*1.5/16)+95*G+2*.02*100*G", "least load, back: drawn down against the weight, at the start")}, cw(100, 1, 2, 0.02, 0))
add("wide_load_range", "60 deg, 5 to 400 kg without assist: the least load decides nothing but is reported",
    req(6, {"incline": "60 deg", "load": {"least": "5 kg", "most": "400 kg"}, "travel": "1200 mm", "overhang": "150 mm", "guide": GUIDE(0.12, "500 mm"), "law": "polynomial_345"}), {
    "static_peak_n": ("400*G*(sin(2*R30)+0.12*cos(2*R30))", "2c/b = 0.6 < 1, so the weight's pressure on the guide governs"), "holding_n": ("400*G*sin(2*R30)", "")})
P_MID = [{"at": f"{x} mm", "out": "0 N", "back": "0 N", "hold": f"{h} N"} for x, h in ((0, 0), (400, 500), (600, 500), (800, 100))]
for name, pl, stops, hand in (("may_move_ends", "may_move", "ends", "50*G*0.5+100"), ("may_move_several", "may_move", "several", "50*G*0.5+500"), ("hold_ends", "hold", "ends", "50*G*0.5+500")):
    add("holding_" + name, f"hold force peaks mid-travel; power_loss {pl}, stops {stops}",
        req(3, {"incline": "30 deg", "travel": "800 mm", "load": {"least": "30 kg", "most": "50 kg"}, "process": P_MID}, power_loss=pl, stops=stops), {"holding_n": (hand, "")})
add("level_overhung_with_base", "level slide reaching out of its base, stop distance 10 mm: stability static, dynamic, emergency",
    req(2, {"incline": "0 deg", "travel": "700 mm", "load": {"least": "10 kg", "most": "40 kg"}, "overhang": "50 mm", "law": "modified_sine"}, base=BASE | {"stop_distance": "10 mm"}), {
    "stability.margin_static": ("(150*.6-40*.4)/(150*.6)", "front edge, x = 0.7: reach 1.0 m"),
    "emergency_stop.deceleration_m_s2": ("(4*pi/(4+pi)*.35)**2/.02", ""),
    "stability.margin_emergency_stop": ("min((150*G*.6-40*(G*((.3+x)-.6)+A*.7))/(150*G*.6) for x,A in PATH)", "front edge, out: with v(t) of the instant; path re-tabulated by numerical integration of the law")})
add("level_base_no_stop_distance", "the same without a stop distance: min(5 m/s², v²/4 mm)",
    req(2, {"incline": "0 deg", "travel": "700 mm", "load": {"least": "10 kg", "most": "40 kg"}, "overhang": "50 mm", "law": "modified_sine"}, base=BASE), {
    "emergency_stop.deceleration_m_s2": ("5", "v = 0.62 m/s: v²/4 mm = 95 m/s²"),
    "emergency_stop.force_peak_n": ("40*5-.05*40*G", "friction helps to stop; weight's own pressure governs (2c/b < 1)")})
add("slow_no_stop_distance", "emergency stop from 0.12 m/s without distance: v²/(2*2 mm) = 3.6 m/s² governs",
    req(10, {}), {"emergency_stop.deceleration_m_s2": ("0.12**2/0.004", ""), "emergency_stop.force_peak_n": ("85*(G+3.6)", "back, stopped from going down")})
add("incline_counterweight_base", "45 deg, counterweight standing 0.4 m behind: its vertical inertia counts, the load's has both parts",
    req(2.2, {"incline": "45 deg", "travel": "900 mm", "offset": "50 mm", "load": {"least": "50 kg", "most": "60 kg"}, "law": "cycloidal"},
        base=BASE | {"assist_reach": "-0.4 m", "stop_distance": "60 mm", "load_height": "0.9 m"}), {
    "stability.margin_static": ("(150*.6+40*1.0-60*(.3+.9*cos(pi/4)-.6))/(150*.6+40*1.0)", "front edge, out end, most load"),
    "holding_n": ("max(60*sin(pi/4)-40, 40-50*sin(pi/4))*G", "")}, cw(40, 1, 2, 0.02, 1.5))
for law in ("trapezoid", "cycloidal", "polynomial_345", "polynomial_4567", "modified_sine", "modified_trapezoid", "harmonic"):
    ca = {"trapezoid": "4.5", "cycloidal": "2*pi", "polynomial_345": "10/sqrt(3)", "polynomial_4567": "84*sqrt(5)/25", "modified_sine": "4*pi**2/(4+pi)",
          "modified_trapezoid": "8*pi/(2+pi)", "harmonic": "pi**2/2"}[law]
    add("law_" + law, "one axis, each law: 15 deg, 20 to 70 kg" + (", default ramps 1/3" if law == "trapezoid" else ""),
        req(1.5, {"incline": "15 deg", "load": {"least": "20 kg", "most": "70 kg"}, "law": law} | ({"ramps": [1/3, 1/3]} if law == "trapezoid" else {})), {
        "peak_acceleration_m_s2": (f"{ca}*.9/1.5**2", ""),
        "dynamic_peak_n": (f"70*(G*sin(R15)+{ca}*.9/1.5**2)+.05*70*G*cos(R15)", "closed-form peak; a grid that misses it by half a step is at most 1e-5 low")})

out = []
for name, why, r, checks, assist in CASES:
    T = float(r["goals"]["travel_time"]["limit"].split()[0])
    exp = demand(r, assist, T)
    S = float(r["motion"]["travel"].split()[0]) / 1000
    ca = {"modified_sine": 4*pi*pi/(4+pi), "modified_trapezoid": 8*pi/(2+pi)}.get(r["motion"]["law"], 0)
    N, v, x, PATH = 24000, 0.0, 0.0, []                  # the modified sine, integrated crudely
    for i in range(N):
        u = (i + .5) / N
        v += (sin(4*pi*u) if u < .125 or u > .875 else cos(4*pi/3*(u - .125))) * 4*pi*pi/(4+pi) * .7/4 * 2/N
        x += v * 2/N; PATH.append((x, v*v/.02))
    work = []
    for field, (expr, note) in checks.items():
        val = eval(expr, globals() | {"A": ca * S / T**2, "PATH": PATH})
        got = exp
        for part in (field.split(".") if "." in field else ["worst", field]): got = got[part]
        flag = abs(got - val) <= 2e-4 * abs(val) + 1e-9
        if not flag: print("DIFFERS", name, field, got, val)
        work.append(f"{field} = {expr} = {val:.6g}" + (f" ({note})" if note else ""))
    rnd = lambda o: {k: rnd(v) for k, v in o.items()} if isinstance(o, dict) else [rnd(v) for v in o] if isinstance(o, list) else float(f"{o:.10g}") if isinstance(o, float) else o
    out.append({"name": name, "why": why, "requirements": r, "assist": assist, "travel_time_s": T, "expected": rnd(exp), "working": "\n".join(work)})
json.dump({"cases": out}, open("demand_cases.json", "w"), indent=1, ensure_ascii=False)
print(len(out), "cases")
*/
