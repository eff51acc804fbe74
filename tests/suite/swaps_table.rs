//! The substitution table: what it says is what happens.

use crate::sample_drinks::{SHAKEN, TRIAL, document, ml, sour};
use crate::swaps::{close, lands, original, taken};
use crate::swaps_ranked::everything;
use equipour::balance::Pantry;
use equipour::model::{Amount, Document, Pour, Role, ScaleRule};
use equipour::rebalance::{SubstitutionAsk, Substitutions, SwapAim, SwapError, substitutions};
use equipour::store::write_substitutions;
use equipour::units::{Measures, parse_entry};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicUsize};

fn table(document: &Document, ask: &SubstitutionAsk) -> Result<Substitutions, SwapError> {
    let original = original(document, SwapAim::Trial, ScaleRule::None)?;
    let (done, cancel) = (AtomicUsize::new(0), AtomicBool::new(false));
    let mut pantry = Pantry::default();
    let larder = everything();
    let found = substitutions(&original, &larder, ask, &mut pantry, (&done, &cancel))?;
    assert!(done.into_inner() <= ask.parts(original.trial().pours.len(), larder.len()));
    Ok(found.expect("nobody cancels"))
}

fn three() -> SubstitutionAsk {
    SubstitutionAsk {
        each: 3,
        without: Vec::new(),
    }
}

#[test]
fn amounts_of_the_table_reproduce_the_point_when_they_are_poured() {
    let mut pours = sour();
    pours.push(Pour {
        role: Role::Aroma,
        locked: true,
        ..ml("orange-bitters", 1.84)
    });
    let document = document(pours, SHAKEN, None);
    let found = table(&document, &three()).expect("it can be asked");
    assert_eq!(found.rows.len(), 12);
    let (_, trial) = document.trial(TRIAL).expect("there");
    for row in &found.rows {
        let swap = row.candidate.swap.as_ref().expect("it is rounded");
        let (after, mut poured) = taken(&document, trial, swap);
        assert!(close(&lands(&after, &poured), &swap.point, 1e-9));
        // What is written is what is poured, to the digits that are written.
        let read = parse_entry(
            &row.with.1,
            poured.pours[row.pour].unit,
            &Measures::default(),
        );
        let read = read.expect("it reads back").quantity.value();
        let pour = &mut poured.pours[row.pour];
        pour.amount = pour.amount.with_value(read);
        assert!(close(&lands(&after, &poured), &swap.point, 0.05), "{row:?}");
    }
}

#[test]
fn every_pour_stands_in_the_table_or_says_why_not() {
    let mut pours = sour();
    pours.push(Pour {
        amount: Amount::Words("a leaf".to_owned()),
        ..ml("basil", 1.0)
    });
    let document = document(pours, SHAKEN, None);
    let ask = SubstitutionAsk {
        without: vec!["sulphites"],
        ..three()
    };
    let found = table(&document, &ask).expect("it can be asked");
    for pour in 0..3 {
        let rows = found.rows.iter().filter(|row| row.pour == pour);
        assert_eq!(rows.count(), 3);
    }
    assert_eq!(found.without.len(), 1);
    assert_eq!(found.without[0].name, "basil");
    let free = found.rows.iter();
    let mut words = free.map(|row| row.candidate.item.allergens.to_lowercase());
    assert!(words.all(|words| !words.contains("sulphites")));
}

#[test]
fn markdown_holds_a_row_for_each_substitute_and_no_stray_bar() {
    let mut document = document(sour(), SHAKEN, None);
    let own = std::sync::Arc::make_mut(&mut document.ingredients);
    let gin = own.get_mut(&"gin-london-dry".into()).expect("there");
    std::sync::Arc::make_mut(gin).name = "gin | house".to_owned();
    let found = table(&document, &three()).expect("it can be asked");
    let text = found.markdown("Sour, Trial 1");
    let rows: Vec<&str> = text.lines().filter(|line| line.starts_with("| ")).collect();
    assert_eq!(rows.len(), 2 + found.rows.len());
    for row in &rows {
        let bars = row.replace("\\|", "").matches('|').count();
        assert_eq!(bars, Substitutions::HEADS.len() + 1, "{row}");
    }
    assert!(text.starts_with("## Sour, Trial 1\n\n| if you do not have |"));
    assert!(rows[2].contains("gin \\| house | 60 ml |"), "{}", rows[2]);
}

#[test]
fn a_substitute_named_like_a_formula_is_none_in_a_spreadsheet_and_no_mark_in_markdown() {
    let mut pours = sour();
    pours[2].locked = true;
    let mut document = document(pours, SHAKEN, None);
    let rows = Arc::make_mut(&mut document.ingredients);
    let lime = rows.get_mut(&"lime-juice".into()).expect("it is poured");
    "=HYPERLINK(\"x\") | <script>\u{1b}".clone_into(&mut Arc::make_mut(lime).name);
    let found = table(&document, &three()).expect("it can be asked");
    let text = write_substitutions(&found).expect("it can be written");
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let cells: Vec<String> = reader
        .records()
        .flat_map(|row| {
            row.expect("a row")
                .iter()
                .map(str::to_owned)
                .collect::<Vec<_>>()
        })
        .collect();
    assert!(
        cells.iter().any(|cell| cell.starts_with("'=HYPERLINK")),
        "{text}"
    );
    assert!(
        !cells.iter().any(|cell| cell.starts_with(['=', '+', '@'])),
        "{text}"
    );
    let page = found.markdown("=HYPERLINK | <script>");
    assert!(
        !page.contains(" <script>") && !page.contains('\u{1b}'),
        "{page}"
    );
}
