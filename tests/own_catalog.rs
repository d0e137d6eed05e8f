//! A folder of parts of one's own: what it adds, what it replaces, and that order does not matter.

use counterpoise::catalog::{Catalog, File, KINDS, Stock};
use counterpoise::study::{study, to_json};

mod support;

fn file(name: &str, text: &str) -> File {
    File {
        name: name.into(),
        bytes: text.as_bytes().to_vec(),
    }
}

fn with(files: &[File]) -> Catalog {
    let stock = Stock::with("shop", files).expect("the files are sound");
    stock.catalog().expect("a checked stock is sound")
}

const CRANK: &str = r#""name": "crank", "price": 3.0, "mass": "1 kg", "ingress": "IP65", "radius": "200 mm", "force": "300 N""#;

fn cranks(head: &str, ids: &[&str]) -> File {
    let parts: Vec<String> = ids
        .iter()
        .map(|id| format!("{{ \"id\": \"{id}\", {CRANK} }}"))
        .collect();
    let text = format!(
        "{{ \"format\": \"counterpoise-catalog/1\", \"kind\": \"cranks\", {head} \"parts\": [{}] }}",
        parts.join(", ")
    );
    file("cranks.json", &text)
}

fn ids(catalog: &Catalog) -> Vec<&str> {
    catalog
        .cranks
        .iter()
        .map(|crank| crank.common.id.as_str())
        .collect()
}

#[test]
fn own_parts_add_replace_or_take_the_place_of_one() {
    let built_in = Stock::built_in().expect("sound").catalog().expect("sound");
    let before = built_in.cranks.len();
    let added = with(&[cranks("", &["mine"])]);
    assert_eq!(added.cranks.len(), before + 1);
    let replaced = with(&[cranks("\"replaces\": true,", &["mine", "other"])]);
    assert_eq!(ids(&replaced), ["mine", "other"]);
    let swapped = with(&[cranks("", &["crank-80"])]);
    assert_eq!(ids(&swapped), ids(&built_in));
    assert_eq!(swapped.cranks[0].common.name, "crank");
    assert_eq!(with(&[cranks("\"replaces\": true,", &[])]).cranks.len(), 0);
}

#[test]
fn name_and_digest_tell_catalogs_apart() {
    let plain = with(&[cranks("", &["mine"])]);
    let named = with(&[cranks("\"name\": \"Ann's shelf\",", &["mine"])]);
    assert_eq!(plain.name, "built-in with shop");
    assert_eq!(named.name, "built-in with Ann's shelf");
    assert_ne!(plain.digest, named.digest);
    let again = with(&[cranks("", &["mine"])]);
    assert_eq!(plain.digest, again.digest);
}

/// The built-in parts in files that replace them, back to front.
fn backwards() -> Vec<File> {
    let folder = format!("{}/catalog", env!("CARGO_MANIFEST_DIR"));
    KINDS
        .iter()
        .map(|kind| {
            let text = std::fs::read_to_string(format!("{folder}/{}.json", kind.name))
                .expect("the file is there");
            let mut whole: serde_json::Value = serde_json::from_str(&text).expect("JSON");
            whole["replaces"] = true.into();
            whole["parts"].as_array_mut().expect("a list").reverse();
            file(&format!("{}.json", kind.name), &whole.to_string())
        })
        .collect()
}

#[test]
fn the_order_of_parts_changes_no_study() {
    let built_in = Stock::built_in().expect("sound").catalog().expect("sound");
    let mut turned = with(&backwards());
    turned.name.clone_from(&built_in.name);
    turned.digest.clone_from(&built_in.digest);
    for name in ["kiln-door", "tray-pusher", "veneer-press", "tile-fence"] {
        let reading = support::example(name, &[]);
        let text = |catalog| {
            let study = study(&reading, catalog).ok().expect("it ranks");
            to_json(&study).expect("it can be written")
        };
        assert!(text(&built_in) == text(&turned), "{name} differs");
    }
}
