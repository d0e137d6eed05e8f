//! Textbook formulas, one file a subject; no knowledge of parts or files.

pub mod beam;
pub mod bearing;
pub mod column;
pub mod combined;
pub mod gear;
pub mod guide;
pub mod human;
pub mod hydraulics;
pub mod linkage;
pub mod motor;
pub mod plain;
pub mod pneumatics;
pub mod rope;
pub mod screw;

/// A figure between the rows of a table, by straight lines; past its ends, that of the end.
fn between<T>(rows: &[T], at: f64, pair: impl Fn(&T) -> (f64, f64)) -> f64 {
    let upper = rows.iter().position(|row| pair(row).0 >= at);
    let (low, high) = match upper {
        Some(0) => (rows.first(), rows.first()),
        Some(index) => (rows.get(index - 1), rows.get(index)),
        None => (rows.last(), rows.last()),
    };
    let Some(((x0, y0), (x1, y1))) = low.map(&pair).zip(high.map(&pair)) else {
        return 0.0;
    };
    if x1 > x0 {
        y0 + (y1 - y0) * ((at - x0) / (x1 - x0)).clamp(0.0, 1.0)
    } else {
        y1
    }
}
