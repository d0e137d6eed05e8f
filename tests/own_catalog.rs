//! A folder of parts of one's own: what it adds and replaces, what is written is read back, and no bytes bring it down.

use crate::support;
use counterpoise::catalog::{Catalog, File, KINDS, Selection, Stock, to_csv, to_file};
use counterpoise::study::{study, to_json};
use proptest::prelude::*;

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

/// A catalog under the name and digest of another, to be compared with it.
fn under_the_name_of(other: &Catalog, mut catalog: Catalog) -> Catalog {
    catalog.name.clone_from(&other.name);
    catalog.digest.clone_from(&other.digest);
    catalog
}

/// The built-in parts of each kind as a file that stands instead of them.
fn rewritten(
    written: impl Fn(&counterpoise::catalog::PartsOfKind) -> (String, Vec<u8>),
) -> Vec<File> {
    let stock = Stock::built_in().expect("the built-in catalog is sound");
    let chosen = Selection::default().of(stock);
    assert_eq!(chosen.len(), KINDS.len());
    let one = |chosen| {
        let (name, bytes) = written(chosen);
        file(&name, bytes)
    };
    chosen.iter().map(one).collect()
}

fn csv_name(chosen: &counterpoise::catalog::PartsOfKind) -> String {
    format!("{}.only.csv", chosen.kind.name)
}

/// The built-in catalog passes every check that one's own limit, series included, and comes back as it was.
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
    let chosen = asked.of(stock);
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
        [
            "air-cylinder-40",
            "air-cylinder-50",
            "air-cylinder-63",
            "air-cylinder-40-cold",
            "air-cylinder-50-cold",
            "air-cylinder-63-cold"
        ]
    );
    assert_eq!(
        chosen(cylinders, &[], &["bore=4 cm", "coldest>0 degC"]),
        ["air-cylinder-40"]
    );
    assert_eq!(
        chosen(cylinders, &["63 BORE COLD"], &[]),
        ["air-cylinder-63-cold"]
    );
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
        let chosen = &Selection::default().of(stock)[index];
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

const HEAD: &str = "id;name;price;mass [kg];ingress;radius [mm];force [N]\n";

#[test]
fn a_sheet_may_say_what_separates_it_and_begin_with_empty_lines() {
    let row = "mine;crank;3,5;1;IP65;200;300\n";
    for start in ["", "\n", " \r\n\n", "sep=;\n", "SEP=;\r\n", "\nsep=;\n\n"] {
        let sheet = file("cranks.only.csv", format!("{start}{HEAD}{row}"));
        let own = with(&[sheet]);
        assert!(
            (own.cranks[0].common.price - 3.5).abs() < 1e-12,
            "{start:?}"
        );
    }
    let wrong = file(
        "cranks.only.csv",
        format!("\nsep=;\n{HEAD}mine;crank;x;1;IP65;200;300\n"),
    );
    let faults = Stock::with("shop", &[wrong]).expect_err("x is no number");
    assert!(
        faults[0].path.starts_with("cranks.only.csv line 4:"),
        "{}",
        faults[0].path
    );
}

/// A point before three digits is a mark of thousands only where numbers have decimal commas, and never after a 0.
#[test]
fn a_point_is_a_mark_of_thousands_only_beside_decimal_commas() {
    let price = |rows: &str| {
        let own = Stock::with("shop", &[file("cranks.only.csv", format!("{HEAD}{rows}"))]);
        own.map(|stock| stock.catalog().expect("sound").cranks[0].common.price)
    };
    assert_eq!(price("a;crank;1.234;1;IP65;200;300\n"), Ok(1.234));
    assert_eq!(price("a;crank;0.125;1,5;IP65;200;300\n"), Ok(0.125));
    assert_eq!(price("a;crank;1.25;1,5;IP65;200;300\n"), Ok(1.25));
    for rows in [
        "a;crank;1.234;1,5;IP65;200;300\n",
        "a;crank;3;1;IP65;200,5;300\nb;crank;3;1;IP65;200;12.345.678\n",
    ] {
        assert!(price(rows).is_err(), "{rows}");
    }
}

#[test]
fn a_block_weighs_its_mass_in_whatever_unit() {
    for (mass, block) in [
        ("0.57 kg", "570 g"),
        ("0.29 kg", "290 g"),
        ("1.1 kg", "1100 g"),
    ] {
        let text = format!(
            r#"{{"format": "counterpoise-catalog/1", "kind": "counterweights", "parts": [{{"id": "mine",
            "name": "block", "price": 3, "mass": "{mass}", "ingress": "IP65", "block": "{block}"}}]}}"#
        );
        with(&[file("blocks.json", text)]);
    }
}

#[test]
fn the_id_of_a_built_in_part_is_free_where_its_kind_is_replaced() {
    let gear = r#"{"format": "counterpoise-catalog/1", "kind": "spur_gears", "parts": [{"id": "crank-80", "name": "gear",
        "price": 3, "mass": "1 kg", "ingress": "IP54", "ratio": 2, "torque": "16 Nm", "efficiency": 0.96}]}"#;
    let gears = file("gears.json", gear);
    let faults = Stock::with("shop", std::slice::from_ref(&gears)).expect_err("cranks are there");
    assert!(
        faults[0].message.contains("another kind, cranks"),
        "{}",
        faults[0].message
    );
    with(&[gears, cranks("\"replaces\": true,", &["mine"])]);
}

#[test]
fn a_file_beside_one_that_replaces_takes_the_place_of_nothing() {
    let beside = file("more.csv", "");
    let row =
        "id,name,price,mass [kg],ingress,radius [mm],force [N]\ncrank-80,crank,3,1,IP65,200,300\n";
    let beside = file("cranks.more.csv", [beside.bytes, row.into()].concat());
    let stock =
        Stock::with("shop", &[cranks("\"replaces\": true,", &["mine"]), beside]).expect("sound");
    let more = stock
        .files()
        .iter()
        .find(|file| file.name == "cranks.more.csv")
        .expect("it is there");
    assert_eq!(more.beside.as_deref(), Some("cranks.json"));
    assert!(more.in_place_of.is_empty() && more.instead_of.is_none());
}

#[test]
fn a_folder_has_no_more_parts_than_are_worth_a_choice() {
    let rows = |file: usize| {
        let row = |index: usize| format!("own-{file}-{index},crank,3,1,IP65,200,300\n");
        (0..9_000).map(row).collect::<String>()
    };
    let head = HEAD.replace(';', ",");
    let files: Vec<_> = (0..4)
        .map(|index| {
            file(
                &format!("cranks.{index}.csv"),
                format!("{head}{}", rows(index)),
            )
        })
        .collect();
    let faults = Stock::with("shop", &files).expect_err("36000 parts");
    assert_eq!(faults.len(), 1);
    assert!(
        faults[0]
            .to_string()
            .contains("cranks.3.csv: makes more than 30000 parts"),
        "{}",
        faults[0]
    );
    assert_eq!(
        Stock::with("shop", &files[..3])
            .expect("sound")
            .files()
            .len(),
        3
    );
}

/// What a part does not state it has by default.
#[test]
fn bounds_count_what_a_part_has_by_default() {
    let stock = Stock::built_in().expect("the built-in catalog is sound");
    let count = |bound: &str| {
        let asked =
            Selection::new(Some("cranks"), &[], &[bound.to_owned()]).expect("it is a bound");
        asked.of(stock)[0].parts.len()
    };
    let all = built_in().cranks.len();
    let (may, not) = (
        count("explosive_atmosphere=true"),
        count("explosive_atmosphere=false"),
    );
    assert_eq!(may + not, all);
    for bound in [
        "consumables=0",
        "hottest<=200 degC",
        "coldest>=-100 degC",
        "noise<60 dB",
    ] {
        assert_eq!(count(bound), all, "{bound}");
    }
    let none = Selection::new(Some("controls"), &[], &["serves=sevo".to_owned()])
        .expect_err("no such use");
    assert!(
        none[0]
            .to_string()
            .contains("air, air_logic, dc, hand, oil, servo, stepper"),
        "{}",
        none[0]
    );
}

/// Files of two parts each, of which the larger bears less.
#[test]
fn a_rating_that_falls_as_the_size_grows_is_refused_in_every_series() {
    let place = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/falling_series");
    let mut tried = 0;
    for path in std::fs::read_dir(place).expect("the folder is there") {
        let path = path.expect("an entry can be read").path();
        let bytes = std::fs::read(&path).expect("the file can be read");
        let faults = Stock::with("shop", &[file("own.json", bytes)]);
        let faults = faults.expect_err(&path.display().to_string());
        let falls =
            |fault: &counterpoise::problem::Problem| fault.message.contains("which is smaller");
        assert!(faults.iter().any(falls), "{}: {faults:#?}", path.display());
        tried += 1;
    }
    assert_eq!(tried, 7);
}
