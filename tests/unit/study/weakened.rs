use super::*;
use crate::requirements::RULES;

fn set(rules: &mut Rules, key: &str, value: f64) {
    let rule = RULES.iter().find(|rule| rule.key == key);
    rules.set(rule.expect("a rule"), value);
}

#[test]
fn a_rule_is_weakened_on_its_unsafe_side_alone() {
    let mut rules = Rules::default();
    assert_eq!(weakened_rules(&rules), None);
    set(&mut rules, "rope_factor_least", 12.0);
    set(&mut rules, "slack_stop_most", 0.5);
    assert_eq!(weakened_rules(&rules), None);
    set(&mut rules, "rope_factor_least", 3.0);
    set(&mut rules, "slack_stop_most", 1.0);
    let says = weakened_rules(&rules).expect("two are weaker");
    for each in [
        "rope_factor_least 3 (usual 8)",
        "slack_stop_most 1 (usual 0.8)",
    ] {
        assert!(says.contains(each), "{says}");
    }
}

#[test]
fn every_rule_of_safety_is_a_rule_and_has_one_safe_side() {
    for key in SAFER_HIGH.iter().chain(SAFER_LOW) {
        assert!(RULES.iter().any(|rule| rule.key == *key), "{key}");
    }
    assert!(SAFER_HIGH.iter().all(|key| !SAFER_LOW.contains(key)));
}
