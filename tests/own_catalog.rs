//! A folder of parts of one's own: what it adds and replaces, what is written is read back, and no bytes bring it down.

use counterpoise::catalog::{Catalog, File, KINDS, Selection, Stock, to_csv, to_file};
use counterpoise::study::{study, to_json};
use proptest::prelude::*;

#[allow(dead_code, reason = "each test takes what it needs")]
mod support;

fn file(name: &str, bytes: impl Into<Vec<u8>>) -> File {
    File {
        name: name.into(),
        bytes: bytes.into(),
    }
}

#[track_caller]
fn with(files: &[File]) -> Catalog {
    let stock = Stock::with("shop", files).unwrap_or_else(|faults| panic!("{faults:#?}"));
    stock.catalog().expect("a checked stock is sound")
}

fn built_in() -> Catalog {
    let stock = Stock::built_in().expect("the built-in catalog is sound");
    stock.catalog().expect("the built-in catalog is sound")
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
    file("cranks.json", text)
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
    let built_in = built_in();
    let added = with(&[cranks("", &["mine"])]);
    assert_eq!(added.cranks.len(), built_in.cranks.len() + 1);
    let replaced = with(&[cranks("\"replaces\": true,", &["mine", "other"])]);
    assert_eq!(ids(&replaced), ["mine", "other"]);
    let swapped = with(&[cranks("", &["crank-80"])]);
    assert_eq!(ids(&swapped), ids(&built_in));
    assert_eq!(swapped.cranks[0].common.name, "crank");
    assert!(
        with(&[cranks("\"replaces\": true,", &[])])
            .cranks
            .is_empty()
    );
    let stock = Stock::with("shop", &[cranks("", &["crank-80", "mine"])]).expect("sound");
    let checked = &stock.files()[0];
    assert_eq!((checked.parts, checked.instead_of), (2, None));
    assert_eq!(checked.in_place_of, ["crank-80"]);
}

#[test]
fn name_and_digest_tell_catalogs_apart() {
    let plain = with(&[cranks("", &["mine"])]);
    let named = with(&[cranks("\"name\": \"Ann's shelf\",", &["mine"])]);
    assert_eq!(plain.name, "built-in with shop");
    assert_eq!(named.name, "built-in with Ann's shelf");
    assert_ne!(plain.digest, named.digest);
    assert_ne!(plain.digest, built_in().digest);
    assert_eq!(plain.digest, with(&[cranks("", &["mine"])]).digest);
}

/// A catalog under the name and digest of another, to be held against it.
fn under_the_name_of(other: &Catalog, mut catalog: Catalog) -> Catalog {
    catalog.name.clone_from(&other.name);
    catalog.digest.clone_from(&other.digest);
    catalog
}

/// The built-in parts of each kind as a file that stands instead of them.
fn rewritten(written: impl Fn(&counterpoise::catalog::Chosen) -> (String, Vec<u8>)) -> Vec<File> {
    let stock = Stock::built_in().expect("the built-in catalog is sound");
    let chosen = Selection::default().of(&stock);
    assert_eq!(chosen.len(), KINDS.len());
    let one = |chosen| {
        let (name, bytes) = written(chosen);
        file(&name, bytes)
    };
    chosen.iter().map(one).collect()
}

fn csv_name(chosen: &counterpoise::catalog::Chosen) -> String {
    format!("{}.only.csv", chosen.kind.name)
}

/// The built-in catalog passes every check that one's own must, series included, and comes back as it was.
#[test]
fn what_is_written_is_read_back_the_same() {
    let built_in = built_in();
    let csv = rewritten(|chosen| (csv_name(chosen), to_csv(chosen).expect("CSV").into_bytes()));
    let json = rewritten(|chosen| {
        let text = to_file(chosen).replace("\"parts\"", "\"replaces\": true, \"parts\"");
        (format!("{}.json", chosen.kind.name), text.into_bytes())
    });
    for files in [csv, json] {
        let again = under_the_name_of(&built_in, with(&files));
        assert!(
            format!("{built_in:?}") == format!("{again:?}"),
            "a part differs"
        );
        for name in ["kiln-door", "veneer-press"] {
            assert!(
                text(name, &built_in) == text(name, &again),
                "{name} differs"
            );
        }
    }
}

/// As a spreadsheet of a country with decimal commas exports it: mark, semicolons, commas, two line ends.
#[test]
fn other_spreadsheets_mean_the_same() {
    let built_in = built_in();
    let files = rewritten(|chosen| {
        let text = to_csv(chosen).expect("CSV");
        let mut reader = csv::ReaderBuilder::new()
            .has_headers(false)
            .from_reader(text.as_bytes());
        let mut writer = csv::WriterBuilder::new()
            .delimiter(b';')
            .terminator(csv::Terminator::CRLF)
            .from_writer(b"\xef\xbb\xbf".to_vec());
        for (row, record) in reader
            .records()
            .map(|record| record.expect("a row"))
            .enumerate()
        {
            let cells = record.iter().map(|cell| match cell.parse::<f64>() {
                Ok(_) if row > 0 => cell.replace('.', ","),
                _ if row == 0 => cell.replace('[', "(").replace(']', ")"),
                _ => cell.replace("true", "TRUE").replace("false", "FALSE"),
            });
            writer.write_record(cells).expect("a row");
        }
        (csv_name(chosen), writer.into_inner().expect("bytes"))
    });
    let again = under_the_name_of(&built_in, with(&files));
    assert!(
        format!("{built_in:?}") == format!("{again:?}"),
        "a part differs"
    );
}

#[test]
fn cells_may_carry_their_own_units_and_be_empty() {
    let text = "id,name,price,mass [kg],noise [dB],ingress,radius,force [N],\n\
                a,\"crank, long\",3.5,1,,IP65,7.874 in,300,\n\n\
                b,crank,4,2.2 lb,60,IP65,200 mm,0.3 kN\n";
    let catalog = with(&[file("cranks.only.csv", text)]);
    let [a, b] = catalog.cranks.as_slice() else {
        panic!("two cranks")
    };
    assert_eq!(a.common.name, "crank, long");
    assert_eq!(a.common.noise, None);
    assert!((a.radius.value - 0.2).abs() < 1e-6, "{:?}", a.radius);
    assert!(
        (b.common.mass.value - 0.997_903).abs() < 1e-6,
        "{:?}",
        b.common.mass
    );
    assert!((b.force.value - 300.0).abs() < 1e-9, "{:?}", b.force);
}

fn text(name: &str, catalog: &Catalog) -> String {
    let Ok(study) = study(&support::example(name, &[]), catalog) else {
        panic!("{name} ranks")
    };
    to_json(&study).expect("it can be written")
}

#[test]
fn the_order_of_parts_changes_no_study() {
    let built_in = built_in();
    let files = rewritten(|chosen| {
        let mut chosen = chosen.clone();
        chosen.parts.reverse();
        (
            csv_name(&chosen),
            to_csv(&chosen).expect("CSV").into_bytes(),
        )
    });
    let turned = under_the_name_of(&built_in, with(&files));
    for name in ["kiln-door", "tray-pusher", "veneer-press", "tile-fence"] {
        assert!(
            text(name, &built_in) == text(name, &turned),
            "{name} differs"
        );
    }
}

fn chosen(kind: Option<&str>, words: &[&str], bounds: &[&str]) -> Vec<String> {
    let owned = |texts: &[&str]| {
        texts
            .iter()
            .map(|text| (*text).to_owned())
            .collect::<Vec<_>>()
    };
    let asked = Selection::new(kind, &owned(words), &owned(bounds)).expect("it can be asked");
    let stock = Stock::built_in().expect("the built-in catalog is sound");
    let chosen = asked.of(&stock);
    chosen
        .iter()
        .flat_map(|chosen| &chosen.parts)
        .map(|part| part.id().to_owned())
        .collect()
}

#[test]
fn parts_are_chosen_by_kind_words_and_bounds() {
    let cylinders = Some("air_cylinders");
    assert_eq!(
        chosen(cylinders, &[], &["bore>=40 mm", "bore < 8 cm"]),
        ["air-cylinder-40", "air-cylinder-50", "air-cylinder-63"]
    );
    assert_eq!(chosen(cylinders, &[], &["bore=4 cm"]), ["air-cylinder-40"]);
    assert_eq!(chosen(cylinders, &["63 BORE"], &[]), ["air-cylinder-63"]);
    assert_eq!(chosen(None, &["crank 160"], &[]), ["crank-160"]);
    assert_eq!(
        chosen(Some("servo_motors"), &[], &["brake_torque>0 Nm"]).len(),
        10
    );
    assert!(
        chosen(Some("controls"), &[], &["serves=oil"])
            .iter()
            .all(|id| id.contains("oil"))
    );
    assert!(chosen(cylinders, &[], &["price<20"]).is_empty());
    let refused = |kind: Option<&str>, bound: &str| {
        let faults = Selection::new(kind, &[], &[bound.to_owned()]).expect_err(bound);
        faults[0].to_string()
    };
    assert_eq!(
        refused(cylinders, "bor>=40 mm"),
        "error: --where \"bor\" is no field of air_cylinders\n  hint: did you mean \"bore\"?"
    );
    assert_eq!(
        refused(cylinders, "bore>=40"),
        "error: --where bore needs a unit\n  hint: write \"40 mm\" or \"1.57 in\"; units that fit: m, mm, cm, um, in, ft"
    );
    assert_eq!(
        refused(None, "bore 40 mm"),
        "error: --where \"bore 40 mm\" has no sign of comparison\n  hint: write a field, one of >= <= > < = != and a value, such as \"bore>=40 mm\""
    );
    assert!(Selection::new(Some("crank"), &[], &[]).is_err());
}

/// A sound file of any kind, to be spoilt.
fn sound_files() -> impl Strategy<Value = (String, Vec<u8>)> {
    (0..KINDS.len(), any::<bool>()).prop_map(|(index, csv)| {
        let stock = Stock::built_in().expect("the built-in catalog is sound");
        let chosen = &Selection::default().of(&stock)[index];
        if csv {
            (csv_name(chosen), to_csv(chosen).expect("CSV").into_bytes())
        } else {
            (
                format!("{}.json", chosen.kind.name),
                to_file(chosen).into_bytes(),
            )
        }
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn no_bytes_bring_it_down(name in "\\PC*", bytes in proptest::collection::vec(any::<u8>(), 0..400), end in "(\\.json|\\.csv|\\.only\\.csv|)") {
        let _ = Stock::with("shop", &[file(&format!("{name}{end}"), bytes.clone())]);
        let _ = Stock::with("shop", &[file("cranks.csv", bytes)]);
    }

    #[test]
    fn no_spoilt_file_brings_it_down(
        (name, mut bytes) in sound_files(),
        spoilt in proptest::collection::vec((any::<prop::sample::Index>(), any::<u8>()), 1..6),
        cut in any::<prop::sample::Index>(),
        shorter in any::<bool>(),
    ) {
        for (at, byte) in spoilt {
            let at = at.index(bytes.len());
            bytes[at] = byte;
        }
        if shorter {
            bytes.truncate(cut.index(bytes.len()));
        }
        if let Ok(stock) = Stock::with("shop", &[file(&name, bytes)]) {
            prop_assert!(stock.catalog().is_ok(), "what passed the checks is sound");
        }
    }

    #[test]
    fn no_bound_brings_it_down(bound in "[a-z_]{0,12} ?(>=|<=|=|>|<|!=|)\\PC{0,8}") {
        let _ = Selection::new(None, &[], &[bound]);
    }
}
