//! Typed amounts.

use super::telling::{assert_told, text};
use equipour::units::{
    BASE_LIMIT, Measures, Unit, exact, parse_entry, parse_sizes, read_exact, show, show_sizes,
};

/// Units that a field may take a bare number for.
const UNITS: [Unit; 5] = [Unit::Ml, Unit::Oz, Unit::Dash, Unit::Gram, Unit::Piece];

/// A typed amount is refused with a reason or lies within its limits, and what is shown of it is read
/// again as about the same.
pub(crate) fn typed(bytes: &[u8]) {
    let Some(text) = text(bytes) else { return };
    let measures = Measures::default();
    for unit in UNITS {
        let entry = match parse_entry(text, unit, &measures) {
            Ok(entry) => entry,
            Err(error) => {
                assert_told(&error.to_string());
                continue;
            }
        };
        let value = entry.quantity.value();
        assert!((0.0..=BASE_LIMIT).contains(&value), "{text:?}: {value}");
        let per_unit = entry.unit.base_per_unit(&measures);
        let shown = show(value, entry.unit, &measures);
        let again = parse_entry(&shown, entry.unit, &measures)
            .unwrap_or_else(|error| panic!("{text:?} is shown as {shown:?}: {error}"));
        // Shown to two decimals, or as eighths of an ounce and whole pieces that are marked as near.
        let off = (again.quantity.value() - value).abs();
        assert!(off <= 0.51 * per_unit, "{text:?} is shown as {shown:?}");
    }
    if let Some(number) = read_exact(text, false) {
        assert!(number.is_finite());
        assert_eq!(read_exact(&exact(number), false), Some(number));
    }
    if let Some(number) = read_exact(text, true) {
        assert!(number.is_finite());
    }
    sizes(text, &measures);
}

fn sizes(text: &str, measures: &Measures) {
    match parse_sizes(text, measures) {
        Ok(sizes) => {
            assert!(sizes.iter().all(|ml| ml.is_finite() && *ml >= 0.0));
            let shown = show_sizes(&sizes);
            let again = parse_sizes(&shown, measures);
            let again = again.unwrap_or_else(|error| panic!("{shown:?}: {error}"));
            assert_eq!(again.len(), sizes.len(), "{text:?} is shown as {shown:?}");
        }
        Err(error) => assert_told(&error.to_string()),
    }
}
