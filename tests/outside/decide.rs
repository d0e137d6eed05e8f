//! Values, dominance, potential optimality, and the linear and integer programs of the solver that the project models with.

use counterpoise::decide::worths::{Alternative, WorthSet, margin};
use counterpoise::family::choose::front;
use counterpoise::study::value;
use good_lp::{
    Expression, ProblemVariables, Solution, SolverModel, Variable, constraint, microlp, variable,
};

use super::rows::{Row, row};

/// Weights and scores of the seven offices, benefit alone.
fn offices(row: &Row) -> Vec<(&'static str, Alternative, f64)> {
    let office = |name: &'static str| {
        let score = |index: u32| row.input(&format!("{name}_score_{index}"));
        let alternative = Alternative {
            values: (1..=6).map(score).collect(),
            cost: 0.0,
        };
        (name, alternative, row.input(&format!("{name}_cost")))
    };
    ["a", "b", "c", "d", "e", "f", "g"].map(office).into()
}

fn weights(row: &Row) -> Vec<f64> {
    (1..=6)
        .map(|index| row.input(&format!("weight_{index}")) / 100.0)
        .collect()
}

#[test]
fn offices_by_weighted_scores() {
    let row = row("mc-smart-offices");
    for (name, office, _) in offices(&row) {
        row.holds(&format!("{name}_benefit"), office.net(&weights(&row)));
    }
}

#[test]
fn offices_on_the_frontier_of_benefit_and_cost() {
    let row = row("mc-smart-frontier");
    let marks: Vec<(&str, Vec<f64>)> = offices(&row)
        .into_iter()
        .map(|(name, office, cost)| (name, vec![cost, -office.net(&weights(&row))]))
        .collect();
    let unbeaten = front(&marks, |(_, own)| own.clone());
    for (name, _) in &marks {
        let beaten = unbeaten.iter().all(|(kept, _)| kept != name);
        row.holds(
            &format!("{name}_efficient_flag"),
            f64::from(u8::from(!beaten)),
        );
    }
}

#[test]
fn points_that_no_other_beats() {
    let row = row("mc-pareto");
    let point = |p: u32| {
        vec![
            row.input(&format!("p{p}_c1")),
            row.input(&format!("p{p}_c2")),
        ]
    };
    let unbeaten = front(1..=5, |p| point(*p));
    for p in 1..=5 {
        let beaten = !unbeaten.contains(&p);
        row.holds(&format!("p{p}_flag"), f64::from(u8::from(!beaten)));
    }
}

#[test]
fn weighted_values_from_worst_to_best() {
    let row = row("mc-wsm-minmax");
    let raw = |a: u32, c: u32| row.input(&format!("a{a}_c{c}"));
    let ends = |c: u32| {
        let all = (1..=4).map(|a| raw(a, c));
        let (least, most) = all.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), x| {
            (low.min(x), high.max(x))
        });
        // Criteria 1 and 2 cost, 3 and 4 benefit.
        if c <= 2 { (most, least) } else { (least, most) }
    };
    let worths: Vec<f64> = (1..=4).map(|c| row.input(&format!("weight_{c}"))).collect();
    let net = |a: u32| {
        let of = |c: u32| {
            let (limit, target) = ends(c);
            value(limit, target, raw(a, c))
        };
        let alternative = Alternative {
            values: (1..=4).map(of).collect(),
            cost: 0.0,
        };
        alternative.net(&worths)
    };
    for a in 1..=4 {
        row.holds(&format!("value_a{a}"), net(a));
        let before = (1..=4).filter(|other| net(*other) > net(a)).count();
        let rank = f64::from(u32::try_from(before).expect("few")) + 1.0;
        row.holds(&format!("rank_a{a}"), rank);
    }
}

#[test]
fn potential_optimality_over_all_weights() {
    let row = row("mc-potential-optimal");
    let all: Vec<Alternative> = (1..=5)
        .map(|a| Alternative {
            values: (1..=3).map(|c| row.input(&format!("a{a}_c{c}"))).collect(),
            cost: 0.0,
        })
        .collect();
    let set = WorthSet {
        ranges: vec![(0.0, 1.0); 3],
        sum: Some(1.0),
    };
    for (index, this) in all.iter().enumerate() {
        let rivals: Vec<&Alternative> = all.iter().filter(|other| *other != this).collect();
        let margin = margin(this, &rivals, &set, f64::NEG_INFINITY).expect("it has a margin");
        let a = index + 1;
        row.holds(&format!("margin_a{a}"), margin);
        let able = f64::from(u8::from(margin >= 0.0));
        row.holds(&format!("potentially_optimal_a{a}_flag"), able);
    }
}

/// Coefficients of rows and their right-hand sides.
fn rows(row: &Row, rows: u32, columns: u32) -> Vec<(Vec<f64>, f64)> {
    let one = |r: u32| {
        let coefficients = (1..=columns)
            .map(|c| row.input(&format!("a_{r}_{c}")))
            .collect();
        (coefficients, row.input(&format!("b_{r}")))
    };
    (1..=rows).map(one).collect()
}

fn goal(row: &Row, columns: u32) -> Vec<f64> {
    (1..=columns)
        .map(|c| row.input(&format!("c_{c}")))
        .collect()
}

fn sum(coefficients: &[f64], of: &[Variable]) -> Expression {
    coefficients.iter().zip(of).map(|(a, x)| *a * *x).sum()
}

/// Greatest `c·x` under rows `a·x ≤ b`, and where.
fn greatest(
    c: &[f64],
    rows: &[(Vec<f64>, f64)],
    kind: impl Fn(usize) -> good_lp::VariableDefinition,
) -> (f64, Vec<f64>) {
    let mut variables = ProblemVariables::new();
    let x: Vec<Variable> = (0..c.len())
        .map(|index| variables.add(kind(index)))
        .collect();
    let objective = sum(c, &x);
    let mut model = variables.maximise(objective.clone()).using(microlp);
    for (a, b) in rows {
        model = model.with(constraint!(sum(a, &x) <= *b));
    }
    let solved = model.solve().expect("it has an optimum");
    (
        solved.eval(&objective),
        x.iter().map(|x| solved.value(*x)).collect(),
    )
}

/// Change of the optimum per unit of one right-hand side.
fn price(
    c: &[f64],
    rows: &[(Vec<f64>, f64)],
    of: usize,
    kind: impl Fn(usize) -> good_lp::VariableDefinition,
) -> f64 {
    const APART: f64 = 1e-3;
    let mut more = rows.to_vec();
    more[of].1 += APART;
    (greatest(c, &more, &kind).0 - greatest(c, rows, &kind).0) / APART
}

#[test]
fn glass_works_by_linear_programming() {
    let row = row("lp-wyndor");
    let (c, of) = (goal(&row, 2), rows(&row, 3, 2));
    let kind = |_| variable().min(0.0);
    let (objective, x) = greatest(&c, &of, kind);
    row.holds("objective", objective);
    row.holds("x_1", x[0]);
    row.holds("x_2", x[1]);
    for r in 0..3 {
        row.holds(&format!("dual_{}", r + 1), price(&c, &of, r, kind));
    }
}

#[test]
fn a_program_with_a_free_variable() {
    let row = row("lp-scipy");
    let c: Vec<f64> = goal(&row, 2).iter().map(|c| -c).collect();
    let of = rows(&row, 2, 2);
    let least = row.input("x_2_lower");
    let kind = |index| {
        if index == 0 {
            variable()
        } else {
            variable().min(least)
        }
    };
    let (objective, x) = greatest(&c, &of, kind);
    row.holds("objective", -objective);
    row.holds("x_1", x[0]);
    row.holds("x_2", x[1]);
    for r in 0..2 {
        row.holds(&format!("marginal_{}", r + 1), -price(&c, &of, r, kind));
    }
}

#[test]
fn an_integer_program_and_its_relaxation() {
    let row = row("milp-wiki");
    let (c, of) = (goal(&row, 2), rows(&row, 3, 2));
    row.holds(
        "objective",
        greatest(&c, &of, |_| variable().integer().min(0.0)).0,
    );
    let (objective, x) = greatest(&c, &of, |_| variable().min(0.0));
    row.holds("relaxed_objective", objective);
    row.holds("relaxed_x_1", x[0]);
    row.holds("relaxed_x_2", x[1]);
}

#[test]
fn investments_to_choose() {
    let row = row("milp-stockco");
    let (objective, x) = greatest(&goal(&row, 4), &rows(&row, 1, 4), |_| variable().binary());
    row.holds("objective", objective);
    for (index, x) in x.iter().enumerate() {
        row.holds(&format!("x_{}", index + 1), x.round());
    }
}

#[test]
fn clothes_with_a_rent_each() {
    let row = row("milp-gandhi");
    // Quantities, then whether each is made: none without its rent, no more than its cloth allows.
    let mut c = goal(&row, 3);
    c.extend((1..=3).map(|index| -row.input(&format!("fixed_cost_{index}"))));
    let mut of: Vec<(Vec<f64>, f64)> = rows(&row, 2, 3)
        .into_iter()
        .map(|(mut a, b)| {
            a.extend([0.0; 3]);
            (a, b)
        })
        .collect();
    for index in 0..3 {
        let most = of[1].1 / of[1].0[index];
        let mut link = vec![0.0; 6];
        link[index] = 1.0;
        link[index + 3] = -most;
        of.push((link, 0.0));
    }
    let (objective, x) = greatest(&c, &of, |index| {
        if index < 3 {
            variable().integer().min(0.0)
        } else {
            variable().binary()
        }
    });
    row.holds("objective", objective);
    for (index, x) in x.iter().take(3).enumerate() {
        row.holds(&format!("x_{}", index + 1), x.round());
    }
}

#[test]
fn axes_that_share_supplies() {
    let row = row("milp-shared-supply-1");
    let cost =
        |axis: usize, tech: usize| row.input(&format!("cost_axis{}_tech{}", axis + 1, tech + 1));
    let supply = |tech: usize| row.input(&format!("supply_cost_tech{}", tech + 1));
    let three = || 0..3_usize;
    // Axis by technology, then the supplies; money in thousands.
    let c: Vec<f64> = three()
        .flat_map(|axis| three().map(move |tech| (axis, tech)))
        .map(|(axis, tech)| -cost(axis, tech) / 1e3)
        .chain(three().map(|tech| -supply(tech) / 1e3))
        .collect();
    let mut of: Vec<(Vec<f64>, f64)> = Vec::new();
    for axis in three() {
        let mut one = vec![0.0; 12];
        one[3 * axis..3 * axis + 3].fill(1.0);
        of.push((one.clone(), 1.0));
        of.push((one.iter().map(|a| -a).collect(), -1.0));
        for tech in three() {
            let mut link = vec![0.0; 12];
            link[3 * axis + tech] = 1.0;
            link[9 + tech] = -1.0;
            of.push((link, 0.0));
        }
    }
    let binary = |_| variable().binary();
    let (objective, x) = greatest(&c, &of, binary);
    row.holds("total", (-objective * 1e3).round());
    let chosen = |axis: usize| {
        three()
            .find(|tech| x[3 * axis + tech] > 0.5)
            .expect("one is chosen")
    };
    let tech = |index: usize| f64::from(u32::try_from(index).expect("few")) + 1.0;
    for axis in three() {
        row.holds(&format!("tech_axis{}", axis + 1), tech(chosen(axis)));
    }
    // The same choice on all axes is ruled out: the next best.
    let mut cut = vec![0.0; 12];
    for axis in three() {
        cut[3 * axis + chosen(axis)] = 1.0;
    }
    of.push((cut, 2.0));
    row.holds(
        "runner_up_total",
        (-greatest(&c, &of, binary).0 * 1e3).round(),
    );
    let alone = |axis: usize| {
        let dear = |tech: &usize| cost(axis, *tech) + supply(*tech);
        three()
            .min_by(|p, q| dear(p).total_cmp(&dear(q)))
            .expect("there are three")
    };
    let axes: f64 = three().map(|axis| cost(axis, alone(axis))).sum();
    let used = three().filter(|tech| three().any(|axis| alone(axis) == *tech));
    row.holds(
        "per_axis_choice_total",
        axes + used.map(supply).sum::<f64>(),
    );
}
