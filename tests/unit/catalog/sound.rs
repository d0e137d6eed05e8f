//! Unit tests of `catalog::sound`.

use super::*;
use crate::catalog::{COMMON, Catalog, FieldInfo, PartKind, PartRecord, Stock};
use crate::quantity::usual_unit;
use crate::reading::{Sink, Tree};

/// Nothing, as a file has it in a field of a shape; of a list its first item is nothing, or its last.
fn zeros(shape: Shape, stated: Option<&Tree>) -> Vec<Tree> {
    match (shape, stated) {
        (Shape::Number, _) => vec![Tree::Number(0.0)],
        (Shape::Quantity(Kind::Temperature) | Shape::List(Shape::Text), _) => Vec::new(),
        (Shape::Quantity(kind), _) => vec![Tree::Text(format!("0 {}", usual_unit(kind)))],
        (Shape::List(of), Some(Tree::List(items))) => {
            let zero = zeros(*of, None).pop().expect("lists are of figures");
            let (mut first, mut last) = (items.clone(), items.clone());
            first[0] = zero.clone();
            *last.last_mut().expect("it is not empty") = zero;
            vec![Tree::List(first), Tree::List(last)]
        }
        _ => Vec::new(),
    }
}

/// What is wrong with a field of a part that is 0 there, for each way to be.
fn faults(kind: &PartKind, entry: &PartRecord, field: &FieldInfo) -> Vec<Vec<String>> {
    let zeros = zeros(field.shape, entry.fields.get(field.name));
    let faults = zeros.into_iter().map(|zero| {
        let mut entry = entry.clone();
        if let Tree::Object(fields) = &mut entry.fields {
            fields.retain(|(name, _)| name != field.name);
            fields.push((field.name.to_owned(), zero));
        }
        let sink = Sink::default();
        Catalog::default().add(kind.name, &entry, &sink);
        let ours = sink.into_problems().into_iter();
        let ours = ours.filter(|fault| fault.path.ends_with(&format!(".{}", field.name)));
        ours.map(|fault| fault.message).collect()
    });
    faults.collect()
}

#[test]
fn each_figure_that_may_be_zero_exists_and_no_other_may() {
    let stock = Stock::built_in().expect("the built-in catalog is sound");
    let all = MAY_BE_ZERO
        .iter()
        .flat_map(|(of, names)| names.iter().map(|name| (*of, *name)));
    let mut needless: Vec<_> = all.collect();
    for (kind, parts) in stock.kinds() {
        let part = parts.first().expect("every kind has parts");
        for field in COMMON.iter().chain(kind.fields) {
            let faults = faults(kind, part, field);
            let may = may_be_zero(kind.name, field.name);
            for faults in &faults {
                let refused = faults.iter().any(|fault| fault == "must be more than 0");
                assert_eq!(refused, !may, "{}.{}: {faults:?}", kind.name, field.name);
            }
            if faults.iter().any(Vec::is_empty) {
                needless.retain(|(of, name)| {
                    *name != field.name || !(of.is_empty() || *of == kind.name)
                });
            }
        }
    }
    assert!(needless.is_empty(), "{needless:?}");
}
