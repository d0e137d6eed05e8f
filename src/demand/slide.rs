//! The demand of a straight axis.

use super::figures::{Case, Demand, Direction, Emergency, Figures, Loading, Sample};
use super::instants::{self, Instant};
use super::process::{Curve, Process};
use super::{Assist, guide, stability};
use crate::quantity::{G_M_S2, Si};
use crate::requirements::{Law, PowerLoss, Requirements, Slide, Stops};

/// Two figures nearer than this are the same.
pub(super) const TIE: f64 = 1e-9;

/// A straight axis, ready to be evaluated.
#[derive(Debug, Clone)]
pub struct Axis {
    /// Travel, m.
    pub travel_m: f64,
    /// Least and most load, kg.
    pub loads_kg: [f64; 2],
    /// Sine of the incline.
    pub sin: f64,
    /// Cosine of the incline, never negative.
    pub cos: f64,
    pub(super) offset_m: f64,
    pub(super) drive_offset_m: f64,
    pub(super) overhang_m: f64,
    pub(super) overhang_grows: bool,
    drag_n: f64,
    friction: f64,
    pub(super) spacing_m: f64,
    pub(super) process: Process,
    law: Law,
    cycle_s: f64,
    rest_out_s: f64,
    hold_only_at_ends: bool,
    stop_distance_m: Option<f64>,
    stop_deceleration: f64,
    stop_distance_default_m: f64,
    rails_wanted: bool,
    /// Instants of a stroke out and of one back.
    instants: [Vec<Instant>; 2],
}

impl Axis {
    /// From the requirements.
    #[must_use]
    pub fn new(job: &Requirements, slide: &Slide) -> Self {
        let incline = slide.incline.si();
        // A vertical axis has no weight across it: what is left of cos(90°) is rounding.
        let cos = libm::cos(incline);
        let process = Process::new(&slide.process);
        let stroke = |direction| instants::of(slide.law, &process, slide.travel.si(), direction);
        Self {
            instants: [stroke(Direction::Out), stroke(Direction::Back)],
            travel_m: slide.travel.si(),
            loads_kg: [slide.load.least.si(), slide.load.most.si()],
            sin: libm::sin(incline),
            cos: if cos < 1e-12 { 0.0 } else { cos },
            offset_m: slide.offset.si(),
            drive_offset_m: slide.drive_offset.si(),
            overhang_m: slide.overhang.si(),
            overhang_grows: slide.overhang_grows,
            drag_n: slide.drag.si(),
            friction: slide.guide_friction,
            spacing_m: slide.bearing_spacing.si(),
            process,
            law: slide.law,
            cycle_s: job.timing.cycle_s(),
            rest_out_s: job.timing.rest_out.si(),
            hold_only_at_ends: job.power_loss == PowerLoss::MayMove && job.stops == Stops::Ends,
            stop_distance_m: job.base.and_then(|base| base.stop_distance).map(Si::si),
            stop_deceleration: job.rules.stop_deceleration,
            stop_distance_default_m: job.rules.stop_distance_default,
            rails_wanted: !slide.guide_supplied,
        }
    }

    /// How near the guide is to binding: `2 μ d/b` (two-point couple).
    #[must_use]
    pub fn binding_ratio(&self) -> f64 {
        2.0 * self.friction * self.drive_offset_m / self.spacing_m
    }

    /// Force of the drive along "out" at a position, moving or about to move in a direction.
    ///
    /// `F = Q + assist + sgn·(μ·max(m g|cosθ|, 2M/b) + F_drag + sheave friction)` with
    /// `Q = m(a + g sinθ) + sgn·P` and `M = |Q|e + |F|d + m g|cosθ|c`, solved for `F`.
    #[must_use]
    pub fn force_n(
        &self,
        assist: &Assist,
        mass_kg: f64,
        x_m: f64,
        a_m_s2: f64,
        direction: Direction,
        upper: bool,
    ) -> f64 {
        let going = Going::new(self, assist, mass_kg, direction);
        going.at(x_m, upper).force_n(a_m_s2)
    }

    /// Force to hold the load at rest at a position, friction not relied on; positive pushes outward.
    #[must_use]
    pub fn holding_n(&self, assist: &Assist, mass_kg: f64, x_m: f64, upper: bool) -> f64 {
        mass_kg * G_M_S2 * self.sin - assist.pull_n() + self.process.at(Curve::Hold, x_m, upper)
    }

    /// Force that the process pushes back with at rest, N, the greater at a jump.
    #[must_use]
    pub fn process_hold_n(&self, x_m: f64) -> f64 {
        let at = |upper| self.process.at(Curve::Hold, x_m, upper).abs();
        at(true).max(at(false))
    }
    /// Deceleration of an emergency stop from a speed.
    #[must_use]
    pub fn stop_deceleration(&self, speed_m_s: f64) -> f64 {
        let over = |distance: f64| speed_m_s * speed_m_s / (2.0 * distance);
        match self.stop_distance_m {
            Some(distance) => over(distance),
            None => self
                .stop_deceleration
                .min(over(self.stop_distance_default_m)),
        }
    }

    /// The motion law.
    #[must_use]
    pub fn law(&self) -> Law {
        self.law
    }

    /// The demand at a travel time, with an assist.
    #[must_use]
    pub fn demand(&self, job: &Requirements, assist: &Assist, travel_time_s: f64) -> Demand {
        let speed = self.law.cv() * self.travel_m / travel_time_s;
        let mut demand = Demand {
            travel_time_s,
            worst: Figures::default(),
            cases: Vec::with_capacity(4),
            holding_push_n: 0.0,
            holding_pull_n: 0.0,
            emergency_stop: Emergency {
                deceleration_m_s2: self.stop_deceleration(speed),
                ..Emergency::default()
            },
            stability: None,
            rails: None,
        };
        for (loading, mass_kg) in [Loading::Least, Loading::Most]
            .into_iter()
            .zip(self.loads_kg)
        {
            let (push, pull) = self.holding_range(assist, mass_kg);
            let unsure_n = job.rules.balance_tolerance * assist.pull_n();
            demand.holding_push_n = demand.holding_push_n.max(push).max(unsure_n);
            demand.holding_pull_n = demand.holding_pull_n.max(pull).max(unsure_n);
            let stroke = |direction| {
                self.stroke(
                    assist,
                    mass_kg,
                    direction,
                    travel_time_s,
                    demand.emergency_stop.deceleration_m_s2,
                )
            };
            let profiles = [stroke(Direction::Out), stroke(Direction::Back)];
            let mut cycle = self.cycle(
                &profiles,
                travel_time_s,
                self.rest_squares(assist, mass_kg, travel_time_s),
            );
            cycle.holding_n = push.max(pull);
            for (direction, profile) in [Direction::Out, Direction::Back].into_iter().zip(profiles)
            {
                let mut figures = stroke_figures(&profile, cycle);
                figures.peak_speed_m_s = speed;
                figures.peak_acceleration_m_s2 =
                    self.law.ca() * self.travel_m / (travel_time_s * travel_time_s);
                figures.kinetic_energy_j =
                    0.5 * (mass_kg + assist.moving_mass_kg()) * speed * speed;
                figures.binding_ratio = self.binding_ratio();
                demand.cases.push(Case {
                    load: loading,
                    direction,
                    load_kg: mass_kg,
                    figures,
                    static_push_n: profile.iter().map(|s| s.static_force_n).fold(0.0, f64::max),
                    static_pull_n: profile
                        .iter()
                        .map(|s| -s.static_force_n)
                        .fold(0.0, f64::max),
                    profile,
                });
            }
        }
        demand.emergency_stop = emergency(demand.emergency_stop.deceleration_m_s2, &demand.cases);
        demand.worst = worst(&demand.cases);
        demand.stability = job
            .base
            .map(|base| stability::of(self, &base, assist, &demand, job.rules.stability_least));
        demand.rails = self
            .rails_wanted
            .then(|| guide::of(self, &demand.cases, demand.emergency_stop.deceleration_m_s2));
        demand
    }

    /// Greatest force on the drive at rest or in motion, either load, either way: what a drive is sized on.
    #[must_use]
    pub fn thrust_n(&self, assist: &Assist, travel_time_s: f64) -> f64 {
        let mut most = 0.0_f64;
        for mass_kg in self.loads_kg {
            for direction in [Direction::Out, Direction::Back] {
                let profile = self.stroke(assist, mass_kg, direction, travel_time_s, 0.0);
                for sample in profile {
                    most = most.max(sample.force_n.abs().max(sample.static_force_n.abs()));
                }
            }
        }
        most
    }

    fn stroke(
        &self,
        assist: &Assist,
        mass_kg: f64,
        direction: Direction,
        time_s: f64,
        stop_m_s2: f64,
    ) -> Vec<Sample> {
        let sign = direction.sign();
        let going = Going::new(self, assist, mass_kg, direction);
        let (v, a) = (self.travel_m / time_s, self.travel_m / (time_s * time_s));
        // Where nothing depends on the place, the forces of a neighbour with the same acceleration are known.
        let uniform = self.process.is_empty() && !self.overhang_grows;
        let mut last: Option<(f64, [f64; 3])> = None;
        let sample = |instant: &Instant| {
            let unit = instant.unit;
            let x_m = instant.x_m.unwrap_or(match direction {
                Direction::Out => self.travel_m * unit.s,
                Direction::Back => self.travel_m * (1.0 - unit.s),
            });
            let upper = instant.before != (direction == Direction::Out);
            let a_m_s2 = sign * a * unit.a;
            let [force_n, static_force_n, stop_force_n] = match last {
                Some((same, forces)) if uniform && same.to_bits() == a_m_s2.to_bits() => forces,
                _ => {
                    let place = going.at(x_m, upper);
                    [a_m_s2, 0.0, -sign * stop_m_s2].map(|a_m_s2| place.force_n(a_m_s2))
                }
            };
            last = Some((a_m_s2, [force_n, static_force_n, stop_force_n]));
            Sample {
                t_s: instant.tau * time_s,
                x_m,
                v_m_s: sign * v * unit.v,
                a_m_s2,
                force_n,
                static_force_n,
                stop_force_n,
            }
        };
        self.instants[usize::from(direction == Direction::Back)]
            .iter()
            .map(sample)
            .collect()
    }

    /// Greatest push and pull that hold a load, over where it may come to rest.
    fn holding_range(&self, assist: &Assist, mass_kg: f64) -> (f64, f64) {
        let ends = [0.0, self.travel_m];
        let mut places = ends.to_vec();
        if !self.hold_only_at_ends {
            places.extend(self.process.breakpoints(self.travel_m));
        }
        // Both sides of a jump count, at the ends too: there the load stands on the point itself.
        let forces = places.iter().flat_map(|x| [(*x, false), (*x, true)]);
        forces.fold((0.0_f64, 0.0_f64), |(push, pull), (x, upper)| {
            let force = self.holding_n(assist, mass_kg, x, upper);
            (push.max(force), pull.max(-force))
        })
    }

    /// Holding force squared times time of one load: `rest_out` at the out end, the rest of the cycle at the back end.
    fn rest_squares(&self, assist: &Assist, mass_kg: f64, time_s: f64) -> f64 {
        let rest_s = self.rest_s(time_s);
        let out_s = self.rest_out_s.min(rest_s);
        let greater = |x_m: f64| {
            let side = |upper| self.holding_n(assist, mass_kg, x_m, upper).abs();
            side(false).max(side(true))
        };
        let (out_n, back_n) = (greater(self.travel_m), greater(0.0));
        out_n * out_n * out_s + back_n * back_n * (rest_s - out_s)
    }

    /// What two strokes leave of the cycle.
    fn rest_s(&self, time_s: f64) -> f64 {
        (self.cycle_s - 2.0 * time_s).max(0.0)
    }

    /// Work and RMS of one load over a cycle: out, back and the rests.
    fn cycle(&self, profiles: &[Vec<Sample>; 2], time_s: f64, rest_squares: f64) -> Figures {
        let sum = |f: fn(&Sample) -> f64| {
            profiles
                .iter()
                .map(|profile| integral(profile, f))
                .sum::<f64>()
        };
        let squares = sum(|s| s.force_n * s.force_n);
        let rest_s = self.rest_s(time_s);
        let cycle_s = rest_s + 2.0 * time_s;
        Figures {
            rms_rest_n: if rest_s > 0.0 {
                (rest_squares / rest_s).sqrt()
            } else {
                0.0
            },
            rms_cycle_n: ((squares + rest_squares) / cycle_s).sqrt(),
            rms_cycle_no_hold_n: (squares / cycle_s).sqrt(),
            work_in_j: sum(|s| (s.force_n * s.v_m_s).max(0.0)),
            work_out_j: sum(|s| (-s.force_n * s.v_m_s).max(0.0)),
            ..Figures::default()
        }
    }
}

/// A load on its way: what of the force on the drive no place changes.
struct Going<'a> {
    axis: &'a Axis,
    mass_kg: f64,
    sign: f64,
    curve: Curve,
    weight_across_n: f64,
    assist_kg: f64,
    assist_n: f64,
    /// Drag of the guide's seals and friction of the sheaves, along "out".
    drag_n: f64,
    binding: f64,
}

impl<'a> Going<'a> {
    fn new(axis: &'a Axis, assist: &Assist, mass_kg: f64, direction: Direction) -> Self {
        let sign = direction.sign();
        Self {
            axis,
            mass_kg,
            sign,
            curve: match direction {
                Direction::Out => Curve::Out,
                Direction::Back => Curve::Back,
            },
            weight_across_n: mass_kg * G_M_S2 * axis.cos,
            assist_kg: assist.moving_mass_kg(),
            assist_n: assist.pull_n(),
            drag_n: sign * (axis.drag_n + assist.friction_n()),
            binding: axis.binding_ratio(),
        }
    }

    fn at(&self, x_m: f64, upper: bool) -> Place<'_> {
        let axis = self.axis;
        Place {
            going: self,
            process_n: self.sign * axis.process.at(self.curve, x_m, upper),
            overhang_m: axis.overhang_m + if axis.overhang_grows { x_m } else { 0.0 },
        }
    }
}

/// A load on its way at a place.
struct Place<'a> {
    going: &'a Going<'a>,
    process_n: f64,
    overhang_m: f64,
}

impl Place<'_> {
    /// As [`Axis::force_n`].
    fn force_n(&self, a_m_s2: f64) -> f64 {
        let (going, axis) = (self.going, self.going.axis);
        let sign = going.sign;
        let q = going.mass_kg * (a_m_s2 + G_M_S2 * axis.sin) + self.process_n;
        // Everything but guide friction; the couple of the load without the drive's.
        let free = q + going.assist_kg * a_m_s2 - going.assist_n + going.drag_n;
        let couple = q.abs() * axis.offset_m + going.weight_across_n * self.overhang_m;
        let by_weight = free + sign * axis.friction * going.weight_across_n;
        let by_couple = axis.friction * 2.0 * couple / axis.spacing_m;
        if by_couple + going.binding * by_weight.abs() <= axis.friction * going.weight_across_n {
            return by_weight;
        }
        // The couple governs: F = base + sgn·β|F|, with one root since β < 1.
        let base = free + sign * by_couple;
        base / (1.0 - sign * base.signum() * going.binding)
    }
}

/// Trapezoid rule over the instants.
fn integral(profile: &[Sample], f: impl Fn(&Sample) -> f64) -> f64 {
    profile
        .windows(2)
        .map(|pair| (pair[1].t_s - pair[0].t_s) * f64::midpoint(f(&pair[0]), f(&pair[1])))
        .sum()
}

/// The figures of one stroke, over those of its load's cycle.
fn stroke_figures(profile: &[Sample], cycle: Figures) -> Figures {
    let time_s = profile.last().map_or(1.0, |last| last.t_s);
    let most = |f: fn(&Sample) -> f64| profile.iter().map(f).fold(0.0, f64::max);
    let static_peak_n = most(|s| s.static_force_n.abs());
    let dynamic_peak_n = most(|s| s.force_n.abs());
    let motoring = most(|s| s.force_n * s.v_m_s);
    let braking = most(|s| -s.force_n * s.v_m_s);
    let thrust = |s: &Sample| s.force_n.abs().max(s.static_force_n.abs());
    let (_, worst_position_m) = profile.iter().fold((-1.0, 0.0), |(most, at), s| {
        if thrust(s) > most + TIE {
            (thrust(s), s.x_m)
        } else {
            (most, at)
        }
    });
    Figures {
        static_peak_n,
        dynamic_peak_n,
        dynamic_over_static: (static_peak_n > TIE).then(|| dynamic_peak_n / static_peak_n),
        push_peak_n: most(|s| s.force_n.max(s.static_force_n)),
        pull_peak_n: most(|s| (-s.force_n).max(-s.static_force_n)),
        rms_moving_n: (integral(profile, |s| s.force_n * s.force_n) / time_s).sqrt(),
        peak_power_w: motoring.max(braking),
        peak_motoring_power_w: motoring,
        peak_braking_power_w: braking,
        worst_position_m,
        ..cycle
    }
}

/// The worst over the cases; the place is that of the first case with the greatest thrust.
fn worst(cases: &[Case]) -> Figures {
    let mut worst = Figures::default();
    let mut thrust = -1.0;
    for figures in cases.iter().map(|case| case.figures) {
        let here = figures.static_peak_n.max(figures.dynamic_peak_n);
        if here > thrust + TIE {
            thrust = here;
            worst.worst_position_m = figures.worst_position_m;
        }
        let pairs: [(&mut f64, f64); 18] = [
            (&mut worst.static_peak_n, figures.static_peak_n),
            (&mut worst.dynamic_peak_n, figures.dynamic_peak_n),
            (&mut worst.push_peak_n, figures.push_peak_n),
            (&mut worst.pull_peak_n, figures.pull_peak_n),
            (&mut worst.holding_n, figures.holding_n),
            (&mut worst.rms_rest_n, figures.rms_rest_n),
            (&mut worst.rms_moving_n, figures.rms_moving_n),
            (&mut worst.rms_cycle_n, figures.rms_cycle_n),
            (&mut worst.rms_cycle_no_hold_n, figures.rms_cycle_no_hold_n),
            (&mut worst.peak_speed_m_s, figures.peak_speed_m_s),
            (
                &mut worst.peak_acceleration_m_s2,
                figures.peak_acceleration_m_s2,
            ),
            (&mut worst.peak_power_w, figures.peak_power_w),
            (
                &mut worst.peak_motoring_power_w,
                figures.peak_motoring_power_w,
            ),
            (
                &mut worst.peak_braking_power_w,
                figures.peak_braking_power_w,
            ),
            (&mut worst.work_in_j, figures.work_in_j),
            (&mut worst.work_out_j, figures.work_out_j),
            (&mut worst.kinetic_energy_j, figures.kinetic_energy_j),
            (&mut worst.binding_ratio, figures.binding_ratio),
        ];
        for (most, value) in pairs {
            *most = most.max(value);
        }
    }
    worst.dynamic_over_static =
        (worst.static_peak_n > TIE).then(|| worst.dynamic_peak_n / worst.static_peak_n);
    worst
}

fn emergency(deceleration_m_s2: f64, cases: &[Case]) -> Emergency {
    let forces = || {
        cases
            .iter()
            .flat_map(|case| case.profile.iter().map(|s| s.stop_force_n))
    };
    Emergency {
        deceleration_m_s2,
        force_peak_n: forces().map(f64::abs).fold(0.0, f64::max),
        push_peak_n: forces().fold(0.0, f64::max),
        pull_peak_n: forces().map(|force| -force).fold(0.0, f64::max),
    }
}
