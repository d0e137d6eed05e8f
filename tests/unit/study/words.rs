//! Unit tests of `study::words`.

use super::*;

#[test]
fn a_utilisation_stays_on_its_side_of_the_limit() {
    let told = |utilisation: f64| per_cent(utilisation);
    assert_eq!(told(0.987), "99 %");
    assert_eq!(told(0.998), "99.8 %");
    assert_eq!(told(0.999_99), "99.9 %");
    assert_eq!(told(1.0), "100 %");
    assert_eq!(told(1.0 + 1e-10), "100 %");
    assert_eq!(told(1.000_01), "100.1 %");
    assert_eq!(told(1.002), "100.2 %");
    assert_eq!(told(1.049), "105 %");
    assert_eq!(told(0.0), "0 %");
}
